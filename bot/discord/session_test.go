package discord

import (
	"context"
	"encoding/json"
	"net/http"

	"github.com/bwmarrin/discordgo"

	"ripen/bot/discord/discordtest"
)

// session is the bare library, as far as a script needs it.
type session struct{ s *discordgo.Session }

// serve serves the stand-in from the store of a desk.
func serve(ctx context.Context, srv *discordtest.Server, d *desk) error {
	s, err := discordgo.New("Bot " + discordtest.Token)
	if err != nil {
		return err
	}
	s.Client = &http.Client{Transport: srv.Transport()}
	s.UserAgent = "DiscordBot (https://example.org, 0.1)"
	s.Identify.Intents = discordgo.IntentsGuilds
	s.StateEnabled = false
	return serveOn(ctx, session{s}, discordtest.App, "", d.flow.book, d.store, d.flow.log)
}

func (c session) Run(ctx context.Context, handle func(context.Context, *discordgo.Interaction)) error {
	c.s.AddHandler(func(_ *discordgo.Session, i *discordgo.InteractionCreate) { handle(ctx, i.Interaction) })
	if err := c.s.Open(); err != nil {
		return err
	}
	<-ctx.Done()
	return c.s.Close()
}

var nobody = &discordgo.MessageAllowedMentions{Parse: []discordgo.AllowedMentionType{}}

func flags(m *Message) discordgo.MessageFlags {
	if m.Private {
		return discordgo.MessageFlagsEphemeral
	}
	return 0
}

func (c session) Respond(_ context.Context, i *discordgo.Interaction, r Response) error {
	out := &discordgo.InteractionResponse{Type: r.Type, Data: &discordgo.InteractionResponseData{}}
	if m := r.Message; m != nil {
		out.Data.Flags = flags(m)
		if r.Type == 4 || r.Type == 7 {
			out.Data.Content, out.Data.Components, out.Data.Embeds, out.Data.AllowedMentions = m.Content, m.Components, m.Embeds, nobody
		}
	}
	if r.Type == 6 {
		out.Data = nil
	}
	if r.Modal != nil {
		out.Data.CustomID, out.Data.Title, out.Data.Components = r.Modal.ID, r.Modal.Title, r.Modal.Components
	}
	bare, err := plainJSON(out)
	if err != nil {
		return err
	}
	if data, ok := bare.(map[string]any)["data"].(map[string]any); ok && data["content"] == "" {
		delete(data, "content")
	}
	route := discordgo.EndpointInteractionResponse(i.ID, i.Token)
	_, err = c.s.RequestWithBucketID("POST", route, bare, route)
	return err
}

func (c session) Edit(_ context.Context, i *discordgo.Interaction, m Message) error {
	if m.Components == nil {
		m.Components = []discordgo.MessageComponent{}
	}
	if m.Embeds == nil {
		m.Embeds = []*discordgo.MessageEmbed{}
	}
	_, err := c.s.InteractionResponseEdit(i, &discordgo.WebhookEdit{Content: &m.Content, Components: &m.Components, Embeds: &m.Embeds, AllowedMentions: nobody})
	return err
}

func (c session) Followup(_ context.Context, i *discordgo.Interaction, m Message) (string, error) {
	_, err := c.s.FollowupMessageCreate(i, true, &discordgo.WebhookParams{Content: m.Content, Components: m.Components, Embeds: m.Embeds, AllowedMentions: nobody, Flags: flags(&m)})
	return "", err
}

func (c session) SetCommands(_ context.Context, guild string, all []*discordgo.ApplicationCommand) error {
	bare, err := plainJSON(all)
	if err != nil {
		return err
	}
	route := discordgo.EndpointApplicationGlobalCommands(discordtest.App)
	if guild != "" {
		route = discordgo.EndpointApplicationGuildCommands(discordtest.App, guild)
	}
	_, err = c.s.Request("PUT", route, bare)
	return err
}

// plainJSON is what v marshals to, without what says nothing.
func plainJSON(v any) (bare any, err error) {
	raw, err := json.Marshal(v)
	if err == nil {
		err = json.Unmarshal(raw, &bare)
	}
	return stripped(bare), err
}

// stripped leaves out what says nothing.
func stripped(v any) any {
	switch v := v.(type) {
	case []any:
		for i := range v {
			v[i] = stripped(v[i])
		}
	case map[string]any:
		for name, x := range v {
			if x == nil || x == false {
				delete(v, name)
			} else {
				v[name] = stripped(x)
			}
		}
	}
	return v
}
