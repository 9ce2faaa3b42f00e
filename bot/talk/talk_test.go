package talk

import (
	"maps"
	"strings"
	"testing"
)

func TestRequest(t *testing.T) {
	tests := []struct {
		reason, in, path string
		options          map[string]string
		post             string
		asked            bool
	}{
		{reason: "a command", in: "/reading ammonia:0.5", path: "reading", options: map[string]string{"ammonia": "0.5"}, asked: true},
		{reason: "a sub-command with a quoted value", in: `/tank new name:"moss bowl" volume:60L`, path: "tank new",
			options: map[string]string{"name": "moss bowl", "volume": "60L"}, asked: true},
		{reason: "a post with readings", in: "!add day 12: NH3 .5", path: "add", post: "day 12: NH3 .5", asked: true},
		{reason: "capitals and blanks around", in: "  !ADD  NO2 2 ", path: "add", post: "NO2 2", asked: true},
		{reason: "a post of two lines", in: `!add NH3 0\nNO2 2`, path: "add", post: "NH3 0\nNO2 2", asked: true},
		{reason: "an empty post is for the command to refuse", in: "!add", path: "add", asked: true},
		{reason: "an ordinary post", in: "looks cloudy today"},
		{reason: "a word that only starts alike", in: "!address"},
		{reason: "a slash inside", in: "0/0.25/5 again"},
		{reason: "nothing", in: ""},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			r, asked, err := Request(tt.in)
			if err != nil {
				t.Fatal(err)
			}
			if asked != tt.asked || Path(r) != tt.path || r.Post != tt.post || !maps.Equal(r.Options, tt.options) {
				t.Errorf("got %t %q %q %q", asked, Path(r), r.Options, r.Post)
			}
		})
	}
}

func TestRequest_refused(t *testing.T) {
	for in, command := range map[string]string{
		`/Reading ammonia:"0.5`:                        "reading",
		`/reading ammonia:` + strings.Repeat("9", 1e5): "reading",
		"/": "",
		"/" + strings.Repeat("x", 1e5) + ` ammonia:"0.`: "",
	} {
		r, asked, err := Request(in)
		if err == nil || !asked || r.Command != command {
			t.Errorf("%.40q: got %q, %t, %v; want a refusal that names %q", in, r.Command, asked, err, command)
		}
	}
}

func TestNickname(t *testing.T) {
	for in, want := range map[string]string{
		"wren":                   "wren",
		`CLUB\Wren Reed`:         "Wren-Reed",
		"wren@example.org":       "wren-example-org",
		"":                       "keeper",
		"***":                    "keeper",
		"Åsa":                    "Åsa",
		"-x-":                    "x",
		strings.Repeat("a", 100): strings.Repeat("a", 64),
	} {
		got := Nickname(in)
		if got != want {
			t.Errorf("Nickname(%q) = %q, want %q", in, got, want)
		}
		if err := CheckName(got); err != nil {
			t.Errorf("Nickname(%q) can't be used: %v", in, err)
		}
	}
}

func TestCheckName(t *testing.T) {
	for _, bad := range []string{"", "a b", "a+b", "a@b", "a/b", "\x00", strings.Repeat("a", 65)} {
		if err := CheckName(bad); err == nil || !strings.Contains(err.Error(), "letters, digits") {
			t.Errorf("CheckName(%q) = %v, want an error that says what fits", bad, err)
		}
	}
}
