package commands

import (
	"encoding/json"
	"fmt"
	"math"
	"time"

	"ripen/store"
)

func dataSpecs() []Spec {
	return []Spec{
		{Name: "data", Sub: "export", Private: true, Help: "all that is kept of you in this club, as a file", Example: "/data export", run: dataExport},
		{Name: "data", Sub: "import", Private: true, Help: "take in tanks from a file of /data export, as from another club", Example: "/data import file:ripen-export-2026-03-09.json", run: dataImport,
			Options: []Option{{Name: "file", Type: TypeFile, Required: true, Help: "the file that /data export gave you"}}},
		{Name: "data", Sub: "erase", Private: true, Help: "remove all that is kept of you in this club, for good", Example: "/data erase confirm:yes", run: dataErase,
			Options: []Option{{Name: "confirm", Type: TypeChoice, Choices: []string{"yes"}, Help: "yes: remove it; there is no way back, and /undo does not help"}}},
	}
}

// exportFormat names the form of an export, and grows with it.
const exportFormat = "ripen-export-1"

// DataExport is a file with all that is kept of a member in a club.
type DataExport struct {
	Tanks   int    `json:"tanks"`
	Entries int    `json:"entries"` // set-ups too
	Notes   int    `json:"notes"`   // of what was begun, as a form half filled
	File    string `json:"file"`

	data []byte
}

// Exported is what the file holds: everything as it was typed.
type Exported struct {
	Format  string         `json:"format"`
	Member  string         `json:"member"`
	Written time.Time      `json:"written"`
	Units   store.Units    `json:"units"`
	Tanks   []ExportedTank `json:"tanks"`

	Notes map[string]string `json:"notes,omitempty"` // that front ends keep, by name; an import leaves them out
}

// ExportedTank is one tank of it.
type ExportedTank struct {
	Name    string          `json:"name"`
	Started time.Time       `json:"started"`
	Closed  *time.Time      `json:"closed"`
	Entries []ExportedEntry `json:"entries"`

	Outlooks []ExportedOutlook `json:"outlooks,omitempty"` // that were given of it; an import leaves them out
}

// ExportedOutlook is an outlook as it was given.
type ExportedOutlook struct {
	At       time.Time   `json:"at"`
	Asked    string      `json:"asked"` // the command
	Day      float64     `json:"day"`
	Stage    string      `json:"stage"`
	Readings int         `json:"readings"`
	Done     [7]*float64 `json:"done_day"` // 2.5, 10, 25, 50, 75, 90 and 97.5 %; null past the horizon
	Engine   string      `json:"engine"`
	Prior    string      `json:"prior"`
}

// ExportedEntry is one thing told, in the words and units that it was told in.
type ExportedEntry struct {
	Kind     store.Kind      `json:"kind"`
	At       time.Time       `json:"at"`
	Recorded time.Time       `json:"recorded"`
	Values   []ExportedValue `json:"values"`
}

// ExportedValue is one option as typed; Unit is what a bare number meant.
type ExportedValue struct {
	Name  string `json:"name"`
	Typed string `json:"typed"`
	Unit  string `json:"unit,omitempty"`
}

// dataExport writes the asker's own data, closed tanks too. What was taken back is
// left out.
func dataExport(c *call) (Result, error) {
	tanks, err := c.book.store.Tanks(c.ctx, c.Club, c.Member)
	if err != nil {
		return nil, err
	}
	x := Exported{Format: exportFormat, Member: c.Member, Written: c.At.UTC(), Units: c.units, Tanks: []ExportedTank{}}
	r := DataExport{Tanks: len(tanks), File: "ripen-export-" + c.At.UTC().Format("2006-01-02") + ".json"}
	for _, t := range tanks {
		entries, err := c.book.store.Entries(c.ctx, t.ID)
		if err != nil {
			return nil, storeError(err, t.Name)
		}
		tank := ExportedTank{Name: t.Name, Started: t.Started, Entries: []ExportedEntry{}}
		if !t.Closed.IsZero() {
			tank.Closed = new(t.Closed)
		}
		for _, e := range entries {
			entry := ExportedEntry{Kind: e.Kind, At: e.At, Recorded: e.Recorded, Values: []ExportedValue{}}
			for _, v := range e.Values {
				entry.Values = append(entry.Values, ExportedValue(v))
			}
			tank.Entries = append(tank.Entries, entry)
		}
		given, err := c.book.store.TankOutlooks(c.ctx, t.ID)
		if err != nil {
			return nil, err
		}
		for _, o := range given {
			tank.Outlooks = append(tank.Outlooks, exportedOutlook(o))
		}
		r.Entries += len(entries)
		x.Tanks = append(x.Tanks, tank)
	}
	if x.Notes, err = c.book.store.MemberNotes(c.ctx, c.Club, c.Member); err != nil {
		return nil, err
	}
	r.Notes = len(x.Notes)
	if r.data, err = json.MarshalIndent(x, "", "  "); err != nil {
		return nil, fmt.Errorf("writing the export: %w", err)
	}
	return r, nil
}

func exportedOutlook(o store.Outlook) ExportedOutlook {
	x := ExportedOutlook{At: o.At, Asked: o.Asked, Day: o.Day, Stage: o.Stage, Readings: o.Readings, Engine: o.Engine, Prior: o.Prior}
	for i, d := range o.Done {
		if !math.IsInf(d, 1) {
			x.Done[i] = new(d)
		}
	}
	return x
}

// attached is the file itself.
func (r DataExport) attached() []File { return []File{{Name: r.File, Data: r.data}} }

// Text says what the file holds.
func (r DataExport) Text() string {
	begun := ""
	if r.Notes > 0 {
		begun = ", and what is kept to help you along, such as a post that you looked at or a form half filled"
	}
	return fmt.Sprintf("All that is kept of you here is in %s: your units, %s and %s, as you typed them, and the outlooks that you were given%s. What you took back with /undo is not in it.",
		r.File, plural(r.Tanks, "tank", "tanks"), plural(r.Entries, "entry", "entries"), begun)
}

// DataErase is what was removed, or would be.
type DataErase struct {
	Tanks  int  `json:"tanks"`
	Erased bool `json:"erased"`
}

// dataErase removes the asker's own data; nobody else can.
func dataErase(c *call) (Result, error) {
	tanks, err := c.book.store.Tanks(c.ctx, c.Club, c.Member)
	if err != nil {
		return nil, err
	}
	if !c.has("confirm") {
		return nil, refuse(CodeMissing, "confirm", "this removes your units and %s with all entries, for good; /data export gives you a copy first. To go on: /data erase confirm:yes",
			plural(len(tanks), "tank", "tanks"))
	}
	if err := c.book.store.Erase(c.ctx, c.Club, c.Member); err != nil {
		return nil, err
	}
	return DataErase{len(tanks), true}, nil
}

// Text says that it is gone.
func (r DataErase) Text() string {
	return fmt.Sprintf("Removed: your units and %s with all entries. Nothing of you is kept in this club any longer; copies that its operator made of the whole database are theirs to remove.",
		plural(r.Tanks, "tank", "tanks"))
}
