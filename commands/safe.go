package commands

import (
	"math"
	"slices"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/safety"
	"ripen/engine/unit"
	"ripen/store"
)

func safeSpecs() []Spec {
	return []Spec{{Name: "safe", Private: true, Help: "whether water is safe for animals", Example: "/safe ammonia:1 ph:8 temp:26C", run: safe,
		Options: []Option{
			optTank(), optAmmonia(TypeReading), optNitrite(TypeReading), optPH("ph", "pH"), optTemp("temperature: 25C, 77F"), optSalinity(),
			optChloride(), optChlorine(),
			{Name: "animals", Type: TypeChoice, Choices: kinds[:], Help: "whom ammonia is judged for: mussels (and gilled snails; default), trout or warm-water fishes"},
			{Name: "new-ammonia", Type: TypeConc, Max: 50, Unit: "mg/L", Help: "ammonia in the new water of a change", scaled: true},
			{Name: "new-nitrite", Type: TypeConc, Max: 100, Unit: "mg/L", Help: "nitrite in the new water of a change", scaled: true},
			optPH("new-ph", "pH of the new water of a change"),
		}}}
}

// judged are the options that tell a level which is judged. The others describe the
// water that it is in: of a member who has a tank they are about that.
var judged = []string{"ammonia", "nitrite", "chlorine"}

// Safe says whether water is safe for animals, and what to do.
type Safe struct {
	Tank    string   `json:"tank,omitempty"`
	Day     *float64 `json:"day,omitempty"`
	Animals string   `json:"animals"` // "yes", "no" or "unknown"
	Water   Tested   `json:"water"`
	New     NewWater `json:"new_water"`
	Assumed []string `json:"assumed"` // what was not told and is taken as usual
	Age     float64  `json:"age_days"`
	Since   []string `json:"since_test"`                // logged after the last test, see sinceNames; "untreated": tap water with its chlorine
	Counted []string `json:"since_counted,omitempty"`   // of these, what the water was judged with
	Not     []string `json:"since_uncounted,omitempty"` // and what only a test can tell; a dose of more than a day ago beside one that counts
	Again   []string `json:"test_again"`                // the tests that would tell what that did: "ammonia", "nitrite", "ph", "chlorine"
	Over    bool     `json:"topped_out"`                // a chart was at its end, so it may be worse
	Doubt   *PHDoubt `json:"ph_doubt"`
	Crash   string   `json:"crash,omitempty"`          // what shows that the hardness is used up, as in /outlook
	UsedUp  *float64 `json:"kh_used_up_dkh,omitempty"` // the hardness then, if it was tested
	Safety
	Do []string `json:"do"`
}

// Tested is the water that was judged, in fixed units.
type Tested struct {
	PH       *float64 `json:"ph"`
	TempC    *float64 `json:"temp_c"`
	Salinity *float64 `json:"salinity_gkg"`
	Chloride *float64 `json:"chloride_mgl"`
	Temp     Quantity `json:"temp"` // in the member's unit
}

// NewWater is what a water change is taken to bring.
type NewWater struct {
	Source     string   `json:"source,omitempty"` // of the tank
	Untreated  bool     `json:"untreated"`        // tap water that the keeper does not condition by habit
	Ammonia    float64  `json:"ammonia_mgl"`      // on the member's scale
	Nitrite    float64  `json:"nitrite_mgl"`
	PH         *float64 `json:"ph"`
	Chloramine bool     `json:"chloramine"` // the ammonia is what chloramine leaves behind
	Soft       bool     `json:"soft"`       // it may bring no hardness: pure water, or told to have hardly any
}

// PHDoubt is a verdict at a pH that is as likely as one in ten where nobody told it.
type PHDoubt struct {
	PH      float64 `json:"ph"`
	Verdict string  `json:"verdict"`
}

