package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A script imports a file beside it, and none of elsewhere.
func TestReplayImports(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		t.Helper()
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	const tank = `{"format":"ripen-export-1","units":{"volume":"L","temp":"C","kh":"dKH","scale":"ion"},"tanks":[{"name":"nano","started":"2026-03-01T09:00:00Z",
		"entries":[{"kind":"setup","at":"2026-03-01T09:00:00Z","recorded":"2026-03-01T09:00:00Z","values":[{"name":"volume","typed":"60","unit":"L"}]}]}]}`
	write("scripts/nano.json", tank)
	write("secret.json", tank)
	script := write("scripts/club.script", `2026-03-02T09:00:00Z @wren /data import file:nano.json
2026-03-02T09:00:01Z @wren /data import file:../secret.json
2026-03-02T09:00:02Z @wren /data import file:none.json
2026-03-02T09:00:03Z @wren /tank list
`)
	var all []answer
	r := bot(t, "", "replay", "--json", script)
	for l := range strings.Lines(r.out) {
		var a answer
		if err := json.Unmarshal([]byte(l), &a); err != nil {
			t.Fatal(err)
		}
		all = append(all, a)
	}
	if len(all) != 4 || !all[0].OK || all[1].OK || all[2].OK || !strings.Contains(all[3].Text, "nano") {
		t.Errorf("it says %+v", all)
	}
	for _, a := range all[1:3] {
		if a.Error == nil || a.Error.Option != "file" || strings.Contains(a.Text, dir) {
			t.Errorf("refused with %+v", a)
		}
	}
}
