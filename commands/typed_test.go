package commands

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// typedLine is a line of testdata/typed/typed.txt with what it has to come to.
type typedLine struct {
	line  string
	want  [][2]string // path in the data, value
	about string      // the option of a refusal
	parts []string    // what its words hold
}

func typedLines(t *testing.T) (out []typedLine) {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("..", "testdata", "typed", "typed.txt"))
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(raw)) {
		line = strings.TrimRight(line, "\n")
		switch {
		case strings.HasPrefix(line, "/"):
			out = append(out, typedLine{line: line})
		case strings.HasPrefix(line, "= "):
			path, value, _ := strings.Cut(line[2:], " ")
			l := &out[len(out)-1]
			l.want = append(l.want, [2]string{path, value})
		case strings.HasPrefix(line, "! "):
			l := &out[len(out)-1]
			var parts string
			l.about, parts, _ = strings.Cut(line[2:], " ")
			l.parts = strings.Split(parts, " | ")
		}
	}
	return out
}

// TestTyped holds that odd but reasonable values are understood, and that others
// are refused with the value, the range and what to try, and change nothing.
func TestTyped(t *testing.T) {
	taken, refused := 0, 0
	for _, l := range typedLines(t) {
		st := newStore(t)
		b := New(st, WithAdviser(fakeAdviser{}))
		must(t, b, "2026-03-01T09:00:00Z", `/tank new name:"moss bowl" volume:60L ph:7.4 kh:2dKH`)
		before := dump(t, st, "wren")
		reply := tell(t, b, "2026-03-13T20:30:00Z", l.line)
		switch {
		case l.about == "" && reply.OK:
			taken++
			for _, w := range l.want {
				if got := partOf(t, reply.Data, w[0]); got != w[1] {
					t.Errorf("%s: %s is %s, want %s", l.line, w[0], got, w[1])
				}
			}
		case l.about == "":
			t.Errorf("%s is refused: %s", l.line, reply.Text)
		case reply.OK:
			t.Errorf("%s is taken: %s", l.line, reply.Text)
		default:
			refused++
			if reply.Err.Option != l.about {
				t.Errorf("%s: the refusal is about %q, want %q: %s", l.line, reply.Err.Option, l.about, reply.Text)
			}
			for _, p := range l.parts {
				if !strings.Contains(reply.Text, p) {
					t.Errorf("%s: the refusal lacks %q: %s", l.line, p, reply.Text)
				}
			}
			if v := typedValue(l.line, l.about); v != "" && !strings.Contains(reply.Text, v) {
				t.Errorf("%s: the refusal does not name %q: %s", l.line, v, reply.Text)
			}
			if after := dump(t, st, "wren"); after != before {
				t.Errorf("%s was refused and changed the record", l.line)
			}
		}
	}
	t.Logf("%d taken, %d refused", taken, refused)
}

// typedValue is what the line gives for an option.
func typedValue(line, option string) string {
	_, _, options, err := ParseLine(line)
	if err != nil {
		return ""
	}
	return options[option]
}

// partOf is a part of a result as JSON, by its path.
func partOf(t *testing.T, data any, path string) string {
	t.Helper()
	raw, err := json.Marshal(data)
	if err != nil {
		t.Fatal(err)
	}
	for name := range strings.SplitSeq(path, ".") {
		m := map[string]json.RawMessage{}
		if json.Unmarshal(raw, &m) != nil || m[name] == nil {
			return "null"
		}
		raw = m[name]
	}
	return string(raw)
}
