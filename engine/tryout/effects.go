package tryout

import (
	"math"

	"ripen/engine/chem"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// Effect is something that comes with a change, beside the days.
type Effect string

// The effects. Their sizes are in Result.Before and Trial.After.
const (
	LessOxygen    Effect = "less-oxygen"     // the warmer water holds less oxygen
	FreesAmmonia  Effect = "frees-ammonia"   // free ammonia rises, with the pH or toward HarmFrom
	Diluted       Effect = "diluted"         // treated new water: bacteria stay, ammonia goes
	Chlorine      Effect = "chlorine"        // untreated tap water kills bacteria
	LargeDose     Effect = "large-dose"      // a dose above LargestDose
	DosedAnimals  Effect = "dosed-animals"   // ammonia dosed onto animals
	PHJump        Effect = "ph-jump"         // pH moves by more than GentlePH with animals in
	TempJump      Effect = "temp-jump"       // the temperature moves by more than GentleTemp with animals in
	Poison        Effect = "poison"          // free ammonia passes HarmFrom with animals in
	OldMedia      Effect = "old-media"       // what lives in the old medium is counted on
	Rooting       Effect = "rooting"         // new plants take weeks to root, which is not counted
	RaisesPH      Effect = "raises-ph"       // the pH rises with the hardness
	FallsBack     Effect = "falls-back"      // a pH changed without its hardness seldom stays
	CountedOn     Effect = "counted-on"      // the dose that the outlook counts on anyway
	NoChangeAhead Effect = "no-change-ahead" // how new water is treated matters once water is changed
	NoMediaLeft   Effect = "no-media-left"   // the filter is left without a medium, and its bacteria are gone
)

// HarmFrom is the free ammonia that harms gills, mg/L NH3; its source is beside
// chem.HarmNH3.
const HarmFrom = chem.HarmNH3

// Limits of the other effects; common practice, no source.
const (
	GentlePH               = 0.3  // the most that a pH may move in a day with animals in
	GentleTemp             = 2    // the most that a temperature may move in a day with animals in, C
	LargestDose unit.MgIon = 4    // total ammonia, above which a dose slows more than it feeds
	noticed                = 0.05 // share by which free ammonia has to rise to be worth telling
)

// effects says what comes with the changes, which led to x.After; of several only
// what they come to together.
func (t *tank) effects(x *Trial, changes []Change) []Effect {
	if x.Already {
		return nil
	}
	var out []Effect
	add := func(e Effect, so bool) {
		if so {
			out = append(out, e)
		}
	}
	a, b := t.water, x.After
	animals := t.animals
	rose := b.FreeAmmonia > (1+noticed)*a.FreeAmmonia
	if len(changes) == 1 {
		t.effectsOf(changes[0], x, add)
	}
	add(FreesAmmonia, rose && (b.FreeAmmonia >= HarmFrom/10 || b.PH > a.PH+samePH && b.FreeAmmonia >= HarmFrom/100))
	add(PHJump, animals && math.Abs(b.PH-a.PH) > GentlePH)
	add(TempJump, animals && math.Abs(float64(b.Temp-a.Temp)) > GentleTemp)
	add(Poison, animals && rose && b.FreeAmmonia > HarmFrom)
	return out
}

// effectsOf adds what comes with one change.
func (t *tank) effectsOf(c Change, x *Trial, add func(Effect, bool)) {
	tap := t.setup.Source == model.Chlorinated || t.setup.Source == model.Chloraminated
	switch c := c.(type) {
	case Temp:
		add(LessOxygen, x.After.Oxygen < t.water.Oxygen)
	case PH:
		add(FallsBack, true)
	case KH:
		add(RaisesPH, true)
	case WaterChange:
		bare := tap && (c.Treated == model.No || c.Treated == model.AsHabit && !t.setup.Conditioner)
		add(Chlorine, bare)
		add(Diluted, !bare)
	case Dose:
		add(LargeDose, c.N.Ion(unit.Ammonia) > LargestDose)
		add(DosedAnimals, t.animals)
		add(CountedOn, !t.animals && t.water.Ammonia < model.ClearTAN && t.habit.Dose > 0 && c.N <= 1.2*max(t.habit.Dose, t.setup.Target))
	case Plants:
		add(Rooting, model.Plants(c) > t.setup.Plants)
	case Media:
		add(NoMediaLeft, c.Kind == model.NoMedia)
		add(OldMedia, c.Kind != model.NoMedia && t.setup.Media != model.NoMedia && c.Kind != t.setup.Media)
	case Conditioned:
		add(NoChangeAhead, t.habit.Change == 0)
		add(Chlorine, !bool(c) && tap && t.habit.Change > 0)
	}
}
