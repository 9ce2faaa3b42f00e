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
	name, text string
	opt        Options
	want       map[string]string // kind -> "0.5", "20-40", "5+", "0.3 as-n"
	doubts     []string          // parts of doubtful snippets
	day        string
}

func loadSamples(t testing.TB, file string) (out []sample) {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("..", "..", "testdata", "posts", file))
	if err != nil {
		t.Fatal(err)
	}
	for _, block := range strings.Split("\n"+string(raw), "\n=== ")[1:] {
		head, body, _ := strings.Cut(block, "\n")
		i := strings.LastIndex(body, "\n---\n")
		if i < 0 {
			t.Fatalf("%s: no --- line", head)
		}
		s := sample{name: head, want: map[string]string{}}
		s.text = body[:i]
		if before, opts, ok := strings.Cut(s.text, "\noptions "); ok {
			s.text = before
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
		for _, line := range strings.Split(strings.TrimSpace(body[i+5:]), "\n") {
			k, v, _ := strings.Cut(strings.TrimSpace(line), " ")
			switch k {
			case "", "nothing":
			case "doubt":
				s.doubts = append(s.doubts, v)
			case "day":
				s.day = v
			case "ammonia", "nitrite", "nitrate", "ph", "kh_dkh", "temp_c", "chlorine":
				s.want[k] = v
			default:
				t.Fatalf("%s: unknown line %q", head, line)
			}
		}
		out = append(out, s)
	}
	return out
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

// misses compares a result with a sample's expectation.
func (s *sample) misses(r Result) (out []string) {
	got := map[string]string{}
	for _, f := range r.Found {
		got[f.Kind.String()] = told(f)
	}
	for _, k := range []string{"ammonia", "nitrite", "nitrate", "ph", "kh_dkh", "temp_c", "chlorine"} {
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
		if !slices.ContainsFunc(s.doubts, func(d string) bool { return strings.Contains(g.Text, d) }) {
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

func runSamples(t *testing.T, file string) {
	samples := loadSamples(t, file)
	missed := 0
	for _, s := range samples {
		r := Read(s.text, s.opt)
		if m := s.misses(r); len(m) > 0 {
			missed++
			if os.Getenv("POSTS_QUIET") != "" {
				continue
			}
			t.Errorf("%s\n  | %s\n  %s\n  found %v\n  doubts %q\n  left %q", s.name, strings.ReplaceAll(s.text, "\n", "\n  | "), strings.Join(m, "\n  "), r.Found, r.Doubtful, r.Left)
		}
	}
	t.Logf("%s: %d of %d posts read as a moderator would", file, len(samples)-missed, len(samples))
}

var sampleFiles = []string{"dev.txt", "held-out.txt", "second.txt", "third.txt", "fourth.txt"}

func TestDev(t *testing.T)     { runSamples(t, "dev.txt") }
func TestHeldOut(t *testing.T) { runSamples(t, "held-out.txt") }
func TestSecond(t *testing.T)  { runSamples(t, "second.txt") }
func TestThird(t *testing.T)   { runSamples(t, "third.txt") }
func TestFourth(t *testing.T)  { runSamples(t, "fourth.txt") }
