package replay

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"ripen/commands"
)

// recorder is a book that keeps what it was asked and answers with reply.
type recorder struct {
	got   []commands.Request
	reply commands.Reply
}

func (r *recorder) Do(_ context.Context, q commands.Request) commands.Reply {
	r.got = append(r.got, q)
	return r.reply
}

// play runs a script and returns what show functions wrote.
func play(t *testing.T, b Book, script string) (jsonOut, transcript string) {
	t.Helper()
	var j, p bytes.Buffer
	for out, show := range map[*bytes.Buffer]func(Exchange) error{&j: JSON(&j), &p: Transcript(&p)} {
		if err := Run(t.Context(), b, "club", strings.NewReader(script), show); err != nil {
			t.Fatalf("%v after %q", err, out)
		}
	}
	return j.String(), p.String()
}

func TestRun_request(t *testing.T) {
	var b recorder
	show := func(Exchange) error { return nil }
	script := "\ufeff# a comment\r\n\r\n 2026-03-01T11:00:00+02:00\t@wren+moderator  /Tank NEW name:\"moss bowl\"\r\n2026-03-02T09:00:00Z @Åsa_1 !add a\\nb"
	if err := Run(t.Context(), &b, "club", strings.NewReader(script), show); err != nil {
		t.Fatal(err)
	}
	if len(b.got) != 2 {
		t.Fatalf("got %d requests, want 2", len(b.got))
	}
	q := b.got[0]
	if at := q.At.Format("2006-01-02T15:04:05Z07:00"); at != "2026-03-01T09:00:00Z" {
		t.Errorf("the clock is %s, want it in UTC", at)
	}
	if q.Club != "club" || q.Member != "wren" || !q.Moderator || q.Command != "tank" || q.Sub != "new" || q.Options["name"] != "moss bowl" {
		t.Errorf("got %+v", q)
	}
	if q := b.got[1]; q.Member != "Åsa_1" || q.Moderator || q.Command != "add" || q.Post != "a\nb" {
		t.Errorf("got %+v", q)
	}
}

func TestRun_key(t *testing.T) {
	tests := []struct {
		reason, a, b string
		same         bool
	}{
		{"the same line again", "2026-03-01T09:00:00Z @wren /undo", "2026-03-01T09:00:00Z @wren /undo", true},
		{"blanks between the parts don't count", "2026-03-01T09:00:00Z @wren /undo", " 2026-03-01T09:00:00Z   @wren  /undo ", true},
		{"the same moment in another zone", "2026-03-01T09:00:00Z @wren /undo", "2026-03-01T10:00:00+01:00 @wren /undo", true},
		{"another second", "2026-03-01T09:00:00Z @wren /undo", "2026-03-01T09:00:01Z @wren /undo", false},
		{"another member", "2026-03-01T09:00:00Z @wren /undo", "2026-03-01T09:00:00Z @tern /undo", false},
		{"another text", "2026-03-01T09:00:00Z @wren /undo", "2026-03-01T09:00:00Z @wren /why", false},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			var b recorder
			err := Run(t.Context(), &b, "club", strings.NewReader(tt.a+"\n"+tt.b), func(Exchange) error { return nil })
			if err != nil || len(b.got) != 2 {
				t.Fatalf("got %d requests, %v", len(b.got), err)
			}
			if same := b.got[0].Key == b.got[1].Key; same != tt.same || b.got[0].Key == "" {
				t.Errorf("same key: %t, want %t (%q)", same, tt.same, b.got[0].Key)
			}
		})
	}
}

func TestRun_badLines(t *testing.T) {
	tests := []struct{ reason, in, code, says string }{
		{"no time", "@wren /undo", "syntax", `"@wren" is not a time`},
		{"a date is no time", "2026-03-01 @wren /undo", "syntax", `"2026-03-01" is not a time`},
		{"a day that does not exist", "2026-02-30T09:00:00Z @wren /undo", "syntax", "2026-02-30T09:00:00Z"},
		{"a year that is a slip", "0026-03-01T09:00:00Z @wren /undo", "syntax", "years 1970 to 2199"},
		{"no member", "2026-03-01T09:00:00Z /undo", "syntax", `"/undo" stands there`},
		{"an empty nickname", "2026-03-01T09:00:00Z @ /undo", "syntax", "1 to 64 letters"},
		{"a nickname with other signs", "2026-03-01T09:00:00Z @w.ren /undo", "syntax", `"w.ren"`},
		{"an unknown right", "2026-03-01T09:00:00Z @wren+owner /undo", "syntax", `"+owner" is not known`},
		{"nothing said", "2026-03-01T09:00:00Z @wren", "syntax", "nothing is said"},
		{"only a time", "2026-03-01T09:00:00Z", "syntax", "a member was expected"},
		{"an open quote", `2026-03-01T09:00:00Z @wren /tank new name:"moss`, "syntax", "never closed"},
		{"a value of 100 kB", "2026-03-01T09:00:00Z @wren /tank new name:" + strings.Repeat("x", 1e5), "too-long", "at most"},
		{"a line of 9 MB", "2026-03-01T09:00:00Z @wren " + strings.Repeat("x", 9<<20), "too-long", "8 MB"},
		{"NUL", "2026-03-01T09:00:00Z @wren /tank\x00new", "bad-text", "U+0000"},
		{"terminal code", "2026-03-01T09:00:00Z @wren hello \x1b[2J", "bad-text", "U+001B"},
		{"invalid UTF-8", "2026-03-01T09:00:00Z @wren /tank new name:\xff", "bad-text", "0xFF"},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			b := recorder{reply: commands.Reply{OK: true, Text: "fine"}}
			out, transcript := play(t, &b, "2026-03-01T09:00:00Z @wren /help\n"+tt.in+"\n2026-03-01T09:00:00Z @wren /help\n")
			if len(b.got) != 4 {
				t.Errorf("the book was asked %d times, want twice in each of two runs", len(b.got))
			}
			objects := strings.Split(strings.TrimSpace(out), "\n")
			if len(objects) != 3 {
				t.Fatalf("got %d objects, want 3:\n%s", len(objects), out)
			}
			var a answer
			if err := json.Unmarshal([]byte(objects[1]), &a); err != nil {
				t.Fatal(err)
			}
			if a.OK || a.Error == nil || a.Error.Code != tt.code || !strings.Contains(a.Text, tt.says) {
				t.Errorf("got %s, want code %q and text with %q", objects[1], tt.code, tt.says)
			}
			if strings.ContainsFunc(transcript, func(c rune) bool { return c < ' ' && c != '\n' }) || len(transcript) > 4000 {
				t.Errorf("the transcript shows what a terminal acts on, or all of a long line: %d bytes", len(transcript))
			}
		})
	}
}

