package discord

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

const (
	steady       = time.Minute     // a connection that held so long was a good one
	longestPause = 2 * time.Minute // between connections: stays below the identifications of a day
)

// fatal are the close codes that no new connection mends.
var fatal = map[int]string{
	4004: "the platform does not know the token; make a new one on the application's page",
	4010: "there is no such shard; see the number of this one and of all",
	4011: "the bot is in too many clubs for one connection; run it in shards",
	4012: "the platform no longer speaks this version of the gateway",
	4013: "the platform does not know what was asked for (intents)",
	4014: "the platform does not allow what was asked for (intents); see the application's page",
}

// forgotten are the close codes after which there is nothing to resume.
var forgotten = map[int]bool{4003: true, 4007: true, 4009: true}

// FatalError is a close of the connection after which a new one is no use.
type FatalError struct{ Code int }

func (e *FatalError) Error() string {
	return fmt.Sprintf("the platform closed the connection for good (%d): %s", e.Code, fatal[e.Code])
}

// Run connects and lets handle answer interactions until ctx is done, or until
// the platform does not want this bot, which is a FatalError. Before it returns,
// what handle began is finished, within a grace.
func (c *Client) Run(ctx context.Context, handle func(context.Context, *discordgo.Interaction)) error {
	w := c.newWorkers(ctx, handle)
	var l *link
	defer func() {
		w.finish(c.grace)
		if l != nil {
			l.close()
		}
	}()
	for tries := 0; ; tries++ {
		if err := c.wait(ctx, pause(tries)); err != nil {
			return nil
		}
		if l == nil {
			l = c.newLink(w.dispatch)
		}
		began := c.now()
		err := l.open(ctx, c.opening)
		opened := err == nil
		if opened {
			c.log.Info("connected")
			select {
			case <-l.lost:
				err = l.why()
			case <-ctx.Done():
			}
		}
		if ctx.Err() != nil {
			return nil
		}
		closed, _ := errors.AsType[*websocket.CloseError](err)
		if closed != nil && fatal[closed.Code] != "" {
			return &FatalError{closed.Code}
		}
		c.log.Warn("the connection is lost; trying again", "error", err)
		if !opened || closed != nil && forgotten[closed.Code] {
			l.drop()
			l = nil
		}
		if c.now().Sub(began) > steady {
			tries = -1
		}
	}
}

// pause is how long to wait before a connection: not at all before the first,
// and before the second, which mostly resumes.
func pause(tries int) time.Duration {
	if tries < 2 {
		return 0
	}
	return min(time.Second<<min(tries-2, 10), longestPause)
}
