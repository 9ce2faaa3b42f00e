package discord

import (
	"context"
	"maps"
	"mime"
	"path/filepath"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// refused stands before the reason why something was not done.
const refused = "Not done: "

// messages dresses a reply for who asked: only they see it, and the last message
// has the buttons.
func (f *flow) messages(ctx context.Context, r commands.Request, reply commands.Reply) []Message {
	names := map[string]string{}
	if member := r.Options["member"]; member != "" {
		names[member] = "<@" + member + ">"
	}
	all := dressed(reply, names)
	for k := range all {
		all[k].Private = true
	}
	all[len(all)-1].Components = f.buttons(ctx, r, reply)
	return all
}

// dressed is a reply's text in as many messages as it takes, with files and dates
// in the reader's own time on the last. names are written for quoted words.
func dressed(reply commands.Reply, names map[string]string) []Message {
	text := reply.Text
	if !reply.OK {
		text = refused + text
	}
	if x, ok := reply.Data.(interface{ Members() []string }); ok {
		names = maps.Clone(names)
		if names == nil {
			names = map[string]string{}
		}
		for _, member := range x.Members() {
			names[member] = "<@" + member + ">"
		}
	}
	parts := split(dress(text, names), maxContent)
	var rest []File
	if len(parts) > maxMessages {
		rest = []File{{Name: "answer.txt", Type: "text/plain; charset=utf-8", Alt: "the whole answer", Data: []byte(text)}}
		parts = append(parts[:maxMessages-1], "The rest stands in the file.")
	}
	if len(parts) == 0 {
		parts = []string{"(nothing)"}
	}
	all := make([]Message, len(parts))
	for i, p := range parts {
		all[i] = Message{Content: p}
	}
	last := &all[len(all)-1]
	last.Files = rest
	for _, file := range reply.Files {
		last.Files = append(last.Files, File{Name: file.Name, Type: mime.TypeByExtension(filepath.Ext(file.Name)), Alt: file.Alt, Data: file.Data})
	}
	if e := card(reply.Data); e != nil {
		last.Embeds = []*discordgo.MessageEmbed{e}
	}
	return all
}

// card shows what the reader's device writes in its own way, nil if there is
// nothing of that kind.
func card(data any) *discordgo.MessageEmbed {
	switch d := data.(type) {
	case commands.Outlook:
		return calendar(d)
	case commands.ClubSettings:
		if IsID(d.Channel) {
			return &discordgo.MessageEmbed{Description: "Channel of the weekly summary: <#" + d.Channel + ">"}
		}
	}
	return nil
}

// calendar shows the date of an outlook, nil if there is none. A day is named by
// its noon, which is on the same day nearly everywhere.
func calendar(o commands.Outlook) *discordgo.MessageEmbed {
	if o.DoneDate.P50 == nil {
		return nil
	}
	day, err := time.Parse(time.DateOnly, *o.DoneDate.P50)
	if err != nil {
		return nil
	}
	noon := day.Add(12 * time.Hour).Unix()
	return &discordgo.MessageEmbed{Description: stamp(noon, "D") + ", " + stamp(noon, "R")}
}
