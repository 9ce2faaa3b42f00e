package discord

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// keyed is the idempotency key of what a delivery, a form or a choice stores.
func keyed(id string) string { return "discord/" + id }

// asker returns who sent an interaction, by the platform's ID, "" if nobody did.
func asker(i *discordgo.Interaction) string {
	switch {
	case i.Member != nil && i.Member.User != nil:
		return i.Member.User.ID
	case i.User != nil:
		return i.User.ID
	}
	return ""
}

// moderates says whether who sent an interaction has the rights of a moderator.
func moderates(i *discordgo.Interaction) bool {
	return i.Member != nil && i.Member.Permissions&moderators != 0
}

// fill completes a request with what an interaction says of when, where and by
// whom. The clock is the platform's: the ID of a delivery holds its time.
func fill(r commands.Request, i *discordgo.Interaction) (commands.Request, error) {
	at, err := moment(i.ID)
	r.At, r.Club, r.Place, r.Member, r.Moderator, r.Key = at, i.GuildID, i.ChannelID, asker(i), moderates(i), keyed(i.ID)
	r.Bare = true
	return r, err
}

// idShape is what an id of the platform looks like.
var idShape = regexp.MustCompile(`^[0-9]{15,20}$`)

// IsID says whether s is an id as the platform makes them.
func IsID(s string) bool { return idShape.MatchString(s) }

// moment returns the time that an ID of the platform holds.
func moment(id string) (time.Time, error) {
	at, err := discordgo.SnowflakeTimestamp(id)
	if err != nil {
		return at, fmt.Errorf("the id %q holds no time: %w", id, err)
	}
	return at.UTC(), nil
}

// ofCommand reads a slash command. focused is the option that is being typed,
// "" if none is.
func ofCommand(d discordgo.ApplicationCommandInteractionData) (r commands.Request, focused string) {
	r.Command, r.Options = d.Name, map[string]string{}
	options := d.Options
	if len(options) == 1 && options[0].Type == discordgo.ApplicationCommandOptionSubCommand {
		r.Sub, options = options[0].Name, options[0].Options
	}
	for _, o := range options {
		switch v := o.Value.(type) {
		case string:
			r.Options[o.Name] = v
		case float64:
			r.Options[o.Name] = strconv.FormatFloat(v, 'f', -1, 64)
		case bool:
			r.Options[o.Name] = strconv.FormatBool(v)
		}
		if o.Focused {
			focused = o.Name
		}
	}
	return r, focused
}

// fields reads what was typed into a form, by the names of its fields, without blanks
// around it; fields with nothing else are left out.
func fields(components []discordgo.MessageComponent) map[string]string {
	typed := map[string]string{}
	for _, c := range components {
		row, ok := c.(*discordgo.ActionsRow)
		if !ok {
			continue
		}
		for _, c := range row.Components {
			if input, ok := c.(*discordgo.TextInput); ok {
				if value := strings.TrimSpace(input.Value); value != "" {
					typed[input.CustomID] = value
				}
			}
		}
	}
	return typed
}
