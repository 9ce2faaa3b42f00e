package discordtest

import (
	"fmt"
	"strings"
	"unicode/utf16"
)

// Flags of messages that a bot may set.
const (
	flagSuppressEmbeds = 1 << 2
	flagPrivate        = 1 << 6
	flagSilent         = 1 << 12
	flagComponentsV2   = 1 << 15
)

// rules holds a request to what the manual says and the description does not.
func rules(c *call) []string {
	switch c.op {
	case "bulk_set_application_commands", "bulk_set_guild_application_commands":
		all, _ := c.body.([]any)
		return commandRules(all)
	case "create_interaction_response":
		m, _ := c.body.(map[string]any)
		data, _ := m["data"].(map[string]any)
		switch m["type"] {
		case 4.0:
			return messageRules(data, c.files, flagSuppressEmbeds|flagPrivate|flagSilent|flagComponentsV2, true)
		case 5.0:
			return deferralRules(data)
		case 7.0:
			return messageRules(data, c.files, flagSuppressEmbeds|flagComponentsV2, false)
		case 8.0:
			return choiceRules(data)
		case 9.0:
			return duplicates(data)
		}
	case "create_message":
		m, _ := c.body.(map[string]any)
		return messageRules(m, c.files, flagSuppressEmbeds|flagSilent|flagComponentsV2, true)
	case "execute_webhook":
		m, _ := c.body.(map[string]any)
		return messageRules(m, c.files, flagSuppressEmbeds|flagPrivate|flagSilent|flagComponentsV2, true)
	case "update_original_webhook_message", "update_webhook_message", "update_message":
		m, _ := c.body.(map[string]any)
		return messageRules(m, c.files, flagSuppressEmbeds|flagComponentsV2, false)
	}
	return nil
}

// deferralRules allow one flag and nothing else.
func deferralRules(data map[string]any) []string {
	for name, v := range data {
		empty := v == nil || v == false || v == ""
		if name != "flags" && !empty || name == "flags" && v != 0.0 && v != float64(flagPrivate) {
			return []string{fmt.Sprintf("data.%s: a deferral can be private, and nothing else", name)}
		}
	}
	return nil
}

// messageRules are those of messages. A new one must not be empty.
func messageRules(m map[string]any, files []File, flags int, isNew bool) []string {
	var faults []string
	content, _ := m["content"].(string)
	embeds, _ := m["embeds"].([]any)
	components, _ := m["components"].([]any)
	set, _ := m["flags"].(float64)
	if odd := int(set) &^ flags; odd != 0 {
		faults = append(faults, fmt.Sprintf("flags: %d can't be set here", odd))
	}
	v2 := int(set)&flagComponentsV2 != 0
	if v2 && (content != "" || len(embeds) > 0) {
		faults = append(faults, "content or embeds beside components of version 2")
	}
	if isNew && strings.TrimSpace(content) == "" && len(embeds)+len(components)+len(files) == 0 && m["poll"] == nil && m["sticker_ids"] == nil {
		faults = append(faults, "an empty message (50006)")
	}
	if n := length(content); n > 2000 {
		faults = append(faults, fmt.Sprintf("content: %d characters, the most is 2000", n))
	}
	sum := 0
	for _, e := range embeds {
		n := embedLength(e)
		if e, _ := e.(map[string]any); n == 0 && e["image"] == nil && e["thumbnail"] == nil {
			faults = append(faults, "embeds: an empty one")
		}
		sum += n
	}
	if sum > 6000 {
		faults = append(faults, fmt.Sprintf("embeds: %d characters in all, the most is 6000", sum))
	}
	faults = append(faults, fileRules(m, embeds, files)...)
	if a, ok := m["allowed_mentions"].(map[string]any); ok {
		faults = append(faults, mentionRules(a)...)
	}
	if !v2 {
		faults = append(faults, rowRules(components)...)
	}
	return append(faults, duplicates(m)...)
}

// embedLength is what an embed adds to the sum of all.
func embedLength(v any) int {
	e, _ := v.(map[string]any)
	text := func(m map[string]any, name string) int {
		s, _ := m[name].(string)
		return length(s)
	}
	sum := text(e, "title") + text(e, "description")
	if f, ok := e["footer"].(map[string]any); ok {
		sum += text(f, "text")
	}
	if a, ok := e["author"].(map[string]any); ok {
		sum += text(a, "name")
	}
	fields, _ := e["fields"].([]any)
	for _, f := range fields {
		if f, ok := f.(map[string]any); ok {
			sum += text(f, "name") + text(f, "value")
		}
	}
	return sum
}

// length counts as the platform's clients do, in units of UTF-16; its server may
// count fewer.
func length(s string) int { return len(utf16.Encode([]rune(s))) }

// fileRules tie attachments, embeds and files together.
func fileRules(m map[string]any, embeds []any, files []File) []string {
	var faults []string
	names, fields, size := map[string]bool{}, map[string]bool{}, 0
	for _, f := range files {
		if f.Name == "" || names[f.Name] || fields[f.Field] {
			faults = append(faults, fmt.Sprintf("%s: the name %q is empty or taken", f.Field, f.Name))
		}
		names[f.Name], fields[f.Field] = true, true
		size += len(f.Data)
		if len(f.Data) > 10<<20 {
			faults = append(faults, fmt.Sprintf("%s: %d bytes, the most is 10 MiB (40005)", f.Field, len(f.Data)))
		}
	}
	if len(files) > 10 || size > 25<<20 {
		faults = append(faults, fmt.Sprintf("%d files of %d bytes, the most is 10 and 25 MiB", len(files), size))
	}
	attachments, _ := m["attachments"].([]any)
	for _, a := range attachments {
		a, _ := a.(map[string]any)
		id, _ := a["id"].(string)
		if len(id) < 3 && !fields["files["+id+"]"] { // longer ones are of older files
			faults = append(faults, fmt.Sprintf("attachments: %q is no file that was sent", id))
		}
	}
	for _, e := range embeds {
		e, _ := e.(map[string]any)
		for _, part := range []string{"image", "thumbnail"} {
			p, _ := e[part].(map[string]any)
			url, _ := p["url"].(string)
			if name, ok := strings.CutPrefix(url, "attachment://"); ok && !names[name] {
				faults = append(faults, fmt.Sprintf("embeds: %s shows %q, which was not sent", part, name))
			}
		}
	}
	return faults
}

// mentionRules refuse to allow a kind of mentions both wholly and by name.
func mentionRules(a map[string]any) []string {
	var faults []string
	parse, _ := a["parse"].([]any)
	for _, p := range parse {
		name, _ := p.(string)
		if listed, _ := a[name].([]any); len(listed) > 0 {
			faults = append(faults, fmt.Sprintf("allowed_mentions: %s both parsed and listed", name))
		}
	}
	return faults
}
