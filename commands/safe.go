package commands

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ripen/engine/model"
	"ripen/engine/unit"
	"ripen/store"
)

func safeSpecs() []Spec {
	return []Spec{{Name: "safe", Private: true, Help: "whether water is safe for animals", Example: "/safe ammonia:1 ph:8 temp:26C", run: safe,
		Options: []Option{
			optTank(), optAmmonia(TypeReading), optNitrite(TypeReading), optPH("ph", "pH"), optTemp("temperature: 25C, 77F"), optSalinity(),
			{Name: "chloride", Type: TypeConc, Max: 25000, Unit: "mg/L", Help: "chloride (Cl), from the supplier's report"},
			optChlorine(),
		}}}
}

// Safe says whether water is safe for animals, and what to do.
type Safe struct {
	Tank    string   `json:"tank,omitempty"`
	Day     *float64 `json:"day,omitempty"`
	Animals string   `json:"animals"` // "yes", "no" or "unknown"
	Water   Tested   `json:"water"`
	Assumed []string `json:"assumed"` // what was not told and is taken as usual
	Age     float64  `json:"age_days"`
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

// safe judges the water of a tank, or any water that the options describe;
// with both, the options stand for what they name.
func safe(c *call) (Result, error) {
	told := slices.ContainsFunc(optionNames(c.spec), func(o string) bool { return o != "tank" && c.has(o) })
	r := Safe{Animals: "unknown", Assumed: []string{}}
	var w water
	if c.has("tank") || !told {
		t, err := c.tank()
		if err != nil {
			return nil, err
		}
		if w, err = r.ofTank(c, t); err != nil {
			return nil, err
		}
	}
	c.describe(&w)
	if w.Ammonia == nil && w.Nitrite == nil && w.Chlorine == nil {
		return nil, nothingToJudge(r.Tank)
	}
	if w.Ammonia != nil && w.PH == nil {
		return nil, refuse(CodeMissing, "ph", "how harmful ammonia is hangs on the pH; add it, as in ph:7.6")
	}
	if w.Temp == nil {
		w.Temp = new(typical(statement{}).Temp)
		if w.Ammonia != nil {
			r.Assumed = append(r.Assumed, "temp")
		}
	}
	if w.Nitrite != nil && w.Chloride == nil && (w.Salinity == nil || *w.Salinity == 0) {
		r.Assumed = append(r.Assumed, "chloride")
	}
	r.Safety = assess(w)
	r.Water = Tested{w.PH, new(rounded(float64(*w.Temp), 2)), w.Salinity, w.Chloride, inUnit(temps(), c.units.Temp, float64(*w.Temp))}
	if w.Salinity != nil && *w.Salinity > freshUpTo {
		r.Reasons = append(r.Reasons, "the limits are those of fresh water; in salt water take them as a guide")
	}
	if w.AmmoniaOver || w.NitriteOver {
		r.Reasons = append(r.Reasons, "a chart topped out, so it may be worse; dilute the sample with as much clean water and double what you read")
	}
	r.Do = r.advice()
	return r, nil
}

// ofTank fills in a tank's own water.
func (r *Safe) ofTank(c *call, t store.Tank) (water, error) {
	entries, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return water{}, storeError(err, t.Name)
	}
	cs, err := caseOf(t, entries)
	if err != nil {
		return water{}, err
	}
	now := daysSince(t.Started, c.At)
	w, stated := waterOf(cs, now)
	r.Tank, r.Day, r.Age = t.Name, new(dayNumber(t.Started, c.At)), math.Floor(w.Aged)
	r.Animals = "no"
	if animalsIn(cs, now) {
		r.Animals = "yes"
	}
	if !stated.PH && !c.has("ph") {
		r.Assumed = append(r.Assumed, "ph")
	}
	if !stated.Temp && !c.has("temp") {
		r.Assumed = append(r.Assumed, "temp")
	}
	return w, nil
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
	if c.has("ammonia") || c.has("nitrite") {
		r := readingOf(c.args, 0)
		w.add(model.Reading{Ammonia: r.Ammonia, Nitrite: r.Nitrite})
		w.Aged = 0
	}
}

// freshUpTo is the salinity up to which water counts as fresh, g/kg.
const freshUpTo = 1

