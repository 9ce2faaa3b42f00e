package discord

import (
	"context"
	"log/slog"

	"github.com/bwmarrin/discordgo"
)

// connection is what serving needs of a Client.
type connection interface {
	api
	Run(ctx context.Context, handle func(context.Context, *discordgo.Interaction)) error
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
