//go:build unix

package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// asNobody, when it is set, makes the test program run the bot instead, as a
// user without rights: a folder can't be read-only for root.
const asNobody = "RIPEN_TEST_AS_NOBODY"

func TestMain(m *testing.M) {
	if os.Getenv(asNobody) == "" {
		os.Exit(m.Run())
	}
	if os.Getuid() == 0 {
		const nobody = 65534
		if err := errors.Join(syscall.Setgroups(nil), syscall.Setgid(nobody), syscall.Setuid(nobody)); err != nil {
			panic(err)
		}
	}
	os.Exit(Run(context.Background(), Machine{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr, User: "nobody",
		ConfigDir: os.UserConfigDir, Getenv: func(string) string { return "" },
	}, os.Args[1:]))
}

func TestRun_readOnly(t *testing.T) {
	dir := t.TempDir()
	db := filepath.Join(dir, "club.db")
	if r := bot(t, good, "replay", "--db", db); r.code != exitOK {
		t.Fatal(r.err)
	}
	for path, mode := range map[string]os.FileMode{filepath.Dir(dir): 0o755, dir: 0o555, db: 0o444} {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
	}
	t.Cleanup(func() { os.Chmod(dir, 0o755) })
	before := tree(t, dir)
	for reason, args := range map[string][]string{
		"a new database":       {"--db", filepath.Join(dir, "new.db")},
		"a new one for replay": {"replay", "--db", filepath.Join(dir, "new.db")},
		"one that is there":    {"--db", db},
		"the standard place":   nil,
	} {
		t.Run(reason, func(t *testing.T) {
			cmd := exec.CommandContext(t.Context(), os.Args[0], args...)
			cmd.Env = append(os.Environ(), asNobody+"=yes", "HOME="+dir, "XDG_CONFIG_HOME="+dir)
			var errOut bytes.Buffer
			cmd.Stderr = &errOut
			out, err := cmd.Output()
			exit, _ := errors.AsType[*exec.ExitError](err)
			if exit == nil || exit.ExitCode() != exitFailed || len(out) > 0 {
				t.Errorf("got %v and %q, want exit status %d", err, out, exitFailed)
			}
			if line := errOut.String(); strings.Count(line, "\n") != 1 || !strings.Contains(line, dir) || !strings.Contains(line, "--db") {
				t.Errorf("got %q, want one line that names the place and --db", line)
			}
			if after := tree(t, dir); after != before {
				t.Errorf("the folder changed from\n%.300s\nto\n%.300s", before, after)
			}
		})
	}
}
