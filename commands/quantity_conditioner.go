package commands

import (
	"fmt"
	"strings"

	"ripen/engine/dosing"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// ConditionerAmount is how much conditioner takes the chlorine out of water.
type ConditionerAmount struct {
	Amount
	Chlorine    float64      `json:"chlorine_mgl"`
	Chloramine  bool         `json:"chloramine"`
	Unsure      bool         `json:"source_unknown"` // so it may be chloramine
	Product     string       `json:"product"`        // "crystals", "anhydrous", "solution" or "label"
	Crystals    float64      `json:"crystals_g"`
	Anhydrous   float64      `json:"anhydrous_g"`
	Least       float64      `json:"least_crystals_g"`
	Dissolve    *Diluted     `json:"dissolve,omitempty"`
	Strength    *float64     `json:"strength_percent,omitempty"`
	ML          *float64     `json:"ml,omitempty"`
	Reaction    string       `json:"reaction"`
	LeavesMgL   float64      `json:"leaves_ammonia_mgl"` // if it is chloramine
	LeavesThere *LevelEffect `json:"leaves_effect,omitempty"`
}

// conditionerAmount works out how much thiosulfate it takes.
func (c *call) conditionerAmount(w treated) (Result, error) {
	r := ConditionerAmount{Chlorine: dosing.MostChlorine, Chloramine: w.source == model.Chloraminated, Reaction: dosing.ChlorineReaction, Product: "crystals"}
	typed := c.args["product"].typed
	switch m := strength.FindStringSubmatch(strings.Split(typed, "w/")[0]); {
	case m != nil:
		x, err := readNumber("product", m[1], shares())
		if err != nil {
			return nil, err
		}
		if !(x >= 0.1 && x <= mostThiosulfate) {
			return nil, refuse(CodeRange, "product", "product %s is outside 0.1 to %s %%, the most crystals that 100 ml of solution hold; write grams of crystals in 100 ml, as in product:10%%", quote(typed), number(mostThiosulfate, 0))
		}
		r.Product, r.Strength = "solution", new(rounded(x, 2))
	case typed == "" || says(typed, "thiosulfate", "thiosulphate", "pentahydrate", "crystals"):
	case says(typed, "anhydrous"):
	default:
		r.Product = "label"
	}
	if says(typed, "anhydrous") {
		r.Product = "anhydrous"
	}
	if a, ok := c.args["new-chlorine"]; ok {
		r.Chlorine = a.low
	} else if x := w.levels["chlorine"]; x != nil && x.bound && !c.has("volume") {
		return nil, refuse(CodeNothing, "what", "conditioner went into %s since its chlorine was read, so test that again first: /reading chlorine:; for new water add volume: and new-chlorine: to this command", quote(w.tank))
	} else if x != nil && x.now > 0 && !c.has("volume") {
		r.Chlorine = x.now
	} else {
		w.assumed = append(w.assumed, fmt.Sprintf("%s mg/L chlorine, the most that tap water may hold by US rules; new-chlorine: is for what your water report says", number(r.Chlorine, 1)))
	}
	if w.source > model.Chloraminated {
		return nil, refuse(CodeNothing, "source", "water from %s holds no chlorine, so it needs no conditioner for that; if yours does, add source:chlorine", map[model.Source]string{model.Well: "a well", model.RO: "reverse osmosis", model.Rain: "rain"}[w.source])
	}
	r.Unsure = !w.told
	d, err := dosing.Dechlorinate(r.Chlorine, w.Volume, true)
	if err == dosing.ErrNoRise {
		return nil, refuse(CodeNothing, "new-chlorine", "there is no chlorine in it, so it needs no conditioner; if it comes from the tap, leave new-chlorine out")
	}
	if err != nil {
		return nil, amountError(err, "volume", c.args["volume"].typed)
	}
	if r.Chloramine && w.animals == "yes" {
		w.assumed = append(w.assumed, w.usual...)
	}
	r.Amount = w.base(c, "conditioner")
	r.Crystals, r.Anhydrous, r.Least = digits(float64(d.Crystals), 2), digits(float64(d.Anhydrous), 2), digits(float64(d.Least), 2)
	r.Chlorine = rounded(r.Chlorine, 2)
	switch r.Product {
	case "solution":
		r.ML = new(digits(100*float64(d.Crystals) / *r.Strength, 2))
	case "crystals":
		r.Dissolve = diluted(float64(d.Crystals), 2)
	case "anhydrous":
		r.Dissolve = diluted(float64(d.Anhydrous), 2)
	}
	if r.Chloramine {
		r.Reaction = dosing.ChloramineReaction
	}
	r.LeavesMgL = digits(onScaleOf(scaleOf(c), d.Ammonia, unit.Ammonia), 3)
	if r.Chloramine && w.animals == "yes" {
		r.LeavesThere = new(c.effectOf(d.Ammonia, w.PH, w.Water))
	}
	r.Cautions = cautionsOf("amount conditioner")
	return r, nil
}

// mostThiosulfate is about how many grams of the crystals 100 ml of a solution hold at
// room temperature: 70 g dissolve in 100 g of water (from memory), so 40 is easy.
const mostThiosulfate = 40

// Text says how much, why so much, and what chloramine leaves behind.
func (r ConditionerAmount) Text() string {
	kind := "chlorine"
	if r.Chloramine {
		kind = "chloramine"
	}
	head := fmt.Sprintf("For %s with %s mg/L %s: ", r.where(), number(r.Chlorine, 2), kind)
	switch r.Product {
	case "solution":
		head += fmt.Sprintf("%s ml of a %s %% solution of sodium thiosulfate (w/v, as the pentahydrate crystals).", sigText(*r.ML), number(*r.Strength, 2))
	case "anhydrous":
		head += fmt.Sprintf("%s g of anhydrous sodium thiosulfate (of the crystals, the pentahydrate, %s g).", sigText(r.Anhydrous), sigText(r.Crystals))
	case "label":
		return r.text(head+"as much of that product as its label says for all of this water; only its maker knows its strength.", r.leaves())
	default:
		head += fmt.Sprintf("%s g of sodium thiosulfate crystals (pentahydrate; anhydrous %s g).", sigText(r.Crystals), sigText(r.Anhydrous))
	}
	how := ""
	if x := r.Dissolve; x != nil {
		how = fmt.Sprintf("Easier to measure dissolved: %s g in water made up to %s ml, and of that %s ml.", number(x.Put, 2), number(x.Into, 0), sigText(x.ML))
	}
	end := "Treat new water before it goes in."
	if r.Tank != "" {
		end += " For new water alone add volume: to this command."
	}
	return r.text(head, how,
		fmt.Sprintf("Counted by %s, the way that takes most, so it is sure to be enough; if all went to sulfate, %s g of crystals would do.", r.Reaction, sigText(r.Least)),
		r.leaves(),
		"A ready-made conditioner instead: as its label says for this volume. "+end)
}

// leaves says what chloramine leaves behind.
func (r ConditionerAmount) leaves() string {
	text := fmt.Sprintf("Chloramine leaves %s mg/L ammonia%s behind, which thiosulfate does not take away", sigText(r.LeavesMgL), asNitrogen(r.Scale))
	switch {
	case r.LeavesThere != nil:
		return text + ": " + r.LeavesThere.does(true)
	case r.Chloramine:
		return text + "."
	case r.Unsure:
		return "If your supplier uses chloramine, the same amount does, but: " + strings.ToLower(text[:1]) + text[1:] + "."
	}
	return ""
}
