package commands

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"ripen/engine/chem"
	"ripen/engine/dosing"
	"ripen/engine/unit"
)

// AmmoniaAmount is a dose of ammonia. Levels are on the scale that the member reads.
type AmmoniaAmount struct {
	Amount
	From    float64     `json:"from_mgl"`
	To      float64     `json:"to_mgl"`
	Rise    float64     `json:"rise_mgl"`
	Product string      `json:"product"`      // how it was understood
	Dose    *Dose       `json:"dose"`         // null with animals in
	Uses    Quantity    `json:"uses_kh"`      // by oxidising the rise
	Brings  Quantity    `json:"brings_kh"`    // with the solution
	KH      *Quantity   `json:"kh,omitempty"` // there now, if it is known
	KHAfter *Quantity   `json:"kh_after,omitempty"`
	Effect  LevelEffect `json:"effect"`
}

// Dose is how much of a product it takes.
type Dose struct {
	Grams    *float64 `json:"g,omitempty"` // of a dry salt
	ML       *float64 `json:"ml,omitempty"`
	Drops    *float64 `json:"drops,omitempty"`
	Density  *float64 `json:"density_g_ml,omitempty"`
	Dissolve *Diluted `json:"dissolve,omitempty"` // a way to measure little
}

// Diluted is a small amount made measurable: so much of it in 100 ml, and of that ML.
type Diluted struct {
	Put  float64 `json:"put"` // grams of a salt, ml of a solution
	Into float64 `json:"into_ml"`
	ML   float64 `json:"ml"`
}

// LevelEffect is what a level of ammonia does.
type LevelEffect struct {
	Level   float64  `json:"ammonia_mgl"`
	PH      float64  `json:"ph"`
	Free    float64  `json:"free_ammonia_mgl"`
	Harm    float64  `json:"free_ammonia_harm_mgl"`
	Percent float64  `json:"nitrite_oxidiser_growth_percent"` // of their growth, what is left
	Uses    Quantity `json:"uses_kh"`
	Largest float64  `json:"largest_dose_mgl"`
}

// ammoniaAmount works out a dose of ammonia.
func (c *call) ammoniaAmount(w treated) (Result, error) {
	p, taken, refused := ammoniaProduct(c.args["product"].typed, c.args["density"].low)
	if refused != nil {
		return nil, refused
	}
	o := optAmmonia(TypeConc)
	to, refused := c.level("to", o)
	if refused != nil {
		return nil, refused
	}
	from, refused := c.level("from", o)
	if refused != nil {
		return nil, refused
	}
	if from != nil {
		w.Ammonia = nitrogen(*from, unit.Ammonia)
	} else if w.levels["ammonia"] == nil {
		w.assumed = append(w.assumed, "no ammonia in the water now")
	} else if !c.has("ammonia") {
		w.rests(c, "ammonia")
	}
	r := AmmoniaAmount{Product: taken}
	goal := nitrogen(*to, unit.Ammonia)
	scaled := func(n unit.MgN) float64 { return digits(onScaleOf(scaleOf(c), n, unit.Ammonia), 3) }
	r.From, r.To, r.Rise = scaled(w.Ammonia), scaled(goal), scaled(goal-w.Ammonia)
	if w.animals == "yes" {
		w.assumed = append(w.assumed, w.usual...)
		r.Amount, r.Effect = w.base(c, "ammonia"), c.effectOf(goal, w.PH, w.Water)
		r.Warnings = append(r.Warnings, "animals are in, so dose no ammonia: "+r.Effect.does(true)+" Their food feeds the bacteria.")
		r.Cautions = cautionsOf("amount animals")
		return r, nil
	}
	if goal <= w.Ammonia || r.To == r.From {
		again := ""
		if age, _ := w.age("ammonia"); age >= stale && from == nil {
			again = "; that was read " + daysText(rounded(age, 0)) + " ago, so test again first"
		}
		return nil, refuse(CodeRange, "to", "to %s is not above the %s mg/L that the water has%s; wait until it is clear, or name a level above %s (up to %s)",
			quote(to.typed), sigText(r.From), again, sigText(r.From), number(o.Max, 0))
	}
	d, err := dosing.Ammonia(goal-w.Ammonia, w.Volume, p)
	if err != nil {
		return nil, amountError(err, "product", c.args["product"].typed)
	}
	r.Uses, r.Brings = c.kh(d.Uses), c.kh(d.Brings)
	after := w.KH + d.Brings - d.Uses
	ph := w.PH
	if w.khKnown {
		r.KH, r.KHAfter = new(c.kh(w.KH)), new(c.kh(max(after, 0)))
		ph = chem.PHAfter(w.PH, w.KH, w.KH+d.Brings, w.Temp, w.Salinity)
	}
	if d.Density > 0 && !c.has("density") {
		w.assumed = append(w.assumed, fmt.Sprintf("a density of %s g/ml, as published for that strength", number(d.Density, 3)))
	}
	large := goal.Ion(unit.Ammonia) > dosing.LargestDose
	if large {
		w.assumed = append(w.assumed, w.usual...)
	}
	r.Amount = w.base(c, "ammonia")
	r.Effect = c.effectOf(goal, ph, w.Water)
	if large {
		r.Warnings = append(r.Warnings, r.Effect.tooMuch())
	}
	if w.khKnown && after < scant.CaCO3() {
		r.Warnings = append(r.Warnings, fmt.Sprintf("oxidising it would take the KH from %s to %s, and without KH the bacteria stop: raise it first, see /amount what:buffer.", r.KH, r.KHAfter))
	}
	r.Dose = doseOf(d, p)
	r.Cautions = cautionsOf("amount ammonia")
	return r, nil
}

