package discord

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ripen/commands"
)

// mention is what the platform could read as one.
var mention = regexp.MustCompile(`@[^\x{200b}\n]`)

// plain is the text of messages without their dress: what a person reads.
func plain(parts ...string) string {
	var lines []string
	for _, p := range parts {
		code := false
		for _, l := range strings.Split(p, "\n") {
			if l == fence {
				code = !code
				continue
			}
			if !code {
				l = unescape(strings.TrimPrefix(l, quote))
			}
			lines = append(lines, strings.ReplaceAll(l, apart, ""))
		}
	}
	return strings.Join(lines, "\n")
}

func unescape(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' && i+1 < len(s) {
			i++
		}
		b.WriteByte(s[i])
	}
	return b.String()
}

func TestSplitAtTheLimit(t *testing.T) {
	for _, c := range []struct {
		reason string
		lines  []line
		want   int // messages
	}{
		{"2000 fit", []line{{text: strings.Repeat("a", 2000)}}, 1},
		{"2001 do not", []line{{text: strings.Repeat("a", 2001)}}, 2},
		{"two lines of 2000 with their break", []line{{text: strings.Repeat("a", 1000)}, {text: strings.Repeat("b", 999)}}, 1},
		{"one more", []line{{text: strings.Repeat("a", 1000)}, {text: strings.Repeat("b", 1000)}}, 2},
		{"outside the basic plane counts two", []line{{text: strings.Repeat("🐟", 1000)}}, 1},
		{"one more", []line{{text: strings.Repeat("🐟", 1001)}}, 2},
		{"code with its fences", []line{{strings.Repeat("a", 1992), true}}, 1},
		{"one more", []line{{strings.Repeat("a", 1993), true}}, 2},
		{"a fence between", []line{{text: strings.Repeat("a", 1000)}, {strings.Repeat("b", 991), true}}, 1},
		{"one more", []line{{text: strings.Repeat("a", 1000)}, {strings.Repeat("b", 992), true}}, 2},
		{"nothing", nil, 0},
		{"blank lines only", []line{{}, {}}, 0},
	} {
		parts := split(c.lines, maxContent)
		if len(parts) != c.want {
			t.Errorf("%s: %d messages, want %d", c.reason, len(parts), c.want)
		}
		for _, p := range parts {
			if length(p) > maxContent || strings.Count(p, fence)%2 != 0 {
				t.Errorf("%s: a message of %d characters with %d fences", c.reason, length(p), strings.Count(p, fence))
			}
		}
	}
}

// TestSplitKeepsAll holds any text against its messages: within the limit, every
// block of code closed, nobody mentioned, and nothing lost but blanks and breaks.
func TestSplitKeepsAll(t *testing.T) {
	word := rapid.StringOfN(rapid.RuneFrom([]rune("ab @<>*_`\\|~#[]:/🐟é\n ")), 0, 60, -1)
	bare := func(s string) string { return strings.Join(strings.Fields(s), "") }
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(word, 0, 20).Draw(t, "text"), "")
		limit := rapid.IntRange(20, 200).Draw(t, "limit")
		parts := split(dress(text, nil), limit)
		for _, p := range parts {
			if length(p) > limit || strings.TrimSpace(p) == "" {
				t.Fatalf("a message of %d characters: %q", length(p), p)
			}
			if n := strings.Count("\n"+p+"\n", "\n"+fence+"\n"); n%2 != 0 || n != strings.Count(p, fence) {
				t.Fatalf("a block of code is left open in %q", p)
			}
			if mention.MatchString(p) {
				t.Fatalf("%q mentions", p)
			}
		}
		if got, want := bare(plain(parts...)), bare(text); got != want {
			t.Fatalf("reads %q, want %q", got, want)
		}
	})
}

func TestDressLeavesColumnsInOneWidth(t *testing.T) {
	text := "Head @all\n  a_b   1\n  c`d   2\nfoot *x*"
	want := "Head @" + apart + "all\n```\n  a_b   1\n  c`" + apart + "d   2\n```\nfoot \\*x\\*"
	if got := split(dress(text, nil), maxContent); len(got) != 1 || got[0] != want {
		t.Errorf("dressed as %q, want %q", got, want)
	}
	if got := plain(want); got != text {
		t.Errorf("reads %q, want %q", got, text)
	}
}

func TestDressQuotesIndentedWords(t *testing.T) {
	text := "1. Cold\n   - water at 19 *C*\n   Do: warm it\n\n  > a\n  b   c\nfoot"
	want := "1. Cold\n> - water at 19 \\*C\\*\n> Do: warm it\n\n```\n  > a\n  b   c\n```\nfoot"
	if got := split(dress(text, nil), maxContent); len(got) != 1 || got[0] != want {
		t.Errorf("dressed as %q, want %q", got, want)
	}
}

func TestCustomIDs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.StringOfN(rapid.RuneFrom([]rune("ab|:\"\\ “„é🐟")), 1, 10, -1).Draw(t, "value")
		r := commands.Request{Command: "tank", Sub: "new", Options: map[string]string{"name": value, "volume": "60L"}}
		id, ok := press{verbRun, wren, typed(r)}.id()
		if !ok {
			t.Fatalf("%q does not fit", id)
		}
		p, ok := readPress(id)
		got, err := p.request()
		if !ok || err != nil || p.verb != verbRun || p.owner != wren || typed(got) != typed(r) || got.Options["name"] != value {
			t.Fatalf("%q reads %+v, %v", id, got, err)
		}
	})
	if id, ok := (press{verbRun, wren, strings.Repeat("x", 77)}).id(); !ok || length(id) != 100 {
		t.Errorf("%d characters do not fit", length(id))
	}
	if _, ok := (press{verbRun, wren, strings.Repeat("x", 78)}).id(); ok {
		t.Error("101 characters fit")
	}
}
