package page

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestWrap(t *testing.T) {
	tests := []struct{ reason, in, want string }{
		{"a line that fits stays, with its blanks", "  a    b", "  a    b"},
		{"breaks at blanks", "one two three four five six", "one two three four\nfive six"},
		{"goes on under its own indent", "  one two three four five", "  one two three four\n  five"},
		{"goes on under the text of a bullet", "- one two three four five", "- one two three four\n  five"},
		{"goes on under the text of a number", "1. one two three four five", "1. one two three\n   four five"},
		{"goes on behind its first column", "/a   one two three four", "/a   one two three\n     four"},
		{"an over-long word is cut", "abcdefghijklmnopqrstuvwxyz", "abcdefghijklmnopqrst\nuvwxyz"},
		{"wide characters count two columns", "水水水水水水水水水水 水", "水水水水水水水水水水\n水"},
		{"empty lines stay, trailing ones go", "a\n\nb\n\n", "a\n\nb"},
		{"terminal codes are taken out", "a\x1b[31mb", "a [31mb"},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			if got := Wrap(tt.in, 20, ""); got != tt.want {
				t.Errorf("got\n%s\nwant\n%s", got, tt.want)
			}
		})
	}
	if got, want := Wrap("one two three four\nfive", 20, "    "), "    one two three\n    four\n    five"; got != want {
		t.Errorf("with an indent: got\n%s\nwant\n%s", got, want)
	}
}

// No line is wider than asked, and no character other than blanks is lost.
func TestWrap_laws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.StringOf(rapid.SampledFrom([]rune("abc 水-.1 \né"))).Draw(t, "in")
		width := rapid.IntRange(4, 30).Draw(t, "width")
		got := Wrap(in, width, "")
		for l := range strings.Lines(got) {
			if w := columns.StringWidth(strings.TrimSuffix(l, "\n")); w > width {
				t.Fatalf("%q is %d columns wide, more than %d", l, w, width)
			}
		}
		if squeeze(got) != squeeze(in) {
			t.Fatalf("got %q from %q", got, in)
		}
	})
}

func squeeze(s string) string { return strings.Join(strings.Fields(s), "") }
