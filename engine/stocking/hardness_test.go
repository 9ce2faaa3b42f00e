package stocking

import (
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestHardness: where a test shows that the hardness is used up nothing goes in, however
// much the filter did before; where it shows that it is not, as without such a test.
func TestHardness(t *testing.T) {
	c := read(22, plain)
	of := func(kh unit.DKH) Advice {
		c := c
		c.Readings = append(c.Readings[:len(c.Readings):len(c.Readings)], model.Reading{Day: 22, KH: new(kh.CaCO3())})
		return must(t, fit.Fit(c, 22, fit.Hypothesis{}, 512), Wish{Animals: 20})
	}
	if a := of(6); a.Now == "wait" || a.Crash != "" {
		t.Errorf("KH 6: %s, %s, %q", a.Now, a.Reason, a.Crash)
	}
	if a := of(0); a.Now != "wait" || a.Reason != NoHardness || len(a.Steps) > 0 || a.Crash == "" {
		t.Errorf("KH 0: %s, %s, %d steps, %q", a.Now, a.Reason, len(a.Steps), a.Crash)
	}
}

// TestCarriesWhatIsIn: a filter of next to no animals is not called too small for them
// when it carries them several times over; one without animals of the same capacity is.
func TestCarriesWhatIsIn(t *testing.T) {
	p := fit.Fit(read(22, plain), 22, fit.Hypothesis{}, 512)
	for _, tt := range []struct {
		share unit.Grams // of what it carries, that is in
		small bool
	}{{0, true}, {0.5, false}, {2, true}} {
		h := with(p, 0.02)
		h.present = feeding(tt.share * h.carries())
		if a := h.advise(Wish{Animals: 20}); (a.Reason == TooSmall) != tt.small {
			t.Errorf("animals that ask for %g of what it carries: %s", tt.share, a.Reason)
		}
	}
}
