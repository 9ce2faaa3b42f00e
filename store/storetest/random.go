package storetest

import (
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ripen/store"
)

// random checks that any sequence of calls gets from the store the same
// answers as from the model.
func random(t *testing.T, s store.Store) {
	run := 0
	rapid.Check(t, func(t *rapid.T) {
		run++ // each run has clubs of its own, so that one store serves all
		p := &pair{store: s, model: newMemory(), ids: map[int64]int64{}}
		p.clubs = []string{fmt.Sprint("a", run), fmt.Sprint("b", run)}
		t.Repeat(map[string]func(*rapid.T){
			"SetUnits": p.setUnits, "AddTank": p.addTank, "EditTank": p.editTank,
			"CloseTank": p.closeTank, "AddEntry": p.addEntry, "Undo": p.undo,
		})
	})
}

// pair is a store and the model that it is held against.
type pair struct {
	store, model store.Store
	clubs        []string
	ids          map[int64]int64 // of the store's tanks, by the model's
}

// The choices are few, so that names, keys and times meet often.
var (
	drawMember = rapid.SampledFrom([]string{"wren", "tern"})
	drawName   = rapid.SampledFrom([]string{"Nano", "nano", "NANO", "Cube", "Étang", "e\u0301tang", ""})
	drawKey    = rapid.SampledFrom([]string{"", "1", "2", "3", "4", "5", "6", "7", "8"})
	drawOf     = rapid.SampledFrom([]string{"", "", "", "", "1", "2", "3", "4"})
	drawTime   = rapid.Custom(func(t *rapid.T) time.Time {
		if rapid.IntRange(0, 5).Draw(t, "zero") == 0 {
			return time.Time{}
		}
		return day(1).Add(time.Duration(rapid.Int64Range(-3, 3).Draw(t, "half ms")) * 500 * time.Microsecond)
	})
	drawEntry = rapid.Custom(func(t *rapid.T) store.Entry {
		value := rapid.Custom(func(t *rapid.T) store.Value {
			return store.Value{Name: rapid.String().Draw(t, "name"), Typed: rapid.String().Draw(t, "typed")}
		})
		return store.Entry{
			Kind:     rapid.SampledFrom([]store.Kind{store.KindReading, store.KindLog, store.KindSetup}).Draw(t, "kind"),
			At:       drawTime.Draw(t, "at"),
			Recorded: drawTime.Draw(t, "recorded"),
			Key:      drawKey.Draw(t, "key"),
			Again:    rapid.Bool().Draw(t, "again"),
			Values:   rapid.SliceOfN(value, 0, 2).Draw(t, "values"),
		}
	})
)

func (p *pair) setUnits(t *rapid.T) {
	club, member := p.drawOwner(t)
	u := store.Units{Volume: rapid.String().Draw(t, "volume")}
	same(t, nil, nil, p.store.SetUnits(t.Context(), club, member, u), p.model.SetUnits(t.Context(), club, member, u))
	p.checkOwner(t, club, member)
}

func (p *pair) addTank(t *rapid.T) {
	club, member := p.drawOwner(t)
	tank, setup := tankOf(club, member, drawName.Draw(t, "name")), drawEntry.Draw(t, "setup")
	tank.Started = drawTime.Draw(t, "started")
	got, err := p.store.AddTank(t.Context(), tank, setup)
	want, wantErr := p.model.AddTank(t.Context(), tank, setup)
	if _, known := p.ids[want.ID]; wantErr == nil && !known {
		p.ids[want.ID] = got.ID
	}
	same(t, got, p.ours(want), err, wantErr)
	p.checkOwner(t, club, member)
}

func (p *pair) editTank(t *rapid.T) {
	id, e, name, started := p.drawTank(t), drawEntry.Draw(t, "edit"), drawName.Draw(t, "name"), drawTime.Draw(t, "started")
	got, err := p.store.EditTank(t.Context(), p.ids[id], name, started, e)
	want, wantErr := p.model.EditTank(t.Context(), id, name, started, e)
	same(t, got, want, err, wantErr)
	p.checkTank(t, id)
}

