package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// pkg is what go list tells of a package.
type pkg struct {
	ImportPath string
	Dir        string
	Standard   bool
	Imports    []string // of its own files, without tests
	GoFiles    []string
}

// listed returns the packages of the project, or all that they need.
func listed(t *testing.T, args ...string) []pkg {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), "go", append([]string{"list", "-json=ImportPath,Dir,Standard,Imports,GoFiles"}, args...)...)
	cmd.Dir = ".."
	out, err := cmd.Output()
	if err != nil {
		if e, ok := errors.AsType[*exec.ExitError](err); ok {
			t.Fatalf("go list: %s", e.Stderr)
		}
		t.Fatal(err)
	}
	var all []pkg
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p pkg
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

// under holds for the package root and what lies below it.
func under(path, root string) bool { return path == root || strings.HasPrefix(path, root+"/") }

func underAny(path string, roots []string) bool {
	return slices.ContainsFunc(roots, func(r string) bool { return under(path, r) })
}

type arrow struct {
	root   string
	exact  bool // root only, not what lies below
	allow  []string
	reason string
}

// The arrows of the project. A package belongs to the first row whose root it
// lies under, and of the project it imports only what the row allows.
var arrows = []arrow{
	{"ripen/bot", true, []string{"ripen/bot", "ripen/commands", "ripen/store", "ripen/engine/advise", "ripen/engine/pool", "ripen/engine/study"}, "main wires everything by hand, and is the only one to do so"},
	{"ripen/bot/discord/discordtest", false, []string{"ripen/testdata"}, "the stand-in plays the platform by its description, and knows nothing of the bot"},
	{"ripen/bot/words/wordstest", false, nil, "the stand-in plays a server, and knows nothing of the bot"},
	{"ripen/bot/words/guard/guardtest", false, []string{"ripen/testdata"}, "what the guard is checked on was made without it"},
	{"ripen/bot/words/guard", false, nil, "the guard judges text by text: it knows no command, no chat and no network"},
	{"ripen/bot", false, []string{"ripen/bot", "ripen/commands"}, "front ends ask the commands, never the store or the engine"},
	{"ripen/commands", false, []string{"ripen/commands", "ripen/engine", "ripen/store"}, "commands don't know how they are asked"},
	{"ripen/store", false, []string{"ripen/store"}, "a store keeps what members said and computes nothing"},
	{"ripen/engine", false, []string{"ripen/engine"}, "the engine is pure: it knows nothing of the project"},
	{"ripen/testdata", false, nil, "test data is data"},
}

func TestArrows(t *testing.T) {
	for _, p := range listed(t, "./...") {
		i := slices.IndexFunc(arrows, func(a arrow) bool {
			return p.ImportPath == a.root || !a.exact && under(p.ImportPath, a.root)
		})
		if i < 0 {
			t.Errorf("%s has no place in the layers: add it to the table of arrows, with a reason", p.ImportPath)
			continue
		}
		for _, imported := range p.Imports {
			if under(imported, "ripen") && !underAny(imported, arrows[i].allow) {
				t.Errorf("%s imports %s: %s", p.ImportPath, imported, arrows[i].reason)
			}
			if imported == "ripen/store/sqlite" && p.ImportPath != "ripen/bot" {
				t.Errorf("%s imports %s: only main chooses the store", p.ImportPath, imported)
			}
		}
	}
}

// Imports that belong to one place.
var places = []struct {
	imported, place, reason string
}{
	{"modernc.org/sqlite", "ripen/store/sqlite", "one package speaks to the database"},
	{"database/sql", "ripen/store/sqlite", "one package speaks to the database"},
	{"github.com/peterh/liner", "ripen/bot/console", "one package edits lines"},
	{"github.com/alecthomas/kong", "ripen/bot", "one package reads the command line"},
	{"os", "ripen/bot", "the machine is known at the top; the store opens its own files"},
	{"github.com/sashabaranov/go-openai", "ripen/bot/words", "one package speaks to a language model"},
	{"net/http", "ripen/bot", "only front ends speak to a network"},
}

func TestPlaces(t *testing.T) {
	for _, p := range listed(t, "./...") {
		for _, rule := range places {
			storeFile := rule.imported == "os" && under(p.ImportPath, "ripen/store/sqlite")
			if slices.ContainsFunc(p.Imports, func(i string) bool { return under(i, rule.imported) }) &&
				!under(p.ImportPath, rule.place) && !storeFile && !testOnly(p.ImportPath) {
				t.Errorf("%s imports %s: %s", p.ImportPath, rule.imported, rule.reason)
			}
		}
	}
}

// testOnly holds for packages that only tests import.
func testOnly(path string) bool {
	return strings.HasSuffix(path, "test") || under(path, "ripen/testdata")
}

// What the engine may use from outside the standard library.
var engineLibraries = []string{"gonum.org/v1/gonum", "golang.org/x/sys/cpu"}

func TestEngineLibraries(t *testing.T) {
	standard := map[string]bool{}
	for _, p := range listed(t, "-deps", "./engine/...") {
		standard[p.ImportPath] = p.Standard
	}
	for _, p := range listed(t, "./engine/...") {
		if testOnly(p.ImportPath) {
			continue
		}
		for _, i := range p.Imports {
			if !standard[i] && !under(i, "ripen/engine") && !underAny(i, engineLibraries) {
				t.Errorf("%s imports %s: the engine stands on the standard library and %s", p.ImportPath, i, engineLibraries)
			}
			if i == "os" || under(i, "net") || under(i, "database/sql") || i == "log" {
				t.Errorf("%s imports %s: the engine computes, it asks nothing of the machine", p.ImportPath, i)
			}
		}
	}
}
