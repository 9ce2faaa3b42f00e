package discord

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// Finding is one thing that serving needs, and what is wrong with it, nil if nothing.
type Finding struct {
	What string
	Err  error
}

// Inspect asks the platform for what serving needs: that a connection is to be had,
// with enough shards, that the commands are known, and that the channels of weekly
// summaries, by club, are there. Where the platform lost the commands that notes say
// it has, the note goes too, so that they are registered again.
func Inspect(ctx context.Context, c *Client, guild string, specs []commands.Spec, notes Notes, channels map[string]string) []Finding {
	all := []Finding{c.inspectGateway(ctx), c.inspectCommands(ctx, guild, specs, notes)}
	for _, club := range slices.Sorted(maps.Keys(channels)) {
		all = append(all, Finding{
			What: fmt.Sprintf("channel %s for the summaries of club %s is there (whether the bot may write in it shows with a post)", channels[club], club),
			Err:  c.inspectChannel(ctx, channels[club]),
		})
	}
	return all
}

func (c *Client) inspectGateway(ctx context.Context) Finding {
	var g struct {
		Shards int `json:"shards"`
		Start  struct {
			Total      int   `json:"total"`
			Remaining  int   `json:"remaining"`
			ResetAfter int64 `json:"reset_after"` // ms
		} `json:"session_start_limit"`
	}
	f := Finding{What: "the gateway takes connections"}
	if f.Err = c.get(ctx, discordgo.EndpointGatewayBot, &g); f.Err != nil {
		return f
	}
	f.What = fmt.Sprintf("the gateway takes connections: %d of %d left, recommended shards %d", g.Start.Remaining, g.Start.Total, g.Shards)
	switch shards := max(c.options.Shards, 1); {
	case g.Start.Remaining < shards:
		again := (time.Duration(g.Start.ResetAfter) * time.Millisecond).Round(time.Minute)
		f.Err = fmt.Errorf("each of the %d shards needs one; there are more in %v", shards, again)
	case g.Shards > shards:
		f.Err = fmt.Errorf("the bot is in more clubs than %d can carry; run %d processes with --shards %d and --shard 0 to %d", shards, g.Shards, g.Shards, g.Shards-1)
	}
	return f
}

func (c *Client) inspectCommands(ctx context.Context, guild string, specs []commands.Spec, notes Notes) Finding {
	f := Finding{What: "the commands are registered"}
	route, err := c.commandsRoute(ctx, guild)
	var has []*discordgo.ApplicationCommand
	if err == nil {
		err = c.get(ctx, route, &has)
	}
	if err != nil {
		f.Err = err
		return f
	}
	if slices.Equal(outline(has), outline(registered(specs))) {
		return f
	}
	f.What = "the commands will be registered when the bot serves"
	c.mu.Lock()
	name := commandsNote(c.app, guild)
	c.mu.Unlock()
	f.Err = notes.SetNote(ctx, "", name, "")
	return f
}

// outline names commands with their parts and options.
func outline(all []*discordgo.ApplicationCommand) []string {
	var names []string
	var of func(path string, options []*discordgo.ApplicationCommandOption)
	of = func(path string, options []*discordgo.ApplicationCommandOption) {
		names = append(names, path)
		for _, o := range options {
			of(fmt.Sprint(path, " ", o.Type, o.Name), o.Options)
		}
	}
	for _, c := range all {
		of(fmt.Sprint(cmp.Or(c.Type, discordgo.ChatApplicationCommand), c.Name), c.Options)
	}
	slices.Sort(names)
	return names
}

func (c *Client) inspectChannel(ctx context.Context, channel string) error {
	if !IsID(channel) {
		return fmt.Errorf("%q is no channel of Discord; /club settings channel: names one", channel)
	}
	var is discordgo.Channel
	if err := c.get(ctx, discordgo.EndpointChannel(channel), &is); err != nil {
		return toMend(err, channel)
	}
	switch is.Type {
	case discordgo.ChannelTypeGuildText, discordgo.ChannelTypeGuildNews, discordgo.ChannelTypeGuildPublicThread, discordgo.ChannelTypeGuildNewsThread, discordgo.ChannelTypeGuildPrivateThread:
		return nil
	}
	return errors.New("it is no channel for text; /club settings channel: names another")
}

func (c *Client) get(ctx context.Context, route string, into any) error {
	raw, err := c.call(ctx, http.MethodGet, route, nil, nil)
	if err != nil {
		return err
	}
	return json.Unmarshal(raw, into)
}
