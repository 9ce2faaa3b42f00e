package commands

import (
	"testing"
)

// TestAddDate holds on which day a post's readings stand when it names a date or a
// weekday. The tank was filled on Sunday 1 March; the post is of Friday the 13th.
func TestAddDate(t *testing.T) {
	for _, c := range []struct{ post, at, undated, doubt, reason string }{
		{"ammonia 1", "2026-03-13T20:30:00Z", "", "", "no date is now"},
		{"3/11: ammonia 1", "2026-03-11T12:00:00Z", "", "", "the other way is still to come"},
		{"13/3: ammonia 1", "2026-03-13T20:30:00Z", "", "", "today is now"},
		{"March 10th: ammonia 1", "2026-03-10T12:00:00Z", "", "", "a month in words"},
		{`3/4: ammonia 2\n3/9: ammonia 1`, "2026-03-09T12:00:00Z", "", "", "the newest row"},
		{`date,ammonia\n2026-03-05,2\n2026-03-08,1`, "2026-03-08T12:00:00Z", "", "", "a table"},
		{`Mon: ammonia 2\nWed: ammonia 1`, "2026-03-11T12:00:00Z", "", "", "the last Wednesday"},
		{"2026-03-01: ammonia 1", "2026-03-01T15:00:00Z", "", "", "on the day of the start, not before it"},
		{"10/23: ammonia 1", "2026-03-13T20:30:00Z", "10/23", "", "the tank was not running"},
		{"2027-03-05: ammonia 1", "2026-03-13T20:30:00Z", "2027-03-05", "", "still to come"},
		{`3/11: ammonia 1\nnitrite 0.5`, "2026-03-11T12:00:00Z", "", "", "both stand under the date"},
	} {
		st := newStore(t)
		b := New(st, WithAdviser(fakeAdviser{}))
		must(t, b, "2026-03-01T15:00:00Z", "/tank new name:moss volume:60L")
		r, _ := tell(t, b, "2026-03-13T20:30:00Z", "!add "+c.post).Data.(Added)
		switch {
		case !r.Stored:
			t.Errorf("%q is not stored: %q: %s", c.post, r.Doubtful, c.reason)
		case !r.Reading.At.Equal(clock(c.at)) || r.Undated != c.undated:
			t.Errorf("%q stands at %v, undated %q, want %s, %q: %s", c.post, r.Reading.At, r.Undated, c.at, c.undated, c.reason)
		}
	}
}

// TestAddDateAmbiguous holds that a date with two meanings in the tank's life is
// asked about.
func TestAddDateAmbiguous(t *testing.T) {
	st := newStore(t)
	b := New(st, WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T15:00:00Z", "/tank new name:moss volume:60L")
	before := dump(t, st, "wren")
	r, _ := tell(t, b, "2026-06-13T20:30:00Z", "!add 4/5: ammonia 1").Data.(Added)
	if r.Stored || len(r.Doubtful) != 1 || r.Doubtful[0].Text != "4/5" || dump(t, st, "wren") != before {
		t.Errorf("stored %v, doubtful %q", r.Stored, r.Doubtful)
	}
}
