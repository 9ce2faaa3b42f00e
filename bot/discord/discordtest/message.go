package discordtest

import (
	"encoding/json"
	"iter"
	"maps"
	"strconv"
	"time"
)

// Message is what the bot sent, or, of a form, its content.
type Message struct {
	ID          string       `json:"id"`
	Channel     string       `json:"channel_id"`
	Content     string       `json:"content"`
	Embeds      []Embed      `json:"embeds"`
	Components  []Component  `json:"components"`
	Attachments []Attachment `json:"attachments"`
	Flags       int          `json:"flags"`
	Nonce       any          `json:"nonce"`
	Title       string       `json:"title"`     // of a form
	CustomID    string       `json:"custom_id"` // of a form
	Choices     []Choice     `json:"choices"`   // of what is being typed

	Files []File         `json:"-"`
	Raw   map[string]any `json:"-"` // all that was sent
}

// Embed is one as it was sent.
type Embed struct {
	Title       string `json:"title"`
	Description string `json:"description"`
	Color       int    `json:"color"`
	Fields      []struct {
		Name  string `json:"name"`
		Value string `json:"value"`
	} `json:"fields"`
	Footer struct {
		Text string `json:"text"`
	} `json:"footer"`
	Author struct {
		Name string `json:"name"`
	} `json:"author"`
	Image struct {
		URL string `json:"url"`
	} `json:"image"`
}

// Component is a row, button, menu or field as it was sent.
type Component struct {
	Type       int         `json:"type"`
	CustomID   string      `json:"custom_id"`
	Label      string      `json:"label"`
	Style      int         `json:"style"`
	Value      string      `json:"value"`
	Required   bool        `json:"required"`
	Disabled   bool        `json:"disabled"`
	Options    []Choice    `json:"options"`
	Components []Component `json:"components"`
}

// Choice is one of a menu, or a proposal to what is being typed.
type Choice struct {
	Name  string `json:"name"`
	Label string `json:"label"`
	Value any    `json:"value"`
}

// Attachment is what a message says of a file.
type Attachment struct {
	ID          string `json:"id"`
	Filename    string `json:"filename"`
	Description string `json:"description"`
}

// File is what was sent beside a message.
type File struct {
	Field, Name, Type string
	Data              []byte
}

// Private holds for a message that only the asker sees.
func (m *Message) Private() bool { return m.Flags&64 != 0 }

// Button is the button with a label, nil if there is none.
func (m *Message) Button(label string) *Component {
	for c := range m.all() {
		if c.Type == 2 && c.Label == label {
			return c
		}
	}
	return nil
}

// all yields the components at any depth.
func (m *Message) all() iter.Seq[*Component] {
	return func(yield func(*Component) bool) { walk(m.Components, yield) }
}

func walk(all []Component, yield func(*Component) bool) bool {
	for i := range all {
		if !yield(&all[i]) || !walk(all[i].Components, yield) {
			return false
		}
	}
	return true
}

// read is a message of what was sent.
func read(sent map[string]any, files []File) (Message, error) {
	m := Message{Raw: sent, Files: files}
	b, err := json.Marshal(sent)
	if err == nil {
		err = json.Unmarshal(b, &m)
	}
	return m, err
}

// shape is a message as the platform sends it.
func (m *Message) shape() map[string]any {
	out := map[string]any{
		"id": m.ID, "channel_id": m.Channel, "type": 0, "content": m.Content, "tts": false, "pinned": false,
		"mention_everyone": false, "mentions": []any{}, "mention_roles": []any{}, "attachments": []any{}, "embeds": []any{}, "components": []any{},
		"timestamp": "2026-03-01T09:00:00.000000+00:00", "edited_timestamp": nil, "flags": m.Flags,
		"author": map[string]any{"id": App, "username": "ripen", "discriminator": "0000", "global_name": nil, "avatar": nil, "bot": true, "flags": 0, "public_flags": 0, "primary_guild": nil},
	}
	if sent := stamp(m.ID); sent != "" {
		out["timestamp"] = sent
	}
	for _, name := range []string{"author", "nonce"} {
		if v := m.Raw[name]; v != nil {
			out[name] = v
		}
	}
	if all, ok := m.Raw["embeds"].([]any); ok {
		out["embeds"] = completed(all, func(e map[string]any) { e["type"] = "rich" })
	}
	if all, ok := m.Raw["components"].([]any); ok {
		next := 0
		out["components"] = identified(all, &next)
	}
	var files []any
	for k, f := range m.Files {
		id := m.ID + strconv.Itoa(k)
		a := map[string]any{"id": id, "filename": f.Name, "size": len(f.Data), "content_type": f.Type,
			"url": "https://cdn.example/" + f.Name, "proxy_url": "https://media.example/" + f.Name}
		if k < len(m.Attachments) && m.Attachments[k].Description != "" {
			a["description"] = m.Attachments[k].Description
		}
		files = append(files, a)
	}
	if files != nil {
		out["attachments"] = files
	}
	return out
}

