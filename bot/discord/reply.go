package discord

import (
	"context"
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
	all := dressed(reply, r.Options["member"])
	for k := range all {
		all[k].Private = true
	}
	all[len(all)-1].Components = f.buttons(ctx, r, reply)
	return all
}

// dressed is a reply's text in as many messages as it takes, with files and dates
// in the reader's own time on the last. About is the member that it is about, "" if
// none was named.
func dressed(reply commands.Reply, about string) []Message {
	text := reply.Text
	if !reply.OK {
		text = refused + text
	}
	names := namesIn(reply.Data, about)
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
	if e := calendar(reply.Data); e != nil {
		last.Embeds = []*discordgo.MessageEmbed{e}
	}
	return all
}

// namesIn are what stands for quoted words of a text: members and channels as the
// platform shows them, each reader by the name that they know.
func namesIn(data any, about string) map[string]string {
	members := []string{about}
	if x, ok := data.(interface{ Members() []string }); ok {
		members = append(members, x.Members()...)
	}
	names := map[string]string{}
	for _, m := range members {
		if IsID(m) {
			names[m] = "<@" + m + ">"
		}
	}
	if s, ok := data.(commands.ClubSettings); ok && IsID(s.Channel) {
		names[s.Channel] = "<#" + s.Channel + ">"
	}
	return names
}

// calendar shows the date of an outlook, nil if there is none. A day is named by
// its noon, which is on the same day nearly everywhere.
func calendar(data any) *discordgo.MessageEmbed {
	o, ok := data.(commands.Outlook)
	if !ok || o.DoneDate.P50 == nil {
		return nil
	}
	day, err := time.Parse(time.DateOnly, *o.DoneDate.P50)
	if err != nil {
		return nil
	}
	noon := day.Add(12 * time.Hour).Unix()
	return &discordgo.MessageEmbed{Description: stamp(noon, "D") + ", " + stamp(noon, "R")}
}
