package commands

import (
	"cmp"
	"math"
	"slices"

	"ripen/engine/chem"
	"ripen/engine/dosing"
	"ripen/engine/model"
	"ripen/engine/safety"
	"ripen/engine/unit"
)

// level is how much of something is in a tank's water, as it was told last and with
// what was logged since.
type level struct {
	now     float64   // mg N/L, mg Cl2/L, pH, mg/L as CaCO3 or C
	high    float64   // of a pH, the highest that it may be
	at      unit.Days // when it was told
	told    bool      // it ever was; else it is the usual, or what was dosed alone
	read    bool      // by a test; else by the set-up or an edit
	over    bool      // the chart topped out
	added   float64   // of now, what was dosed or buffered since
	changed bool      // water was changed since
	bound   bool      // of chlorine, a conditioner was added since
}

// tankWater is what is in a tank's water at a time.
type tankWater struct {
	model.Setup // as it stands; KH is that of new water
	start       model.Setup
	day         unit.Days
	ph, kh      level
	temp        level
	levels      map[string]*level   // by levelNames, as far as they are known
	since       map[string][]string // by the test that would tell, what was logged since the last: see untested
}

// The tests that tell what was logged means for the water: of ammonia and nitrite, of
// pH, of chlorine.
const (
	nitrogenTest = "ammonia"
	phTest       = "ph"
	chlorineTest = "chlorine"
)

// chlorineFor is how many days a chlorine reading counts: it leaves a running tank by
// itself, free chlorine within a day, chloramine within some. Common practice, no source.
const chlorineFor = 3

// samePH is a difference of pH that a test hardly tells.
const samePH = 0.05

// Until when a dose counts that was not tested since: what judges water counts it until
// a test, what adds to it for the day in which bacteria have not used it up.
const (
	untilTested = unit.Days(math.MaxFloat64)
	forADay     = unit.Days(1)
)

// waterAt is the water of a tank at a time: tests and edits in the order in which they
// were told, the later over the earlier, and what was logged, each in its turn. doses
// is how long a dose counts.
func waterAt(c model.Case, now, doses unit.Days) tankWater {
	w := tankWater{Setup: c.Setup, start: c.Setup, day: now, levels: map[string]*level{}, since: map[string][]string{}}
	w.ph = level{now: c.Setup.PH, high: c.Setup.PH, told: c.Setup.Given.PH}
	w.kh = level{now: float64(c.Setup.KH), told: c.Setup.Given.KH}
	w.temp = level{now: float64(c.Setup.Temp), told: c.Setup.Given.Temp}
	type step struct {
		day  unit.Days
		seq  int
		take func()
	}
	var steps []step
	for i := range c.Changes {
		x := &c.Changes[i]
		steps = append(steps, step{x.Day, -1, func() { w.edit(x) }})
	}
	for i := range c.Readings {
		r := &c.Readings[i]
		steps = append(steps, step{r.Day, r.Seq, func() { w.read(r) }})
	}
	for i := range c.Events {
		e := &c.Events[i]
		steps = append(steps, step{e.Day, e.Seq, func() { w.log(e, e.Kind != model.Dose || now-e.Day <= doses) }})
	}
	slices.SortStableFunc(steps, func(a, b step) int { return cmp.Or(cmp.Compare(a.day, b.day), a.seq-b.seq) })
	for _, s := range steps {
		if s.day <= now {
			s.take()
		}
	}
	if l := w.levels["chlorine"]; l != nil && l.at < now-chlorineFor {
		delete(w.levels, "chlorine")
		w.since[chlorineTest] = slices.DeleteFunc(w.since[chlorineTest], func(name string) bool { return name == sinceNames[model.Conditioned] })
	}
	return w
}

// edit takes in a change of the set-up.
func (w *tankWater) edit(x *model.Change) {
	(&statement{Change: *x}).merge(&w.Setup)
	if x.PH != nil {
		w.tellPH(*x.PH, x.Day, false)
	}
	if x.KH != nil {
		w.kh = level{now: float64(*x.KH), at: x.Day, told: true}
	}
	if x.Temp != nil {
		w.temp = level{now: float64(*x.Temp), at: x.Day, told: true}
	}
}

func (w *tankWater) tellPH(ph float64, day unit.Days, read bool) {
	w.ph = level{now: ph, high: ph, at: day, told: true, read: read}
	delete(w.since, phTest)
}

