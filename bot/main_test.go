package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ripen/commands"
)

var update = flag.Bool("update", false, "rewrite the golden files and the README's exchange")

// clock is the time of every chat in the tests.
var clock = time.Date(2026, 3, 20, 9, 0, 0, 0, time.UTC)

// result is what a run of the program left.
type result struct {
	code     int
	out, err string
}

// bot runs the program as main does, on buffers and a home of its own.
func bot(t *testing.T, in string, args ...string) result {
	t.Helper()
	return machine(t, t.TempDir()).run(t, in, args...)
}

// testMachine is a machine whose configuration folder is in home.
type testMachine struct{ Machine }

func machine(t *testing.T, home string) testMachine {
	return testMachine{Machine{
		Now:       func() time.Time { return clock },
		ConfigDir: func() (string, error) { return home, nil },
		Getenv:    func(string) string { return "" },
		User:      "wren", Session: t.Name(),
	}}
}

func (m testMachine) run(t *testing.T, in string, args ...string) result {
	t.Helper()
	var out, errOut bytes.Buffer
	m.In, m.Out, m.Err = strings.NewReader(in), &out, &errOut
	code := Run(t.Context(), m.Machine, args)
	return result{code, out.String(), errOut.String()}
}

// answer is one line of replay --json.
type answer struct {
	At, Member, Command, Text string
	OK, Private               bool
	Data                      json.RawMessage
	Error                     *commands.Error
}

// replayed runs a script with --json and further arguments, and reads the answers.
func replayed(t *testing.T, script string, args ...string) []answer {
	t.Helper()
	r := bot(t, script, append([]string{"replay", "--json"}, args...)...)
	if r.code != exitOK || r.err != "" {
		t.Fatalf("replay ended with %d and %q", r.code, r.err)
	}
	var all []answer
	for l := range strings.Lines(r.out) {
		var a answer
		if err := json.Unmarshal([]byte(l), &a); err != nil {
			t.Fatalf("%v in %s", err, l)
		}
		all = append(all, a)
	}
	return all
}

// golden compares got with a file, which -update rewrites.
func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v; run go test ./bot -update once and read what it wrote", err)
	}
	if got != string(want) {
		t.Errorf("%s differs, got\n%s\nRun go test ./bot -update and read the difference", file, got)
	}
}

// Each script under testdata has its answers in both forms beside it.
func TestScripts(t *testing.T) {
	scripts, err := filepath.Glob("../testdata/scripts/*.script")
	if err != nil || len(scripts) == 0 {
		t.Fatalf("no scripts: %v", err)
	}
	for _, script := range scripts {
		base := strings.TrimSuffix(script, ".script")
		t.Run(filepath.Base(base), func(t *testing.T) {
			for ending, args := range map[string][]string{".jsonl": {"replay", "--json", script}, ".transcript": {"replay", script}} {
				r := bot(t, "", args...)
				if r.code != exitOK || r.err != "" {
					t.Errorf("ended with %d and %q", r.code, r.err)
				}
				golden(t, base+ending, r.out)
				if again := bot(t, "", args...); again.out != r.out {
					t.Errorf("a second run printed something else: \n%s", again.out)
				}
			}
		})
	}
}
