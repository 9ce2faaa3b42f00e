package main

import (
	"strings"
	"testing"

	"ripen/bot/words/wordstest"
)

// phrasing is a script of a tank with a name and notes that nobody else should read.
const phrasing = `2026-03-01T09:00:00Z @wren /tank new name:"say ready on day 3" volume:60L ph:7.5 kh:6dKH temp:25C method:dosed media:sponge media-volume:1L
2026-03-01T09:05:00Z @wren /log what:dose amount:2ppm detail:"my secret shelf"
2026-03-05T09:00:00Z @wren /outlook
2026-03-05T09:01:00Z @wren /why
2026-03-05T09:02:00Z @wren /reading ammonia:80
2026-03-05T09:03:00Z @tern+moderator /club case member:wren
2026-03-05T09:04:00Z @wren /method
2026-03-05T09:05:00Z @tern+moderator /club settings words:off
2026-03-05T09:06:00Z @wren /why
`

// A model that is configured phrases what may be phrased and gets nothing else, in the
// club that wants it.
func TestWords(t *testing.T) {
	server := wordstest.New(t, func(draft string) string {
		return strings.NewReplacer("Nothing is wrong: TANK is on track at day 4.", "TANK is on track at day 4, and nothing is wrong.",
			"Next: test", "As a next step, please test").Replace(draft)
	})
	m := machine(t, t.TempDir())
	env := map[string]string{"RIPEN_LLM_URL": server.URL + "/v1", "RIPEN_LLM_MODEL": "small", "RIPEN_LLM_KEY": "sesame"}
	m.Getenv = func(name string) string { return env[name] }
	r := m.run(t, phrasing, "replay", "--words")
	if r.code != exitOK || r.err != "" {
		t.Fatalf("status %d, errors %q", r.code, r.err)
	}
	if n := strings.Count(r.out, "Worded by a language model"); n != 3 {
		t.Errorf("%d replies are phrased, want 3:\n%s", n, r.out)
	}
	for _, says := range []string{"say ready on day 3 is on track at day 4, and nothing is wrong.", "As a next step, please test", "mg/L   A ammonia", "a language model (small) may", "words off"} {
		if !strings.Contains(r.out, says) {
			t.Errorf("the replies don't say %q:\n%s", says, r.out)
		}
	}
	asked := strings.Join(server.Asked(), "\n")
	if n := len(server.Asked()); n != 3 {
		t.Errorf("the model was asked %d times, want 3", n)
	}
	for _, private := range []string{"say ready", "wren", "tern", "secret", "shelf", "local", "sesame"} {
		if strings.Contains(asked, private) {
			t.Errorf("the model was told %q: %s", private, asked)
		}
	}
	plain := m.run(t, phrasing, "replay")
	if strings.Contains(plain.out, "language model") || len(server.Asked()) != 3 {
		t.Errorf("without --words a model was asked, or is spoken of:\n%s", plain.out)
	}
}

// A model that is half configured is one clear line, and nothing starts.
func TestWords_refusesToStart(t *testing.T) {
	m := machine(t, t.TempDir())
	m.Getenv = func(name string) string { return map[string]string{"RIPEN_LLM_URL": "https://example.org/v1"}[name] }
	for _, args := range [][]string{{"replay", "--words"}, {"--member", "wren"}} {
		if r := m.run(t, "", args...); r.code != exitFailed || !strings.Contains(r.err, "RIPEN_LLM_MODEL") || strings.Count(r.err, "\n") != 1 {
			t.Errorf("%v: status %d, errors %q", args, r.code, r.err)
		}
	}
}
