package commands

import (
	"fmt"

	"ripen/engine/chem"
	"ripen/engine/dosing"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// harmFrom is the free ammonia from which gills are harmed, mg/L NH3.
const harmFrom = chem.HarmNH3

// treated is the water that something is added to, or taken from.
type treated struct {
	dosing.Water
	tank     string
	day      *float64
	animals  string
	levels   map[string]*float64 // last readings by levelNames: mg N/L, chlorine in mg Cl2/L
	ages     map[string]float64  // days since these and "kh" were read
	open     map[string]bool     // of these, the chart topped out
	buffered unit.MgCaCO3        // the same of KH
	recent   unit.MgN            // dosed within the last day and not tested since; it is in the ammonia
	khKnown  bool                // told or read
	phTold   bool                // the same, of a tank's pH
	newKH    *unit.MgCaCO3       // of new water, if it was told
	source   model.Source
	told     bool // the source was
	assumed  []string
	usual    []string // of pH and temperature, what was not told; assumed where they count
}

// treated gathers the water: the member's tank as last read, or any water of a volume;
// options stand over both.
func (c *call) treated() (treated, error) {
	s := typical(statement{})
	w := treated{animals: "unknown", levels: map[string]*float64{}, ages: map[string]float64{}, open: map[string]bool{}, assumed: []string{}, source: s.Source}
	w.PH, w.Temp, w.KH = s.PH, s.Temp, s.KH
	var ph, temp bool
	if c.has("tank") || !c.has("volume") {
		cs, err := w.ofTank(c)
		if err != nil {
			return w, err
		}
		ph, temp = cs.PH, cs.Temp
	}
	if a, ok := c.args["volume"]; ok {
		w.Volume = unit.Litres(a.low)
	}
	if a, ok := c.args["ph"]; ok {
		w.PH, ph = a.low, true
	}
	if a, ok := c.args["temp"]; ok {
		w.Temp, temp = unit.Celsius(a.low), true
	}
	if a, ok := c.args["kh"]; ok {
		w.KH, w.khKnown = unit.DKH(a.low).CaCO3(), true
	}
	if a, ok := c.args["ammonia"]; ok {
		w.levels["ammonia"] = new(float64(nitrogen(a, unit.Ammonia)))
	}
	if a, ok := c.args["animals"]; ok {
		w.animals = a.word
	}
	if a, ok := c.args["source"]; ok {
		w.source, w.told = sourceOf(a.word), true
	}
	if n := w.levels["ammonia"]; n != nil {
		w.Ammonia = unit.MgN(*n)
	}
	if !ph {
		w.usual = append(w.usual, fmt.Sprintf("pH %s", number(w.PH, 2)))
	}
	if !temp {
		w.usual = append(w.usual, inUnit(temps(), c.units.Temp, float64(w.Temp)).String())
	}
	return w, nil
}

// ofTank fills in a tank's water as it was last told, and says which of it was.
func (w *treated) ofTank(c *call) (model.Given, error) {
	t, err := c.tank()
	if err != nil {
		return model.Given{}, err
	}
	now, err := c.sinceStart(t)
	if err != nil {
		return model.Given{}, err
	}
	entries, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return model.Given{}, storeError(err, t.Name)
	}
	cs, err := caseOf(t, entries)
	if err != nil {
		return model.Given{}, err
	}
	return w.ofCase(cs, now, t.Name, dayNumber(t.Started, c.At)), nil
}

// ofCase is ofTank for what is known of a tank at a time.
func (w *treated) ofCase(cs model.Case, now unit.Days, name string, day float64) model.Given {
	s := current(cs.Setup, cs.Changes, now)
	w.tank, w.day, w.animals = name, new(day), "no"
	if animalsIn(cs, now) {
		w.animals = "yes"
	}
	w.Volume, w.PH, w.KH, w.Temp, w.Salinity = s.Volume, s.PH, s.KH, s.Temp, s.Salinity
	w.source, w.told, w.khKnown = s.Source, s.Given.Source, s.Given.KH
	if s.Given.KH {
		w.newKH = new(s.KH)
	}
	given := s.Given
	since := func(told func(model.Change) bool) (day unit.Days) { // of the last edit
		for _, x := range cs.Changes {
			if x.Day <= now && told(x) {
				day = x.Day
			}
		}
		return day
	}
	editPH, editKH := since(func(x model.Change) bool { return x.PH != nil }), since(func(x model.Change) bool { return x.KH != nil })
	editTemp := since(func(x model.Change) bool { return x.Temp != nil })
	for i := range cs.Readings {
		r := &cs.Readings[i]
		if r.Day > now {
			break
		}
		if r.PH != nil && r.Day >= editPH {
			w.PH, given.PH = *r.PH, true
		}
		if r.Temp != nil && r.Day >= editTemp {
			w.Temp, given.Temp = *r.Temp, true
		}
		if r.KH != nil && r.Day >= editKH {
			w.KH, w.khKnown, w.ages["kh"] = *r.KH, true, float64(now-r.Day)
		}
		for _, species := range []unit.Species{unit.Ammonia, unit.Nitrite, unit.Nitrate} {
			if seen := r.Of(species); seen != nil {
				w.levels[species.String()], w.ages[species.String()] = new(float64(highestOf(seen, species))), float64(now-r.Day)
				w.open[species.String()] = seen.Over
			}
		}
		if r.Chlorine != nil {
			w.levels["chlorine"], w.ages["chlorine"] = r.Chlorine, float64(now-r.Day)
		}
	}
	w.since(cs, now)
	if n := w.levels["ammonia"]; n != nil {
		w.Ammonia = unit.MgN(*n)
	}
	return given
}

// since takes in what was dosed and buffered within the last day and not tested since,
// so that nobody doses twice.
func (w *treated) since(cs model.Case, now unit.Days) {
	for _, e := range cs.Events {
		age := float64(now - e.Day)
		tested := func(what string) bool { at, ok := w.ages[what]; return ok && at < age }
		switch {
		case age < 0 || age > 1:
		case e.Kind == model.Dose && !tested("ammonia"):
			w.recent += e.N
		case e.Kind == model.Buffer && !tested("kh"):
			w.PH = chem.PHAfter(w.PH, w.KH, w.KH+e.Alk, w.Temp, w.Salinity)
			w.KH += e.Alk
			w.buffered += e.Alk
		}
	}
	if w.recent > 0 {
		all := float64(w.recent)
		if n := w.levels["ammonia"]; n != nil {
			all += *n
		}
		w.levels["ammonia"] = &all
	}
}

// highestOf is the upper step that was seen, as nitrogen.
func highestOf(s *model.Seen, species unit.Species) unit.MgN {
	if s.AsN {
		return unit.MgN(s.High)
	}
	return unit.MgIon(s.High).N(species)
}

// sourceOf is the source of a name that passed its option's choices.
func sourceOf(name string) model.Source {
	for i, n := range sourceNames {
		if n == name {
			return model.Source(i)
		}
	}
	return model.Chlorinated
}

// stale is from how many days on a reading is said to be old.
const stale = 2

// old says how old a reading is that an answer rests on, if that is long.
func (w treated) old(name string) string {
	if age := w.ages[name]; age >= stale {
		return fmt.Sprintf("%s as read %s ago, so test again first", label(name), daysText(rounded(age, 0)))
	}
	return ""
}

// rests notes that an answer rests on an old reading.
func (w *treated) rests(names ...string) {
	for _, name := range names {
		if text := w.old(name); text != "" {
			w.assumed = append(w.assumed, text)
		}
	}
}

// free prints free ammonia.
func free(x float64) float64 { return rounded(digits(x, 2), 4) }
