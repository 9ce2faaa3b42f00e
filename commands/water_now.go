package commands

import (
	"cmp"
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
	least   float64   // of a pH, what high was before any buffer
	at      unit.Days // when it was told
	told    bool      // it ever was; else it is the usual, or what was dosed alone
	read    bool      // by a test; else by the set-up or an edit
	over    bool      // the chart topped out
	added   float64   // of now, what was dosed or buffered since and is left
	old     float64   // of added, the buffers that do not count for the pH
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
	levels      map[string]*level // by levelNames, as far as they are known
	since       sinceTests        // by the test that would tell, what was logged since the last: see untested
	doses       []dosed           // since the last test of ammonia, what water changes left of each
	stands      bool              // the last tests of ammonia show that what is dosed stands
	animals     bool              // are in
	ration      float64           // g of food a day for the animals so far, as told or as is usual
	meals       []model.Event     // so far
}

// dosed is ammonia that was dosed, mg N/L.
type dosed struct {
	day unit.Days
	n   float64
}

// sinceTests is what was logged since a test, by the test.
type sinceTests map[string][]sinceTest

// sinceTest is a kind of thing that was logged, by sinceNames.
type sinceTest struct {
	name    string
	counted bool // what it does to the water is worked out; else only a test can tell
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

// doseFor is how many days a dose counts that was not tested since: bacteria use it up
// meanwhile, unless the last tests show that it stands.
const doseFor = 1

// mealsOfADay is how many days apart meals are at most that count as of one day: the first of
// the next may come early.
const mealsOfADay = 0.8

// khFor is how many days a hardness that was told can be gone by once buffers went in, as
// food uses it up too; and how long a later buffer counts for the pH. Common practice, no
// source.
const khFor = 3

// What shows that doses stand: of what was there more than a day before a test, so much
// at least, after so many days since the test before.
const (
	stillThere = 0.75
	daysApart  = 0.5
)

// waterAt is the water of a tank at a time: tests and edits in the order in which they
// were told, the later over the earlier, and what was logged, each in its turn.
func waterAt(c model.Case, now unit.Days) tankWater {
	w := tankWater{Setup: c.Setup, start: c.Setup, day: now, animals: animalsIn(c, now), levels: map[string]*level{}, since: sinceTests{}}
	if c.Setup.Method == model.FishIn {
		w.ration = float64(model.Typical(c.Setup).Feed)
	}
	w.ph = level{now: c.Setup.PH, high: c.Setup.PH, least: c.Setup.PH, told: c.Setup.Given.PH}
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
		steps = append(steps, step{e.Day, e.Seq, func() { w.log(e) }})
	}
	slices.SortStableFunc(steps, func(a, b step) int { return cmp.Or(cmp.Compare(a.day, b.day), a.seq-b.seq) })
	for _, s := range steps {
		if s.day <= now {
			s.take()
		}
	}
	if l := w.levels["chlorine"]; l != nil && l.at < now-chlorineFor {
		delete(w.levels, "chlorine")
		w.since[chlorineTest] = slices.DeleteFunc(w.since[chlorineTest], func(x sinceTest) bool { return x.name == sinceNames[model.Conditioned] })
	}
	return w
}

// edit takes in a change of the set-up.
func (w *tankWater) edit(x *model.Change) {
	(&statement{Change: *x}).merge(&w.Setup)
	switch fishIn := w.start.Method == model.FishIn; {
	case x.Feed != nil && (fishIn || w.ration > 0):
		w.ration = float64(*x.Feed)
	case x.Stock != nil && fishIn && !w.Given.Feed:
		w.ration = w.usual(*x.Stock)
	}
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
	w.ph = level{now: ph, high: ph, least: ph, at: day, told: true, read: read}
	delete(w.since, phTest)
}

