package discord

import (
	"context"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/bot/discord/discordtest"
)

// newClient is a Client of the stand-in.
func newClient(srv *discordtest.Server) (*Client, error) {
	return New(Options{Token: discordtest.Token, API: srv.API(), Version: "0.1", Now: time.Now})
}

// clientOf is a Client of the stand-in, or the end of the test.
func clientOf(t testing.TB, srv *discordtest.Server) *Client {
	t.Helper()
	c, err := newClient(srv)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// counted lets the desk know what is being worked on.
type counted struct {
	*Client
	d *desk
}

func (c *counted) Run(ctx context.Context, handle func(context.Context, *discordgo.Interaction)) error {
	return c.Client.Run(ctx, func(ctx context.Context, i *discordgo.Interaction) {
		c.d.work(1)
		defer c.d.work(-1)
		handle(ctx, i)
	})
}

// serve serves the stand-in from the store of a desk, with no pauses between
// connections.
func serve(ctx context.Context, srv *discordtest.Server, d *desk) error {
	c, err := newClient(srv)
	if err != nil {
		return err
	}
	c.wait = func(ctx context.Context, _ time.Duration) error { return ctx.Err() }
	c.answer = time.Minute // the stand-in's clock is the script's; the machine may be busy
	c.transport.wait = func(ctx context.Context, d time.Duration) error { return wait(ctx, d/10) }
	if d.tune != nil {
		d.tune(c)
	}
	return serveOn(ctx, &counted{c, d}, discordtest.App, "", d.flow.book, d.store, d.flow.log)
}
