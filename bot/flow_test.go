package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// script reads a script of testdata.
func script(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile("../testdata/scripts/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// A script that comes again, as a delivery that is repeated, adds nothing. What
// was refused the first time is another matter: it may fit now.
func TestReplay_again(t *testing.T) {
	var taken []string
	db := filepath.Join(t.TempDir(), "club.db")
	for l := range strings.Lines(script(t, "record.script")) {
		if got := replayed(t, l, "--db", db); len(got) == 1 && got[0].OK {
			taken = append(taken, l)
		}
	}
	if len(taken) < 15 {
		t.Fatalf("only %d lines were taken", len(taken))
	}
	once := rows(t, db)
	replayed(t, strings.Join(taken, ""), "--db", db)
	if again := rows(t, db); again != once {
		t.Errorf("after the second time the record is\n%s\nafter the first it was\n%s", again, once)
	}
}

// How a script is saved makes no difference.
func TestReplay_lineEnds(t *testing.T) {
	plain := script(t, "record.script")
	want := bot(t, plain, "replay", "--json", "-")
	for reason, in := range map[string]string{
		"Windows line ends and byte-order mark": "\ufeff" + strings.ReplaceAll(plain, "\n", "\r\n"),
		"no line end after the last line":       strings.TrimSpace(plain),
		"blanks around":                         "\n\n" + strings.ReplaceAll(plain, "\n", " \t\n"),
	} {
		if got := bot(t, in, "replay", "--json", "-"); got != want {
			t.Errorf("%s: got\n%s\nwant\n%s", reason, got.out, want.out)
		}
	}
}

// What a script told is there in the chat, and what is said there stays.
func TestConsole_onRecord(t *testing.T) {
	db := filepath.Join(t.TempDir(), "club.db")
	replayed(t, good, "--db", db)
	r := bot(t, "/reading ammonia:0.5 nitrite:1 kit:liquid", "--db", db, "--member", "wren")
	if r.code != exitOK || !strings.Contains(r.out, "Your tanks: moss bowl.") || !strings.Contains(r.out, "Goodbye.") {
		t.Fatalf("got status %d and\n%s", r.code, r.out)
	}
	if !strings.Contains(rows(t, db), "0.5") {
		t.Error("the last line, which has no line end, was lost")
	}
	for _, who := range []struct {
		args    []string
		refused bool
	}{{nil, true}, {[]string{"--moderator"}, false}} {
		r := bot(t, "/outlook member:wren", append([]string{"--db", db, "--member", "tern"}, who.args...)...)
		if refused := strings.Contains(r.out, "is for moderators"); refused != who.refused {
			t.Errorf("%q: refused: %t, want %t:\n%s", who.args, refused, who.refused, r.out)
		}
	}
}

// What the first screen says to type works as it stands there.
func TestConsole_firstScreen(t *testing.T) {
	welcome := bot(t, "")
	var typed []string
	for _, m := range regexp.MustCompile(`(?m)^  (/\S+( \S+:(".*?"|\S+)| new)*)`).FindAllStringSubmatch(welcome.out, -1) {
		typed = append(typed, m[1])
	}
	if len(typed) < 4 || !strings.HasPrefix(typed[0], "/tank new name:") {
		t.Fatalf("the first screen says to type %q", typed)
	}
	r := bot(t, strings.Join(typed, "\n"))
	if strings.Contains(r.out, "Not done") || r.err != "" {
		t.Errorf("not all of %q works:\n%s%s", typed, r.out, r.err)
	}
	for l := range strings.Lines(r.out) {
		if n := len([]rune(strings.TrimSuffix(l, "\n"))); n > 80 && !strings.HasPrefix(l, "wren> ") {
			t.Errorf("%d columns: %s", n, l)
		}
	}
}

// The demonstration works on the real commands, always says the same, and
// keeps nothing.
func TestDemo(t *testing.T) {
	home, temp := t.TempDir(), t.TempDir()
	t.Setenv("TMPDIR", temp)
	r := machine(t, home).run(t, "", "demo")
	if r.code != exitOK || r.err != "" {
		t.Fatalf("got status %d, %q", r.code, r.err)
	}
	if n := strings.Count(r.out, "Not done"); n != 1 {
		t.Errorf("%d refusals, want the one that is there to be seen:\n%s", n, r.out)
	}
	for l := range strings.Lines(r.out) {
		if n := len([]rune(strings.TrimSuffix(l, "\n"))); n > 80 {
			t.Errorf("%d columns: %s", n, l)
		}
	}
	stay := machine(t, home).run(t, "/tank list", "demo", "--stay")
	more, same := strings.CutPrefix(stay.out, r.out)
	if !same {
		t.Fatalf("a second time the demonstration says something else:\n%s", stay.out)
	}
	if !strings.Contains(more, "Your tanks: moss bowl.") || !strings.Contains(more, "wren> /tank list") {
		t.Errorf("staying shows\n%s", more)
	}
	if left := tree(t, temp) + tree(t, home); left != temp+"/\n"+home+"/\n" {
		t.Errorf("left behind: %s", left)
	}
}
