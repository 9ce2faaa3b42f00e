package discord

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
	"net/http"
	"strconv"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// What keeps posts out of a channel until somebody mends it. To try again is no
// use before that.
var (
	ErrChannelGone = errors.New("the channel is not there any more")
	ErrNotAllowed  = errors.New("the bot may not write in the channel")
)

// ErrNotSent is among the errors of a post of which surely nothing stands in the channel,
// so that it may be tried again at any time.
var ErrNotSent = errors.New("nothing was posted")

// refusals are the platform's codes for these.
var refusals = map[int]error{
	10003: ErrChannelGone, // unknown channel
	50001: ErrNotAllowed,  // no access
	50013: ErrNotAllowed,  // no permission
}

// maxNonce is the longest nonce.
const maxNonce = 25

// Post sends a message to a channel. With the same nonce it is sent once, however
// often it is tried within some minutes. The error is ErrChannelGone or
// ErrNotAllowed where the club has to mend something first, and ErrNotSent where no try
// of it arrived.
func (c *Client) Post(ctx context.Context, channel string, m Message, nonce string) error {
	if !IsID(channel) {
		return fmt.Errorf("%q is no channel's id: %w", channel, ErrChannelGone)
	}
	body := content(m)
	delete(body, "flags") // a post is seen by all
	if nonce != "" {
		body["nonce"], body["enforce_nonce"] = short(nonce), true
	}
	a := &attempt{repeatable: nonce != ""}
	_, err := c.call(context.WithValue(ctx, attemptKey{}, a), http.MethodPost, discordgo.EndpointChannelMessages(channel), body, m.Files)
	if err != nil && !a.arrived {
		return fmt.Errorf("%w: %w", ErrNotSent, err)
	}
	return toMend(err, channel)
}

// toMend tells of what a club has to mend, if the error is of that kind.
func toMend(err error, channel string) error {
	if e, ok := errors.AsType[*discordgo.RESTError](err); ok && e.Message != nil && refusals[e.Message.Code] != nil {
		return fmt.Errorf("%w (channel %s, the platform's code %d)", refusals[e.Message.Code], channel, e.Message.Code)
	}
	return err
}

// PostReply posts what the book says for all to read, in as many messages as it
// takes. What was posted of it already, under the same key within some minutes, is
// not posted again.
func (c *Client) PostReply(ctx context.Context, channel string, reply commands.Reply, key string) error {
	for k, m := range dressed(reply, "") {
		nonce := key
		if key != "" && k > 0 {
			nonce += "/" + strconv.Itoa(k)
		}
		err := c.Post(ctx, channel, m, nonce)
		if k > 0 && errors.Is(err, ErrNotSent) {
			return fmt.Errorf("the first part was posted, then: %v", err)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// short makes a nonce of a key of any length.
func short(key string) string {
	if length(key) <= maxNonce {
		return key
	}
	sum := sha256.Sum256([]byte(key))
	return base64.RawURLEncoding.EncodeToString(sum[:maxNonce*6/8])
}

// DirectReply sends what the book says to one member, in their own messages with the bot.
// For key see PostReply. The error is ErrNotSent where surely nothing stands there and the
// platform did not refuse it.
func (c *Client) DirectReply(ctx context.Context, member string, reply commands.Reply, key string) error {
	if !IsID(member) {
		return fmt.Errorf("%q is no member's id", member)
	}
	a := &attempt{repeatable: true} // the channel is the same each time
	channel, err := id(c.call(context.WithValue(ctx, attemptKey{}, a), http.MethodPost, discordgo.EndpointUserChannels("@me"), map[string]any{"recipient_id": member}, nil))
	if _, refused := errors.AsType[*discordgo.RESTError](err); err != nil && !refused {
		return fmt.Errorf("%w: %w", ErrNotSent, err)
	}
	if err != nil {
		return err
	}
	return c.PostReply(ctx, channel, reply, key)
}
