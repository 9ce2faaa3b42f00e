package year

import (
	"errors"
	"math"

	"ripen/engine/diagnose"
	"ripen/engine/model"
	"ripen/engine/nexttest"
	"ripen/engine/outlook"
	"ripen/engine/stocking"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// Month is an adviser that says to all what is told to all: about a month, one in ten later
// than 60 days (common practice, no source). It costs nothing, so that a year shows what
// all else costs. Acidic tanks are slow to it.
type Month struct{}

var errNotAsked = errors.New("a month answers outlooks only")

// monthSpread is the spread on the log scale of a month that is 60 days in one of ten.
var monthSpread = math.Log(2) / 1.2816

// chance of done by a day since the start.
func chance(day float64) float64 {
	return 0.5 * math.Erfc(-math.Log(max(day, 1e-6)/30)/monthSpread/math.Sqrt2)
}

// Outlook says a month.
func (Month) Outlook(c model.Case, now unit.Days) (outlook.Outlook, error) {
	o := outlook.Outlook{Day: float64(now), Horizon: 180, Stage: "ammonia", Readings: len(c.Readings), Fit: "none", ChanceDoneOn: chance,
		ChanceBy: map[int]float64{}, ChanceNotWithin: 1 - chance(180)}
	o.Done = outlook.Quantiles{P10: new(o.DoneBy(0.1)), P50: new(o.DoneBy(0.5)), P90: new(o.DoneBy(0.9))}
	for _, d := range []int{7, 14, 30, 60} {
		o.ChanceBy[d] = chance(o.Day + float64(d))
	}
	if now > 0 && c.Setup.PH < 7 {
		o.Done = outlook.Quantiles{P10: new(o.DoneBy(0.9))}
	}
	return o, nil
}

// Why calls acidic tanks slow.
func (m Month) Why(c model.Case, now unit.Days) (diagnose.Diagnosis, outlook.Outlook, error) {
	o, err := m.Outlook(c, now)
	if c.Setup.PH >= 7 {
		return diagnose.Diagnosis{Verdict: diagnose.OnTrack}, o, err
	}
	return diagnose.Diagnosis{Verdict: diagnose.Slow, Causes: []diagnose.Cause{{Name: "acidic-water", Chance: 0.7, DaysCost: 20}}}, o, err
}

// NextTest is not answered.
func (Month) NextTest(model.Case, unit.Days) (nexttest.Advice, outlook.Outlook, error) {
	return nexttest.Advice{}, outlook.Outlook{}, errNotAsked
}

// Tryout is not answered.
func (Month) Tryout(model.Case, unit.Days, ...tryout.Change) (tryout.Result, error) {
	return tryout.Result{}, errNotAsked
}

// Stock is not answered.
func (Month) Stock(model.Case, unit.Days, stocking.Wish) (stocking.Advice, error) {
	return stocking.Advice{}, errNotAsked
}

// Gain is not answered.
func (Month) Gain(model.Case, unit.Days, model.Event) (tryout.Gain, error) {
	return tryout.Gain{}, errNotAsked
}
