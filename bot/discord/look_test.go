package discord

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/bot/discord/look"
)

var lookDir = flag.String("look", "", "write the README's pictures of the chat into this `folder`")

// maxLook is how large a picture of the chat may be.
const maxLook = 60_000

// TestLook plays three scenes through the flow and draws the messages that it sends.
func TestLook(t *testing.T) {
	if testing.Short() {
		t.Skip("asks the engine for diagnoses")
	}
	t.Parallel()
	scenes := map[string][]look.Bubble{"chat-outlook": sceneOutlook(t), "chat-post": scenePost(t), "chat-why": sceneWhy(t)}
	for name, bubbles := range scenes {
		png, err := look.PNG(bubbles)
		if err != nil {
			t.Fatal(err)
		}
		if name == "chat-post" {
			if again, err := look.PNG(bubbles); err != nil || string(again) != string(png) {
				t.Errorf("%s is not the same twice, %v", name, err)
			}
		}
		if len(png) > maxLook {
			t.Errorf("%s has %d bytes, the most is %d", name, len(png), maxLook)
		}
		if *lookDir != "" {
			if err := os.WriteFile(filepath.Join(*lookDir, name+".png"), png, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// chat is a desk whose messages are kept as bubbles.
type chat struct {
	*desk
	bubbles []look.Bubble
}

// says shows what somebody did.
func (c *chat) says(at, who, text string) {
	c.bubbles = append(c.bubbles, look.Bubble{Who: who, At: clock(c.desk, at), Right: true, Text: text})
}

// answers shows a message of the bot.
func (c *chat) answers(at string, m Message) {
	b := look.Bubble{Who: "Ripen", At: clock(c.desk, at), Note: "only you can see this", Text: strings.ReplaceAll(m.Content, "<@"+wren+">", "@wren")}
	if !m.Private {
		b.Note = "everyone can see this"
	}
	for _, e := range m.Embeds {
		b.Cards = append(b.Cards, e.Description)
	}
	for _, f := range m.Files {
		b.Picture = f.Data
	}
	for _, r := range m.Components {
		var row []look.Button
		for _, x := range r.(discordgo.ActionsRow).Components {
			switch x := x.(type) {
			case discordgo.Button:
				row = append(row, look.Button{Label: x.Label, Tone: toneOf[x.Style]})
			case discordgo.SelectMenu:
				row = append(row, look.Button{Label: x.Placeholder, Tone: look.Menu})
			}
		}
		b.Rows = append(b.Rows, row)
	}
	c.bubbles = append(c.bubbles, b)
}

var toneOf = map[discordgo.ButtonStyle]look.Tone{discordgo.PrimaryButton: look.Main, discordgo.SuccessButton: look.Good, discordgo.DangerButton: look.Danger}

func clock(d *desk, at string) time.Time {
	d.Helper()
	when, err := time.Parse(time.RFC3339, at)
	if err != nil {
		d.Fatal(err)
	}
	return when
}

// told is a desk at which wren told of a tank and what its tests showed.
func told(t *testing.T, tank string, lines ...string) *chat {
	d := newDesk(t)
	d.ask("2026-03-01T18:00:00Z", wren, tank)
	for _, l := range lines {
		at, line, _ := strings.Cut(l, " ")
		d.ask(at, wren, line)
	}
	return &chat{desk: d}
}

const mossBowl = `/tank new name:"moss bowl" volume:60L ph:7.6 kh:6dKH temp:25C method:dosed plants:none media:sponge source:chlorine conditioner:yes`

// sceneOutlook: a reading goes in, and its outlook is a press away.
func sceneOutlook(t *testing.T) []look.Bubble {
	c := told(t, mossBowl, "2026-03-01T18:05:00Z /log what:dose amount:2ppm", "2026-03-05T18:00:00Z /reading ammonia:2 nitrite:0 nitrate:5",
		"2026-03-09T18:00:00Z /reading ammonia:1 nitrite:2 nitrate:5")
	const at = "2026-03-13T18:00:00Z"
	c.says(at, "wren", "/reading ammonia:0.25 nitrite:5 nitrate:10")
	noted := c.ask(at, wren, "/reading ammonia:0.25 nitrite:5 nitrate:10")
	c.answers(at, noted)
	c.says(at, "wren", "presses Outlook")
	c.answers(at, c.edited(c.do(c.press(at, wren, noted, "Outlook"))))
	return c.bubbles
}

// scenePost: readings out of an ordinary post, shown before they are stored.
func scenePost(t *testing.T) []look.Bubble {
	c := told(t, mossBowl)
	const at = "2026-03-09T18:00:00Z"
	const post = "Day 8: NH3 1.0, NO2 2.0ppm nitrates 5, ph 7.6 temp 78F. Filter hums along :)"
	c.says(at, "wren", post)
	c.says(at, "wren", `chooses "`+menuAdd+`"`)
	i := c.from(at, wren, 0)
	i.Data = discordgo.ApplicationCommandInteractionData{Name: menuAdd, CommandType: discordgo.MessageApplicationCommand, TargetID: i.ID,
		Resolved: &discordgo.ApplicationCommandInteractionDataResolved{Messages: map[string]*discordgo.Message{i.ID: {ID: i.ID, Content: post, Author: &discordgo.User{ID: wren}}}}}
	seen := c.edited(c.do(i))
	c.answers(at, seen)
	c.says(at, "wren", "presses Store")
	c.answers(at, c.edited(c.do(c.press(at, wren, seen, "Store"))))
	return c.bubbles
}

// sceneWhy: a moderator asks why a member's tank is slow.
func sceneWhy(t *testing.T) []look.Bubble {
	c := told(t, `/tank new name:"river box" volume:60L ph:7.0 kh:1dKH temp:25C plants:none`,
		"2026-03-01T18:05:00Z /log what:dose amount:2ppm", "2026-03-08T18:00:00Z /reading ammonia:1 nitrite:2 nitrate:5 ph:6.8",
		"2026-03-11T18:00:00Z /reading ammonia:0.25 nitrite:5 ph:6.4 kh:0.5", "2026-03-11T18:05:00Z /log what:dose amount:4ppm",
		"2026-03-18T18:00:00Z /reading ammonia:4 nitrite:5 nitrate:5 ph:6.0", "2026-03-25T18:00:00Z /reading ammonia:4 nitrite:5 ph:6.0 kh:0",
		"2026-04-01T18:00:00Z /reading ammonia:4 nitrite:5 ph:6.0 kh:0")
	const at = "2026-04-01T18:05:00Z"
	c.says(at, "tern, moderator", `chooses "`+menuExplain+`" on wren`)
	i := c.from(at, tern, discordgo.PermissionManageMessages)
	i.Data = discordgo.ApplicationCommandInteractionData{Name: menuExplain, CommandType: discordgo.UserApplicationCommand, TargetID: wren}
	c.answers(at, c.edited(c.do(i)))
	return c.bubbles
}
