package fit

import (
	"math"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// The unknowns of a tank, as indices of a draw. Each is a standard normal
// score a priori; params turns scores into the quantities of model.Params.
const (
	seedAO = iota // all ammonia oxidisers
	seedNOB
	ratioAOA // to AOB
	ratioCMX
	growA
	growN
	halfA
	halfN
	decay
	area
	source
	plant
	phOffset
	alkRatio
	phMin
	freeNH3
	biasNH
	biasNO2
	biasNO3
	tapNO3
	harm
	chlorine
	gift
	dose
	unseenDay  // when an unseen event struck, as a share of the time so far
	unseenKill // what share it took
	nitrateLoss
	ask
	rise
	special // a further unknown of a Hypothesis
	silent  // whether the keeper doses without a note
	dims    // how many there are
)

// z is one draw as standard normal scores.
type z [dims]float64

// logNormal is the median and the spread on the log scale of one unknown.
type logNormal struct{ median, sd float64 }

func (l logNormal) at(score float64) float64 { return l.median * math.Exp(l.sd*score) }

// Prior is what is believed of a tank before any reading, from its set-up
// alone. Medians are factors on the published values of package model, or in
// the units named there.
//
// Growth (spread 0.40: from strain to strain and from curve to curve), half-
// saturation (0.6, 0.7) and decay (0.35) differ by about as much as the rows of the
// kinetics table. Those of pH and alkalinity are Setup.Water's. Seed medians are calibrated so that tanks
// without readings land in the bands keepers commonly see (common practice, no
// source); their spread of more than a factor of five either way is what
// start-up records show.
type Prior struct {
	SeedAO, SeedNOB                   logNormal // mg N/L/d, of all ammonia oxidisers together
	RatioAOA, RatioCMX                logNormal // of their seeds to that of AOB
	GrowA, GrowN, Area, Source, Plant logNormal
	HalfA, HalfN, Decay               logNormal
	AlkRatio, FreeNH3                 logNormal
	TapNO3, Loss, Rise                logNormal
	Harm, Chlorine, Gift, Dose        logNormal
	PHOffset, PHMin                   float64    // sd
	PHMinMean                         float64    // mean shift of the lower pH limit
	Bias                              [3]float64 // sd of the log of a kit's bias, by species
}

// PriorFor returns the prior of a set-up whose typical values are filled in.
func PriorFor(s *model.Setup) Prior {
	p := Prior{
		// Each of the three kinds by itself is then about 0.0055 with a spread of 1.9.
		// Readings tell of their sum, so that and the ratios are what is unknown.
		SeedAO:   logNormal{0.030, 1.4},
		SeedNOB:  logNormal{0.0052, 1.9},
		RatioAOA: logNormal{1, 2},
		RatioCMX: logNormal{0.6, 2},
		GrowA:    logNormal{1, 0.40},
		GrowN:    logNormal{1, 0.40},
		HalfA:    logNormal{1, 0.6},
		HalfN:    logNormal{1, 0.7},
		Decay:    logNormal{1, 0.35},
		Area:     logNormal{1, 0.5},
		Source:   logNormal{1, 0.4},
		Plant:    logNormal{1, 0.6},
		AlkRatio: logNormal{1, 0}, // see Setup.Water
		FreeNH3:  logNormal{1, 0.9},
		TapNO3:   logNormal{1, 1.2},
		Loss:     logNormal{0.008, 1.5}, // 1/d
		Rise:     logNormal{0.045, 0.8}, // 1/d: from a third of the ration to all of it in about six weeks; common practice, no source
		Harm:     logNormal{1, 0.8},
		Chlorine: logNormal{1, 0.9},
		Gift:     logNormal{1, 1.1},
		Dose:     logNormal{1, 0.15},
		PHMin:    0.3,
		Bias:     [3]float64{0.2, 0.2, 0.25},
	}
	if s.Start[unit.Nitrite] > 0 {
		// Nitrite on the first day: the tank ran before its start, so there may be
		// anything up to a whole film.
		p.SeedAO, p.SeedNOB = logNormal{0.25, 1.6}, logNormal{0.06, 2}
	}
	// Acidic water holds strains that stand it: adapted films run in full at pH 4.3
	// (Tarre & Green 2004). How far this goes in tanks is common practice, no source.
	p.PHMinMean = -0.5 * max(6.8-s.PH, 0)
	w := s.Water()
	p.PHOffset, p.AlkRatio.sd = w.PHSD, w.KHSD
	// Hardly any nitrifier was measured in salt water, and those of fresh water do
	// not live on there: wider by half again. How far is common practice, no source.
	salt := 1 + 0.5*s.Saltiness()
	for _, l := range []*logNormal{&p.SeedAO, &p.SeedNOB, &p.GrowA, &p.GrowN, &p.HalfA, &p.HalfN, &p.Gift} {
		l.sd *= salt
	}
	if s.Method != model.Dosed && s.Method != model.Seeded && !s.Given.Feed && !s.Given.Stock {
		p.Source.sd = 0.9
		if s.Method == model.Food { // fed until ammonia shows, so known better
			p.Source.sd = 0.5
		}
	}
	if !s.Given.MediaVolume {
		p.Area.sd = 0.7
	}
	if s.Media == model.NoMedia { // glass and bottom are wiped and grazed; common practice, no source
		p.Area.median = 0.95
	}
	return p
}

// params turns scores into parameters.
func (p *Prior) params(x *z, out *model.Params) {
	*out = model.Params{
		GrowA:    p.GrowA.at(x[growA]),
		GrowN:    p.GrowN.at(x[growN]),
		HalfA:    p.HalfA.at(x[halfA]),
		HalfN:    p.HalfN.at(x[halfN]),
		Decay:    p.Decay.at(x[decay]),
		Area:     p.Area.at(x[area]),
		Source:   p.Source.at(x[source]),
		Plant:    p.Plant.at(x[plant]),
		PHOffset: p.PHOffset * x[phOffset],
		AlkRatio: p.AlkRatio.at(x[alkRatio]),
		PHMin:    p.PHMinMean + p.PHMin*x[phMin],
		FreeNH3:  p.FreeNH3.at(x[freeNH3]),
		TapNO3:   p.TapNO3.at(x[tapNO3]),
		Harm:     p.Harm.at(x[harm]),
		Chlorine: p.Chlorine.at(x[chlorine]),
		Gift:     p.Gift.at(x[gift]),
		Dose:     p.Dose.at(x[dose]),
		Loss:     p.Loss.at(x[nitrateLoss]),
		Rise:     p.Rise.at(x[rise]),
		Ask:      0.5 * math.Erfc(-x[ask]/math.Sqrt2),
		Silent:   x[silent] > 0,     // as likely as not; common practice, no source
		HoldsOff: x[silent] > -0.67, // three in four; common practice, no source
		Phos:     1,
	}
	p.seeds(x, out)
}

// seeds sets those alone.
func (p *Prior) seeds(x *z, out *model.Params) {
	aoa, cmx := p.RatioAOA.at(x[ratioAOA]), p.RatioCMX.at(x[ratioCMX])
	aob := p.SeedAO.at(x[seedAO]) / (1 + aoa + cmx)
	out.Seed = [model.Guilds]float64{model.AOB: aob, model.AOA: aob * aoa, model.CMX: aob * cmx, model.NOB: p.SeedNOB.at(x[seedNOB])}
}
