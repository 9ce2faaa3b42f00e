package main

import (
	"context"
	"errors"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ripen/bot/discord"
	"ripen/bot/discord/discordtest"
	"ripen/commands"
	"ripen/commands/weekly"
	"ripen/store"
)

// told is a poster that says when it posted.
type told struct {
	weekly.Poster
	posted chan error
}

func (p told) PostReply(ctx context.Context, channel string, reply commands.Reply, key string) error {
	err := p.Poster.PostReply(ctx, channel, reply, key)
	p.posted <- err
	return err
}

const testGuild, testChannel = "100000000000000001", "300000000000000001"

// choring is a platform, a bot's client on it, and a database with a club that wants a
// summary each Monday.
func choring(t *testing.T) (srv *discordtest.Server, c *discord.Client, a *app, w *commands.Watch) {
	t.Helper()
	srv = discordtest.New(t)
	c, err := discord.New(discord.Options{Token: discordtest.Token, API: srv.API(), Version: "0.1", Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	w = newWatch(newEngine(), slog.New(slog.DiscardHandler))
	if a, err = openFile(filepath.Join(t.TempDir(), "ripen.db"), io.Discard, commands.WithWatch(w)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { a.store.Close() })
	if err := a.store.SetSettings(t.Context(), testGuild, store.Settings{Digest: true, Channel: testChannel, Share: true}); err != nil {
		t.Fatal(err)
	}
	return srv, c, a, w
}

// The bot posts a summary that is due to the club's channel, with the members' names and a
// picture of their tanks, and does not do so again after a restart.
func TestChores(t *testing.T) {
	srv, c, a, w := choring(t)
	now := func() time.Time { return time.Date(2026, 3, 9, 18, 0, 30, 0, time.UTC) }
	log := slog.New(slog.DiscardHandler)
	const wren = "200000000000000001"
	reply := a.Do(t.Context(), commands.Request{At: now().AddDate(0, 0, -2), Club: testGuild, Member: wren, Command: "tank", Sub: "new",
		Options: map[string]string{"name": "nano", "volume": "60L"}})
	if !reply.OK {
		t.Fatal(reply.Text)
	}
	if err := w.Sweep(t.Context(), now()); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	p := told{poster{c}, make(chan error, 1)}
	wait := chores(ctx, a, w, p, c, now, log)
	if err := <-p.posted; err != nil {
		t.Fatal(err)
	}
	stop()
	wait()
	again := weekly.Weekly{Store: a.store, Book: a, Poster: poster{c}, Now: now, Log: log}
	again.Look(t.Context())
	posts := srv.Posts()
	if len(posts) != 1 || posts[0].Channel != testChannel {
		t.Fatalf("posted %+v", posts)
	}
	if text := posts[0].Content; !strings.Contains(text, "New: nano of <@"+wren+">") || len(posts[0].Attachments) != 1 {
		t.Errorf("posted %s with %d files", text, len(posts[0].Attachments))
	}
}

// What the club has to mend comes back as words for its moderators.
func TestPosterTellsWhatToMend(t *testing.T) {
	srv, c, _, _ := choring(t)
	srv.Mute("300000000000000002")
	srv.Delete("300000000000000003")
	for channel, says := range map[string]string{"300000000000000002": "may not write", "300000000000000003": "not there any more", "cycling": "not there any more"} {
		err := poster{c}.PostReply(t.Context(), channel, commands.Reply{OK: true, Text: "x"}, "k")
		if mend, ok := errors.AsType[weekly.ErrMend](err); !ok || !strings.Contains(mend.Words, says) {
			t.Errorf("posting to %s ends with %v", channel, err)
		}
	}
}

// Where nobody listens surely nothing was sent, which may be tried again for hours; a line
// that is cut before the answer is no such case.
func TestPosterTellsWhatWasSurelyNotSent(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	l.Close()
	cut := httptest.NewServer(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic(http.ErrAbortHandler) }))
	defer cut.Close()
	for api, want := range map[string]bool{"http://" + l.Addr().String(): true, cut.URL: false} {
		c, err := discord.New(discord.Options{Token: discordtest.Token, API: api, Version: "0.1", Now: time.Now})
		if err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithTimeout(t.Context(), 200*time.Millisecond) // less than the pause before a second try
		defer cancel()
		if err := (poster{c}).PostReply(ctx, testChannel, commands.Reply{OK: true, Text: "x"}, "k"); err == nil || errors.Is(err, weekly.ErrNotSent) != want {
			t.Errorf("posting ends with %v, surely not sent should be %v", err, want)
		}
		// A member's channel is opened first, which posts nothing, however it ends.
		if err := (poster{c}).DirectReply(ctx, "200000000000000001", commands.Reply{OK: true, Text: "x"}, "k"); !errors.Is(err, weekly.ErrNotSent) {
			t.Errorf("sending to a member ends with %v", err)
		}
	}
}
