package commands

import (
	"errors"
	"fmt"
	"strings"

	"ripen/engine/dosing"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// BufferAmount is how much of a salt raises the hardness.
type BufferAmount struct {
	Amount
	From      Quantity        `json:"from_kh"`
	To        Quantity        `json:"to_kh"`
	Product   string          `json:"product"`
	Grams     float64         `json:"g"`
	Portions  []BufferPortion `json:"portions"` // one a day
	PHAfter   float64         `json:"ph_after"`
	NoKH      bool            `json:"kh_unseen,omitempty"` // so little that the pH does not tell how much carbon dioxide there is
	PHStep    float64         `json:"ph_a_day"`            // the most that a day may bring
	Free      *float64        `json:"free_ammonia_mgl,omitempty"`
	FreeAfter *float64        `json:"free_ammonia_after_mgl,omitempty"`
	Ends      *Quantity       `json:"dissolves_to_kh,omitempty"` // calcium carbonate
	Rest      *float64        `json:"rest_g,omitempty"`          // of sodium bicarbonate, for what lime does not reach
}

// BufferPortion is what is added on one day, and what it leads to.
type BufferPortion struct {
	Day   int      `json:"day"`
	Grams float64  `json:"g"`
	KH    Quantity `json:"kh"`
	PH    float64  `json:"ph"`
	Free  *float64 `json:"free_ammonia_mgl,omitempty"`
}

// unseenKH is a hardness that kits hardly see: below half a drop.
var unseenKH = unit.DKH(0.5).CaCO3()

// bufferNames are the salts in the order of the engine's constants.
var bufferNames = [...]string{"sodium bicarbonate (baking soda)", "potassium bicarbonate", "calcium carbonate"}

// jump is the change of pH that is warned of with animals in.
const jump = 0.5

// fewPortions is how many portions a keeper without animals is asked to weigh out.
const fewPortions = 3

// bufferAmount works out how much buffer it takes.
func (c *call) bufferAmount(w treated) (Result, error) {
	salt, refused := bufferProduct(c.args["product"].typed)
	if refused != nil {
		return nil, refused
	}
	o := optKH("")
	to, refused := c.level("to", o)
	if refused != nil {
		return nil, refused
	}
	from, refused := c.level("from", o)
	if refused != nil {
		return nil, refused
	}
	switch {
	case from != nil:
		w.KH, w.khKnown = unit.DKH(from.low).CaCO3(), true
	case !w.khKnown && w.tank == "":
		return nil, refuse(CodeMissing, "from", "say what the KH is now, as in from:2dKH; it has to be tested first")
	case !w.khKnown:
		w.assumed = append(w.assumed, "KH "+c.kh(w.KH).String())
	case !c.has("kh"):
		w.rests(c, "kh")
	}
	goal := unit.DKH(to.low).CaCO3()
	gentle := w.animals == "yes" || w.Ammonia > 0
	most := 0.0
	if gentle {
		most = tryout.GentlePH
	}
	b, err := dosing.Raise(w.Water, goal, salt, most)
	if err == nil && w.animals == "no" && len(b.Portions) > fewPortions { // from hardly any hardness the first are pinches, for nobody's sake
		b, err = dosing.Raise(w.Water, goal, salt, 0)
	}
	if low, ok := errors.AsType[*dosing.LowerKH](err); ok {
		counted := ""
		x := w.added("kh")
		if sum := w.khSum(); sum != "" && from == nil && !c.has("kh") && goal > w.KH-unit.MgCaCO3(x) {
			return nil, refuse(CodeMissing, "from", "%s, and of the buffers since about %s may be left, so only a test can say what it is now: test KH, and give it here, as in from:2dKH", sum, c.kh(unit.MgCaCO3(x)))
		}
		if x > 0 && from == nil && !c.has("kh") {
			counted = fmt.Sprintf(" (the %s added since KH was told counted in: test it again to be sure)", c.kh(unit.MgCaCO3(x)))
		}
		return nil, refuse(CodeRange, "to", "to %s is not above what the water has, %s%s; a buffer only raises, and only water changes with softer water lower it (never an acid). Try a to: of %s to %s",
			quote(to.typed), c.kh(low.Now), counted, c.kh(low.Now), inUnit(hardnesses(), c.units.KH, o.Max))
	}
	if err != nil {
		return nil, amountError(err, "to", to.typed)
	}
	w.assumed = append(w.assumed, w.usual...)
	if salt == dosing.CalciumCarbonate {
		w.assumed = append(w.assumed, "as much calcium in the water as its KH goes with")
	}
	r := BufferAmount{
		Amount: w.base(c, "buffer"), From: c.kh(w.KH), To: c.kh(goal), Product: bufferNames[salt], Grams: digits(float64(b.Mass), 3),
		Portions: []BufferPortion{}, PHAfter: rounded(b.Before.PH, 1), NoKH: w.khKnown && w.KH < unseenKH, PHStep: tryout.GentlePH,
	}
	known := func(x float64) *float64 {
		if w.Ammonia <= 0 {
			return nil
		}
		return new(free(x))
	}
	r.Free = known(b.Before.Free)
	for i, p := range b.Portions {
		r.Portions = append(r.Portions, BufferPortion{i + 1, digits(float64(p.Mass), 2), c.kh(p.KH), rounded(p.PH, 1), known(p.Free)})
		r.PHAfter, r.FreeAfter = rounded(p.PH, 1), known(p.Free)
	}
	if salt == dosing.CalciumCarbonate {
		r.Ends = new(c.kh(b.Ends))
		if b.Ends < goal {
			rest := w.Water
			rest.KH = max(b.Ends, w.KH)
			if more, err := dosing.Raise(rest, goal, dosing.SodiumBicarbonate, 0); err == nil {
				r.Rest = new(digits(float64(more.Mass), 2))
			}
		}
	}
	r.Cautions = cautionsOf("amount buffer")
	if w.animals == "yes" {
		r.Cautions = cautionsOf("amount buffer", "raise pH with animals")
	}
	last := b.Before
	if n := len(b.Portions); n > 0 {
		last = b.Portions[n-1]
	}
	if w.animals == "yes" && last.PH-b.Before.PH > jump {
		r.Warnings = append(r.Warnings, phStep{r.PH, r.PHAfter, r.Free, r.FreeAfter, harmFrom, tryout.GentlePH}.Text())
	} else if r.FreeAfter != nil && *r.FreeAfter > harmFrom && w.animals != "no" {
		r.Warnings = append(r.Warnings, fmt.Sprintf("free ammonia would come to %s mg/L NH3, and gills are harmed from about %s; bring the ammonia down first.", sigText(*r.FreeAfter), sigText(harmFrom)))
	}
	return r, nil
}

// bufferProduct reads which salt it is; baking soda if none is named.
func bufferProduct(typed string) (dosing.Salt, *Error) {
	switch {
	case typed == "" || says(typed, "baking"), says(typed, "bicarbonate", "hydrogencarbonate", "nahco3") && !says(typed, "potassium"):
		return dosing.SodiumBicarbonate, nil
	case says(typed, "bicarbonate", "hydrogencarbonate") && says(typed, "potassium"), says(typed, "khco3"):
		return dosing.PotassiumBicarbonate, nil
	case says(typed, "calcium", "caco3", "coral", "limestone", "shell", "shells", "chalk", "aragonite"):
		return dosing.CalciumCarbonate, nil
	}
	return 0, refuse(CodeChoice, "product", "product %s is none that can be counted with; write product:sodium-bicarbonate (baking soda), potassium-bicarbonate or calcium-carbonate, or take a ready-made buffer by its label", quote(typed))
}

// Text says how much, in which portions, and what it does to the pH.
func (r BufferAmount) Text() string {
	if r.Ends != nil {
		return r.limeText()
	}
	lines := []string{fmt.Sprintf("For %s: %s g of %s raises KH from %s to %s.", r.where(), sigText(r.Grams), r.Product, r.From, r.To)}
	if len(r.Portions) > 1 {
		lines = append(lines, fmt.Sprintf("In %d portions a day apart, so that the pH goes up by no more than %s a day:", len(r.Portions), number(r.PHStep, 1)))
		for _, p := range r.Portions {
			lines = append(lines, fmt.Sprintf("%d. %s g: KH %s, pH about %s%s", p.Day, sigText(p.Grams), p.KH, number(p.PH, 1), freeText(p.Free)))
		}
	} else {
		lines = append(lines, r.phText())
		if r.Animals == "no" && r.PHAfter-r.PH > jump {
			lines = append(lines, "No animals are in, so it may go in at once, or half today and half tomorrow.")
		}
		if r.Animals == "unknown" {
			lines = append(lines, "If animals are in, add animals:yes, and it is split over days.")
		}
	}
	return r.text(append(lines, "Dissolve it in tank water first, and test KH and pH before the next step.")...)
}

// phText says what the pH does, and free ammonia with it.
func (r BufferAmount) phText() string {
	text := fmt.Sprintf("The pH goes from %s to about %s, with the carbon dioxide as it is", number(r.PH, 1), number(r.PHAfter, 1))
	if r.NoKH {
		text = fmt.Sprintf("The pH goes from %s to %s at the most, with no more carbon dioxide than air gives; water whose KH a kit hardly sees may hold more, and come to less", number(r.PH, 1), number(r.PHAfter, 1))
	}
	if r.Free != nil && r.FreeAfter != nil {
		text += fmt.Sprintf("; free ammonia, the harmful part, from %s to %s mg/L NH3", sigText(*r.Free), sigText(*r.FreeAfter))
	}
	return text + "."
}

func freeText(x *float64) string {
	if x == nil {
		return ""
	}
	return fmt.Sprintf(", free ammonia %s mg/L NH3", sigText(*x))
}

// limeText is Text for calcium carbonate, which sets its own pace and end.
func (r BufferAmount) limeText() string {
	if len(r.Portions) == 0 {
		return r.text(strings.TrimSpace(fmt.Sprintf("Calcium carbonate (coral, limestone, shells) does nothing in %s: at pH %s the water is saturated at %s already. %s", r.where(), number(r.PH, 1), r.From, r.restText())))
	}
	lines := []string{fmt.Sprintf("For %s: about %s g of calcium carbonate dissolve, over weeks rather than days, and raise KH from %s to %s.", r.where(), sigText(r.Grams), r.From, r.Portions[0].KH)}
	if r.Rest != nil {
		lines = append(lines, fmt.Sprintf("It stops there, well before %s, as the water is saturated then. %s", r.To, r.restText()))
	} else {
		lines = append(lines, fmt.Sprintf("It would stop at about %s, where the water is saturated; more carbon dioxide dissolves more.", r.Ends))
	}
	return r.text(append(lines, r.phText(), "Put it into the filter in a bag; what does not dissolve stays as a reserve.")...)
}

func (r BufferAmount) restText() string {
	if r.Rest == nil {
		return ""
	}
	return fmt.Sprintf("%s g of sodium bicarbonate would do the rest.", sigText(*r.Rest))
}
