package discord

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// The names of the menus on a post and on a member.
const (
	menuAdd     = "Add readings from this post"
	menuExplain = "Explain this member's tank"
)

// moderators are the rights that a moderator has at least one of.
const moderators = discordgo.PermissionManageMessages | discordgo.PermissionManageGuild | discordgo.PermissionAdministrator

// register makes known to the platform what can be asked, in one guild or,
// where guild is "", in all. It asks the platform only when that changed since
// the last time.
func register(ctx context.Context, c api, notes Notes, app, guild string, specs []commands.Spec) error {
	all := registered(specs)
	if err := checkCommands(all); err != nil {
		return fmt.Errorf("the commands can't be registered: %w", err)
	}
	raw, err := json.Marshal(all)
	if err != nil {
		return err
	}
	sum := sha256.Sum256(raw)
	name, now := commandsNote(app, guild), hex.EncodeToString(sum[:])
	before, err := notes.Note(ctx, "", name)
	if err != nil || before == now {
		return err
	}
	if err := c.SetCommands(ctx, guild, all); err != nil {
		return fmt.Errorf("registering the commands: %w", err)
	}
	return notes.SetNote(ctx, "", name, now)
}

// commandsNote is the name under which it is kept what was registered.
func commandsNote(app, guild string) string { return "discord/commands/" + app + "/" + guild }

// registered describes commands and menus as the platform wants them.
func registered(specs []commands.Spec) []*discordgo.ApplicationCommand {
	var all []*discordgo.ApplicationCommand
	byName := map[string]*discordgo.ApplicationCommand{}
	free := map[string]bool{} // has a part for everyone
	for _, s := range specs {
		c := byName[s.Name]
		if c == nil {
			c = guildOnly(&discordgo.ApplicationCommand{Type: discordgo.ChatApplicationCommand, Name: s.Name, Description: clip(s.Help, maxHint)})
			byName[s.Name] = c
			all = append(all, c)
		}
		free[s.Name] = free[s.Name] || !s.Moderator
		if s.Sub == "" {
			c.Options = options(s)
			continue
		}
		c.Description = clip("what you can do with /"+s.Name, maxHint)
		c.Options = append(c.Options, &discordgo.ApplicationCommandOption{
			Type: discordgo.ApplicationCommandOptionSubCommand, Name: s.Sub, Description: clip(s.Help, maxHint), Options: options(s),
		})
	}
	for name, c := range byName {
		if !free[name] {
			c.DefaultMemberPermissions = new(int64(discordgo.PermissionManageMessages))
		}
	}
	return append(all,
		guildOnly(&discordgo.ApplicationCommand{Type: discordgo.MessageApplicationCommand, Name: menuAdd}),
		guildOnly(&discordgo.ApplicationCommand{Type: discordgo.UserApplicationCommand, Name: menuExplain,
			DefaultMemberPermissions: new(int64(discordgo.PermissionManageMessages))}))
}

// guildOnly keeps a command to clubs: nothing is asked or told elsewhere.
func guildOnly(c *discordgo.ApplicationCommand) *discordgo.ApplicationCommand {
	c.Contexts = &[]discordgo.InteractionContextType{discordgo.InteractionContextGuild}
	c.IntegrationTypes = &[]discordgo.ApplicationIntegrationType{discordgo.ApplicationIntegrationGuildInstall}
	return c
}

// options describes the options of a command, those that are needed first. Of a
// command that has a form none is needed: the form asks for what is missing.
func options(s commands.Spec) []*discordgo.ApplicationCommandOption {
	var needed, rest []*discordgo.ApplicationCommandOption
	if s.Post {
		needed = append(needed, &discordgo.ApplicationCommandOption{Type: discordgo.ApplicationCommandOptionString,
			Name: optionPost, Description: "the words of the post", Required: true, MaxLength: maxPost})
	}
	_, hasForm := forms[s.Path()]
	for _, o := range s.Options {
		if o.Required && !hasForm {
			needed = append(needed, option(o, true))
		} else {
			rest = append(rest, option(o, false))
		}
	}
	return append(needed, rest...)
}

// optionPost is the option that a post's words are given in.
const optionPost = "post"

// maxPost is the longest post that is taken.
const maxPost = 4000

// option describes one option. What carries a unit stays words.
func option(o commands.Option, required bool) *discordgo.ApplicationCommandOption {
	d := &discordgo.ApplicationCommandOption{Type: discordgo.ApplicationCommandOptionString, Name: o.Name, Description: clip(o.Help, maxHint), Required: required, MaxLength: 200}
	switch o.Type {
	case commands.TypeMember:
		d.Type, d.MaxLength = discordgo.ApplicationCommandOptionUser, 0
	case commands.TypeFile:
		d.Type, d.MaxLength = discordgo.ApplicationCommandOptionAttachment, 0
	case commands.TypeChannel:
		d.Type, d.MaxLength = discordgo.ApplicationCommandOptionChannel, 0
		d.ChannelTypes = []discordgo.ChannelType{discordgo.ChannelTypeGuildText, discordgo.ChannelTypeGuildNews}
	case commands.TypeNumber, commands.TypePH:
		d.Type, d.MaxLength = discordgo.ApplicationCommandOptionNumber, 0
		if o.Max > 0 {
			d.MinValue, d.MaxValue = new(o.Min), o.Max
		}
	case commands.TypeName:
		d.MinLength, d.MaxLength = new(1), 40
	case commands.TypeNote:
		d.MaxLength = 2000
	case commands.TypeChoice:
		d.MaxLength = 0
		if len(o.Choices) > maxChoices {
			d.Autocomplete = true
			break
		}
		for _, c := range o.Choices {
			d.Choices = append(d.Choices, &discordgo.ApplicationCommandOptionChoice{Name: c, Value: c})
		}
	}
	d.Autocomplete = d.Autocomplete || completes(o)
	return d
}