// completed are copies of objects with what the platform adds.
func completed(all []any, add func(map[string]any)) []any {
	out := make([]any, len(all))
	for k, v := range all {
		was, _ := v.(map[string]any)
		now := maps.Clone(was)
		add(now)
		out[k] = now
	}
	return out
}

// identified are components with the numbers that the platform gives them.
func identified(all []any, next *int) []any {
	return completed(all, func(c map[string]any) {
		*next++
		if c["id"] == nil {
			c["id"] = *next
		}
		if inner, ok := c["components"].([]any); ok {
			c["components"] = identified(inner, next)
		}
	})
}

// stamp is the time of an id, "" if it has none.
func stamp(id string) string {
	n, err := json.Number(id).Int64()
	if err != nil {
		return ""
	}
	return time.UnixMilli(n>>22 + 1420070400000).UTC().Format("2006-01-02T15:04:05.000000+00:00")
}

// Written is a post of a member, to be chosen from a menu.
func (s *Server) Written(from From, text string) *Message {
	s.mu.Lock()
	defer s.mu.Unlock()
	return &Message{ID: s.id(), Channel: from.Channel, Content: text, Raw: map[string]any{"author": from.user()}}
}

func (f From) user() map[string]any {
	name := f.Name
	if name == "" {
		name = "member" + f.User
	}
	return map[string]any{"id": f.User, "username": name, "discriminator": "0", "global_name": name, "avatar": nil, "flags": 0, "public_flags": 0, "primary_guild": nil}
}

func (f From) member() map[string]any {
	return map[string]any{"user": f.user(), "roles": []any{}, "joined_at": "2026-01-01T00:00:00.000000+00:00", "deaf": false, "mute": false,
		"nick": nil, "avatar": nil, "premium_since": nil, "pending": false, "flags": 0, "communication_disabled_until": nil,
		"permissions": strconv.FormatInt(f.Permissions, 10)}
}

func (s *Server) self() map[string]any {
	return map[string]any{"id": App, "username": "ripen", "discriminator": "0000", "global_name": nil, "avatar": nil, "bot": true,
		"mfa_enabled": false, "verified": true, "email": nil, "flags": 0, "public_flags": 0, "primary_guild": nil, "locale": "en-US"}
}

func (s *Server) guild(id string) map[string]any {
	return map[string]any{"id": id, "name": "club " + id, "icon": nil, "splash": nil, "owner_id": "200000000000000009", "afk_timeout": 300,
		"afk_channel_id": nil, "verification_level": 0, "default_message_notifications": 0, "explicit_content_filter": 0, "roles": []any{}, "emojis": []any{},
		"features": []any{}, "mfa_level": 0, "application_id": nil, "system_channel_id": nil, "system_channel_flags": 0, "rules_channel_id": nil,
		"vanity_url_code": nil, "description": nil, "banner": nil, "premium_tier": 0, "preferred_locale": "en-US", "public_updates_channel_id": nil,
		"nsfw_level": 0, "premium_progress_bar_enabled": false, "safety_alerts_channel_id": nil, "discovery_splash": nil, "stickers": []any{},
		"joined_at": "2026-01-01T00:00:00.000000+00:00", "large": false, "unavailable": false, "member_count": 1, "voice_states": []any{}, "members": []any{},
		"channels": []any{}, "threads": []any{}, "presences": []any{}, "stage_instances": []any{}, "guild_scheduled_events": []any{}, "soundboard_sounds": []any{}}
}
