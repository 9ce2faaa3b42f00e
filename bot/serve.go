package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"strings"

	"ripen/bot/discord"
	"ripen/commands"
)

// ServeConfig asks for a bot on Discord. What is not given comes from the
// environment, and what is not there from the file.
type ServeConfig struct {
	Config string `name:"config" placeholder:"FILE" json:"-" help:"JSON file with any of: token, api, db, guild, shard, shards, llm."`
	DB     string `name:"db" placeholder:"FILE" json:"db" help:"Database file, made when it is not there. Default: as of the chat."`
	API    string `name:"api" placeholder:"URL" json:"api" help:"Base of the HTTP interface. Default: $$RIPEN_DISCORD_API, else the platform's."`
	Guild  string `placeholder:"ID" json:"guild" help:"Register the commands in this club only, to try them out."`
	Shard  int    `placeholder:"N" json:"shard" help:"This process's shard, counted from 0."`
	Shards int    `placeholder:"N" json:"shards" help:"How many shards there are, each with a database of its own."`
	Token  string `kong:"-" json:"token"`

	LLM LLMConfig `kong:"-" json:"llm"`
}

// tokenVariable is where the token is looked for first.
const tokenVariable = "RIPEN_DISCORD_TOKEN"

// complete fills in what the command line does not say, and checks the whole.
func (c ServeConfig) complete(m Machine) (ServeConfig, error) {
	var file ServeConfig
	if c.Config != "" {
		raw, err := os.ReadFile(c.Config)
		if err != nil {
			return c, fmt.Errorf("can't read the configuration: %w", err)
		}
		d := json.NewDecoder(bytes.NewReader(raw))
		d.DisallowUnknownFields()
		if err := d.Decode(&file); err != nil {
			return c, fmt.Errorf("the configuration %s is not understood: %w", c.Config, err)
		}
	}
	first := func(all ...string) string {
		for _, s := range all {
			if s != "" {
				return s
			}
		}
		return ""
	}
	c.Token = strings.TrimSpace(first(m.Getenv(tokenVariable), file.Token))
	c.LLM = file.LLM
	c.API = first(c.API, m.Getenv("RIPEN_DISCORD_API"), file.API)
	c.DB, c.Guild = first(c.DB, m.Getenv("RIPEN_DB"), file.DB), first(c.Guild, file.Guild)
	if c.Shards == 0 && c.Shard == 0 {
		c.Shard, c.Shards = file.Shard, file.Shards
	}
	if c.Guild != "" && !discord.IsID(c.Guild) {
		return c, errors.New("--guild is no id of a club: it has 15 to 20 digits") // not shown: it may be a token in the wrong place
	}
	return c, nil
}

// client is a client as the configuration wants it.
func (c ServeConfig) client(m Machine, log io.Writer) (*discord.Client, error) {
	client, err := discord.New(discord.Options{
		Token: c.Token, API: c.API, Version: version,
		Shard: c.Shard, Shards: c.Shards, Now: m.Now, Log: slog.New(slog.NewTextHandler(log, nil)),
	})
	if err != nil && c.Token == "" {
		return nil, fmt.Errorf("%w; set RIPEN_DISCORD_TOKEN, or token in the file of --config", err)
	}
	return client, err
}

// book opens the database.
func (c ServeConfig) book(m Machine, more ...commands.Setting) (*app, error) {
	path, standard, err := DatabasePath(c.DB, m)
	if err != nil {
		return nil, err
	}
	if standard {
		if err := makeFolder(path); err != nil {
			return nil, err
		}
	}
	return openFile(path, m.Err, more...)
}

// runServe serves clubs on Discord until ctx is done.
func runServe(ctx context.Context, m Machine, c ServeConfig) (err error) {
	if c, err = c.complete(m); err != nil {
		return err
	}
	client, err := c.client(m, m.Err)
	if err != nil {
		return err
	}
	log := slog.New(slog.NewTextHandler(m.Err, nil))
	engine := newEngine()
	watch := newWatch(engine, log)
	stage, more, err := c.LLM.phrased(m, m.Err)
	if err != nil {
		return err
	}
	a, err := c.book(m, append(more, commands.WithWatch(watch), commands.WithAdviser(learner{engine}))...)
	if err != nil {
		return err
	}
	a.words = stage
	defer a.closeInto(&err)
	background, stop := context.WithCancel(ctx)
	wait := chores(background, a, watch, poster{client}, poster{client}, m.Now, log)
	defer wait()
	defer stop()
	return discord.Serve(ctx, client, c.Guild, a, a.store)
}

// runCheck says what would keep the bot from serving, and where to invite it.
func runCheck(ctx context.Context, m Machine, c ServeConfig) (failed error) {
	var missing []error
	say := func(what string, err error) bool {
		if err != nil {
			fmt.Fprintf(m.Out, "missing  %s: %s\n", what, oneLine(err))
			missing = append(missing, err)
			return false
		}
		fmt.Fprintf(m.Out, "ok       %s\n", what)
		return true
	}
	c, err := c.complete(m)
	if say("configuration", err) {
		a, err := c.book(m)
		if err == nil {
			defer a.closeInto(&failed)
		}
		opened := say("database", err)
		if w, err := c.LLM.model(m); err != nil || w.URL != "" {
			say("language model, as far as it shows", err)
		}
		client, err := c.client(m, io.Discard)
		if say("token, address and shards, as far as they show", err) {
			self, err := client.Self(ctx)
			if say("the platform knows the token", err) {
				if opened {
					for _, f := range a.inspect(ctx, client, c.Guild) {
						say(f.What, f.Err)
					}
				}
				fmt.Fprintf(m.Out, "\n%s is invited with\n  %s\n", self.Name, discord.InviteLink(self.ID))
			}
		}
	}
	if len(missing) > 0 {
		return errors.New("the bot can't serve; what is missing stands above")
	}
	return nil
}

// inspect asks the platform for what serving needs, the channels of weekly summaries
// among it.
func (a *app) inspect(ctx context.Context, client *discord.Client, guild string) []discord.Finding {
	channels := map[string]string{}
	clubs, err := a.store.AllClubs(ctx)
	for _, club := range clubs {
		s, failed := a.store.Settings(ctx, club)
		if s.Digest && discord.IsID(club) {
			channels[club] = s.Channel
		}
		err = errors.Join(err, failed)
	}
	all := discord.Inspect(ctx, client, guild, a.Specs(), a.store, channels)
	if err != nil {
		all = append(all, discord.Finding{What: "settings of the clubs", Err: err})
	}
	return all
}