// safe judges the water of a tank, or any water that the options describe;
// with both, the options stand for what they name.
func safe(c *call) (Result, error) {
	told := slices.ContainsFunc(judged, c.has)
	r := Safe{Animals: "unknown", Assumed: []string{}}
	var w water
	var fresh safety.NewWater
	litres, highPH := 10.0, 0.0
	if c.has("tank") || !told {
		t, err := c.tank()
		if err != nil && !c.has("tank") && slices.ContainsFunc([]string{"ph", "temp", "salinity", "chloride"}, c.has) {
			return nil, nothingToJudge("") // water without a level, and no one tank that it is of
		}
		if err != nil {
			return nil, err
		}
		cs, err := c.caseOf(t)
		if err != nil {
			return nil, err
		}
		w, fresh, highPH = r.ofTank(c, t, cs)
		litres = float64(cs.Setup.Volume)
	}
	c.describe(&w)
	r.sinceTests(w.Since)
	r.Age = math.Floor(w.Aged)
	c.describeNew(&r.New, &fresh)
	if w.Ammonia == nil && w.Nitrite == nil && w.Chlorine == nil {
		return nil, nothingToJudge(r.Tank)
	}
	if w.Ammonia != nil && *w.Ammonia > 0 && w.PH == nil {
		return nil, refuse(CodeMissing, "ph", "how harmful ammonia is hangs on the pH; add it, as in ph:7.6")
	}
	if w.Temp == nil {
		w.Temp = new(typical(statement{}).Temp)
		if w.Ammonia != nil {
			r.Assumed = append(r.Assumed, "temp")
		}
	}
	if w.Nitrite != nil && *w.Nitrite > 0 && w.known().NoChloride() {
		r.Assumed = append(r.Assumed, "chloride")
	}
	kind := safety.Animals(max(0, slices.Index(kinds[:], c.args["animals"].word)))
	r.judge(c, w, fresh, kind, litres)
	if !c.has("animals") && w.Ammonia != nil && *w.Ammonia > 0 && r.JudgedFor == kinds[safety.Mussels] {
		r.Assumed = append(r.Assumed, "animals")
	}
	if highPH > 0 && !c.has("ph") && w.PH != nil {
		w.PH = new(max(highPH, *w.PH))
		if high := safety.Assess(w.known(), kind).Verdict; high != r.Verdict && high != safety.Safe {
			r.Doubt = &PHDoubt{rounded(*w.PH, 1), high}
		}
	}
	r.Do = r.advice()
	return r, nil
}

// sinceTests takes in what was logged since the last tests.
func (r *Safe) sinceTests(since sinceTests) {
	r.Since, r.Counted, r.Not, r.Again = []string{}, []string{}, []string{}, []string{}
	for _, test := range []string{nitrogenTest, phTest, chlorineTest} {
		if len(since[test]) == 0 {
			continue
		}
		for _, x := range since[test] {
			r.Since = append(r.Since, x.name)
			if x.counted {
				r.Counted = append(r.Counted, x.name)
			} else {
				r.Not = append(r.Not, x.name)
			}
		}
		r.Again = append(r.Again, test)
		if test == nitrogenTest {
			r.Again = append(r.Again, "nitrite")
		}
	}
	for _, names := range []*[]string{&r.Since, &r.Counted, &r.Not} {
		slices.Sort(*names)
		*names = slices.Compact(*names)
	}
}

// chlorineUnread is why water that lies within all limits is not safe: how much chlorine
// untreated tap water brought, nobody knows.
const chlorineUnread = "untreated tap water went in since the test, and its chlorine harms gills"

// judge holds the water against the limits, and animals' water against what was done since.
func (r *Safe) judge(c *call, w water, fresh safety.NewWater, kind safety.Animals, litres float64) {
	r.Safety = assess(w, fresh, kind, litres)
	if r.Verdict == safety.Safe && r.Animals == "yes" && slices.Contains(r.Since, "untreated") {
		r.Verdict, r.Strictest, r.Reasons = safety.Caution, safety.Chlorine, []string{chlorineUnread}
	}
	r.Over = w.AmmoniaOver || w.NitriteOver
	r.Water = Tested{w.PH, new(rounded(float64(*w.Temp), 2)), w.Salinity, w.Chloride, inUnit(temps(), c.units.Temp, float64(*w.Temp))}
}

// caseOf reads what is known of a tank.
func (c *call) caseOf(t store.Tank) (model.Case, error) {
	entries, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return model.Case{}, storeError(err, t.Name)
	}
	return caseOf(t, entries)
}

// ofTank fills in a tank's own water, and the new water of its set-up. highPH is the
// pH that is reached with one chance in ten, if none was ever told; else 0.
func (r *Safe) ofTank(c *call, t store.Tank, cs model.Case) (w water, fresh safety.NewWater, highPH float64) {
	now := daysSince(t.Started, c.At)
	told := waterAt(cs, now)
	r.Tank, r.Day = t.Name, new(dayNumber(t.Started, c.At))
	r.Animals = "no"
	if animalsIn(cs, now) {
		r.Animals = "yes"
	}
	r.Crash, r.UsedUp = told.usedUp(cs)
	if !told.ph.told && !c.has("ph") {
		r.Assumed = append(r.Assumed, "ph")
		usual := cs.Setup.Water()
		highPH = usual.PH + tenth*usual.PHSD
	}
	if !told.temp.told && !c.has("temp") {
		r.Assumed = append(r.Assumed, "temp")
	}
	return told.judged(), r.New.ofSetup(cs.Setup, told.Setup), highPH
}

