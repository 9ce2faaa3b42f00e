package discord

import (
	"bytes"
	"encoding/json"
	"errors"

	"github.com/bwmarrin/discordgo"
)

// parseInteraction reads an interaction. What the library does not know of forms
// and messages is left out; it would give up on all of it.
func parseInteraction(raw []byte) (*discordgo.Interaction, error) {
	i := &discordgo.Interaction{}
	if err := json.Unmarshal(raw, i); err != nil {
		var v any
		d := json.NewDecoder(bytes.NewReader(raw))
		d.UseNumber()
		if err := d.Decode(&v); err != nil {
			return nil, err
		}
		bare, err := json.Marshal(known(v))
		if err != nil {
			return nil, err
		}
		i = &discordgo.Interaction{}
		if err := json.Unmarshal(bare, i); err != nil {
			return nil, err
		}
	}
	if i.ID == "" || i.Data == nil {
		return nil, errors.New("an interaction without data")
	}
	return i, nil
}

// labelled is the type of a component that holds one field of a form.
const labelled = "18"

// knownTypes are the types of components that the library reads.
var knownTypes = map[string]bool{"1": true, "2": true, "3": true, "4": true, "5": true, "6": true, "7": true, "8": true,
	"9": true, "10": true, "11": true, "12": true, "13": true, "14": true, "17": true}

// known leaves out components of types that the library does not read. A labelled
// field becomes one in a row, as the library has it.
func known(v any) any {
	switch v := v.(type) {
	case []any:
		for n := range v {
			v[n] = known(v[n])
		}
	case map[string]any:
		if all, ok := v["components"].([]any); ok {
			v["components"] = knownOnly(all)
		}
		for name, x := range v {
			v[name] = known(x)
		}
	}
	return v
}

func knownOnly(all []any) []any {
	kept := []any{}
	for _, x := range all {
		m, _ := x.(map[string]any)
		kind, _ := m["type"].(json.Number)
		switch {
		case kind.String() == labelled && m["component"] != nil:
			if field := knownOnly([]any{m["component"]}); len(field) == 1 {
				kept = append(kept, map[string]any{"type": json.Number("1"), "components": field})
			}
		case knownTypes[kind.String()]:
			kept = append(kept, m)
		}
	}
	return kept
}
