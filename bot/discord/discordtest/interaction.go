package discordtest

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"time"
)

// From is who does something where.
type From struct {
	User, Name     string
	Guild, Channel string
	Permissions    int64
	Locale         string // en-US if empty
}

// Option is one of a command's. Its type is the registered one, or follows from
// the value where nothing is registered.
type Option struct {
	Name    string
	Value   any
	Type    int   // taken as it is if not zero
	Focused bool  // is being typed
	File    *File // is attached
}

// The types of interactions.
const (
	kindCommand  = 2
	kindPress    = 3
	kindComplete = 4
	kindSubmit   = 5
)

// Interaction is one that was sent, with all that the bot does with it.
type Interaction struct {
	ID, Token string
	s         *Server
	kind      int
	under     *Message // of a component
	from      From
	sent      time.Time
	times     int // delivered
	expired   bool
	event     map[string]any

	callback  *Callback
	original  *Message
	edits     []*Message
	followups []*Message
}

// Slash sends a slash command; sub is its part, or "".
func (s *Server) Slash(from From, name, sub string, options ...Option) *Interaction {
	s.t.Helper()
	return s.command(kindCommand, from, name, sub, options)
}

// Autocomplete sends a command that is being typed; one option is focused.
func (s *Server) Autocomplete(from From, name, sub string, options ...Option) *Interaction {
	s.t.Helper()
	return s.command(kindComplete, from, name, sub, options)
}

func (s *Server) command(kind int, from From, name, sub string, options []Option) *Interaction {
	s.t.Helper()
	s.mu.Lock()
	given, attachments := []any{}, map[string]any{}
	for _, o := range options {
		if o.File != nil {
			id := s.id()
			s.attached[id] = o.File
			attachments[id] = map[string]any{"id": id, "filename": o.File.Name, "size": len(o.File.Data), "content_type": o.File.Type, "ephemeral": true,
				"url": s.http.URL + "/attachments/" + id, "proxy_url": s.http.URL + "/attachments/" + id}
			o.Value, o.Type = id, 11
		}
		m := map[string]any{"name": o.Name, "type": s.optionType(from.Guild, name, sub, o), "value": o.Value}
		if o.Focused {
			m["focused"] = true
		}
		given = append(given, m)
	}
	if sub != "" {
		given = []any{map[string]any{"name": sub, "type": 1, "options": given}}
	}
	data := map[string]any{"id": s.commandID(from.Guild, name, 1), "name": name, "type": 1, "options": given}
	if len(attachments) > 0 {
		data["resolved"] = map[string]any{"attachments": attachments}
	}
	s.mu.Unlock()
	return s.interact(kind, from, data, nil)
}

// MessageMenu chooses a command on a message.
func (s *Server) MessageMenu(from From, name string, on *Message) *Interaction {
	s.t.Helper()
	s.mu.Lock()
	data := map[string]any{"id": s.commandID(from.Guild, name, 3), "name": name, "type": 3, "target_id": on.ID,
		"resolved": map[string]any{"messages": map[string]any{on.ID: on.shape()}}}
	s.mu.Unlock()
	return s.interact(kindCommand, from, data, nil)
}

// UserMenu chooses a command on a member.
func (s *Server) UserMenu(from From, name string, on From) *Interaction {
	s.t.Helper()
	member := on.member()
	delete(member, "user") // resolved members have none
	s.mu.Lock()
	data := map[string]any{"id": s.commandID(from.Guild, name, 2), "name": name, "type": 2, "target_id": on.User,
		"resolved": map[string]any{"users": map[string]any{on.User: on.user()}, "members": map[string]any{on.User: member}}}
	s.mu.Unlock()
	return s.interact(kindCommand, from, data, nil)
}

// Press presses the button with a label under a message.
func (s *Server) Press(from From, under *Message, label string) *Interaction {
	s.t.Helper()
	c := under.Button(label)
	if c == nil {
		s.t.Fatalf("no button %q under %s", label, compact(under.Raw))
		return nil
	}
	return s.interact(kindPress, from, map[string]any{"custom_id": c.CustomID, "component_type": 2, "id": 2}, under)
}

// Select chooses values in the only menu under a message.
func (s *Server) Select(from From, under *Message, values ...string) *Interaction {
	s.t.Helper()
	for c := range under.all() {
		if c.Type == 3 {
			return s.interact(kindPress, from, map[string]any{"custom_id": c.CustomID, "component_type": 3, "id": 2, "values": values}, under)
		}
	}
	s.t.Fatalf("no menu under %s", compact(under.Raw))
	return nil
}

