package discord

import (
	"context"
	"fmt"
	"log/slog"

	"github.com/bwmarrin/discordgo"
)

// connection is what serving needs of a Client.
type connection interface {
	api
	Run(ctx context.Context, handle func(context.Context, *discordgo.Interaction)) error
}

// Serve serves a bot on the platform from a book and notes until ctx is done or
// the platform does not want it. guild is the club in which commands are tried
// out, "" for all.
func Serve(ctx context.Context, c *Client, guild string, book Book, notes Notes) error {
	self, err := c.Self(ctx)
	if err != nil {
		return err
	}
	return serveOn(ctx, c, self.ID, guild, book, notes, c.log)
}

// InviteLink is where an admin of a club invites a bot, with no more rights than
// it needs: to see channels, and to write and attach pictures there.
func InviteLink(app string) string {
	const rights = discordgo.PermissionViewChannel | discordgo.PermissionSendMessages | discordgo.PermissionSendMessagesInThreads |
		discordgo.PermissionEmbedLinks | discordgo.PermissionAttachFiles
	return fmt.Sprintf("https://discord.com/oauth2/authorize?client_id=%s&scope=bot+applications.commands&permissions=%d", app, int64(rights))
}

// serveOn makes known to the platform what can be asked, then answers until ctx
// is done or the connection ends for good. app is the bot's own id; guild is the
// one in which commands are tried out, "" for all.
func serveOn(ctx context.Context, c connection, app, guild string, book Book, notes Notes, log *slog.Logger) error {
	if err := register(ctx, c, notes, app, guild, book.Specs()); err != nil {
		return err
	}
	return c.Run(ctx, newFlow(c, book, notes, log).handle)
}