// read takes in a test; where a colour stood between two steps the upper one counts.
func (w *tankWater) read(r *model.Reading) {
	if r.Ammonia != nil || w.levels["ammonia"] == nil && (r.Nitrite != nil || w.levels["nitrite"] == nil && r.Chlorine != nil) {
		delete(w.since, nitrogenTest)
	}
	for _, species := range []unit.Species{unit.Ammonia, unit.Nitrite, unit.Nitrate} {
		if seen := r.Of(species); seen != nil {
			if species == unit.Ammonia {
				w.testDoses(float64(highestOf(seen, species)), r.Day)
			}
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

// testDoses takes from a test of ammonia whether doses stand. Where animals are in, that it
// shows more than what was dosed within the day is enough.
func (w *tankWater) testDoses(n float64, day unit.Days) {
	before, fresh := 0.0, 0.0 // there more than a day ago, and dosed since
	for _, x := range w.doses {
		if day-x.day > doseFor {
			before += x.n
		} else {
			fresh += x.n
		}
	}
	l := w.levels["ammonia"]
	told := l != nil && l.told
	if told {
		before += l.now - l.added
	}
	w.stands = w.animals && n > fresh || (w.stands || told && day-l.at >= daysApart) && before > 0 && n-fresh >= stillThere*before
	w.doses = nil
}

// log takes in what was done: counted as far as it can be, and named until a test tells
// the rest. A dose that does not count is named alone.
func (w *tankWater) log(e *model.Event) {
	counted := false
	switch e.Kind {
	case model.Dose:
		w.doses = append(w.doses, dosed{e.Day, float64(e.N)})
		if counted = w.stands || w.day-e.Day <= doseFor; counted {
			w.dose(float64(e.N))
		} else {
			w.useUp(e)
		}
	case model.Buffer:
		counted = w.kh.lately(w.day) || w.day-e.Day <= khFor
		w.buffer(float64(e.Alk), counted)
	case model.FeedOnce:
		w.meals = append(w.meals, *e)
		if !w.fedTooMuch() {
			return
		}
	case model.Stocked:
		w.ration += w.usual(e.Mass)
	case model.Losses:
		w.ration = max(w.ration-w.usual(e.Mass), 0)
	case model.WaterChange:
		counted = true
		w.change(e)
	case model.Conditioned:
		counted = true
		delete(w.since, chlorineTest)
		l := w.levels["chlorine"]
		if l == nil || l.now == 0 {
			return
		}
		l.now, l.bound = 0, true
	}
	if test, ok := untested(e); ok {
		w.name(test, sinceNames[e.Kind], counted)
	}
}

// usual is the food that animals of a mass get where nobody says, g/d.
func (w *tankWater) usual(animals unit.Grams) float64 {
	return model.RationAt(unit.Celsius(w.temp.now)) * float64(animals)
}

// fedTooMuch holds if the meals of the last one's day come to more than the ration: what the
// filter gets every day changes nothing that the last test showed.
func (w *tankWater) fedTooMuch() bool {
	const same = 1e-6 // g
	last, sum := w.meals[len(w.meals)-1].Day, 0.0
	for _, m := range w.meals {
		if last-m.Day < mealsOfADay {
			sum += float64(m.Mass)
		}
	}
	return sum > w.ration+same
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

func (w *tankWater) name(test, name string, counted bool) {
	if x := (sinceTest{name, counted}); !slices.Contains(w.since[test], x) {
		w.since[test] = append(w.since[test], x)
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

// lately holds if a hardness was told so short a time ago that buffers since add to it.
func (l *level) lately(now unit.Days) bool { return l.told && now-l.at <= khFor }

// buffer adds hardness; the pH follows where it counts for that.
func (w *tankWater) buffer(alk float64, counted bool) {
	w.kh.added += alk
	if counted {
		w.harden(w.kh.now+alk, w.kh.old)
		return
	}
	w.kh.now += alk
	w.kh.old += alk
}

// useUp takes from the buffers, the oldest first, what it takes to oxidise a dose, less what
// a solution of ammonia brings itself. The pH follows down to what it was before them.
func (w *tankWater) useUp(e *model.Event) {
	perN := chem.AlkPerNitrified
	if !e.Salt {
		perN -= chem.AlkPerAmmonified
	}
	used, ph := min(perN*float64(e.N), w.kh.added), w.ph
	to, old := w.kh.now-used, max(w.kh.old-used, 0)
	high := w.hardened(ph.high, to, old)
	w.harden(to, old)
	w.kh.added -= used
	w.ph.now, w.ph.high = max(w.ph.now, min(ph.now, ph.least)), max(high, min(ph.high, ph.least))
}

// hardened is what a pH becomes with another hardness, mg/L as CaCO3, and with so much of
// that from buffers that do not count for it.
func (w *tankWater) hardened(ph, to, old float64) float64 {
	return chem.PHAfter(ph, unit.MgCaCO3(w.kh.now-w.kh.old), unit.MgCaCO3(to-old), unit.Celsius(w.temp.now), w.Salinity)
}

// harden brings the hardness to another, and what of it does not count for the pH; the pH
// follows.
func (w *tankWater) harden(to, old float64) {
	w.ph.high = max(w.ph.high, w.hardened(w.ph.high, to, old)) // softer water is not counted on to lower it
	w.ph.now = w.hardened(w.ph.now, to, old)
	w.kh.now, w.kh.old = to, old
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
	for i := range w.doses {
		w.doses[i].n *= 1 - e.Fraction
	}
	before := w.ph.high
	if w.kh.changed = true; w.kh.told && w.Given.KH {
		w.harden(dosing.Mix(w.kh.now, float64(w.KH), e.Fraction), w.kh.old*(1-e.Fraction))
		w.kh.added *= 1 - e.Fraction
	}
	if w.start.Given.PH {
		w.ph.high, w.ph.least = max(w.ph.high, w.start.PH), max(w.ph.least, w.start.PH)
	}
	if w.ph.high > before+samePH {
		w.name(phTest, sinceNames[e.Kind], true)
	}
	if untreated && w.day-e.Day <= chlorineFor {
		w.name(chlorineTest, "untreated", false)
	}
}
