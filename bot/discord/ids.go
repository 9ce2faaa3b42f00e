package discord

import (
	"maps"
	"slices"
	"strings"
	"unicode"

	"ripen/commands"
)

// The verbs of custom ids: what a press does.
const (
	verbRun    = "run"    // asks a command, privately
	verbShow   = "show"   // asks a command so that everyone reads the answer
	verbForm   = "form"   // opens the form of a command
	verbPick   = "pick"   // asks a command, of the tank chosen
	verbUndo   = "undo"   // takes back the entry of a delivery
	verbStore  = "store"  // stores a post that was looked at
	verbFor    = "for"    // looks at a post again, for the tank chosen
	verbSet    = "set"    // sets an option of a tank to be registered
	verbNew    = "new"    // registers it
	verbChange = "change" // opens its form again, and is the id of that
)

// press is what a custom id says: all that is known of a button after a
// restart.
type press struct {
	verb  string
	owner string // who may press it
	rest  string // a command line without its slash, or the id of a note
}

// id writes a press as a custom id. ok is false if it does not fit.
func (p press) id() (id string, ok bool) {
	id = p.verb + "|" + p.owner + "|" + p.rest
	return id, length(id) <= maxCustomID
}

// readPress reads a custom id.
func readPress(id string) (press, bool) {
	verb, rest, ok := strings.Cut(id, "|")
	owner, rest, ok2 := strings.Cut(rest, "|")
	return press{verb, owner, rest}, ok && ok2
}

// request is the command of a press.
func (p press) request() (r commands.Request, err *commands.Error) {
	r.Command, r.Sub, r.Options, err = commands.ParseLine("/" + p.rest)
	return r, err
}

// typed writes a command as it is typed, without its slash.
func typed(r commands.Request) string {
	var b strings.Builder
	b.WriteString(path(r))
	for _, name := range slices.Sorted(maps.Keys(r.Options)) {
		b.WriteString(" " + name + ":" + quoted(r.Options[name]))
	}
	return b.String()
}

// quoted puts a value into quotes where it needs them.
func quoted(s string) string {
	const quotes = "\"“”„"
	if s != "" && !strings.ContainsAny(s, quotes+`\`) && strings.IndexFunc(s, unicode.IsSpace) < 0 {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if r == '\\' || strings.ContainsRune(quotes, r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return `"` + b.String() + `"`
}

// path is the command of a request: "tank new".
func path(r commands.Request) string { return strings.TrimSpace(r.Command + " " + r.Sub) }
