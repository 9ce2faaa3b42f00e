package commands

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"

	"ripen/store"
)

// What an import may hold; a member who tests daily for a year has some hundred entries.
const (
	MaxFile       = 4 << 20 // bytes, of a file that a front end hands over
	importTanks   = 100
	importEntries = 20000
)

// DataImport is what a file brought.
type DataImport struct {
	File    string `json:"file"`
	Tanks   int    `json:"tanks"`   // that are new
	Entries int    `json:"entries"` // that are new, set-ups too
	Known   int    `json:"known"`   // entries that were there already
	Units   string `json:"units"`   // "taken" of who had none, "same" as the member's, or "kept", the member's own
}

// dataImport takes in an export, all of it or nothing. The same file again adds nothing, a
// later one of the same tanks what is new.
func dataImport(c *call) (Result, error) {
	if len(c.Files) != 1 {
		return nil, refuse(CodeMissing, "file", "there is no file with it; hand over the one that /data export gave you")
	}
	f := c.Files[0]
	if len(f.Data) > MaxFile {
		return nil, refuse(CodeTooLong, "file", "the file %s has %d bytes; at most %d are taken", quote(f.Name), len(f.Data), MaxFile)
	}
	x, err := readExport(f)
	if err != nil {
		return nil, err
	}
	have, storeErr := c.book.store.Tanks(c.ctx, c.Club, c.Member)
	if storeErr != nil {
		return nil, storeErr
	}
	var logs []store.Log
	total := 0
	for _, t := range x.Tanks {
		l, err := c.logOf(t)
		if err != nil {
			return nil, err
		}
		if err := c.sameTank(have, l); err != nil {
			return nil, err
		}
		logs, total = append(logs, l), total+len(l.Entries)
	}
	r := DataImport{File: f.Name, Units: "kept"}
	added, storeErr := c.book.store.AddLogs(c.ctx, c.Club, c.Member, x.Units, logs)
	if errors.Is(storeErr, store.ErrNameTaken) {
		return nil, refuse(CodeNameTaken, "file", "a tank in the file has the name of an open one of yours, or of another in the file; rename yours with /tank edit name: or close it, and try again")
	}
	r.Tanks, r.Entries, r.Known = added.Tanks, added.Entries, total-added.Entries
	switch {
	case added.Units:
		r.Units = "taken"
	case x.Units == c.units:
		r.Units = "same"
	}
	return r, storeErr
}

// readExport reads the form of the file, not yet what was typed.
func readExport(f File) (x Exported, refused *Error) {
	d := json.NewDecoder(bytes.NewReader(f.Data))
	if err := d.Decode(&x); err != nil || x.Format != exportFormat {
		return x, refuse(CodeSyntax, "file", "the file %s is no export of this program (it does not say %s); only a file of /data export can be taken in", quote(f.Name), exportFormat)
	}
	n := 0
	for _, t := range x.Tanks {
		n += len(t.Entries)
	}
	switch {
	case len(x.Tanks) == 0:
		return x, refuse(CodeMissing, "file", "the file %s holds no tank, so there is nothing to take in", quote(f.Name))
	case len(x.Tanks) > importTanks || n > importEntries:
		return x, refuse(CodeRange, "file", "the file holds %d tanks with %d entries; at most %d tanks with %d entries are taken", len(x.Tanks), n, importTanks, importEntries)
	}
	for family, given := range map[string]string{"volume": x.Units.Volume, "temp": x.Units.Temp, "kh": x.Units.KH, "scale": x.Units.Scale} {
		if o, _ := unitsSpecs()[0].Option(family); !slices.Contains(o.Choices, given) {
			return x, refuse(CodeChoice, "file", "the file's unit of %s is %s, which is not known here", family, quote(given))
		}
	}
	return x, nil
}

