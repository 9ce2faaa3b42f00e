package replay

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"time"

	"ripen/bot/page"
	"ripen/bot/talk"
	"ripen/commands"
)

// answer is one line of the JSON form. Its keys stand in the order of the
// command book.
type answer struct {
	At      string          `json:"at"`
	Member  string          `json:"member"`
	Command string          `json:"command"`
	OK      bool            `json:"ok"`
	Private bool            `json:"private"`
	Text    string          `json:"text"`
	Data    any             `json:"data"`
	Files   []file          `json:"files"`
	Error   *commands.Error `json:"error,omitempty"`
}

type file struct {
	Name  string `json:"name"`
	Bytes int    `json:"bytes"`
}

// JSON returns a function for Run that writes one object a line to w for every
// command. Ordinary posts have no answer.
func JSON(w io.Writer) func(Exchange) error {
	return func(x Exchange) error {
		if !x.Asked {
			return nil
		}
		b, err := encode(x)
		if err != nil {
			return fmt.Errorf("writing the answer to line %d as JSON: %w", x.Line, err)
		}
		_, err = w.Write(b)
		return err
	}
}

func encode(x Exchange) ([]byte, error) {
	a := answer{
		Member: x.Request.Member, Command: talk.Path(x.Request),
		OK: x.Reply.OK, Private: x.Reply.Private, Text: x.Reply.Text,
		Data: x.Reply.Data, Files: []file{}, Error: x.Reply.Err,
	}
	if !x.At.IsZero() {
		a.At = x.At.Format(time.RFC3339Nano)
	}
	if a.Data == nil {
		a.Data = struct{}{}
	}
	for _, f := range x.Reply.Files {
		a.Files = append(a.Files, file{f.Name, len(f.Data)})
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(a); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// Transcript returns a function for Run that writes what was typed and, set in
// under it, the reply, for people to read.
func Transcript(w io.Writer) func(Exchange) error {
	first := true
	return func(x Exchange) error {
		text := page.Typed(x.Typed) + "\n"
		if !first {
			text = "\n" + text
		}
		first = false
		if x.Asked {
			text += page.Reply(x.Reply, "  ") + "\n"
		}
		_, err := io.WriteString(w, text)
		return err
	}
}
