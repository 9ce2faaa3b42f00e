package discord

import (
	"context"
	"fmt"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// attached are the attachments that a slash command names, by option.
func (f *flow) attached(d discordgo.ApplicationCommandInteractionData, r commands.Request) map[string]*discordgo.MessageAttachment {
	found := map[string]*discordgo.MessageAttachment{}
	for _, o := range f.specs[path(r)].Options {
		if id, given := r.Options[o.Name]; given && o.Type == commands.TypeFile && d.Resolved != nil && d.Resolved.Attachments[id] != nil {
			found[o.Name] = d.Resolved.Attachments[id]
		}
	}
	return found
}

// fetch gets what was attached into the request. refused says in the platform's place
// why it can't be taken, "" if it can.
func (f *flow) fetch(ctx context.Context, r *commands.Request, all map[string]*discordgo.MessageAttachment) (refused string) {
	for option, a := range all {
		r.Options[option] = a.Filename
		if a.Size > commands.MaxFile {
			return fmt.Sprintf("the file %s has %d bytes; at most %d are taken", a.Filename, a.Size, commands.MaxFile)
		}
		data, err := f.api.Fetch(ctx, a.URL, commands.MaxFile)
		if err != nil {
			f.log.Error("an attachment could not be fetched", "error", err)
			return fmt.Sprintf("the file %s could not be fetched from the platform; attach it again in a while", a.Filename)
		}
		r.Files = append(r.Files, commands.File{Name: a.Filename, Data: data})
	}
	return ""
}