// logOf makes a tank's log of what the file has, read again as if it were typed now.
func (c *call) logOf(x ExportedTank) (store.Log, *Error) {
	wrong := func(format string, args ...any) (store.Log, *Error) {
		return store.Log{}, refuse(CodeSyntax, "file", "tank %s: %s; nothing was taken in", quote(x.Name), fmt.Sprintf(format, args...))
	}
	name, refused := readValue(Option{Name: "name", Type: TypeName}, x.Name, "")
	if refused != nil {
		return wrong("%s", refused.Message)
	}
	l := store.Log{Tank: store.Tank{Club: c.Club, Member: c.Member, Name: name.word, Started: x.Started}}
	if x.Closed != nil {
		l.Tank.Closed = *x.Closed
	}
	if x.Started.Before(earliest) || x.Started.After(c.At) {
		return wrong("it has a start that can't be")
	}
	// In the order in which they were told, as what was said last counts.
	slices.SortStableFunc(x.Entries, func(a, b ExportedEntry) int {
		first := func(e ExportedEntry) bool { return e.Kind == store.KindSetup }
		switch {
		case first(a) && !first(b):
			return -1
		case first(b) && !first(a):
			return 1
		}
		return a.Recorded.Compare(b.Recorded)
	})
	if n := len(x.Entries); n == 0 || x.Entries[0].Kind != store.KindSetup || n > 1 && x.Entries[1].Kind == store.KindSetup {
		return wrong("it has no set-up, or several")
	}
	if x.Closed != nil && (x.Closed.Before(x.Started) || x.Closed.After(c.At)) {
		return wrong("it was closed at a time that can't be")
	}
	closed := false
	for i, e := range x.Entries {
		if e.Kind != store.KindSetup && e.Kind != store.KindEdit && e.Kind != store.KindReading && e.Kind != store.KindLog {
			return wrong("entry %d is of a kind that is not known, %s", i+1, quote(string(e.Kind)))
		}
		if e.At.Before(earliest) || e.At.After(c.At) || e.Recorded.Before(earliest) || e.Recorded.After(c.At) {
			return wrong("entry %d has a time that can't be", i+1)
		}
		entry := store.Entry{Kind: e.Kind, At: e.At, Recorded: e.Recorded, Key: c.importKey(x, e, i)}
		for _, v := range e.Values {
			if !mayHold(e.Kind, v.Name) || checkText(v.Typed, v.Name, maxPost, true) != nil || checkText(v.Unit, v.Name, maxName, false) != nil {
				return wrong("entry %d holds %s, which can't be read", i+1, quote(v.Name))
			}
			entry.Values = append(entry.Values, store.Value(v))
			closed = closed || v.Name == "closed"
		}
		l.Entries = append(l.Entries, entry)
	}
	if closed != (x.Closed != nil) {
		return wrong("it is closed and not closed")
	}
	if _, err := caseOf(l.Tank, l.Entries); err != nil {
		return wrong("%s", err)
	}
	return l, nil
}

// mayHold says whether an entry of a kind can hold a value of that name.
func mayHold(k store.Kind, name string) bool {
	specs := tankSpecs()
	switch k {
	case store.KindReading:
		specs = append(readingSpecs(), Spec{Options: []Option{{Name: "post"}}})
	case store.KindLog:
		specs = logSpecs()
	default:
		specs = append(specs, Spec{Options: []Option{{Name: "closed"}}})
	}
	return slices.ContainsFunc(specs, func(s Spec) bool { _, ok := s.Option(name); return ok })
}

// importKey names an entry of a file, the same in every file that has it. Two entries of
// one tank that are alike to the letter are told apart by their place among these.
func (c *call) importKey(t ExportedTank, e ExportedEntry, place int) string {
	twins := 0
	for _, o := range t.Entries[:place] {
		if o.Kind == e.Kind && o.At.Equal(e.At) && o.Recorded.Equal(e.Recorded) && slices.Equal(o.Values, e.Values) {
			twins++
		}
	}
	start := t.Entries[0] // stays what it was when name and start are corrected later
	h := sha256.New()
	fmt.Fprintf(h, "%q %q %s %s %q %d", c.Member, e.Kind, start.Recorded.UTC().Format(time.RFC3339Nano), e.Recorded.UTC().Format(time.RFC3339Nano), e.Values, twins)
	fmt.Fprintf(h, " %s %q", e.At.UTC().Format(time.RFC3339Nano), start.Values)
	return "import/" + hex.EncodeToString(h.Sum(nil)[:16])
}

// sameTank refuses a tank that the member has already, told here and not taken in: one that
// was registered at the same moment in the same words, whatever became of its name and start.
func (c *call) sameTank(have []store.Tank, l store.Log) error {
	first := l.Entries[0]
	for _, t := range have {
		entries, err := c.book.store.Entries(c.ctx, t.ID)
		if err != nil {
			return err
		}
		if slices.ContainsFunc(entries, func(e store.Entry) bool {
			return e.Kind == store.KindSetup && e.Key != first.Key && e.Recorded.Equal(first.Recorded.Truncate(time.Millisecond)) && slices.Equal(e.Values, first.Values)
		}) {
			return refuse(CodeNameTaken, "file", "the tank %s in the file is your tank %s; a tank that was told here is not taken in a second time", quote(l.Tank.Name), quote(t.Name))
		}
	}
	return nil
}

// Text says what was taken in.
func (r DataImport) Text() string {
	kept := ""
	if r.Units == "kept" {
		kept = " Your own units stay as they are, not as in the file; /units shows them."
	}
	if r.Entries == 0 {
		return fmt.Sprintf("All that is in %s was here already; nothing was added.%s", quote(r.File), kept)
	}
	text := fmt.Sprintf("Taken in from %s: %s and %s", quote(r.File), plural(r.Tanks, "new tank", "new tanks"), plural(r.Entries, "entry", "entries"))
	if r.Units == "taken" {
		text += ", and your units"
	}
	text += "." + kept
	if r.Known > 0 {
		text += fmt.Sprintf(" %s here already.", plural(r.Known, "entry was", "entries were"))
	}
	return text + " /tank list shows your tanks."
}
