package fit

import (
	"math"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestThin: some of the draws are as all of them, in every unknown, before any reading and
// after one that tells so little that all draws still stand as they were spread.
func TestThin(t *testing.T) {
	for litres := range 4 { // the volume moves the points
		s := model.Typical(model.Setup{Volume: unit.Litres(60 + litres), PH: 7.6, Temp: 26, Media: model.Sponge, Given: model.Given{PH: true, Temp: true}})
		c := model.Case{Setup: s, Events: []model.Event{{Kind: model.Dose, N: s.Target}}}
		read := c
		read.Readings = []model.Reading{{Day: 1, Nitrite: &model.Seen{}}}
		for name, p := range map[string]*Posterior{"prior": Fit(c, 0, Hypothesis{}, Draws), "one reading": Fit(read, 1, Hypothesis{}, Draws)} {
			if p.Passes > 0 {
				t.Fatalf("%s: the draws were renewed, so nothing of how they were spread is left", name)
			}
			for _, n := range []int{1024, 512, 256} {
				thin := p.Thin(n)
				for d := range dims {
					mean, sd := moments(p.Scores, d)
					m, s := moments(thin.Scores, d)
					// Of n draws at random the mean strays by 1/sqrt(n), the spread by 0.7 of that; both less of draws spread evenly.
					if may := 4 / math.Sqrt(float64(n)); math.Abs(m-mean) > may || math.Abs(s-sd) > may {
						t.Errorf("%s, %d draws: %s has mean %.2f and spread %.2f, of all %.2f and %.2f", name, n, Name(d), m, s, mean, sd)
					}
				}
			}
		}
	}
}

// moments are the mean and the spread of one unknown.
func moments(x []z, d int) (mean, sd float64) {
	for i := range x {
		mean += x[i][d] / float64(len(x))
	}
	for i := range x {
		sd += (x[i][d] - mean) * (x[i][d] - mean) / float64(len(x))
	}
	return mean, math.Sqrt(sd)
}
