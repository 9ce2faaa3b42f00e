package discord

import (
	"bytes"
	"encoding/json"
	"strconv"

	"github.com/bwmarrin/discordgo"
)

// content is a message as the platform wants it. It mentions nobody.
func content(m Message) map[string]any {
	body := map[string]any{"allowed_mentions": map[string]any{"parse": []string{}}}
	if m.Content != "" {
		body["content"] = m.Content
	}
	if m.Embeds != nil {
		body["embeds"] = m.Embeds
	}
	if m.Components != nil {
		body["components"] = m.Components
	}
	if m.Private {
		body["flags"] = flags(m)
	}
	var about []any
	for n, f := range m.Files {
		about = append(about, map[string]any{"id": strconv.Itoa(n), "filename": f.Name, "description": clip(f.Alt, maxAlt)})
	}
	if about != nil {
		body["attachments"] = about
	}
	return body
}

// maxAlt is the longest description of an attachment.
const maxAlt = 1024

func flags(m Message) discordgo.MessageFlags {
	if m.Private {
		return discordgo.MessageFlagsEphemeral
	}
	return 0
}

// encode writes a body, with its files beside it if there are any, and returns
// its content type.
func encode(body any, files []File) (kind string, raw []byte, err error) {
	if body == nil {
		return "", nil, nil
	}
	bare, err := plainJSON(body)
	if err != nil {
		return "", nil, err
	}
	if len(files) == 0 {
		raw, err = json.Marshal(bare)
		return "application/json", raw, err
	}
	var beside []*discordgo.File
	for _, f := range files {
		beside = append(beside, &discordgo.File{Name: f.Name, ContentType: f.Type, Reader: bytes.NewReader(f.Data)})
	}
	return discordgo.MultipartBodyWithJSON(bare, beside)
}

// plainJSON is what v marshals to, without the nulls that the library writes for
// what is not there.
func plainJSON(v any) (bare any, err error) {
	raw, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	d := json.NewDecoder(bytes.NewReader(raw))
	d.UseNumber()
	err = d.Decode(&bare)
	return stripped(bare), err
}

func stripped(v any) any {
	switch v := v.(type) {
	case []any:
		for i := range v {
			v[i] = stripped(v[i])
		}
	case map[string]any:
		for name, x := range v {
			if x == nil {
				delete(v, name)
			} else {
				v[name] = stripped(x)
			}
		}
	}
	return v
}
