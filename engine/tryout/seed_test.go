package tryout

import (
	"errors"
	"math"
	"reflect"
	"runtime"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// fresh is a dosed tank of 26 C at its start.
func fresh(ph float64, dkh unit.DKH, change func(*model.Case)) *fit.Posterior {
	s := model.Setup{Volume: 60, PH: ph, KH: dkh.CaCO3(), Temp: 26, Media: model.Sponge, MediaVolume: 0.6, Flow: model.Normal, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	c := model.Case{Setup: model.Typical(s)}
	c.Events = append(c.Events, model.Event{Kind: model.Dose, N: c.Setup.Target})
	change(&c)
	return fit.Fit(c, 0.01, fit.Hypothesis{}, 384)
}

// saves is what a change alone saves, days.
func saves(t *testing.T, p *fit.Posterior, c Change) Trial {
	t.Helper()
	return try(t, p, c).Each[0]
}

// notWorse fails unless each change in turn saves no more than the one before, at
// either end and in the middle.
func notWorse(t *testing.T, name string, p *fit.Posterior, changes ...Change) {
	t.Helper()
	const slack = 0.1 // days, the rounding
	last := saves(t, p, changes[0])
	for _, c := range changes[1:] {
		x := saves(t, p, c)
		for i, q := range [][2]*float64{{last.Saved.P10, x.Saved.P10}, {last.Saved.P50, x.Saved.P50}, {last.Saved.P90, x.Saved.P90}} {
			if *q[1] > *q[0]+slack {
				t.Errorf("%s: %+v saves%s, more at quantile %d than%s", name, c, spread(x.Saved), i, spread(last.Saved))
			}
		}
		last = x
	}
	if first := saves(t, p, changes[0]); *first.Saved.P50 <= *last.Saved.P50 {
		t.Errorf("%s: the first saves%s, the last%s, which is no difference", name, spread(first.Saved), spread(last.Saved))
	}
}

// Less seed, a larger gap and more hours never save more days.
func TestSeedMonotone(t *testing.T) {
	p := fresh(7.6, 6, asIs)
	litre := func(change func(*Seed)) Seed {
		s := Seed{Volume: 0.3}
		change(&s)
		return s
	}
	notWorse(t, "litres", p, Seed{Volume: 1}, Seed{Volume: 0.3}, Seed{Volume: 0.1}, Seed{Volume: 0.01})
	notWorse(t, "pH", p, Seed{Volume: 0.3, DonorPH: 7.6}, Seed{Volume: 0.3, DonorPH: 7}, Seed{Volume: 0.3, DonorPH: 6.4}, Seed{Volume: 0.3, DonorPH: 5.8})
	notWorse(t, "hours", p, litre(func(*Seed) {}), litre(func(s *Seed) { s.Hours = 24 }), litre(func(s *Seed) { s.Hours = 96 }), litre(func(s *Seed) { s.Hours, s.Kept = 96, model.Dried }))
	notWorse(t, "temperature", p, litre(func(s *Seed) { s.DonorTemp = 26 }), litre(func(s *Seed) { s.DonorTemp = 16 }), litre(func(s *Seed) { s.DonorTemp = 4 }))
	notWorse(t, "salinity", p, litre(func(s *Seed) { s.DonorSalinity = new(0.) }), litre(func(s *Seed) { s.DonorSalinity = new(20.) }), litre(func(s *Seed) { s.DonorSalinity = new(40.) }))
}

// What cultures save is ordered by their content, and eaters of waste save nothing.
func TestCultureOrdered(t *testing.T) {
	p := fresh(7.6, 6, asIs)
	notWorse(t, "content", p, Culture(model.Nitrospira), Culture(model.Nitrobacter), Culture(model.Heterotrophs))
	x := saves(t, p, Culture(model.Heterotrophs))
	if *x.Saved.P10 != 0 || *x.Saved.P90 != 0 || x.Helps != 0 || x.Lives != nil {
		t.Errorf("heterotrophs save%s", spread(x.Saved))
	}
	unknown, best := saves(t, p, Culture(model.UnknownContent)), saves(t, p, Culture(model.Nitrospira))
	if *unknown.Saved.P50 >= *best.Saved.P50 || *unknown.Saved.P10 > 1 || *unknown.Saved.P90-*unknown.Saved.P10 <= 5 {
		t.Errorf("an unknown culture saves%s, want from next to nothing to much, and less than Nitrospira's%s", spread(unknown.Saved), spread(best.Saved))
	}
	few := saves(t, p, Culture(model.Nitrobacter))
	t.Logf("Nitrospira saves%s, Nitrobacter%s, unknown%s days", spread(best.Saved), spread(few.Saved), spread(unknown.Saved))
	if *few.Saved.P50 > 4 {
		t.Errorf("Nitrobacter saves%s, want little", spread(few.Saved))
	}
	if acid := saves(t, fresh(6.3, 3, asIs), Culture(model.Nitrospira)); *acid.Saved.P50 > *best.Saved.P50 {
		t.Errorf("Nitrospira saves%s in acidic water, more than%s", spread(acid.Saved), spread(best.Saved))
	}
}

// Good seed from alike water takes an alkaline tank to days or about two weeks; a pH
// gap and acidic water leave little gain. Common practice, no source.
func TestSeedInTrade(t *testing.T) {
	done := func(p *fit.Posterior, s Seed) (now, then float64) {
		w := &trial{now: p.Plan.Now, habit: p.Plan.Habit}
		a := new(tank).doneDays(with(p.Thin(draws), w))
		s.act(nil, w)
		b := new(tank).doneDays(with(p.Thin(draws), w))
		return median(a) - p.Plan.Now, median(b) - p.Plan.Now
	}
	good, sour := Seed{Volume: 0.3, DonorPH: 7.6}, Seed{Volume: 0.3, DonorPH: 6.2}
	was, is := done(fresh(7.6, 6, asIs), good)
	if is > 14 || is > 0.6*was {
		t.Errorf("good seed takes an alkaline tank from %.1f to %.1f days, want two weeks at most", was, is)
	}
	_, gap := done(fresh(7.6, 6, asIs), sour)
	if was-gap > 0.4*(was-is) {
		t.Errorf("across a gap of 1.4 pH it is %.1f days of %.1f, against %.1f without a gap: want little gain", gap, was, is)
	}
	wasAcid, acid := done(fresh(6.2, 3, asIs), Seed{Volume: 0.3, DonorPH: 6.2})
	if acid/wasAcid < is/was+0.1 {
		t.Errorf("seed takes an acidic tank from %.1f to %.1f days, an alkaline one from %.1f to %.1f: want less gain", wasAcid, acid, was, is)
	}
	t.Logf("alkaline %.1f to %.1f, across a gap %.1f, acidic %.1f to %.1f days", was, is, gap, wasAcid, acid)
}

// How much of a seed lives on is told with the water that it comes into, also when
// that is changed at the same time.
func TestLives(t *testing.T) {
	p := fresh(7.6, 6, asIs)
	s := Seed{Volume: 0.3, DonorPH: 7.6, DonorTemp: 16, Hours: 24, DonorSalinity: new(0.)}
	l := saves(t, p, s).Lives
	if l == nil || math.Abs(l.TankPH-7.6) > 0.2 || l.TankTemp != 26 || l.TankSalinity != 0 {
		t.Fatalf("%+v, want the tank's water", l)
	}
	if l.PH < 0.9 || math.Abs(l.Temp-0.8) > 0.01 || l.Air < 0.6 || l.Air > 0.9 || l.Salinity != 1 || l.Acid != 1 {
		t.Errorf("%+v, want a fifth lost to 10 C and some to a day", l)
	}
	r := try(t, p, PH(6.2), s)
	if alone, both := r.Each[1].Lives, r.Together.Lives; !reflect.DeepEqual(alone, l) || both.PH > 0.2 || both.Acid > 0.5 {
		t.Errorf("alone %+v, together with pH 6.2 %+v", alone, both)
	}
	if r.Each[0].Lives != nil {
		t.Error("a pH has no bacteria to live on")
	}
}

// What a try foretells is what the logged event is then said to save; readings that
// come after it are taken into account.
func TestGain(t *testing.T) {
	s := Seed{Volume: 0.3, DonorPH: 7.4}
	e := s.Event()
	e.Day, e.Seq = 0.01, 99
	log := func(c *model.Case) { c.Events = append(c.Events, e) }
	before, after := saves(t, fresh(7.6, 6, asIs), s), fresh(7.6, 6, log)
	g, err := GainOf(after, e)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(*g.Saved.P50-*before.Saved.P50) > 1 || math.Abs(*g.Saved.P90-*before.Saved.P90) > 3 || math.Abs(g.Helps-before.Helps) > 0.05 {
		t.Errorf("foretold%s with %.2f, logged%s with %.2f", spread(before.Saved), before.Helps, spread(g.Saved), g.Helps)
	}
	if math.Abs(g.Lives.All()-before.Lives.All()) > 0.03 {
		t.Errorf("%+v foretold, %+v logged", before.Lives, g.Lives)
	}
	cores := runtime.GOMAXPROCS(1)
	one, err := GainOf(after, e)
	runtime.GOMAXPROCS(cores)
	if err != nil || !reflect.DeepEqual(one, g) {
		t.Errorf("one core: %+v %v, all %+v", one, err, g)
	}
	for _, none := range []model.Event{{Kind: model.Culture, Day: e.Day, Seq: e.Seq}, {Kind: model.Seed, Day: e.Day, Seq: 5}, {Kind: model.Seed, Day: e.Day - 1, Seq: e.Seq}} {
		if _, err := GainOf(after, none); !errors.Is(err, ErrNotLogged) {
			t.Errorf("%+v: %v, want ErrNotLogged", none, err)
		}
	}
	took, stood := afterWeek(t, e, 0.1), afterWeek(t, e, 2)
	if *took.Saved.P10 <= *g.Saved.P10 || took.Helps <= g.Helps || *stood.Saved.P10 >= *took.Saved.P10 || stood.Helps >= took.Helps {
		t.Errorf("expected%s with %.2f; after ammonia was gone in a day%s with %.2f; after it stood for a week%s with %.2f",
			spread(g.Saved), g.Helps, spread(took.Saved), took.Helps, spread(stood.Saved), stood.Helps)
	}
}

// afterWeek is what the seed e is said to have saved after a week of readings of this
// ammonia, mg/L, and no nitrite.
func afterWeek(t *testing.T, e model.Event, ammonia float64) Gain {
	t.Helper()
	c := fresh(7.6, 6, asIs).Plan.Case
	c.Events = append(c.Events, e)
	for d := 1; d < 7; d += 2 {
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(d), Ammonia: &model.Seen{Low: ammonia, High: ammonia}, Nitrite: &model.Seen{}})
	}
	g, err := GainOf(fit.Fit(c, 7, fit.Hypothesis{}, 384), e)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// What cannot be is refused.
func TestSeedRefused(t *testing.T) {
	p := fresh(7.6, 6, asIs)
	for _, c := range []Change{
		Seed{Volume: 1, Hours: -1}, Seed{Volume: 1, Hours: math.NaN()}, Seed{Volume: 1, DonorTemp: 90}, Seed{Volume: 1, DonorSalinity: new(400.)},
		Seed{Volume: 1, DonorSalinity: new(-1.)}, Seed{Volume: 1, Kept: 3}, Culture(-1), Culture(4),
	} {
		if _, err := Of(p, c); !errors.Is(err, ErrRange) {
			t.Errorf("%+v: %v, want ErrRange", c, err)
		}
	}
}
