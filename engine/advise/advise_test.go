package advise

import (
	"reflect"
	"testing"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// upTo is the log as it stood on a day.
func upTo(c model.Case, day unit.Days) model.Case {
	x := c
	x.Readings, x.Events = nil, nil
	for _, r := range c.Readings {
		if r.Day <= day {
			x.Readings = append(x.Readings, r)
		}
	}
	for _, e := range c.Events {
		if e.Day <= day {
			x.Events = append(x.Events, e)
		}
	}
	return x
}

// comparable leaves out the function that an outlook carries.
func comparable(o outlook.Outlook) outlook.Outlook {
	o.ChanceDoneOn = nil
	return o
}

// TestMemoryChangesNothing: an engine that follows a tank reading by reading
// gives, bit for bit, the answers of one that fits the whole log anew, also when
// an entry is taken back and another told.
func TestMemoryChangesNothing(t *testing.T) {
	c := monthOfReadings(12, func(*model.Setup) {})
	follows := New(4)
	days := []unit.Days{3, 4, 5, 8, 7, 12}
	if testing.Short() {
		days = days[:3]
	}
	for _, day := range days {
		log := upTo(c, day)
		a, err := follows.Outlook(log, day)
		if err != nil {
			t.Fatal(err)
		}
		b, err := new(Engine).Outlook(log, day)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(comparable(a), comparable(b)) {
			t.Fatalf("day %g: the outlook with memory differs: done %+v, without %+v", float64(day), a.Done, b.Done)
		}
	}
	other := upTo(c, 8)
	other.Readings[4].Nitrite = &model.Seen{Low: 5, High: 5}
	a, _ := follows.Outlook(other, 8)
	b, _ := new(Engine).Outlook(other, 8)
	if !reflect.DeepEqual(comparable(a), comparable(b)) {
		t.Fatal("after a reading was corrected the outlook with memory differs")
	}
}

// TestRecentForgets: only the last answers are kept, and the right ones.
func TestRecentForgets(t *testing.T) {
	r := newRecent[int](2)
	for i := range 4 {
		r.put(key{log: uint64(i)}, i)
	}
	for i := range 4 {
		if v, ok := r.get(key{log: uint64(i)}); ok != (i >= 2) || ok && v != i {
			t.Errorf("answer %d: %d, %v", i, v, ok)
		}
	}
}

// TestNextTestFromMemory: what to test next is the same from a remembered fit.
func TestNextTestFromMemory(t *testing.T) {
	c := monthOfReadings(8, func(*model.Setup) {})
	e := New(4)
	if _, err := e.Outlook(upTo(c, 6), 6); err != nil {
		t.Fatal(err)
	}
	a, o, _ := e.NextTest(c, 8)
	b, other, _ := new(Engine).NextTest(c, 8)
	if !reflect.DeepEqual(a, b) || !reflect.DeepEqual(comparable(o), comparable(other)) {
		t.Errorf("with memory %+v, without %+v", a.Best, b.Best)
	}
}
