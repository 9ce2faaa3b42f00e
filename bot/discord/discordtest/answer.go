package discordtest

import (
	"cmp"
	"fmt"
	"slices"
	"time"
)

// answer does what a request asks for and returns the answer, nil for one
// without content; s is locked.
func (s *Server) answer(c *call) (any, error) {
	if auth := c.Header.Get("Authorization"); !c.tokened() && auth != "Bot "+Token {
		return nil, &refusal{401, 0, "401: Unauthorized", false}
	}
	switch c.op {
	case "get_gateway":
		return map[string]any{"url": s.gatewayURL()}, nil
	case "get_bot_gateway":
		return map[string]any{"url": s.gatewayURL(), "shards": cmp.Or(s.Shards, 1),
			"session_start_limit": map[string]any{"total": 1000, "remaining": max(cmp.Or(s.Identifies, 999), 0), "reset_after": 14400000, "max_concurrency": 1}}, nil
	case "get_my_user":
		return s.self(), nil
	case "get_my_application":
		return map[string]any{"id": App, "name": "ripen", "icon": nil, "description": "", "bot_public": true, "bot_require_code_grant": false,
			"verify_key": "00", "flags": 0, "bot": s.self()}, nil
	case "list_application_commands", "list_guild_application_commands", "bulk_set_application_commands", "bulk_set_guild_application_commands":
		return s.setCommands(c)
	case "create_interaction_response":
		return s.callback(c)
	case "execute_webhook", "update_original_webhook_message", "get_original_webhook_message", "delete_original_webhook_message",
		"update_webhook_message", "get_webhook_message", "delete_webhook_message":
		return s.webhook(c)
	case "create_message":
		if no, ok := s.closedTo[c.params["channel_id"]]; ok {
			return nil, &no
		}
		return s.post(c)
	case "create_dm": // the same channel each time
		user, _ := c.body.(map[string]any)["recipient_id"].(string)
		return map[string]any{"id": Direct(user), "type": 1, "flags": 0, "last_message_id": nil, "recipients": []any{From{User: user, Name: "member"}.user()}}, nil
	case "get_channel":
		if no, ok := s.closedTo[c.params["channel_id"]]; ok && no.code != 50013 {
			return nil, &no
		}
		return map[string]any{"id": c.params["channel_id"], "type": s.Channels[c.params["channel_id"]]}, nil
	}
	return nil, refuse(501, 0, fmt.Sprintf("the stand-in does not play %s", c.op))
}

// Direct is the channel of a user's own messages with the bot.
func Direct(user string) string { return "8" + user[1:] }

// tokened holds for routes that need no other token: those whose path has one of
// an interaction, and the one that tells where the gateway is.
func (c *call) tokened() bool {
	return c.op == "get_gateway" || c.params["interaction_token"] != "" || c.params["webhook_token"] != ""
}

func (s *Server) setCommands(c *call) (any, error) {
	guild := c.params["guild_id"]
	if c.params["application_id"] != App {
		return nil, refuse(403, 20012, "You are not authorized to perform this action on this application")
	}
	if c.Method == "PUT" {
		all, _ := c.body.([]any)
		var set []map[string]any
		for _, v := range all {
			m := v.(map[string]any)
			if m["type"] == nil {
				m["type"] = 1.0
			}
			m["id"], m["application_id"], m["version"] = s.id(), App, s.id()
			if guild != "" {
				m["guild_id"] = guild
			}
			set = append(set, m)
		}
		s.commands[guild] = set
	}
	out := []any{}
	for _, m := range s.commands[guild] {
		as := map[string]any{"default_member_permissions": nil, "nsfw": false, "description": ""}
		for k, v := range m {
			as[k] = v
		}
		if n, ok := as["default_member_permissions"].(float64); ok {
			as["default_member_permissions"] = fmt.Sprintf("%.0f", n)
		}
		out = append(out, as)
	}
	return out, nil
}

// post keeps a message to a channel. One with a nonce that was seen is not sent
// again if the bot asks for that.
func (s *Server) post(c *call) (any, error) {
	sent := c.body.(map[string]any)
	m, err := read(sent, c.files)
	if err != nil {
		return nil, refuse(400, 50035, err.Error())
	}
	if sent["enforce_nonce"] == true && m.Nonce != nil {
		if i := slices.IndexFunc(s.posts, func(p *Message) bool { return p.Nonce == m.Nonce && p.Channel == c.params["channel_id"] }); i >= 0 {
			return s.posts[i].shape(), nil
		}
	}
	m.ID, m.Channel = s.id(), c.params["channel_id"]
	s.posts = append(s.posts, &m)
	return m.shape(), nil
}