// Submit sends back a form that the bot opened, with what was typed by custom id.
func (s *Server) Submit(from From, form *Interaction, typed map[string]string) *Interaction {
	s.t.Helper()
	c := form.Callback()
	if c == nil || c.Type != 9 {
		s.t.Fatalf("no form was opened: %+v", c)
		return nil
	}
	left := maps.Clone(typed)
	var rows []any
	for i, row := range c.Data.Components {
		var inputs []any
		for _, input := range row.Components {
			inputs = append(inputs, map[string]any{"type": input.Type, "id": i + 100, "custom_id": input.CustomID, "value": typed[input.CustomID]})
			delete(left, input.CustomID)
			if input.Required && typed[input.CustomID] == "" {
				s.t.Fatalf("the form asks for %q", input.CustomID)
			}
		}
		rows = append(rows, map[string]any{"type": row.Type, "id": i + 1, "components": inputs})
	}
	if len(left) > 0 {
		s.t.Fatalf("the form %q has no field %v", c.Data.CustomID, slices.Collect(maps.Keys(left)))
	}
	return s.interact(kindSubmit, from, map[string]any{"custom_id": c.Data.CustomID, "components": rows}, form.under)
}

// interact sends an interaction to the shard of its guild.
func (s *Server) interact(kind int, from From, data map[string]any, under *Message) *Interaction {
	s.t.Helper()
	var x *session
	s.wait("a session for the guild "+from.Guild, func() bool {
		x = s.of(from.Guild)
		return x != nil
	})
	if x == nil {
		return nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	id := s.id()
	locale := from.Locale
	if locale == "" {
		locale = "en-US"
	}
	i := &Interaction{ID: id, Token: "stand-in-" + id, s: s, kind: kind, from: from, under: under, sent: s.now(), times: 1}
	i.event = map[string]any{
		"id": id, "application_id": App, "type": kind, "data": data, "token": i.Token, "version": 1,
		"channel_id": from.Channel, "channel": map[string]any{"id": from.Channel, "type": s.Channels[from.Channel], "guild_id": from.Guild},
		"app_permissions": "563362270660672", "locale": locale, "entitlements": []any{},
		"authorizing_integration_owners": map[string]any{"0": from.Guild}, "attachment_size_limit": 10485760,
	}
	if from.Guild == "" {
		i.event["user"], i.event["context"] = from.user(), 1
	} else {
		i.event["member"], i.event["context"] = from.member(), 0
		i.event["guild_id"], i.event["guild_locale"] = from.Guild, "en-US"
		i.event["guild"] = map[string]any{"id": from.Guild, "locale": "en-US", "features": []any{}}
	}
	if under != nil {
		i.event["message"] = under.shape()
	}
	s.interactions[i.Token] = i
	s.event(x, "INTERACTION_CREATE", i.event)
	return i
}

// Again delivers the same interaction once more.
func (i *Interaction) Again() {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	i.times++
	if x := i.s.of(i.from.Guild); x != nil {
		i.s.event(x, "INTERACTION_CREATE", i.event)
	}
}

// Expire kills the token, as time would.
func (i *Interaction) Expire() {
	i.s.mu.Lock()
	defer i.s.mu.Unlock()
	i.expired = true
}

// of is the session of a guild's shard, nil if there is none; s is locked.
func (s *Server) of(guild string) *session {
	for k := len(s.sessions) - 1; k >= 0; k-- {
		if x := s.sessions[k]; of(guild, x.count) == x.shard {
			return x
		}
	}
	return nil
}

// of is the shard of a guild.
func of(guild string, count int64) int64 {
	n, _ := strconv.ParseInt(guild, 10, 64)
	return n >> 22 % count
}

// optionType is the registered type of an option; s is locked.
func (s *Server) optionType(guild, name, sub string, o Option) int {
	if o.Type != 0 {
		return o.Type
	}
	if c := s.registered(guild, name, 1); c != nil {
		options, _ := c["options"].([]any)
		if sub != "" {
			p, _ := named(options, sub)
			options, _ = p["options"].([]any)
		}
		if p, ok := named(options, o.Name); ok {
			kind, _ := p["type"].(float64)
			return int(kind)
		}
		s.t.Errorf("/%s %s has no option %q", name, sub, o.Name)
	}
	switch o.Value.(type) {
	case bool:
		return 5
	case int, int64:
		return 4
	case float64:
		return 10
	}
	return 3
}

// commandID is the id of a registered command; s is locked.
func (s *Server) commandID(guild, name string, kind int) string {
	if c := s.registered(guild, name, kind); c != nil {
		return fmt.Sprint(c["id"])
	}
	if len(s.commands) > 0 {
		s.t.Errorf("%q is not registered", name)
	}
	return s.id()
}

func (s *Server) registered(guild, name string, kind int) map[string]any {
	for _, c := range slices.Concat(s.commands[guild], s.commands[""]) {
		if c["name"] == name && c["type"] == float64(kind) {
			return c
		}
	}
	return nil
}

func named(all []any, name string) (map[string]any, bool) {
	for _, o := range all {
		if o, ok := o.(map[string]any); ok && o["name"] == name {
			return o, true
		}
	}
	return nil, false
}
