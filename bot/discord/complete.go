package discord

import (
	"context"
	"strings"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// completes says whether an option's values are offered while it is typed.
func completes(o commands.Option) bool {
	return o.Type == commands.TypeTank || o.Type == commands.TypeWhen || o.Type == commands.TypeText && (o.Name == "command" || o.Name == "zone")
}

// complete offers values for the option that is being typed. Without any it
// still answers: completion is a help, no more.
func (f *flow) complete(ctx context.Context, i *discordgo.Interaction, d discordgo.ApplicationCommandInteractionData) error {
	r, focused := ofCommand(d)
	o, _ := f.specs[path(r)].Option(focused)
	var words []string
	switch {
	case o.Type == commands.TypeTank:
		owner := asker(i)
		if member := r.Options["member"]; member != "" && moderates(i) {
			owner = member
		}
		words = f.openTanks(ctx, i.GuildID, owner)
	case o.Type == commands.TypeWhen:
		words = []string{"now", "yesterday", "start"}
	case o.Type == commands.TypeChoice:
		words = o.Choices
	case o.Name == "zone":
		words = commands.Zones()
	case completes(o):
		for _, s := range f.book.Specs() {
			if !s.Moderator || moderates(i) {
				words = append(words, s.Path())
			}
		}
	}
	var choices []*discordgo.ApplicationCommandOptionChoice
	typed := strings.ToLower(r.Options[focused])
	for _, w := range words {
		if len(choices) < maxChoices && length(w) <= maxHint && strings.Contains(strings.ToLower(w), typed) {
			choices = append(choices, &discordgo.ApplicationCommandOptionChoice{Name: w, Value: w})
		}
	}
	return f.api.Respond(ctx, i, Response{Type: discordgo.InteractionApplicationCommandAutocompleteResult, Choices: choices})
}

// openTanks returns the names of a member's open tanks, oldest first; none when
// the store fails, which the next command will tell.
func (f *flow) openTanks(ctx context.Context, club, member string) []string {
	names, err := f.book.OpenTanks(ctx, club, member)
	if err != nil {
		f.log.Error("no tanks to offer", "error", err)
	}
	return names
}

// tankMenu is a menu of a member's open tanks, nil without any.
func (f *flow) tankMenu(ctx context.Context, club, member, id string) []discordgo.MessageComponent {
	menu := discordgo.SelectMenu{MenuType: discordgo.StringSelectMenu, CustomID: id, Placeholder: "Which tank?"}
	for _, name := range f.openTanks(ctx, club, member) {
		if len(menu.Options) < maxChoices {
			menu.Options = append(menu.Options, discordgo.SelectMenuOption{Label: name, Value: name})
		}
	}
	if len(menu.Options) == 0 {
		return nil
	}
	return []discordgo.MessageComponent{discordgo.ActionsRow{Components: []discordgo.MessageComponent{menu}}}
}