// callback takes the first answer to an interaction.
func (s *Server) callback(c *call) (any, error) {
	i := s.interactions[c.params["interaction_token"]]
	if i == nil || i.ID != c.params["interaction_id"] {
		return nil, refuse(404, 10062, "Unknown interaction")
	}
	after := s.now().Sub(i.sent)
	switch {
	case i.expired:
		return nil, &refusal{404, 10062, "Unknown interaction", false}
	case i.callback != nil:
		return nil, &refusal{400, 40060, "Interaction has already been acknowledged.", i.times == 1 && !s.lossy}
	case after > 3*time.Second:
		return nil, refuse(404, 10062, fmt.Sprintf("Unknown interaction (answered after %v)", after))
	}
	sent := c.body.(map[string]any)
	kind := int(sent["type"].(float64))
	if why := unfit(i, kind); why != "" {
		return nil, refuse(400, 50035, why)
	}
	data, _ := sent["data"].(map[string]any)
	m, err := read(data, c.files)
	if err != nil {
		return nil, refuse(400, 50035, err.Error())
	}
	switch kind {
	case 4, 5:
		m.ID, m.Channel = s.id(), i.from.Channel
		o := m
		i.original = &o
	case 6, 7:
		i.original = i.under
		if kind == 7 {
			o := merged(i.under, m)
			i.original, m = &o, o
		}
	}
	i.callback = &Callback{kind, m, after}
	return nil, nil
}

// unfit says why an interaction can't be answered so, "" if it can.
func unfit(i *Interaction, kind int) string {
	switch {
	case (i.kind == kindComplete) != (kind == 8):
		return fmt.Sprintf("a callback of type %d to an interaction of type %d", kind, i.kind)
	case kind == 9 && i.kind == kindSubmit:
		return "a form in answer to a form"
	case (kind == 6 || kind == 7) && i.under == nil:
		return fmt.Sprintf("a callback of type %d without a message", kind)
	case kind == 1:
		return "a pong where nobody pinged"
	}
	return ""
}

// webhook edits answers to interactions and sends further messages.
func (s *Server) webhook(c *call) (any, error) {
	i := s.interactions[c.params["webhook_token"]]
	switch {
	case i == nil || c.params["webhook_id"] != App:
		return nil, refuse(404, 10015, "Unknown Webhook")
	case i.expired || s.now().Sub(i.sent) > 15*time.Minute:
		return nil, &refusal{401, 50027, "Invalid Webhook Token", !i.expired}
	case i.callback == nil || i.kind == kindComplete:
		return nil, refuse(404, 10015, "Unknown Webhook (not acknowledged yet)")
	}
	m := Message{}
	if sent, ok := c.body.(map[string]any); ok {
		var err error
		if m, err = read(sent, c.files); err != nil {
			return nil, refuse(400, 50035, err.Error())
		}
	}
	if c.op == "execute_webhook" {
		m.ID, m.Channel = s.id(), i.from.Channel
		if i.callback.Type == 5 && len(i.edits) == 0 && i.callback.Data.Private() {
			m.Flags |= 64 // it takes the place of the deferral
		}
		i.followups = append(i.followups, &m)
		return m.shape(), nil
	}
	of, edits := i.original, &i.edits
	if id := c.params["message_id"]; id != "" && id != "@original" {
		k := slices.IndexFunc(i.followups, func(f *Message) bool { return f.ID == id })
		if k < 0 {
			return nil, refuse(404, 10008, "Unknown Message")
		}
		of, edits = i.followups[k], nil
	}
	if of == nil {
		return nil, refuse(404, 10008, "Unknown Message")
	}
	switch c.Method {
	case "GET":
		return of.shape(), nil
	case "DELETE":
		if edits != nil {
			i.original = nil
		}
		return nil, nil
	}
	now := merged(of, m)
	if edits != nil {
		i.original = &now
		*edits = append(*edits, &now)
	} else {
		*of = now
	}
	return now.shape(), nil
}

// merged is a message after an edit: what the edit does not name stays.
func merged(of *Message, edit Message) Message {
	edit.ID, edit.Channel, edit.Flags = of.ID, of.Channel, of.Flags|edit.Flags
	raw := map[string]any{}
	for k, v := range of.Raw {
		raw[k] = v
	}
	for k, v := range edit.Raw {
		raw[k] = v
	}
	if _, ok := edit.Raw["content"]; !ok {
		edit.Content = of.Content
	}
	if _, ok := edit.Raw["embeds"]; !ok {
		edit.Embeds = of.Embeds
	}
	if _, ok := edit.Raw["components"]; !ok {
		edit.Components = of.Components
	}
	if _, ok := edit.Raw["attachments"]; !ok && len(edit.Files) == 0 {
		edit.Attachments, edit.Files = of.Attachments, of.Files
	}
	edit.Raw = raw
	return edit
}
