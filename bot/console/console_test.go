package console

import (
	"bytes"
	"context"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"ripen/commands"
)

// recorder is a book that keeps what it was asked.
type recorder struct{ got []commands.Request }

func (r *recorder) Do(_ context.Context, q commands.Request) commands.Reply {
	r.got = append(r.got, q)
	if q.Options["ph"] == "15" {
		return commands.Reply{Text: "pH 15 is too high", Err: &commands.Error{Code: "range"}}
	}
	return commands.Reply{OK: true, Text: strings.Repeat("noted ", 20), Files: []commands.File{{Name: "a.txt", Data: []byte("12")}}}
}

func (r *recorder) Specs() []commands.Spec {
	return []commands.Spec{{Name: "reading"}, {Name: "add", Post: true}}
}

var noon = time.Date(2026, 3, 1, 13, 0, 0, 0, time.FixedZone("", 3600))

// chat runs a console on what is typed through a pipe.
func chat(t *testing.T, in io.Reader, tanks ...string) (string, []commands.Request, error) {
	t.Helper()
	var b recorder
	var out bytes.Buffer
	c := Console{
		Book: &b, Input: NewPlain(in, &out, true), Output: &out, Now: func() time.Time { return noon },
		Club: "club", Member: "wren", Moderator: true, Session: "s",
		Tanks: func(context.Context) ([]string, error) { return tanks, nil },
	}
	err := c.Run(t.Context())
	return out.String(), b.got, err
}

func TestConsole_request(t *testing.T) {
	out, got, err := chat(t, strings.NewReader("/reading ammonia:2\n\n!add NH3 1\n/reading ammonia:3"))
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 3 {
		t.Fatalf("got %d requests, want 3; the last line has no line end", len(got))
	}
	q := got[0]
	if q.Club != "club" || q.Member != "wren" || !q.Moderator || q.Command != "reading" || q.Options["ammonia"] != "2" || !q.At.Equal(noon) || q.At.Location() != time.UTC {
		t.Errorf("got %+v", q)
	}
	if got[1].Post != "NH3 1" || got[2].Options["ammonia"] != "3" {
		t.Errorf("got %+v", got[1:])
	}
	if got[0].Key == got[2].Key || got[0].Key == "" {
		t.Errorf("keys %q and %q; want each line to have its own", got[0].Key, got[2].Key)
	}
	if !strings.HasSuffix(out, "\nwren> \nGoodbye.\n") {
		t.Errorf("the chat ends with %q", out[max(0, len(out)-40):])
	}
}

func TestConsole_post(t *testing.T) {
	tests := []struct{ reason, in, want string }{
		{"an empty line ends it", "!add\nday 3\nNH3 1\n\n/help", "day 3\nNH3 1"},
		{"the end of the input ends it", "!add\nday 3\nNH3 1", "day 3\nNH3 1"},
		{"nothing at all is for the command to refuse", "!add\n\n/help", ""},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			_, got, err := chat(t, strings.NewReader(tt.in))
			if err != nil || len(got) == 0 || got[0].Command != "add" || got[0].Post != tt.want {
				t.Errorf("got %+v, %v; want the post %q", got, err, tt.want)
			}
		})
	}
}

func TestConsole_says(t *testing.T) {
	tests := []struct {
		reason, in string
		says       string
		asked      int
	}{
		{"a refusal", "/reading ph:15", "Not done: pH 15 is too high", 1},
		{"a line that can't be taken apart", `/reading ph:"7`, "Not done: the quote", 0},
		{"an attachment", "/help", "[a.txt, 2 bytes]", 1},
		{"a command without its slash", "reading ammonia 2", "did you mean /reading?", 0},
		{"a post without !add", "ammonia 2 today", "!add ammonia 2 today", 0},
		{"small talk", "hello there", "/help lists them", 0},
		{"a control character", "/reading\x00", "Not done: control character", 0},
		{"invalid UTF-8", "/reading \xff", "Not done: not valid UTF-8", 0},
		{"a control character inside a post drops the post", "!add\nNH3\x001", "Not done: control character", 0},
		{"a word to leave", "quit\n/help", "Goodbye.", 0},
		{"the same with a slash", "/exit\n/help", "Goodbye.", 0},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			out, got, err := chat(t, strings.NewReader(tt.in))
			if err != nil || !strings.Contains(out, tt.says) || len(got) != tt.asked {
				t.Errorf("got %d requests, %v, and\n%s\nwant %d, and %q", len(got), err, out, tt.asked, tt.says)
			}
			for l := range strings.Lines(out) {
				if n := len([]rune(strings.TrimSuffix(l, "\n"))); n > 80 {
					t.Errorf("%d columns: %s", n, l)
				}
			}
		})
	}
}

func TestConsole_welcome(t *testing.T) {
	out, _, _ := chat(t, strings.NewReader(""))
	if !strings.Contains(out, "Type this first") || !strings.Contains(out, "/tank new") || !strings.Contains(out, "wren, a moderator") {
		t.Errorf("a newcomer reads\n%s", out)
	}
	out, _, _ = chat(t, strings.NewReader(""), "a", "b", "c", "d", "e", "f", "g", "h")
	if strings.Contains(out, "Type this first") || !strings.Contains(out, "a, b, c, d, e, f and 2 more") {
		t.Errorf("someone with eight tanks reads\n%s", out)
	}
}

func TestConsole_ends(t *testing.T) {
	broken := errors.New("keyboard gone")
	if _, _, err := chat(t, iotest.ErrReader(broken)); !errors.Is(err, broken) {
		t.Errorf("a broken input: got %v", err)
	}
	for reason, in := range map[string]string{"in a command": "", "in a post": "!add\n"} {
		ctx, cancel := context.WithCancel(t.Context())
		r, w := io.Pipe() // never ends
		go func() {
			io.WriteString(w, in)
			cancel()
		}()
		c := Console{
			Book: &recorder{}, Input: NewPlain(r, io.Discard, false), Output: io.Discard, Now: time.Now,
			Tanks: func(context.Context) ([]string, error) { return nil, nil },
		}
		if err := c.Run(ctx); err != nil {
			t.Errorf("interrupted %s: got %v, want a clean end", reason, err)
		}
		w.Close()
	}
}

// TestConsole_pictures: without a place to save them no pictures are asked for; with
// one, the chat says where they are, or why they are not.
func TestConsole_pictures(t *testing.T) {
	for _, tt := range []struct {
		reason, says string
		plain        bool
		save         func(commands.File) (string, error)
	}{
		{"nobody asked", "noted", true, nil},
		{"saved", "Saved: shelf/a.txt", false, func(f commands.File) (string, error) { return "shelf/" + f.Name, nil }},
		{"the disk is full", "could not be saved: no space", false, func(commands.File) (string, error) { return "", errors.New("no space") }},
	} {
		var b recorder
		var out strings.Builder
		c := Console{
			Book: &b, Input: NewPlain(strings.NewReader("/chart\n"), &out, true), Output: &out, Now: func() time.Time { return time.Time{} },
			Club: "club", Member: "wren", Session: "s", Tanks: func(context.Context) ([]string, error) { return nil, nil }, Save: tt.save,
		}
		if err := c.Run(t.Context()); err != nil {
			t.Fatal(err)
		}
		if len(b.got) != 1 || b.got[0].Plain != tt.plain || !strings.Contains(out.String(), tt.says) || tt.save == nil && strings.Contains(out.String(), "aved") {
			t.Errorf("%s: asked %+v, said %q", tt.reason, b.got, out.String())
		}
	}
}