func nothingToJudge(tank string) *Error {
	if tank == "" {
		return refuse(CodeMissing, "", "say what is in the water: at least one of ammonia (with ph), nitrite or chlorine, as in /safe ammonia:1 ph:8 temp:26C")
	}
	return refuse(CodeMissing, "", "%s has no reading of ammonia, nitrite or chlorine yet; note one with /reading, or give the numbers here, as in /safe ammonia:1 ph:8", quote(tank))
}

// mostAtOnce is the largest share of the water replaced in one go, so that the
// rest of its chemistry does not jump; common practice, no source.
const mostAtOnce = 50

// advice says what to do, animals first.
func (r Safe) advice() []string {
	if r.Verdict == "safe" {
		if r.Animals == "yes" {
			return []string{"nothing now; go on testing while the cycle is not done"}
		}
		return []string{"nothing now"}
	}
	if r.Animals == "no" {
		return []string{"no animals are in, so nothing is urgent: put none in until /safe says safe", "do not change water for this alone; the bacteria live on it"}
	}
	var do []string
	if r.Animals == "unknown" {
		do = append(do, "put no animals into this water; if they are in it:")
	}
	if p := or(r.OutOfDanger, r.ToSafe); p != nil {
		do = append(do, changeText(*p), "use conditioned water of the same temperature and a like pH")
		if r.OutOfDanger != nil && r.ToSafe != nil && *r.ToSafe > *r.OutOfDanger {
			do = append(do, fmt.Sprintf("that ends the danger; to be within the limits for longer it takes %s %% in all, over the next days", number(*r.ToSafe, 0)))
		}
		do = append(do, "feed nothing and dose nothing until then, and test again tomorrow")
	}
	if r.Chlorine != nil && *r.Chlorine > r.ChlorineLong {
		do = append(do, "chlorine: add a conditioner now, as its label says, and let the filter ripple the surface")
	}
	return append(do, "sick animals need a vet")
}

// changeText says how to replace a share of the water.
func changeText(percent float64) string {
	if percent <= mostAtOnce {
		return fmt.Sprintf("replace about %s %% of the water now", number(percent, 0))
	}
	goes := math.Ceil(math.Log(1-percent/100)/math.Log(1-mostAtOnce/100.0) - 1e-9)
	if percent >= 100 {
		return "replace half of the water now, and again every few hours until the tests are down"
	}
	return fmt.Sprintf("replace %d %% of the water %s times, some hours apart (together about %s %%)", mostAtOnce, number(goes, 0), number(percent, 0))
}

// Text says the verdict first.
func (r Safe) Text() string {
	var b strings.Builder
	b.WriteString(map[string]string{"safe": "Safe", "caution": "Caution", "danger": "Danger"}[r.Verdict] + " for animals")
	if r.Tank != "" {
		fmt.Fprintf(&b, " in %s", r.Tank)
	}
	fmt.Fprintf(&b, ": %s.", strings.Join(r.Reasons, "; "))
	if r.FreeAmmonia != nil && *r.FreeAmmonia > 0 {
		fmt.Fprintf(&b, "\nAt pH %s and %s, %s mg/L of the ammonia is free NH3, the harmful part; gills are harmed from about %s mg/L.",
			number(*r.Water.PH, 2), r.Water.Temp, sigText(*r.FreeAmmonia), sigText(r.HarmFrom))
	}
	if r.Verdict != "safe" {
		fmt.Fprintf(&b, "\nThe strictest here: %s.", r.Strictest)
	}
	if r.Age >= 2 {
		fmt.Fprintf(&b, "\nThe last test is %s days old; test again to be sure.", number(r.Age, 0))
	}
	b.WriteString("\nDo:")
	for _, d := range r.Do {
		fmt.Fprintf(&b, "\n- %s", d)
	}
	if len(r.Assumed) > 0 {
		fmt.Fprintf(&b, "\nNot told, so the usual is taken: %s%s.", list(labels(r.Assumed), "and"), chlorideNote(r.Assumed))
	}
	return b.String()
}

func chlorideNote(assumed []string) string {
	if slices.Contains(assumed, "chloride") {
		return " (none; any chloride makes nitrite less harmful)"
	}
	return ""
}
