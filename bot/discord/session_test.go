package discord

import (
	"context"
	"testing"
	"time"

	"ripen/bot/discord/discordtest"
)

// newClient is a Client of the stand-in.
func newClient(srv *discordtest.Server) (*Client, error) {
	return New(Options{Token: discordtest.Token, API: srv.API(), UserAgent: "DiscordBot (https://example.org, 0.1)", Now: time.Now})
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

// serve serves the stand-in from the store of a desk.
func serve(ctx context.Context, srv *discordtest.Server, d *desk) error {
	c, err := newClient(srv)
	if err != nil {
		return err
	}
	return serveOn(ctx, c, discordtest.App, "", d.flow.book, d.store, d.flow.log)
}