// usedUp is what shows that the hardness is used up, as for all that asks, and the hardness in
// dKH as far as it was tested with that; "" and nil where nothing shows it.
func (t tankWater) usedUp(cs model.Case) (crash string, left *float64) {
	full, _ := model.Complete(cs, t.day)
	if crash = outlook.Crash(&full, t.day); crash == "" {
		return "", nil
	}
	if kh := unit.MgCaCO3(t.kh.now); t.kh.read && kh < scant.CaCO3() { // else it is the pH that shows it
		left = new(rounded(float64(kh.DKH()), 1))
	}
	return crash, left
}

// usedUpText says what shows that the hardness is used up.
func usedUpText(crash string, left *float64) string {
	if left != nil {
		return "KH " + number(*left, 1) + " dKH"
	}
	return crash
}

// ofSetup is the new water that goes with a set-up: its pH is what was told for the
// start, when the tank held nothing else.
func (n *NewWater) ofSetup(start, now model.Setup) (fresh safety.NewWater) {
	n.Source = sourceNames[now.Source]
	tap := now.Source == model.Chlorinated || now.Source == model.Chloraminated
	n.Soft = now.Source == model.RO || now.Source == model.Rain || now.Given.KH && now.KH < scant.CaCO3()
	n.Untreated = tap && now.Given.Conditioner && !now.Conditioner
	if now.Source == model.Chloraminated {
		fresh.Ammonia, n.Chloramine = safety.ChloramineLeaves, true
	}
	if start.Given.PH {
		fresh.PH = new(start.PH)
	}
	return fresh
}

// describe lets the options stand over what is known of the water.
func (c *call) describe(w *water) {
	value := func(option string, to **float64) {
		if a, ok := c.args[option]; ok {
			*to = new(a.low)
		}
	}
	value("ph", &w.PH)
	value("salinity", &w.Salinity)
	value("chloride", &w.Chloride)
	value("chlorine", &w.Chlorine)
	if a, ok := c.args["temp"]; ok {
		w.Temp = new(unit.Celsius(a.low))
	}
	if c.has("ph") {
		delete(w.Since, phTest)
	}
	if c.has("chlorine") {
		delete(w.Since, chlorineTest)
	}
	r := readingOf(c.args, 0)
	if r.Ammonia != nil {
		w.Ammonia, w.AmmoniaOver = new(highestOf(r.Ammonia, unit.Ammonia)), r.Ammonia.Over
	}
	if r.Nitrite != nil {
		w.Nitrite, w.NitriteOver = new(highestOf(r.Nitrite, unit.Nitrite)), r.Nitrite.Over
	}
	if r.Ammonia != nil || r.Nitrite != nil {
		w.Aged = 0
		delete(w.Since, nitrogenTest)
	}
}

// describeNew lets the options stand over what is known of the new water.
func (c *call) describeNew(n *NewWater, fresh *safety.NewWater) {
	if a, ok := c.args["new-ammonia"]; ok {
		fresh.Ammonia, n.Chloramine = nitrogen(a, unit.Ammonia), false
	}
	if a, ok := c.args["new-nitrite"]; ok {
		fresh.Nitrite = nitrogen(a, unit.Nitrite)
	}
	if a, ok := c.args["new-ph"]; ok {
		fresh.PH = new(a.low)
	}
	n.Ammonia = rounded(onScaleOf(c.units.Scale, fresh.Ammonia, unit.Ammonia), 2)
	n.Nitrite = rounded(onScaleOf(c.units.Scale, fresh.Nitrite, unit.Nitrite), 3)
	n.PH = fresh.PH
}

func nothingToJudge(tank string) *Error {
	if tank == "" {
		return refuse(CodeMissing, "", "say what is in the water: at least one of ammonia (with ph), nitrite or chlorine, as in /safe ammonia:1 ph:8 temp:26C")
	}
	return refuse(CodeMissing, "", "%s has no reading of ammonia, nitrite or chlorine yet; note one with /reading, or give the numbers here, as in /safe ammonia:1 ph:8", quote(tank))
}