// scant is the hardness below which nitrification soon stops, and under which /why says to
// dose no more. Common practice, no source.
const scant unit.DKH = 2

// effectOf is what a level of total ammonia does at a pH.
func (c *call) effectOf(tan unit.MgN, ph float64, w dosing.Water) LevelEffect {
	scale := scaleOf(c)
	b := dosing.BurdenOf(tan, ph, w.Temp, w.Salinity)
	return LevelEffect{
		Level: digits(onScaleOf(scale, tan, unit.Ammonia), 3), PH: rounded(ph, 1), Free: free(b.Free), Harm: harmFrom, Percent: rounded(100*b.Growth, 0), Uses: c.kh(b.Uses),
		Largest: rounded(onScaleOf(scale, dosing.LargestDose.N(unit.Ammonia), unit.Ammonia), 1),
	}
}

// does says what the level does to animals or to bacteria.
func (e LevelEffect) does(animals bool) string {
	text := fmt.Sprintf("of %s mg/L ammonia %s would be free NH3 at pH %s", sigText(e.Level), sigText(e.Free), number(e.PH, 1))
	if animals {
		return text + fmt.Sprintf(", and gills are harmed from about %s.", sigText(e.Harm))
	}
	return text + fmt.Sprintf(", which leaves the bacteria that eat nitrite %s %% of their growth, and oxidising it takes %s.", number(e.Percent, 0), e.Uses)
}

func (e LevelEffect) tooMuch() string {
	return fmt.Sprintf("more than %s mg/L at once is a lot: %s Half of it now and the rest once that is clear is better.", number(e.Largest, 1), e.does(false))
}

// strength finds the percentage in the words of a product.
var strength = regexp.MustCompile(`([+-]?[0-9][0-9.,]*)\s*(%|percent|pct|$|\s)`)

// ammoniaProduct reads what ammonia is dosed from.
func ammoniaProduct(typed string, density float64) (p dosing.Product, taken string, err *Error) {
	const ways = "the strength of a solution as product:10% (by weight) or product:\"10% w/v\" (grams in 100 ml), or product:ammonium-chloride"
	if typed == "" {
		return p, "", refuse(CodeMissing, "product", "say what you dose from: %s", ways)
	}
	lower := strings.ToLower(typed)
	p.Salt = says(lower, "chloride", "nh4cl")
	p.ByVolume = strings.Contains(lower, "w/v") || strings.Contains(lower, "g/100")
	p.Hydroxide = says(lower, "hydroxide", "nh4oh")
	p.Density = density
	if says(lower, "sulfate", "sulphate", "nitrate", "phosphate", "carbonate", "bicarbonate", "urea") {
		return p, "", refuse(CodeChoice, "product", "product %s is none that can be counted with; write %s", quote(typed), ways)
	}
	m := strength.FindStringSubmatch(strings.Split(strings.ReplaceAll(lower, "g/100", "%"), "w/")[0])
	switch {
	case m == nil && p.Salt:
		return p, "ammonium chloride", nil
	case m == nil:
		return p, "", refuse(CodeChoice, "product", "product %s names no strength that can be read; write %s", quote(typed), ways)
	}
	x, err := readNumber("product", m[1], shares())
	if err != nil {
		return p, "", err
	}
	if p.Percent = x; !(x >= 0.1 && x <= dosing.MaxPercent) {
		return p, "", refuse(CodeRange, "product", "product %s is outside 0.1 to %s %%, the strongest that ammonia dissolves to; write the strength on its label, as in product:10%%", quote(typed), number(dosing.MaxPercent, 0))
	}
	taken = number(x, 2) + " % ammonia by weight"
	switch {
	case p.Salt:
		taken = number(x, 2) + " g of ammonium chloride in 100 ml"
	case p.ByVolume:
		taken = number(x, 2) + " g of ammonia in 100 ml"
	}
	if p.Hydroxide {
		taken = strings.Replace(taken, "ammonia", "ammonium hydroxide", 1)
	}
	return p, taken, nil
}

