package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Replay learns nothing, bot learn does, and what it learnt stands in the record of the
// club that is asked later.
func TestLearn(t *testing.T) {
	db := filepath.Join(t.TempDir(), "ripen.db")
	replay := func(script string) string {
		t.Helper()
		r := bot(t, script, "replay", "--json", "--db", db)
		if r.code != exitOK {
			t.Fatal(r.err)
		}
		return r.out
	}
	var b strings.Builder
	for i := range 8 {
		for day, line := range map[int]string{1: "/tank new name:a volume:60L", 3: "/reading ammonia:2 nitrite:0.5", 8: "/reading ammonia:0.5 nitrite:2", 14: "/reading ammonia:0 nitrite:0", 16: "/tank close reason:done"} {
			fmt.Fprintf(&b, "2026-03-%02dT09:%02d:00Z @m%d %s\n", day, i, i, line)
		}
	}
	lines := strings.Split(strings.TrimSpace(b.String()), "\n")
	slices.Sort(lines)
	replay(strings.Join(lines, "\n") + "\n")
	const record = "2026-04-01T09:0%d:00Z @tern+moderator /club record\n"
	if before := replay(fmt.Sprintf(record, 0)); !strings.Contains(before, `"learned":{"tanks":0,"done":0,`) {
		t.Errorf("replay learnt: %s", before)
	}
	r := bot(t, "", "learn", "--db", db)
	if r.code != exitOK || r.err != "" || !strings.Contains(r.out, "8 tanks") {
		t.Errorf("it says %q, errors %q", r.out, r.err)
	}
	if after := replay(fmt.Sprintf(record, 1)); !strings.Contains(after, `"learned":{"tanks":8,"done":8,`) {
		t.Errorf("what was learnt is not in the record: %s", after)
	}
	if again := bot(t, "", "learn", "--db", db); again.out != r.out {
		t.Errorf("learning again it says %q, before %q", again.out, r.out)
	}
}