// read takes in a test; where a colour stood between two steps the upper one counts.
func (w *tankWater) read(r *model.Reading) {
	if r.Ammonia != nil || w.levels["ammonia"] == nil && (r.Nitrite != nil || w.levels["nitrite"] == nil && r.Chlorine != nil) {
		delete(w.since, nitrogenTest)
	}
	for _, species := range []unit.Species{unit.Ammonia, unit.Nitrite, unit.Nitrate} {
		if seen := r.Of(species); seen != nil {
			w.levels[species.String()] = &level{now: float64(highestOf(seen, species)), at: r.Day, told: true, read: true, over: seen.Over}
		}
	}
	if r.Chlorine != nil {
		w.levels["chlorine"] = &level{now: *r.Chlorine, at: r.Day, told: true, read: true}
		delete(w.since, chlorineTest)
	}
	if r.PH != nil {
		w.tellPH(*r.PH, r.Day, true)
	}
	if r.KH != nil {
		w.kh = level{now: float64(*r.KH), at: r.Day, told: true, read: true}
	}
	if r.Temp != nil {
		w.temp = level{now: float64(*r.Temp), at: r.Day, told: true, read: true}
	}
}

// log takes in what was done: counted as far as it can be, and named until a test tells
// the rest. A dose that does not count is named alone.
func (w *tankWater) log(e *model.Event, counts bool) {
	switch e.Kind {
	case model.Dose:
		if counts {
			w.dose(float64(e.N))
		}
	case model.Buffer:
		w.harden(w.kh.now + float64(e.Alk))
		w.kh.added += float64(e.Alk)
	case model.WaterChange:
		w.change(e)
	case model.Conditioned:
		delete(w.since, chlorineTest)
		l := w.levels["chlorine"]
		if l == nil || l.now == 0 {
			return
		}
		l.now, l.bound = 0, true
	}
	if test, ok := untested(e); ok {
		w.name(test, sinceNames[e.Kind])
	}
}

// sinceNames are the names of what is logged, where it may make the water another.
var sinceNames = map[model.EventKind]string{
	model.Dose: "dose", model.FeedOnce: "feed", model.WaterChange: "water-change", model.Stocked: "stock", model.Losses: "losses",
	model.Medicine: "medicine", model.Outage: "outage", model.Cleaned: "clean", model.Buffer: "buffer", model.Conditioned: "conditioner",
}

// untested is the test that tells what an event did to the water, if any does.
func untested(e *model.Event) (test string, ok bool) {
	switch e.Kind {
	case model.Buffer:
		return phTest, true
	case model.Conditioned:
		return chlorineTest, true
	case model.Outage:
		return nitrogenTest, e.Hours == 0 || e.Hours >= longOutage
	case model.Cleaned:
		return nitrogenTest, e.Harsh
	}
	_, ok = sinceNames[e.Kind]
	return nitrogenTest, ok
}

func (w *tankWater) name(test, name string) {
	if !slices.Contains(w.since[test], name) {
		w.since[test] = append(w.since[test], name)
	}
}

func (w *tankWater) dose(n float64) {
	l := w.levels["ammonia"]
	if l == nil {
		l = &level{}
		w.levels["ammonia"] = l
	}
	l.now += n
	l.added += n
}

// harden brings the hardness to another, mg/L as CaCO3; the pH follows.
func (w *tankWater) harden(to float64) {
	after := func(ph float64) float64 {
		return chem.PHAfter(ph, unit.MgCaCO3(w.kh.now), unit.MgCaCO3(to), unit.Celsius(w.temp.now), w.Salinity)
	}
	if to > w.kh.now {
		w.ph.high = after(w.ph.high) // softer water is not counted on to lower it
	}
	w.ph.now, w.kh.now = after(w.ph.now), to
}

// change replaces a part of the water: by what chloramine leaves behind and nothing
// else, of the hardness of new water where that was told. The pH may become as high as
// that of the new water, which is what was told for the start.
func (w *tankWater) change(e *model.Event) {
	untreated := w.Source <= model.Chloraminated && (e.Treated == model.No || e.Treated == model.AsHabit && w.Given.Conditioner && !w.Conditioner)
	for name, l := range w.levels {
		fresh := 0.0
		switch {
		case name == "ammonia" && w.Source == model.Chloraminated:
			fresh = float64(safety.ChloramineLeaves)
		case name == "chlorine" && untreated:
			fresh = l.now // or more, or less
		}
		l.now, l.added, l.changed = dosing.Mix(l.now, fresh, e.Fraction), l.added*(1-e.Fraction), true
	}
	before := w.ph.high
	if w.kh.changed = true; w.kh.told && w.Given.KH {
		w.harden(dosing.Mix(w.kh.now, float64(w.KH), e.Fraction))
		w.kh.added *= 1 - e.Fraction
	}
	if w.start.Given.PH {
		w.ph.high = max(w.ph.high, w.start.PH)
	}
	if w.ph.high > before+samePH {
		w.name(phTest, sinceNames[e.Kind])
	}
	if untreated && w.day-e.Day <= chlorineFor {
		w.name(chlorineTest, "untreated")
	}
}
