package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// shownBlock finds the blocks of the README that the program has to have said.
var shownBlock = regexp.MustCompile("(?s)<!-- exchange: go run ./bot (.*?) -->\n```\n(.*?)```\n<!-- /exchange -->")

// What the README shows is what the program says: each exchange of a block,
// which may leave some out, stands in the transcript to the letter.
func TestREADME_exchange(t *testing.T) {
	t.Chdir("..")
	b, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	readme := string(b)
	blocks := shownBlock.FindAllStringSubmatch(readme, -1)
	if len(blocks) == 0 {
		t.Fatal("the README shows no exchange")
	}
	for _, block := range blocks {
		command, shown := block[1], block[2]
		r := bot(t, "", strings.Fields(command)...)
		if r.code != exitOK || r.err != "" {
			t.Errorf("bot %s ended with %d and %q", command, r.code, r.err)
		}
		said := map[string]string{}
		for _, x := range exchanges(r.out) {
			typed, answer, _ := strings.Cut(x, "\n")
			said[typed] = answer
			if strings.Contains(answer, "Not done:") {
				t.Errorf("bot %s: refused: %s", command, x)
			}
		}
		var fresh []string
		for _, x := range exchanges(shown) {
			typed, answer, _ := strings.Cut(x, "\n")
			fresh = append(fresh, typed+"\n"+said[typed]+"\n")
			if !*update && answer != said[typed] {
				t.Errorf("to %s the program says\n%s\nand the README\n%s\nrun go test ./bot -update and read the difference", typed, said[typed], answer)
			}
		}
		if len(fresh) < 3 {
			t.Errorf("the README shows %d exchanges, too few to see the job", len(fresh))
		}
		readme = strings.Replace(readme, "```\n"+shown+"```", "```\n"+strings.Join(fresh, "\n")+"```", 1)
	}
	if *update {
		if err := os.WriteFile("README.md", []byte(readme), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// exchanges cuts a transcript before each typed line.
func exchanges(transcript string) []string {
	var all []string
	for l := range strings.Lines(transcript) {
		if startsTyped.MatchString(l) {
			all = append(all, "")
		}
		if len(all) > 0 {
			all[len(all)-1] += l
		}
	}
	for i := range all {
		all[i] = strings.TrimRight(all[i], "\n")
	}
	return all
}

var startsTyped = regexp.MustCompile(`^\d{4}-\d\d-\d\dT`)

// The files and folders that the two pages name are there.
func TestPages_paths(t *testing.T) {
	named := regexp.MustCompile("`((?:bot|commands|engine|store|testdata|\\.ci)/[A-Za-z0-9_./-]*)`")
	for _, page := range []string{"README.md", "DEVELOPERS.md"} {
		text, err := os.ReadFile(filepath.Join("..", page))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range named.FindAllSubmatch(text, -1) {
			path := strings.TrimSuffix(string(m[1]), "...")
			if _, err := os.Stat(filepath.Join("..", path)); err != nil {
				t.Errorf("%s names %s, which is not there", page, path)
			}
		}
	}
}
