package main

import (
	"context"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ripen/bot/discord/discordtest"
)

// served is a machine with an environment.
func served(t *testing.T, env map[string]string) testMachine {
	m := machine(t, t.TempDir())
	m.Now = time.Now
	m.Getenv = func(name string) string { return env[name] }
	return m
}

// with is an environment with one more variable.
func with(env map[string]string, name, value string) map[string]string {
	out := maps.Clone(env)
	out[name] = value
	return out
}

func TestCheck(t *testing.T) {
	srv := discordtest.New(t)
	good := map[string]string{"RIPEN_DISCORD_TOKEN": discordtest.Token, "RIPEN_DISCORD_API": srv.API()}
	r := served(t, good).run(t, "", "check")
	if r.code != 0 || !strings.Contains(r.out, "client_id="+discordtest.App) || strings.Contains(r.out, "missing") ||
		!strings.Contains(r.out, "gateway takes connections: 999 of 1000 left") || !strings.Contains(r.out, "commands will be registered") {
		t.Errorf("check of a good configuration: %+v", r)
	}
	tests := []struct {
		env  map[string]string
		args []string
		says string
	}{
		{nil, nil, "there is no token"},
		{map[string]string{"RIPEN_DISCORD_TOKEN": "secret-but-no-token"}, nil, "does not look like"},
		{good, []string{"--guild", "my club"}, "no id of a club"},
		{good, []string{"--guild", discordtest.Token}, "no id of a club"},
		{with(good, "RIPEN_DISCORD_API", discordtest.Token), nil, "no http or https address"},
		{with(good, "RIPEN_DISCORD_API", "http://192.0.2.1/api"), nil, "in the clear"},
		{good, []string{"--shard", "2", "--shards", "2"}, "counted from 0"},
		{good, []string{"--db", filepath.Join(t.TempDir(), "no", "x.db")}, "database"},
	}
	for _, tt := range tests {
		r := served(t, tt.env).run(t, "", append([]string{"check"}, tt.args...)...)
		if r.code != exitFailed || !strings.Contains(r.out, tt.says) {
			t.Errorf("check %q: %+v, want %q", tt.args, r, tt.says)
		}
		if token := tt.env["RIPEN_DISCORD_TOKEN"]; token != "" && strings.Contains(r.out+r.err, token) {
			t.Errorf("check %q shows the token", tt.args)
		}
	}
}

// Without a command it is the token that decides: a bot with it, a chat without.
func TestServe_plain(t *testing.T) {
	srv := discordtest.New(t)
	env := map[string]string{"RIPEN_DISCORD_TOKEN": discordtest.Token, "RIPEN_DISCORD_API": srv.API(), "RIPEN_DB": filepath.Join(t.TempDir(), "x.db")}
	m := served(t, env)
	var out, errOut strings.Builder
	m.In, m.Out, m.Err = strings.NewReader("/help\n"), &out, &errOut
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan int, 1)
	go func() { ended <- Run(ctx, m.Machine, nil) }()
	srv.Ready(1)
	stop()
	if code := <-ended; code != exitOK || out.Len() > 0 {
		t.Errorf("with a token it ends with %d and prints %q, %q", code, out.String(), errOut.String())
	}
	for _, args := range [][]string{nil, {"console"}} {
		if args == nil {
			delete(env, "RIPEN_DISCORD_TOKEN")
		} else {
			env["RIPEN_DISCORD_TOKEN"] = discordtest.Token
		}
		if r := served(t, env).run(t, "/help\n", args...); r.code != exitOK || !strings.Contains(r.out, "/tank new") {
			t.Errorf("bot %q is no chat: %+v", args, r)
		}
	}
}

func TestServe(t *testing.T) {
	srv := discordtest.New(t)
	file := filepath.Join(t.TempDir(), "bot.json")
	if err := os.WriteFile(file, []byte(`{"token":"`+discordtest.Token+`","api":"`+srv.API()+`"}`), 0o600); err != nil {
		t.Fatal(err)
	}
	m := served(t, nil)
	var out, errOut strings.Builder
	m.In, m.Out, m.Err = strings.NewReader(""), &out, &errOut
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan int, 1)
	go func() { ended <- Run(ctx, m.Machine, []string{"serve", "--config", file}) }()
	srv.Ready(1)
	i := srv.Slash(discordtest.From{User: "200000000000000001", Name: "wren", Guild: "100000000000000001", Channel: "300000000000000001"}, "help", "")
	if m := i.Message(); m.Content == "" && len(m.Embeds) == 0 {
		t.Error("no answer to /help")
	}
	stop()
	if code := <-ended; code != exitOK || strings.Contains(errOut.String(), discordtest.Token) {
		t.Errorf("serving ends with %d: %s", code, errOut.String())
	}
}
