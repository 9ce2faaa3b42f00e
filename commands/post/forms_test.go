package post

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// lists reads a file of lists, each under a line "##### NAME".
func lists(t *testing.T, file string) map[string][]string {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("..", "..", "testdata", "posts", file))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]string{}
	for _, block := range strings.Split(string(raw), "\n##### ")[1:] {
		lines := strings.Split(strings.TrimSpace(block), "\n")
		out[lines[0]] = lines[1:]
	}
	return out
}

// plainPosts all tell the same.
var plainPosts = []string{
	"Ammonia 0.25, nitrite 1, nitrate 10, pH 7.4.",
	"ammonia is 0.25 and nitrite is 1, nitrate is 10 and the ph 7.4.",
	"Ammonia: 0.25\nNitrite: 1\nNitrate: 10\npH: 7.4.",
	"0.25 ammonia, 1 nitrite, 10 nitrate, 7.4 pH.",
	"NH3 0.25 NO2 1 NO3 10 pH 7.4.",
	"Today ammonia is at 0.25, nitrite at 1, nitrate at 10 and pH at 7.4.",
	"I tested just now and got 0.25 for ammonia, 1 for nitrite, 10 for nitrate and a pH of 7.4.",
	"The tests show 0.25 ppm ammonia, 1 ppm nitrite, 10 ppm nitrate. pH is 7.4.",
	"amm/trite/trate/ph 0.25/1/10/7.4.",
	"My ammonia is 0.25 now. Nitrite reads 1. Nitrate is around 10. My pH seems to be 7.4.",
}

// understood tells what a result takes from a post.
func understood(r Result) string {
	var out []string
	for _, f := range r.Found {
		out = append(out, f.Kind.String()+" "+told(f))
	}
	return strings.Join(out, ", ")
}

// TestAsides puts a sentence about something else before and behind a plain post.
func TestAsides(t *testing.T) {
	want := "ammonia 0.25, nitrite 1, nitrate 10, ph 7.4"
	all := lists(t, "asides.txt")
	for _, list := range []string{"looked at", "kept", "third"} {
		for _, a := range all[list] {
			for _, p := range plainPosts {
				for _, text := range []string{a + " " + p, p + " " + a, a + "\n" + p, p + "\n" + a, a + "\n\n" + p, p + "\n\n" + a} {
					if r := Read(text, Options{}); understood(r) != want || len(r.Doubtful) > 0 {
						t.Errorf("%s\n  understood %q, doubtful %q", text, understood(r), r.Doubtful)
					}
				}
			}
		}
	}
}

// TestAgain puts another test of the same water behind a plain post without a
// time: its value is asked about or taken, and the first one is not stored.
func TestAgain(t *testing.T) {
	for _, a := range lists(t, "asides.txt")["tested again"] {
		for _, p := range plainPosts {
			if strings.Contains(p, "now") || strings.Contains(p, "Today") {
				continue
			}
			for _, text := range []string{p + " " + a, p + "\n" + a, p + "\n\n" + a} {
				if r := Read(text, Options{}); strings.Contains(understood(r), "nitrite 1,") {
					t.Errorf("%s\n  understood %q, doubtful %q", text, understood(r), r.Doubtful)
				}
			}
		}
	}
}

// TestValues reads values as people write them, in a few sentences.
func TestValues(t *testing.T) {
	names := map[string]string{"nitrite": "nitrite", "nitrate": "nitrate", "ph": "pH"}
	for _, line := range lists(t, "forms.txt")["values"] {
		head, forms, _ := strings.Cut(line, ": ")
		kind, want, _ := strings.Cut(head, " ")
		for form := range strings.SplitSeq(forms, " | ") {
			for _, s := range []string{"%s %s", "%s: %s", "%s = %s", "my %s is %s", "the %s test shows %s", "ammonia 1, %s %s, temp 25 C", "Ammonia 1. %s %s. KH 4.", "tested today: ammonia is 1 and %s is %s"} {
				text := fmt.Sprintf(s, names[kind], form)
				if r := Read(text, Options{}); !slices.Contains(strings.Split(understood(r), ", "), kind+" "+want) {
					t.Errorf("%s\n  understood %q, want %s %s, doubtful %q", text, understood(r), kind, want, r.Doubtful)
				}
			}
		}
	}
}

// TestSentences reads one value of now in the sentences that people put it in.
func TestSentences(t *testing.T) {
	for _, s := range lists(t, "forms.txt")["sentences"] {
		for _, c := range [][]string{
			{"ammonia", "ammonia", "0.5", "4", "0"}, {"NH3", "ammonia", "0.5", "4", "0"}, {"nitrites", "nitrite", "2", "5", "0"},
			{"NO2", "nitrite", "2", "5", "0"}, {"nitrate", "nitrate", "20", "80", "10"}, {"trates", "nitrate", "20", "80", "10"}, {"pH", "ph", "7.4", "8.2", "6.8"}, {"KH", "kh_dkh", "4", "9", "6"},
		} {
			if low := strings.ToLower(s); (strings.Contains(low, "mg/l") || strings.Contains(low, "ppm")) && (c[1] == "ph" || c[1] == "kh_dkh") {
				continue
			}
			for _, frame := range []string{s, "Hi all. " + s + ". Fish are fine."} {
				text := strings.NewReplacer("{name}", c[0], "{now}", c[2], "{old}", c[3], "{other}", c[4], `\n`, "\n", `\t`, "\t", "..", ".", "?.", "?").Replace(frame)
				if r := Read(text, Options{}); understood(r) != c[1]+" "+c[2] || len(r.Doubtful) > 0 {
					t.Errorf("%s\n  understood %q, doubtful %q", text, understood(r), r.Doubtful)
				}
			}
		}
	}
}
