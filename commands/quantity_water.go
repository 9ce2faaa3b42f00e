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
	tank    string
	day     *float64
	animals string
	at      unit.Days         // of a tank
	levels  map[string]*level // by levelNames, as far as they are known, and "kh" of a tank
	khKnown bool              // told or read
	phTold  bool              // the same, of a tank's pH
	stands  bool              // the last tests of ammonia show that what is dosed stands
	newKH   *unit.MgCaCO3     // of new water, if it was told
	source  model.Source
	told    bool // the source was
	assumed []string
	usual   []string // of pH and temperature, what was not told; assumed where they count
}

// treated gathers the water: the member's tank as last read, or any water of a volume;
// options stand over both.
func (c *call) treated() (treated, error) {
	s := typical(statement{})
	w := treated{animals: "unknown", levels: map[string]*level{}, assumed: []string{}, source: s.Source}
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
		w.levels["ammonia"] = &level{now: float64(nitrogen(a, unit.Ammonia)), told: true}
	}
	if a, ok := c.args["animals"]; ok {
		w.animals = a.word
	}
	if a, ok := c.args["source"]; ok {
		w.source, w.told = sourceOf(a.word), true
	}
	if l := w.levels["ammonia"]; l != nil {
		w.Ammonia = unit.MgN(l.now)
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
	t := waterAt(cs, now)
	w.tank, w.day, w.animals = name, new(day), "no"
	if animalsIn(cs, now) {
		w.animals = "yes"
	}
	w.at, w.levels, w.stands = now, t.levels, t.stands
	w.levels["kh"] = &t.kh
	w.Volume, w.PH, w.KH, w.Temp, w.Salinity = t.Volume, t.ph.now, unit.MgCaCO3(t.kh.now), unit.Celsius(t.temp.now), t.Salinity
	w.source, w.told, w.khKnown = t.Source, t.Given.Source, t.kh.told
	if t.Given.KH {
		w.newKH = new(t.KH)
	}
	if l := w.levels["ammonia"]; l != nil {
		w.Ammonia = unit.MgN(l.now)
	}
	given := t.Given
	given.PH, given.Temp = t.ph.told, t.temp.told
	return given
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

// age is how many days ago something was tested; false if it was told otherwise or never.
func (w treated) age(name string) (days float64, tested bool) {
	l := w.levels[name]
	if l == nil || !l.read {
		return 0, false
	}
	return float64(w.at - l.at), true
}

// added is what was dosed or buffered since a level was told.
func (w treated) added(name string) float64 {
	if l := w.levels[name]; l != nil {
		return l.added
	}
	return 0
}

// khSum says, where a tank's hardness is but a sum of one told long ago, or never, and of the
// buffers since, what that rests on; "" elsewhere.
func (w treated) khSum() string {
	switch l := w.levels["kh"]; {
	case l == nil || l.added == 0 || l.lately(w.at):
		return ""
	case !l.told:
		return "KH was never told"
	default:
		return fmt.Sprintf("KH was told %s ago", daysText(rounded(float64(w.at-l.at), 0)))
	}
}

// old says how old a reading is that an answer rests on, if that is long.
func (w treated) old(name string) string {
	if age, _ := w.age(name); age >= stale {
		return fmt.Sprintf("%s as read %s ago, so test again first", label(name), daysText(rounded(age, 0)))
	}
	return ""
}

// rests notes what an answer takes of a level beside its last test: that this is old,
// and what was logged since.
func (w *treated) rests(c *call, name string) {
	if text := w.old(name); text != "" {
		w.assumed = append(w.assumed, text)
	}
	l := w.levels[name]
	switch {
	case l == nil:
		return
	case l.added > 0 && name == "kh":
		text := fmt.Sprintf("the %s added since KH was told is still there", c.kh(unit.MgCaCO3(l.added)))
		if sum := w.khSum(); sum != "" && !l.read {
			text += fmt.Sprintf(", though %s, so test it first", sum)
		}
		w.assumed = append(w.assumed, text)
	case l.added > 0:
		when := "within the last day is still there"
		if w.stands {
			when = "since that test is still there, as the tests before show that it stands"
		}
		w.assumed = append(w.assumed, fmt.Sprintf("the %s mg/L dosed %s", sigText(onScaleOf(scaleOf(c), unit.MgN(l.added), unit.Ammonia)), when))
	}
	if l.changed {
		w.assumed = append(w.assumed, fmt.Sprintf("%s as it was left by the water change since, so test again to be sure", label(name)))
	}
}

// free prints free ammonia.
func free(x float64) float64 { return rounded(digits(x, 2), 4) }
