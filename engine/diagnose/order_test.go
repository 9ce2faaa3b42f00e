package diagnose

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestMostLikelyFirst: causes stand strictly by the chance that is told, then by what they
// cost, then by name.
func TestMostLikelyFirst(t *testing.T) {
	all := model.Given{PH: true, KH: true, Temp: true, Source: true, Conditioner: true}
	set := model.Setup{Volume: 60, PH: 6.4, KH: unit.DKH(1.5).CaCO3(), Temp: 17, Flow: model.Weak, Given: all}
	set.Given.Flow = true
	events := []model.Event{{Kind: model.Dose, N: unit.MgIon(4).N(unit.Ammonia)}, {Day: 6, Kind: model.WaterChange, Fraction: 0.5}, {Day: 9, Kind: model.Cleaned}}
	s := studied(model.Case{Setup: set, Events: events, Readings: []model.Reading{read(3, 4, 0), read(7, 2, 0.5), read(11, 2, 5), read(14, 2, 5)}}, 14)
	d := Of(s.post, s.out)
	if len(d.Causes) < 6 {
		t.Fatalf("only %d causes", len(d.Causes))
	}
	if !slices.IsSortedFunc(d.Causes, func(a, b Cause) int {
		return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(b.DaysCost, a.DaysCost), cmp.Compare(a.Name, b.Name))
	}) {
		t.Errorf("not by chance: %+v", d.Causes)
	}
	for _, c := range d.Causes {
		if r := math.Round(100*c.Chance) / 100; math.Abs(r-c.Chance) > 1e-12 {
			t.Errorf("%s: %v is printed as another chance than it is ranked by", c.Name, c.Chance)
		}
	}
}

// TestFewTestsTellNoPhosphate: two tests without progress may show few bacteria as well, so
// pure water alone makes no likely lack of phosphate; a long slow growth does.
func TestFewTestsTellNoPhosphate(t *testing.T) {
	set := model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 25, Source: model.RO, Given: model.Given{PH: true, KH: true, Temp: true, Source: true}}
	dose := []model.Event{{Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}}
	chance := func(now unit.Days, rs ...model.Reading) float64 {
		s := studied(model.Case{Setup: set, Events: dose, Readings: rs}, now)
		d := Of(s.post, s.out)
		if i := d.index("low-phosphate"); i >= 0 {
			return d.Causes[i].Chance
		}
		return 0
	}
	few := chance(8, read(4, 2, 0), read(8, 2, 0))
	slow := chance(34, read(4, 2, 0), read(8, 2, 0.25), read(12, 2, 0.25), read(16, 1, 0.5), read(20, 1, 0.5), read(24, 1, 1), read(28, 1, 1), read(34, 0.5, 2))
	if few > 0.4 || slow < 0.5 || slow < few+0.2 {
		t.Errorf("two tests: %.2f, slow growth over a month: %.2f", few, slow)
	}
}

// TestFasts: weeks without ammonia are why bacteria were lost, where the log has such weeks.
func TestFasts(t *testing.T) {
	dose := func(day unit.Days) model.Event {
		return model.Event{Day: day, Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}
	}
	set := model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(8).CaCO3(), Temp: 25, Given: model.Given{PH: true, KH: true, Temp: true}}
	done := []model.Reading{read(5, 1, 1), read(10, 0, 2), read(14, 0, 0), read(15.1, 0, 0), read(16.2, 0, 0)}
	late := []model.Reading{read(62, 2, 0), read(65, 2, 0.25)}
	idle := model.Case{Setup: set, Events: []model.Event{dose(0), dose(14.1), dose(15.2), dose(60)}, Readings: slices.Concat(done, late)}
	s := studied(idle, 65)
	d := Of(s.post, s.out)
	if len(d.Causes) == 0 || d.Causes[0].Name != "no-ammonia-source" || d.Causes[0].Chance < 0.5 || d.Verdict == Ready || d.Verdict == OnTrack {
		t.Errorf("idle for weeks: %s, %+v", d.Verdict, d.Causes)
	}
	kept := idle
	kept.Events = []model.Event{dose(0), dose(14.1), dose(15.2), dose(25), dose(35), dose(45), dose(52), dose(60)}
	if spans := studied(kept, 65).fasts(); len(spans) > 0 {
		t.Errorf("dosed all the time, and fasts of %v", spans)
	}
	stood := model.Case{Setup: set, Events: []model.Event{dose(0)}, Readings: []model.Reading{read(18, 2, 0.5), read(22, 1, 2)}}
	if spans := studied(stood, 22).fasts(); len(spans) > 0 {
		t.Errorf("the ammonia of the first dose still stands, and fasts of %v", spans)
	}
	cleared := stood
	cleared.Readings = append([]model.Reading{read(2, 0, 0)}, stood.Readings...)
	if spans := studied(cleared, 22).fasts(); len(spans) != 1 {
		t.Errorf("ammonia was gone, and is read again after weeks: fasts of %v", spans)
	}
	stocked := idle
	stocked.Events = append(slices.Clone(idle.Events), model.Event{Day: 64, Kind: model.Stocked, Mass: 10})
	if spans := studied(stocked, 65).fasts(); len(spans) > 0 {
		t.Errorf("animals are in, and fasts of %v", spans)
	}
}

// TestAcidFirst: in water that was acid to begin with, the acid is told before the little
// hardness that comes with it; in water that becomes acid, the hardness.
func TestAcidFirst(t *testing.T) {
	for _, tt := range []struct {
		reason string
		ph     float64
		read   float64
		first  bool
	}{
		{"acid from the start", 6.3, 6.3, true},
		{"acid, and more so", 6.6, 6.1, false},
		{"not acid", 7.2, 7.0, false},
	} {
		set := model.Setup{Volume: 60, PH: tt.ph, KH: unit.DKH(2).CaCO3(), Temp: 25, Given: model.Given{PH: true, KH: true, Temp: true}}
		r := read(9, 2, 0.25)
		r.PH = &tt.read
		if s := studied(model.Case{Setup: set, Readings: []model.Reading{read(4, 2, 0), r}}, 10); s.acidFirst() != tt.first {
			t.Errorf("%s: %v", tt.reason, s.acidFirst())
		}
	}
}
