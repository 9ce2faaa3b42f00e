package discord

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"
)

// Options are what a Client needs to know.
type Options struct {
	Token         string // of the bot; never shown
	API           string // base of the HTTP interface, the platform's if ""
	Version       string // of the bot, told to the platform
	Shard, Shards int    // this process's part of the clubs; no parts if Shards is zero
	Log           *slog.Logger
	Now           func() time.Time // this machine's clock
}

// platformAPI is the base of the platform's HTTP interface.
const platformAPI = "https://discord.com/api/v10"

// tokenShape is what a bot's token looks like: three parts, the first of which
// is the bot's id.
var tokenShape = regexp.MustCompile(`^[A-Za-z0-9_-]{18,}\.[A-Za-z0-9_-]+\.[A-Za-z0-9_-]+$`)

// check returns what is wrong with the options, nil if nothing. It never shows
// the token.
func (o Options) check() error {
	var errs []error
	if o.Token == "" {
		errs = append(errs, errors.New("there is no token"))
	} else if !tokenShape.MatchString(o.Token) {
		errs = append(errs, errors.New("the token does not look like a bot's token: three parts with dots between them"))
	}
	if o.API != "" { // not shown: it may be a token in the wrong place
		u, err := url.Parse(o.API)
		switch {
		case err != nil || u.Host == "" || u.Scheme != "http" && u.Scheme != "https":
			errs = append(errs, errors.New("the API base is no http or https address, such as "+platformAPI))
		case u.Scheme == "http" && !loopback(u.Hostname()):
			errs = append(errs, errors.New("the API base would send the token in the clear: http is for this machine only, take https"))
		}
	}
	if o.Shards < 0 || o.Shard < 0 || o.Shard >= max(o.Shards, 1) {
		errs = append(errs, fmt.Errorf("shard %d of %d: shards are counted from 0", o.Shard, o.Shards))
	}
	return errors.Join(errs...)
}

// loopback says whether a host is this machine.
func loopback(host string) bool {
	return host == "localhost" || net.ParseIP(host).IsLoopback()
}

// Client speaks with the platform. All that is done about the faults of its
// library stands in the files client*.go.
type Client struct {
	options   Options
	rest      *discordgo.Session // for calls only
	transport *transport
	log       *slog.Logger

	opening time.Duration            // how long a connection may take to be ready
	answer  time.Duration            // how long the platform waits for the first answer
	silence time.Duration            // how long one may say nothing
	work    time.Duration            // how long an interaction may be worked on
	grace   time.Duration            // how long the end waits for what was begun
	crowd   int                      // how many interactions are worked on at once
	made    func(*discordgo.Session) // told of each session of the gateway; nil but in tests
	now     func() time.Time
	wait    func(context.Context, time.Duration) error

	mu  sync.Mutex
	app string // the bot's application, once asked for
}

// New returns a Client. It connects to nothing yet.
func New(o Options) (*Client, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	if o.API == "" {
		o.API = platformAPI
	}
	if o.Now == nil {
		return nil, errors.New("there is no clock")
	}
	if o.Log == nil {
		o.Log = slog.New(slog.DiscardHandler)
	}
	base, err := url.Parse(strings.TrimSuffix(o.API, "/"))
	if err != nil {
		return nil, err
	}
	hookLogger()
	c := &Client{
		options: o, log: o.Log, transport: newTransport(base, o.Now),
		opening: 15 * time.Second, answer: maxAnswer, silence: 90 * time.Second, work: time.Minute, grace: 20 * time.Second,
		crowd: 256, now: o.Now, wait: wait,
	}
	c.rest = c.newSession()
	return c, nil
}

// newSession is the library's session as we want it: with calls through our
// transport, no state, and no reconnecting or retrying of its own.
func (c *Client) newSession() *discordgo.Session {
	s, _ := discordgo.New("Bot " + c.options.Token) // fails never
	s.Client = &http.Client{Transport: c.transport}
	s.UserAgent += " ripen/" + c.options.Version // behind what the library calls itself
	s.LogLevel = discordgo.LogWarning            // close codes come this way only
	s.StateEnabled = false
	s.ShouldReconnectOnError = false
	s.ShouldRetryOnRateLimit = false
	s.MaxRestRetries = 0
	s.Identify.Intents = discordgo.IntentsGuilds
	if c.options.Shards > 1 {
		s.ShardID, s.ShardCount = c.options.Shard, c.options.Shards
	}
	return s
}

// wait waits for d or until ctx is done.
func wait(ctx context.Context, d time.Duration) error {
	if d <= 0 {
		return ctx.Err()
	}
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}