// drops counts drops for doses so small, ml; smaller ones than least are diluted first.
const (
	dropsUpTo = 5
	dropsFrom = 0.25
)

// doseOf makes a dose of what the engine found.
func doseOf(d dosing.AmmoniaDose, p dosing.Product) *Dose {
	if p.Salt && p.Percent == 0 {
		return &Dose{Grams: new(digits(float64(d.Mass), 3)), Dissolve: diluted(float64(d.Mass), 2)}
	}
	r := &Dose{ML: new(digits(d.ML, 3))}
	if d.Density > 0 {
		r.Density = new(rounded(d.Density, 3))
	}
	if d.ML < dropsUpTo {
		r.Drops = new(math.Round(d.ML * dosing.DropsPerML))
	}
	if d.ML < dropsFrom {
		r.Drops, r.Dissolve = nil, diluted(d.ML, dropsFrom)
	}
	return r
}

// diluted is how to measure x, if it is less than least: 10 of it made up to 100 ml.
func diluted(x, least float64) *Diluted {
	if x >= least {
		return nil
	}
	d := &Diluted{Put: 10, Into: 100}
	for x*d.Into/d.Put < 1 {
		d.Put /= 10
	}
	d.ML = digits(x*d.Into/d.Put, 2)
	return d
}

// Text says how much, then what it does.
func (r AmmoniaAmount) Text() string {
	if r.Dose == nil {
		return r.text()
	}
	how := ""
	if x := r.Dose.Dissolve; x != nil && r.Dose.Grams != nil {
		how = fmt.Sprintf("So little is easier to measure dissolved: %s g in water made up to %s ml, and of that %s ml.", number(x.Put, 2), number(x.Into, 0), sigText(x.ML))
	} else if x != nil {
		how = fmt.Sprintf("So little is easier to measure diluted: %s ml made up with water to %s ml, and of that %s ml.", number(x.Put, 2), number(x.Into, 0), sigText(x.ML))
	}
	alk := fmt.Sprintf("Oxidising it uses up about %s", r.Uses)
	if r.Brings.Value > 0 {
		alk += fmt.Sprintf("; the solution brings %s of that", r.Brings)
	}
	if r.KH != nil {
		alk += fmt.Sprintf(", so KH goes from %s to about %s", r.KH, r.KHAfter)
	}
	return r.text(
		fmt.Sprintf("For %s: %s raises ammonia from %s to %s mg/L%s.", r.where(), r.Dose.words(r.Product), sigText(r.From), sigText(r.To), asNitrogen(r.Scale)),
		how, alk+".",
		fmt.Sprintf("Test an hour later, and note it: /log what:dose amount:%sppm", number(r.Rise, 3)),
	)
}

// words names the dose.
func (d Dose) words(product string) string {
	if d.Grams != nil {
		return fmt.Sprintf("%s g of %s", sigText(*d.Grams), product)
	}
	text := fmt.Sprintf("%s ml", sigText(*d.ML))
	if d.Drops != nil {
		text += fmt.Sprintf(" (about %s drops)", number(*d.Drops, 0))
	}
	return text + fmt.Sprintf(" of the solution (%s)", product)
}

func asNitrogen(scale string) string {
	if scale == "n" {
		return " as nitrogen"
	}
	return ""
}
