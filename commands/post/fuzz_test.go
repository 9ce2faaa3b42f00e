package post

import (
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzRead holds that no text makes the reader panic, that the same text gives
// the same result, and that what is found is sound.
func FuzzRead(f *testing.F) {
	for _, s := range loadSamples(f) {
		f.Add(s.text)
	}
	for _, s := range hostile(40) {
		f.Add(s)
	}
	f.Add("ammonia \x00 0.5 \xff\xfe nitrite 1")
	f.Add("1. 25, temp 78F, 420, 1300, NO\x80\xff PO4")
	f.Fuzz(func(t *testing.T, text string) {
		r := Read(text, Options{})
		if again := Read(text, Options{}); !reflect.DeepEqual(r, again) {
			t.Fatalf("two readings of one text differ:\n%v\n%v", r, again)
		}
		last := Kind(-1)
		for _, f := range r.Found {
			if f.Kind <= last || f.Kind >= other {
				t.Errorf("kinds out of order or twice: %v", r.Found)
			}
			last = f.Kind
			l := limits[f.Kind]
			if math.IsNaN(f.Low) || f.Low > f.High || f.Low < l.low || f.High > l.high {
				t.Errorf("%v is %v to %v, outside %v", f.Kind, f.Low, f.High, l)
			}
			if f.Typed == "" {
				t.Errorf("%v has no text", f.Kind)
			}
		}
		for _, d := range append(r.Doubtful, r.Left...) {
			if d.Text == "" || d.Reason == "" || !utf8.ValidString(d.Text) || strings.ContainsAny(d.Text, "\n\x00") {
				t.Errorf("unfit doubt %q: %q", d.Text, d.Reason)
			}
		}
	})
}

// hostile are texts that make naive readers slow: n repeats each.
func hostile(n int) (out []string) {
	for _, s := range []string{
		"ammonia ", "0 ", "0,", "0/", "0-", "0.5 ammonia ", "ammonia 0 0 ", "am/", "am/ni/na 0/0/", "nitrite 4, not nitrate. ", "established 5 gallon ", "want its, ", "> ammonia?\n0\n", "off the chart top ", "a  0\n", "[", "[quote]", "[/quote]", "<", "<b", "~~", "||", "|", "| 0 ", "\n", "> ", "```", "*", "_", ":a", "&lt;", "http://",
		"ammonia nitrite nitrate\n", "0 0 0\n", "day 1: ", "day 1: 0/0/0\n", "yesterday ", "yesterday 0, ", "was 0 ", "from 0 to 0 ", "no ", "not ", "not tested ", "1/1/1 ", "?", "is 0 ammonia bad? ", "(", "0 (", "off the chart ", "9", "9.9.", "o", "0o", "until ammonia 0 and ", "𝟎", "½", "nitrotote ", "tap water ", "ammonia 0, now 0, ", "NH3 NO2\t", "NH3 NO2 NO3\n0 0 0\n", "a|b|", "at 5 ", "ammonia\n", "half a ", "or ", "maybe 0 ", "to ", "today: ",
	} {
		out = append(out, strings.Repeat(s, n))
	}
	return out
}

// BenchmarkHostile reads texts of 100 kB that repeat one hostile piece. Each
// must take well under a second.
func BenchmarkHostile(b *testing.B) {
	for _, s := range hostile(1) {
		text := strings.Repeat(s, 100_000/len(s))
		b.Run(strconv.Quote(s), func(b *testing.B) {
			for b.Loop() {
				Read(text, Options{})
			}
		})
	}
}
