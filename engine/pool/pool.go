// Package pool learns from the tanks of a club what its tanks begin with, by partial
// pooling: each tank's own readings say a little, the others of the club say what is usual
// there, and the engine's general prior holds where there are few.
//
// Learnt are the centre and the spread of two unknowns, the ammonia and the nitrite
// oxidisers of day 0, as standard normal scores of the general prior (fit.Prior). They are
// what differs most between tanks and what water, plants and media of a place have in
// common. A tank counts by its posterior as a normal distribution; what its readings
// alone say is that posterior less the prior. Centres of bands of pH and source are drawn
// to the club's, and the club's to the general one.
//
// Every tank counts that was read, once some are done. Those that are done alone would lean
// to the quick ones; what the log of another says up to its last test is as good a
// likelihood, whatever becomes of the tank.
//
// What is learnt is used only if it foretells tanks that it has not seen better than the
// general prior does, by the log score with one tank left out at a time.
package pool

import (
	"fmt"
	"math"

	"ripen/engine/fit"
	"ripen/engine/model"
)

// Tank is what one tank says: mean and variance of the posterior scores of fit.Seeds.
type Tank struct {
	Band Band       `json:"band"`
	Done bool       `json:"done"` // its log shows that it is
	Mean [2]float64 `json:"mean"`
	Var  [2]float64 `json:"var"`
}

// Band is a sort of tanks that are pooled.
type Band struct {
	PH     string `json:"ph"`
	Source string `json:"source"`
}

// BandOf returns the band of a set-up: its pH on day 0, below 6.8, to 7.6 or above, and
// where its water comes from.
func BandOf(s *model.Setup) Band {
	ph := "6.8 to 7.6"
	switch {
	case s.PH < 6.8:
		ph = "below 6.8"
	case s.PH > 7.6:
		ph = "above 7.6"
	}
	return Band{ph, fmt.Sprint(int(s.Source))}
}

// Of returns what a fitted tank says.
func Of(p *fit.Posterior) Tank {
	t := Tank{Band: BandOf(&p.Plan.Case.Setup)}
	n := float64(len(p.Scores))
	for k, at := range fit.Seeds {
		for i := range p.Scores {
			t.Mean[k] += p.Scores[i][at] / n
		}
		for i := range p.Scores {
			d := p.Scores[i][at] - t.Mean[k]
			t.Var[k] += d * d / n
		}
	}
	return t
}

// seen is what the readings of a tank alone say of one unknown: a value and the variance
// of its error.
type seen struct{ y, e2 float64 }

// alone takes the general prior, N(0, 1), out of a tank's posterior. Variances of 0.98 and
// more say nothing; below 0.02 they are taken as that, since the fit is no better.
func (t Tank) alone(k int) seen {
	v := min(max(t.Var[k], 0.02), 0.98)
	e2 := 1 / (1/v - 1)
	return seen{t.Mean[k] / v * e2, misfit * e2}
}

// misfit is how much larger the squares of errors are than fits say, where keepers forget
// to log and slip: 1.4 to 1.7 in 634 tanks of 15 simulated clubs.
const misfit = 1.5

// logNormal is the log density of N(m, v) at y.
func logNormal(y, m, v float64) float64 {
	return -0.5 * (math.Log(2*math.Pi*v) + (y-m)*(y-m)/v)
}
