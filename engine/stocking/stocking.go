// Package stocking turns a fitted tank into how much it carries: what its filter
// oxidises, the food that this allows, and animals in stages that keep the water
// within published limits.
//
// A tank that clears its test dose within a day has shown that at an ample supply.
// Animals need their water kept far below that, all day long, and there bacteria
// work at a small part of their capacity. So stages are not read off the capacity:
// each is tried on draws of the posterior, with the food given daily, and watched
// for two weeks.
package stocking

import (
	"errors"
	"math"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// ErrWish is returned for a wish that no tank can be asked for.
var ErrWish = errors.New("stocking: animals, food or chloride are negative, not a number, or more than the water can hold")

// Most animals and food that can be asked for, for each litre of water. Intensive
// fish farms hold up to about 100 g/L with pure oxygen (memory); nobody feeds more
// than a tenth of the animals' mass a day (common practice, no source).
const (
	MostAnimals = 100 // g/L
	MostFeed    = 10  // g/d for each litre
)

// Prudent is the share of the capacity's 10 % point that food may ask for: capacity
// is what bacteria do with ample ammonia at their best pH. Common practice, no source.
const Prudent = 0.5

// Chance is how likely each stage is to keep the water within the limits, at least.
const Chance = 0.9

// Wish is what the keeper wants to add to what is there; zero where not told. With
// one told the other follows by model.Ration; with both, the food counts.
type Wish struct {
	Animals  unit.Grams // 0 to MostAnimals for each litre
	Feed     unit.Grams // per day, 0 to MostFeed for each litre
	Chloride float64    // in the water, mg/L, which guards against nitrite; 0 counts as that of its salt
}

// Load is animals and their food.
type Load struct {
	Animals unit.Grams
	Feed    unit.Grams // per day
}

// Step is one stage: what goes in, and what is there after.
type Step struct {
	Day    float64 // from the tank's start
	Add    Load
	Total  Load
	Chance float64 // that the water has kept within the limits until two weeks after
}

// Peaks are the highest levels until two weeks after the last animals went in. P10
// is nil throughout.
type Peaks struct {
	Ammonia outlook.Quantiles // total, mg/L as NH4
	Free    outlook.Quantiles // un-ionised, mg/L NH3
	Nitrite outlook.Quantiles // mg/L as NO2
	Chance  float64           // that all keep within the limits
}

// Limits are what the water is held to; see package chem.
type Limits struct {
	Ammonia unit.MgIon // total, US EPA 2013 chronic at the pH and temperature now, mg/L as NH4
	Free    float64    // chem.HarmNH3, mg/L NH3
	Nitrite unit.MgIon // British Columbia 1986, at any time, mg/L as NO2
}

// Reasons to wait.
const (
	NoHardness = "hardness" // it is used up, and bacteria stop without it
	TooSmall   = "capacity" // too little is oxidised yet
	NotClear   = "water"    // ammonia or nitrite are above the limits, or may be, for a week to come
	Soon       = "soon"     // not today, but by the first step
	Full       = "full"     // what is in asks for all that the filter carries in the weeks to come
)

// Advice is how to stock a tank.
type Advice struct {
	Day      float64           // now, from the tank's start
	Capacity outlook.Quantiles // mg N/d that the whole tank oxidises, ammonia or nitrite, whichever is less
	Feed     outlook.Quantiles // g/d of food that Prudent of it carries, in all
	Present  Load              // what is in already, and asks for its part
	Wanted   Load              // to be added: as wished, or what the capacity carries now
	Planned  bool              // Wanted is the keeper's wish
	Now      string            // "wait", "part" or "all"
	Reason   string            // why to wait, one of the constants; "" otherwise
	Steps    []Step            // a week apart or more
	Rest     Load              // of Wanted, what no step carries
	AtOnce   *Peaks            // if all of Wanted went in at once, at the first step's day; nil if nothing is wanted
	Staged   *Peaks            // by the steps; nil if there are none
	Limits   Limits
	Crash    string   // the test that shows that the hardness is used up; "" for none
	Fit      string   // as in outlook.Outlook
	Assumed  []string // what the fit and the food of the animals rest on, in plain words
	Change   float64  // share of the water that is assumed to be changed, each Every days
	Every    float64
}

// draws is how many draws of the posterior are run.
const draws = 256

// leastCapacity is the oxidation, mg N/L/d, below which no first animals are thought
// of, nor more where that does not carry what is in: model's own least load of a tank with animals, about 0.3 mg/L on a kit.
const leastCapacity = 0.25

// Of says how to stock a fitted tank. The error is ErrWish.
func Of(p *fit.Posterior, w Wish) (Advice, error) {
	litres := float64(p.Plan.Case.Setup.Volume)
	if !(w.Animals >= 0 && float64(w.Animals) <= MostAnimals*litres && w.Feed >= 0 && float64(w.Feed) <= MostFeed*litres && w.Chloride >= 0) {
		return Advice{}, ErrWish
	}
	h := newHerd(p.Thin(draws))
	h.guard(w.Chloride)
	a := h.advise(w)
	a.Assumed = p.Assumed
	a.Fit, _ = outlook.Quality(p)
	return a, nil
}

// advise is Of for a wish that can be asked.
func (h *herd) advise(w Wish) Advice {
	litres := float64(h.c.Setup.Volume)
	caps := h.capacities()
	a := Advice{Day: h.now, Present: h.present, Limits: h.limits(), Crash: outlook.Crash(&h.p.Plan.Case, unit.Days(h.now)), Change: h.change, Every: h.every}
	a.Capacity = quantiles(caps, litres)
	a.Feed = quantiles(caps, litres*Prudent/model.FoodN)
	a.Wanted, a.Planned = w.load()
	if !a.Planned {
		a.Wanted = feeding(max(h.carries()-h.present.Feed, 0))
	}
	early := quantile(caps, 0.1) < leastCapacity && (h.present.Feed == 0 || h.carries() < h.present.Feed)
	clear := h.wait()
	if a.Wanted.Feed > 0 {
		a.AtOnce = h.try(a.Wanted).peaks()
	}
	switch {
	case a.Crash != "":
		a.Reason = NoHardness
	case early:
		a.Reason = TooSmall
	case !clear:
		a.Reason = NotClear
	default:
		a.Steps, a.Staged = h.stages(a.Wanted)
		switch {
		case len(a.Steps) == 0 && h.present.Feed > 0:
			a.Reason = Full
		case len(a.Steps) == 0:
			a.Reason = TooSmall
		case a.Steps[0].Day > h.now:
			a.Reason = Soon
		}
	}
	done := Load{}
	for _, s := range a.Steps {
		done.Animals, done.Feed = done.Animals+s.Add.Animals, done.Feed+s.Add.Feed
	}
	a.Rest = Load{max(a.Wanted.Animals-done.Animals, 0), max(a.Wanted.Feed-done.Feed, 0)}
	switch {
	case a.Reason != "":
		a.Now = "wait"
	case len(a.Steps) == 1 && a.Rest.Feed < 1e-9:
		a.Now = "all"
	default:
		a.Now = "part"
	}
	return a
}

// load completes a wish, and says whether there is one.
func (w Wish) load() (Load, bool) {
	switch {
	case w.Feed > 0 && w.Animals > 0:
		return Load{w.Animals, w.Feed}, true
	case w.Feed > 0:
		return feeding(w.Feed), true
	case w.Animals > 0:
		return Load{w.Animals, model.Ration * w.Animals}, true
	}
	return Load{}, false
}

// feeding is the animals that so much food a day is for.
func feeding(g unit.Grams) Load { return Load{g / model.Ration, g} }

// part is a share of a load.
func (l Load) part(share float64) Load {
	return Load{l.Animals * unit.Grams(share), l.Feed * unit.Grams(share)}
}

func (l Load) plus(m Load) Load { return Load{l.Animals + m.Animals, l.Feed + m.Feed} }

// quantiles of what is sorted, times a factor, to three digits.
func quantiles(x []float64, times float64) outlook.Quantiles {
	at := func(q float64) *float64 { return new(digits(quantile(x, q) * times)) }
	return outlook.Quantiles{P10: at(0.1), P50: at(0.5), P90: at(0.9)}
}

func quantile(sorted []float64, q float64) float64 {
	return sorted[min(int(q*float64(len(sorted))), len(sorted)-1)]
}

// digits rounds to three significant digits.
func digits(x float64) float64 {
	if x == 0 {
		return 0
	}
	k := math.Pow10(2 - int(math.Floor(math.Log10(math.Abs(x)))))
	return math.Round(x*k) / k
}
