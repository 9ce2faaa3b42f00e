package post

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// sample is one invented post with its expected reading.
type sample struct {
	set, name, text string
	opt             Options
	want            map[string]string // kind -> "0.5", "20-40", "5+", "0.3 as-n"
	doubts          []string          // parts of doubtful snippets
	maybe           []string          // parts that may be doubtful as well
	day             string
	open            bool // known to be read wrongly
}

var kindNames = []string{"ammonia", "nitrite", "nitrate", "ph", "kh_dkh", "temp_c", "chlorine"}

// loadSamples reads the files of testdata/posts; the head of posts.txt tells the
// format.
func loadSamples(t testing.TB) (out []sample) {
	t.Helper()
	for _, file := range []string{"posts.txt", "blind.txt", "strangers.txt", "others.txt"} {
		raw, err := os.ReadFile(filepath.Join("..", "..", "testdata", "posts", file))
		if err != nil {
			t.Fatal(err)
		}
		for _, set := range strings.Split(string(raw), "\n##### SET ")[1:] {
			name, body, _ := strings.Cut(set, ":")
			for _, block := range strings.Split(body, "\n=== ")[1:] {
				out = append(out, parseSample(t, name, block))
			}
		}
	}
	return out
}

// unread are the sets that are counted only, since the reader is not yet meant to
// read them; a set leaves this list when its posts have been looked at.
var unread = []string{}

func parseSample(t testing.TB, set, block string) sample {
	t.Helper()
	head, body, _ := strings.Cut(block, "\n")
	i := strings.LastIndex(body, "\n---\n")
	if i < 0 {
		t.Fatalf("%s: no --- line", head)
	}
	s := sample{set: set, name: head, text: body[:i], want: map[string]string{}}
	if text, opts, ok := strings.Cut(s.text, "\noptions "); ok {
		s.text = text
		for _, o := range strings.Fields(opts) {
			switch k, v, _ := strings.Cut(o, "="); k {
			case "temp":
				s.opt.Temp = v
			case "kh":
				s.opt.KH = v
			case "scale":
				s.opt.Scale = v
			default:
				t.Fatalf("%s: unknown option %q", head, o)
			}
		}
	}
	for line := range strings.SplitSeq(strings.TrimSpace(body[i+5:]), "\n") {
		switch k, v, _ := strings.Cut(line, " "); {
		case k == "nothing":
		case k == "open":
			s.open = true
		case k == "doubt":
			s.doubts = append(s.doubts, v)
		case k == "maybe":
			s.maybe = append(s.maybe, v)
		case k == "day":
			s.day = v
		case slices.Contains(kindNames, k):
			s.want[k] = v
		default:
			t.Fatalf("%s: unknown line %q", head, line)
		}
	}
	return s
}

// told prints a found reading in the form of the samples.
func told(f Found) string {
	num := func(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }
	s := num(f.Low)
	switch {
	case f.Over:
		s += "+"
	case f.Low != f.High:
		s += "-" + num(f.High)
	}
	if f.AsN {
		s += " as-n"
	}
	return s
}

// misses tells in what a result differs from the sample's expectation.
func (s *sample) misses(r Result) (out []string) {
	got := map[string]string{}
	for _, f := range r.Found {
		got[f.Kind.String()] = told(f)
	}
	for _, k := range kindNames {
		if got[k] != s.want[k] {
			out = append(out, fmt.Sprintf("%s: got %q, want %q", k, got[k], s.want[k]))
		}
	}
	for _, d := range s.doubts {
		if !slices.ContainsFunc(r.Doubtful, func(g Doubt) bool { return strings.Contains(g.Text, d) }) {
			out = append(out, fmt.Sprintf("no doubt about %q", d))
		}
	}
	for _, g := range r.Doubtful {
		if !slices.ContainsFunc(slices.Concat(s.doubts, s.maybe), func(d string) bool { return strings.Contains(g.Text, d) }) {
			out = append(out, fmt.Sprintf("needless doubt about %q: %s", g.Text, g.Reason))
		}
	}
	day := ""
	if r.Day != nil {
		day = strconv.FormatFloat(*r.Day, 'f', -1, 64)
	}
	if day != s.day {
		out = append(out, fmt.Sprintf("day: got %q, want %q", day, s.day))
	}
	return out
}

// astray reports whether a value would be stored that the post does not give.
func (s *sample) astray(r Result) bool {
	return slices.ContainsFunc(r.Found, func(f Found) bool { return told(f) != s.want[f.Kind.String()] })
}

// TestPosts reads the invented posts, set by set, and prints how many are read
// as a moderator would.
func TestPosts(t *testing.T) {
	samples := loadSamples(t)
	if len(samples) < 300 {
		t.Fatalf("only %d posts found", len(samples))
	}
	for len(samples) > 0 {
		set, n, right, wrong := samples[0].set, 0, 0, 0
		for n < len(samples) && samples[n].set == set {
			s := &samples[n]
			n++
			r := Read(s.text, s.opt)
			m := s.misses(r)
			if len(m) == 0 {
				right++
			} else if len(r.Doubtful) == 0 && s.astray(r) {
				wrong++
			}
			if s.open && len(m) == 0 {
				t.Errorf("%s: %s is read by now: take its line \"open\" away", set, s.name)
			}
			if s.open || len(m) == 0 {
				continue
			}
			if slices.Contains(unread, set) {
				continue
			}
			t.Errorf("%s: %s\n  | %s\n  %s\n  found %v\n  doubtful %q\n  left %q", set, s.name,
				strings.ReplaceAll(s.text, "\n", "\n  | "), strings.Join(m, "\n  "), r.Found, r.Doubtful, r.Left)
		}
		t.Logf("%s: %d of %d posts as a moderator would, %d stored with a value that is not there", set, right, n, wrong)
		samples = samples[n:]
	}
}