func (p *pair) closeTank(t *rapid.T) {
	id, e, at := p.drawTank(t), drawEntry.Draw(t, "edit"), drawTime.Draw(t, "closed")
	same(t, nil, nil, p.store.CloseTank(t.Context(), p.ids[id], at, e), p.model.CloseTank(t.Context(), id, at, e))
	p.checkTank(t, id)
}

func (p *pair) addEntry(t *rapid.T) {
	id, e := p.drawTank(t), drawEntry.Draw(t, "entry")
	e.Tank = p.ids[id]
	got, err := p.store.AddEntry(t.Context(), e)
	e.Tank = id
	want, wantErr := p.model.AddEntry(t.Context(), e)
	same(t, got, want, err, wantErr)
	p.checkTank(t, id)
}

func (p *pair) undo(t *rapid.T) {
	club, member := p.drawOwner(t)
	of, key, at := drawOf.Draw(t, "of"), drawKey.Draw(t, "key"), drawTime.Draw(t, "undone")
	e, tank, err := p.store.Undo(t.Context(), club, member, of, key, at)
	wantE, wantTank, wantErr := p.model.Undo(t.Context(), club, member, of, key, at)
	same(t, plain(e), p.plainOurs(wantE), err, wantErr)
	same(t, tank, p.ours(wantTank), err, wantErr)
	if err == nil {
		p.checkTank(t, wantE.Tank)
	}
	p.checkOwner(t, club, member)
}

func (p *pair) drawOwner(t *rapid.T) (club, member string) {
	return rapid.SampledFrom(p.clubs).Draw(t, "club"), drawMember.Draw(t, "member")
}

// drawTank returns the model's ID of a tank; one past the last is unknown.
func (p *pair) drawTank(t *rapid.T) int64 {
	return rapid.Int64Range(1, int64(len(p.ids))+1).Draw(t, "tank")
}

func (p *pair) checkOwner(t *rapid.T, club, member string) {
	gotM, err := p.store.Member(t.Context(), club, member)
	wantM, wantErr := p.model.Member(t.Context(), club, member)
	same(t, gotM, wantM, err, wantErr)
	got, err := p.store.Tanks(t.Context(), club, member)
	want, wantErr := p.model.Tanks(t.Context(), club, member)
	for i := range want {
		want[i] = p.ours(want[i])
	}
	same(t, got, want, err, wantErr)
}

func (p *pair) checkTank(t *rapid.T, id int64) {
	got, err := p.store.Entries(t.Context(), p.ids[id])
	want, wantErr := p.model.Entries(t.Context(), id)
	if !slices.IsSortedFunc(got, func(a, b store.Entry) int { return a.At.Compare(b.At) }) {
		t.Fatalf("entries are not by At: %+v", got)
	}
	for i := range got {
		got[i] = plain(got[i])
	}
	for i := range want {
		want[i] = p.plainOurs(want[i])
	}
	same(t, got, want, err, wantErr)
}

// ours returns the model's tank with the store's ID.
func (p *pair) ours(t store.Tank) store.Tank {
	t.ID = p.ids[t.ID]
	return t
}

// plain returns an entry as far as a store and the model agree on it.
func plain(e store.Entry) store.Entry {
	e.ID = 0
	if len(e.Values) == 0 {
		e.Values = nil
	}
	return e
}

func (p *pair) plainOurs(e store.Entry) store.Entry {
	e.Tank = p.ids[e.Tank]
	return plain(e)
}

// same ends the run unless the store's answer is the model's.
func same(t *rapid.T, got, want any, err, wantErr error) {
	t.Helper()
	for _, sentinel := range []error{store.ErrNotFound, store.ErrNameTaken, store.ErrClosed, store.ErrNothingLeft, store.ErrNotLast} {
		if errors.Is(err, sentinel) != errors.Is(wantErr, sentinel) {
			t.Fatalf("error is %v, want %v", err, wantErr)
		}
	}
	if (err == nil) != (wantErr == nil) {
		t.Fatalf("error is %v, want %v", err, wantErr)
	}
	wantSame(t, got, want)
}
