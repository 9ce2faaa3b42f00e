package discord

import (
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"net/url"
	"time"

	"github.com/bwmarrin/discordgo"
)

// maxAnswer is how long the platform waits for the first answer.
const maxAnswer = 3 * time.Second

// Respond gives the first answer to an interaction.
func (c *Client) Respond(ctx context.Context, i *discordgo.Interaction, r Response) error {
	body := map[string]any{"type": r.Type}
	var files []File
	switch {
	case r.Type == discordgo.InteractionApplicationCommandAutocompleteResult:
		choices := r.Choices
		if choices == nil {
			choices = []*discordgo.ApplicationCommandOptionChoice{}
		}
		body["data"] = map[string]any{"choices": choices}
	case r.Modal != nil:
		body["data"] = map[string]any{"custom_id": r.Modal.ID, "title": r.Modal.Title, "components": r.Modal.Components}
	case r.Message == nil || r.Type == discordgo.InteractionResponseDeferredMessageUpdate:
	case r.Type == discordgo.InteractionResponseDeferredChannelMessageWithSource:
		body["data"] = map[string]any{"flags": flags(*r.Message)}
	default:
		files = r.Message.Files
		body["data"] = content(*r.Message)
	}
	ctx, cancel := context.WithTimeout(ctx, c.answer)
	defer cancel()
	a := &attempt{repeatable: true} // the platform takes one only
	_, err := c.call(context.WithValue(ctx, attemptKey{}, a), http.MethodPost, discordgo.EndpointInteractionResponse(i.ID, i.Token), body, files)
	if a.tries > 1 && acknowledgedBefore(err) {
		return nil // by an earlier try whose answer was lost
	}
	return err
}

// Edit replaces the first answer, or gives what it put off.
func (c *Client) Edit(ctx context.Context, i *discordgo.Interaction, m Message) error {
	body := content(m)
	delete(body, "flags") // decided by the first answer
	body["content"] = m.Content
	for _, name := range []string{"embeds", "components", "attachments"} {
		if body[name] == nil {
			body[name] = []any{}
		}
	}
	_, err := c.call(ctx, http.MethodPatch, discordgo.EndpointWebhookMessage(i.AppID, i.Token, "@original"), body, m.Files)
	return err
}

// Followup sends a further answer and returns its id.
func (c *Client) Followup(ctx context.Context, i *discordgo.Interaction, m Message) (string, error) {
	return id(c.call(ctx, http.MethodPost, discordgo.EndpointWebhookToken(i.AppID, i.Token)+"?wait=true", content(m), m.Files))
}

func id(raw []byte, err error) (string, error) {
	if err != nil {
		return "", err
	}
	var m struct {
		ID string `json:"id"`
	}
	err = json.Unmarshal(raw, &m)
	return m.ID, err
}

// Self returns the application that the token belongs to.
func (c *Client) Self(ctx context.Context) (*discordgo.Application, error) {
	raw, err := c.call(ctx, http.MethodGet, discordgo.EndpointApplications+"/@me", nil, nil)
	if e, ok := errors.AsType[*discordgo.RESTError](err); ok && e.Response.StatusCode == http.StatusUnauthorized {
		return nil, errors.New("the platform does not know the token; make a new one on the application's page")
	}
	if err != nil {
		return nil, err
	}
	var app discordgo.Application
	if err := json.Unmarshal(raw, &app); err != nil {
		return nil, err
	}
	c.mu.Lock()
	c.app = app.ID
	c.mu.Unlock()
	return &app, nil
}

// SetCommands replaces all commands, of one guild or, where guild is "", of all.
func (c *Client) SetCommands(ctx context.Context, guild string, all []*discordgo.ApplicationCommand) error {
	route, err := c.commandsRoute(ctx, guild)
	if err == nil {
		_, err = c.call(ctx, http.MethodPut, route, all, nil)
	}
	return err
}

func (c *Client) commandsRoute(ctx context.Context, guild string) (string, error) {
	c.mu.Lock()
	app := c.app
	c.mu.Unlock()
	if app == "" {
		self, err := c.Self(ctx)
		if err != nil {
			return "", err
		}
		app = self.ID
	}
	if guild != "" {
		return discordgo.EndpointApplicationGuildCommands(app, guild), nil
	}
	return discordgo.EndpointApplicationGlobalCommands(app), nil
}

// call makes one call, with a bucket of its own that goes with it: the library's
// are shared by what should not wait for each other, and are kept for ever.
func (c *Client) call(ctx context.Context, method, route string, body any, files []File) ([]byte, error) {
	kind, raw, err := encode(body, files)
	if err != nil {
		return nil, err
	}
	bucket := discordgo.NewRatelimiter().LockBucket("")
	out, err := c.rest.RequestWithLockedBucket(method, route, kind, raw, bucket, 0, discordgo.WithContext(ctx))
	if e, ok := errors.AsType[*url.Error](err); ok {
		err = e.Err // without the address, which has the interaction's token
	}
	return out, err
}