func TestJSON(t *testing.T) {
	data := struct {
		PH float64 `json:"ph"`
	}{7.5}
	tests := []struct {
		reason string
		line   string
		reply  commands.Reply
		want   string
	}{
		{"an answer, in the order of the command book, without HTML escapes", "2026-03-01T09:00:00Z @wren /tank new",
			commands.Reply{OK: true, Private: true, Text: "pH < 8 & KH > 3\nfine", Data: data, Files: []commands.File{{Name: "a.png", Data: []byte("1234")}}},
			`{"at":"2026-03-01T09:00:00Z","member":"wren","command":"tank new","ok":true,"private":true,"text":"pH < 8 & KH > 3\nfine","data":{"ph":7.5},"files":[{"name":"a.png","bytes":4}]}`},
		{"a refusal", "2026-03-01T09:00:00.5+01:00 @wren /reading ph:15",
			commands.Reply{Text: "no", Err: &commands.Error{Code: "range", Message: "no", Option: "ph"}},
			`{"at":"2026-03-01T09:00:00.5+01:00","member":"wren","command":"reading","ok":false,"private":false,"text":"no","data":{},"files":[],"error":{"code":"range","message":"no","option":"ph"}}`},
		{"a line that is no line", "when?",
			commands.Reply{},
			`{"at":"","member":"","command":"","ok":false,"private":true,"text":"line 1: \"when?\" is not a time: start the line with one such as 2026-03-01T09:00:00Z (RFC 3339)","data":{},"files":[],"error":{"code":"syntax","message":"line 1: \"when?\" is not a time: start the line with one such as 2026-03-01T09:00:00Z (RFC 3339)"}}`},
		{"an ordinary post has no answer", "2026-03-01T09:00:00Z @wren looks cloudy", commands.Reply{}, ``},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			got, _ := play(t, &recorder{reply: tt.reply}, tt.line)
			if strings.TrimSuffix(got, "\n") != tt.want {
				t.Errorf("got\n%s\nwant\n%s", got, tt.want)
			}
		})
	}
}

func TestTranscript(t *testing.T) {
	b := recorder{reply: commands.Reply{Text: "pH 15 is outside 3.5 to 10.5", Err: &commands.Error{}}}
	_, got := play(t, &b, "# start\n2026-03-01T09:00:00Z @wren /reading ph:15\n2026-03-01T09:05:00Z @tern oh")
	want := "2026-03-01T09:00:00Z @wren /reading ph:15\n  Not done: pH 15 is outside 3.5 to 10.5\n\n2026-03-01T09:05:00Z @tern oh\n"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestRun_ends(t *testing.T) {
	const line = "2026-03-01T09:00:00Z @wren /help\n"
	broken := errors.New("disk gone")
	none := func(Exchange) error { return nil }

	err := Run(t.Context(), &recorder{}, "club", io.MultiReader(strings.NewReader(line), iotest.ErrReader(broken)), none)
	if !errors.Is(err, ErrScript) || !errors.Is(err, broken) {
		t.Errorf("an unreadable script: got %v", err)
	}

	b := recorder{reply: commands.Reply{Err: &commands.Error{Code: commands.CodeDatabase}}}
	shown := 0
	err = Run(t.Context(), &b, "club", strings.NewReader(line+line), func(Exchange) error { shown++; return nil })
	if !errors.Is(err, ErrDatabase) || shown != 1 {
		t.Errorf("a failing database: got %v after %d answers, want it shown once", err, shown)
	}

	full := errors.New("pipe closed")
	if err := Run(t.Context(), &recorder{}, "club", strings.NewReader(line), func(Exchange) error { return full }); !errors.Is(err, full) {
		t.Errorf("an output that can't be written: got %v", err)
	}

	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := Run(ctx, &recorder{}, "club", strings.NewReader(line), none); !errors.Is(err, context.Canceled) {
		t.Errorf("interrupted: got %v", err)
	}
}
