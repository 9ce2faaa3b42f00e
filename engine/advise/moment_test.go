package advise

import (
	"reflect"
	"testing"

	"ripen/engine/model"
	"ripen/engine/pool"
	"ripen/engine/unit"
)

func TestMomentIsTheLastHourOrTheLastEntry(t *testing.T) {
	const minute = unit.Days(1.0 / 24 / 60)
	c := model.Case{
		Readings: []model.Reading{{Day: 3 + 70*minute}},
		Events:   []model.Event{{Day: 5}, {Day: 7 + 10*minute}},
		Changes:  []model.Change{{Day: 9 + 90*minute}},
	}
	tests := []struct {
		now, want unit.Days
		reason    string
	}{
		{-1, 0, "before the start is the start"},
		{2 + 119*minute, 2 + 60*minute, "the last full hour"},
		{3 + 65*minute, 3 + 60*minute, "what comes later does not count"},
		{3 + 75*minute, 3 + 70*minute, "a reading since the full hour"},
		{7 + 20*minute, 7 + 10*minute, "an event since the full hour"},
		{9 + 100*minute, 9 + 90*minute, "a change since the full hour"},
	}
	for _, x := range tests {
		if got := new(Engine).Hourly().moment(c, x.now); got < x.want-minute/100 || got > x.want+minute/100 {
			t.Errorf("asked on day %v: looked at on day %v, want %v: %s", x.now, got, x.want, x.reason)
		}
		if got := new(Engine).moment(c, x.now); got != max(x.now, 0) {
			t.Errorf("an engine that is not hourly looks at day %v on day %v", got, x.now)
		}
	}
}

// TestHourlyAnswersAreThoseOfTheirMoment: within the hour the same is said, and that
// is what an exact engine says of the moment.
func TestHourlyAnswersAreThoseOfTheirMoment(t *testing.T) {
	c := monthOfReadings(6, func(*model.Setup) {})
	e := New(2).Hourly()
	a, _ := e.Outlook(c, 6.01)
	b, _ := e.Outlook(c, 6.04)
	exact, _ := new(Engine).Outlook(c, 6)
	if !reflect.DeepEqual(comparable(a), comparable(b)) || !reflect.DeepEqual(comparable(a), comparable(exact)) {
		t.Errorf("within an hour the outlook changes: done %+v, %+v; at its start %+v", a.Done, b.Done, exact.Done)
	}
	later, _ := e.Outlook(c, 6.05)
	if later.Day == a.Day {
		t.Error("after an hour the outlook is still of the same moment")
	}
}

func TestTurnsAreTakenAndGivenBack(t *testing.T) {
	turn := make(turns, 1)
	end := turn.take()
	second := make(chan bool)
	go func() { defer turn.take()(); close(second) }()
	select {
	case <-second:
		t.Fatal("two work where there is one turn")
	default:
	}
	end()
	<-second
	turn.take()()
}

// TestBesideSharesAnswers: what one engine worked out the other knows, with fits of its
// own; what a club taught stands apart.
func TestBesideSharesAnswers(t *testing.T) {
	c := monthOfReadings(3, func(*model.Setup) {})
	e := New(2).Hourly()
	watch := e.Beside(1)
	a, _ := watch.Outlook(c, 3)
	k := e.keyOf(must(e.ready(c, 3)))
	if o, ok := e.outlooks.get(k); !ok || !reflect.DeepEqual(comparable(o), comparable(a)) {
		t.Error("the outlook of the one is not known to the other")
	}
	if watch.fits == e.fits {
		t.Error("they share fits")
	}
	other := e.Learned(pool.Prior{Version: "x"})
	if _, ok := other.outlooks.get(other.keyOf(must(e.ready(c, 3)))); ok {
		t.Error("an answer that rests on nothing learnt stands for one that does")
	}
}

func must(p *model.Plan, _ []string) *model.Plan { return p }
