package discord

import (
	"context"
	"errors"
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

func TestRegisteredCommandsPassThePlatformsRules(t *testing.T) {
	specs := commands.New(newDesk(t).store).Specs()
	all := registered(specs)
	if err := checkCommands(all); err != nil {
		t.Error(err)
	}
	options := 0
	for _, c := range all {
		for _, o := range c.Options {
			options += max(1, len(o.Options))
		}
		if c.Contexts == nil || len(*c.Contexts) != 1 || (*c.Contexts)[0] != discordgo.InteractionContextGuild {
			t.Errorf("%s can be used outside clubs", c.Name)
		}
	}
	want := 0
	for _, s := range specs {
		want += len(s.Options)
		if s.Sub != "" && len(s.Options) == 0 {
			want++ // counts itself
		}
		if s.Post {
			want++
		}
	}
	if options != want {
		t.Errorf("%d options are registered, want all %d", options, want)
	}
}

func TestRegisteredOptions(t *testing.T) {
	specs := []commands.Spec{{Name: "club", Sub: "slow", Help: "h", Moderator: true, Options: []commands.Option{
		{Name: "tank", Type: commands.TypeTank, Help: "h"},
		{Name: "salt", Type: commands.TypeNumber, Min: 0, Max: 45, Help: "h"},
		{Name: "volume", Type: commands.TypeVolume, Min: 1, Max: 10, Help: strings.Repeat("long ", 30)},
		{Name: "member", Type: commands.TypeMember, Help: "h", Required: true},
		{Name: "channel", Type: commands.TypeChannel, Help: "h"},
		{Name: "flow", Type: commands.TypeChoice, Choices: []string{"weak", "strong"}, Help: "h"},
	}}}
	c := registered(specs)[0]
	if c.DefaultMemberPermissions == nil || *c.DefaultMemberPermissions != discordgo.PermissionManageMessages {
		t.Error("a command of moderators is open to all")
	}
	o := c.Options[0].Options
	if o[0].Name != "member" || o[0].Type != discordgo.ApplicationCommandOptionUser || !o[0].Required {
		t.Errorf("%+v stands first, want the member, needed", o[0])
	}
	if !o[1].Autocomplete || o[2].Type != discordgo.ApplicationCommandOptionNumber || *o[2].MinValue != 0 || o[2].MaxValue != 45 {
		t.Errorf("a tank is %+v, a number %+v", o[1], o[2])
	}
	if o[3].Type != discordgo.ApplicationCommandOptionString || length(o[3].Description) > 100 || len(o[5].Choices) != 2 {
		t.Errorf("a volume is %+v, a choice %+v", o[3], o[5])
	}
	if o[4].Type != discordgo.ApplicationCommandOptionChannel || len(o[4].ChannelTypes) == 0 {
		t.Errorf("a channel is %+v", o[4])
	}
	if err := checkCommands([]*discordgo.ApplicationCommand{c}); err != nil {
		t.Error(err)
	}
}

func TestCheckCommands(t *testing.T) {
	option := func(name string) *discordgo.ApplicationCommandOption {
		return &discordgo.ApplicationCommandOption{Type: discordgo.ApplicationCommandOptionString, Name: name, Description: "d"}
	}
	slash := func(name string, options ...*discordgo.ApplicationCommandOption) *discordgo.ApplicationCommand {
		return &discordgo.ApplicationCommand{Type: discordgo.ChatApplicationCommand, Name: name, Description: "d", Options: options}
	}
	var many []*discordgo.ApplicationCommandOption
	for c := 'a'; c <= 'z'; c++ {
		many = append(many, option(string(c)))
	}
	heavy := slash("x")
	for c := 'a'; c < 'a'+10; c++ {
		o := option(string(c))
		for k := range 5 {
			o.Choices = append(o.Choices, &discordgo.ApplicationCommandOptionChoice{Name: strings.Repeat("n", 99) + string(rune('0'+k)), Value: strings.Repeat("v", 61)})
		}
		heavy.Options = append(heavy.Options, o)
	}
	needed := option("b")
	needed.Required = true
	long := option("a")
	long.Description = strings.Repeat("d", 101)
	var menus []*discordgo.ApplicationCommand
	for c := 'a'; c < 'a'+16; c++ {
		menus = append(menus, &discordgo.ApplicationCommand{Type: discordgo.UserApplicationCommand, Name: string(c)})
	}
	for _, c := range []struct {
		reason string
		all    []*discordgo.ApplicationCommand
		want   string
	}{
		{"fine", []*discordgo.ApplicationCommand{slash("x", many[:25]...)}, ""},
		{"26 options", []*discordgo.ApplicationCommand{slash("x", many...)}, "26 options"},
		{"upper case", []*discordgo.ApplicationCommand{slash("X")}, "not a name"},
		{"33 letters", []*discordgo.ApplicationCommand{slash(strings.Repeat("x", 33))}, "not a name"},
		{"twice", []*discordgo.ApplicationCommand{slash("x"), slash("x")}, "twice"},
		{"an option twice", []*discordgo.ApplicationCommand{slash("x", option("a"), option("a"))}, "twice"},
		{"order", []*discordgo.ApplicationCommand{slash("x", option("a"), needed)}, "is needed"},
		{"description", []*discordgo.ApplicationCommand{slash("x", long)}, "101 characters"},
		{"too much in all", []*discordgo.ApplicationCommand{heavy}, "more than 8000"},
		{"menus", menus, "more than 15"},
	} {
		err := checkCommands(c.all)
		if got := errText(err); (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s: %v, want %q", c.reason, err, c.want)
		}
	}
}

func errText(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// failing refuses to register.
type failing struct{ *fakeAPI }

func (failing) SetCommands(context.Context, string, []*discordgo.ApplicationCommand) error {
	return errors.New("no")
}

func TestRegisterOnlyChanges(t *testing.T) {
	d := newDesk(t)
	specs := d.flow.book.Specs()
	step := func(c api, app, guild string, specs []commands.Spec, want int) {
		t.Helper()
		err := register(t.Context(), c, d.store, app, guild, specs)
		if _, fails := c.(failing); (err != nil) != fails || d.api.registered != want {
			t.Errorf("registered %d times, want %d: %v", d.api.registered, want, err)
		}
	}
	step(failing{d.api}, "1", "", specs, 0)
	step(d.api, "1", "", specs, 1) // what failed is not taken for done
	step(d.api, "1", "", specs, 1)
	step(d.api, "1", guild, specs, 2)
	step(d.api, "2", "", specs, 3)
	step(d.api, "1", "", specs[1:], 4)
	step(d.api, "1", "", specs, 5)
}
