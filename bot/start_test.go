package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What keeps the program from starting is one clear line, an exit status, and
// nothing made.
func TestRun_refusesToStart(t *testing.T) {
	dir := t.TempDir()
	write := func(name, content string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	script := write("ok.script", "2026-03-01T09:00:00Z @wren /help\n")
	letter := write("letter.txt", strings.Repeat("Dear club, this is no database.\n", 200))
	short := write("short.txt", "no database")
	tests := []struct {
		reason string
		args   []string
		code   int
		says   []string
	}{
		{"a script that is not there", []string{"replay", filepath.Join(dir, "gone.script")}, exitFailed, []string{"gone.script", "no such file", "name a text file"}},
		{"a script that is a folder", []string{"replay", dir}, exitFailed, []string{dir, "is a folder"}},
		{"a script that can't be read, with a database", []string{"replay", "--db", filepath.Join(dir, "new.db"), dir}, exitFailed, []string{"is a folder"}},
		{"a database that is a letter", []string{"--db", letter}, exitFailed, []string{letter, "not a database", "--db"}},
		{"a database that is a short text", []string{"replay", "--db", short, script}, exitFailed, []string{short, "not a database", "--db"}},
		{"a database that is a folder", []string{"--db", dir}, exitFailed, []string{dir, "not a file", "--db"}},
		{"a database in a folder that is not there", []string{"--db", filepath.Join(dir, "no", "x.db")}, exitFailed, []string{"no folder", "make it"}},
		{"a database below a file", []string{"--db", filepath.Join(letter, "x.db")}, exitFailed, []string{"no folder"}},
		{"learning from a database that is not there", []string{"learn", "--db", filepath.Join(dir, "none.db")}, exitFailed, []string{"no database", "none.db", "--db"}},
		{"an unknown flag", []string{"--colour"}, exitUsage, []string{"--colour", "bot help"}},
		{"an unknown command", []string{"outlook"}, exitUsage, []string{"outlook", "bot help"}},
		{"too many scripts", []string{"replay", "a", "b"}, exitUsage, []string{"b", "bot help"}},
		{"a nickname that is none", []string{"--member", "w ren"}, exitUsage, []string{"w ren", "letters, digits"}},
		{"help about what is not there", []string{"help", "reef"}, exitUsage, []string{"reef", "bot help"}},
	}
	before := tree(t, dir)
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			r := bot(t, "", tt.args...)
			if r.code != tt.code || r.out != "" || strings.Count(r.err, "\n") != 1 {
				t.Errorf("got status %d, output %q, errors %q; want status %d and one line of error", r.code, r.out, r.err, tt.code)
			}
			for _, s := range tt.says {
				if !strings.Contains(r.err, s) {
					t.Errorf("%q does not name %q", r.err, s)
				}
			}
			if after := tree(t, dir); after != before {
				t.Errorf("the folder changed from\n%s\nto\n%s", before, after)
			}
		})
	}
}

// tree lists a folder with the content of its files.
func tree(t *testing.T, dir string) string {
	t.Helper()
	var all strings.Builder
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			all.WriteString(path + "/\n")
			return err
		}
		b, err := os.ReadFile(path)
		all.WriteString(path + " " + string(b) + "\n")
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all.String()
}

func TestRun_help(t *testing.T) {
	for _, args := range [][]string{{"help"}, {"--help"}, {"help", "replay"}, {"replay", "--help"}, {"help", "demo"}} {
		r := bot(t, "", args...)
		if r.code != exitOK || r.err != "" || !strings.Contains(r.out, "Usage: bot") {
			t.Errorf("%q: got status %d, %q, %q", args, r.code, r.out, r.err)
		}
		for l := range strings.Lines(r.out) {
			if len(l) > 81 {
				t.Errorf("%q: %d columns: %s", args, len(l), l)
			}
		}
	}
	if r := bot(t, "", "help", "replay"); !strings.Contains(r.out, "@wren") || !strings.Contains(r.out, `\n`) {
		t.Errorf("help replay shows no script:\n%s", r.out)
	}
}

// The record is where the option, else the variable, else the configuration
// folder says, and it is there again at the next start.
func TestRun_place(t *testing.T) {
	const register, show = `/tank new name:"moss bowl" volume:60L`, "/tank list"
	home, dir := t.TempDir(), t.TempDir()
	withVariable := machine(t, home)
	withVariable.Getenv = func(name string) string {
		return map[string]string{"RIPEN_DB": filepath.Join(dir, "variable.db")}[name]
	}
	tests := []struct {
		reason string
		m      testMachine
		args   []string
		file   string
	}{
		{"nothing said", machine(t, home), nil, filepath.Join(home, "ripen", "ripen.db")},
		{"the variable", withVariable, nil, filepath.Join(dir, "variable.db")},
		{"the option, which goes before the variable", withVariable, []string{"--db", filepath.Join(dir, "option.db")}, filepath.Join(dir, "option.db")},
		{"a name with signs that mean something in an address", machine(t, home), []string{"--db", filepath.Join(dir, "a ?mode=ro#100%.db")}, filepath.Join(dir, "a ?mode=ro#100%.db")},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			if r := tt.m.run(t, register, tt.args...); r.code != exitOK || r.err != "" {
				t.Fatalf("got status %d, %q", r.code, r.err)
			}
			if _, err := os.Stat(tt.file); err != nil {
				t.Fatalf("no record at its place: %v", err)
			}
			if r := tt.m.run(t, show, tt.args...); !strings.Contains(r.out, "Your tanks: moss bowl.") {
				t.Errorf("the tank is not there again:\n%s", r.out)
			}
		})
	}
	lost := machine(t, home)
	lost.ConfigDir = func() (string, error) { return "", errors.New("$HOME is not defined") }
	if r := lost.run(t, ""); r.code != exitFailed || !strings.Contains(r.err, "$HOME is not defined; name one with --db") {
		t.Errorf("no configuration folder: got status %d, %q", r.code, r.err)
	}
}

// A script without --db leaves nothing behind, whatever RIPEN_DB says.
func TestRun_replayLeavesNothing(t *testing.T) {
	home, temp := t.TempDir(), t.TempDir()
	t.Setenv("TMPDIR", temp)
	m := machine(t, home)
	m.Getenv = func(string) string { return filepath.Join(home, "mine.db") }
	if r := m.run(t, "2026-03-01T09:00:00Z @wren /tank new name:x volume:60L", "replay"); r.code != exitOK {
		t.Fatal(r.err)
	}
	if got, want := tree(t, home)+tree(t, temp), home+"/\n"+temp+"/\n"; got != want {
		t.Errorf("left behind: %s", got)
	}
}
