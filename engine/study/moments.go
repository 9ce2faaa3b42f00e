package study

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// moments are what two samplers are compared in: the mean and the 10, 50 and
// 90 % points of one quantity.
type moments [4]float64

func momentsOf(x []float64) (m moments) {
	s := slices.Clone(x)
	slices.Sort(s)
	m[0] = stat.Mean(s, nil)
	for i, q := range [...]float64{0.1, 0.5, 0.9} {
		m[i+1] = s[int(q*float64(len(s)))]
	}
	return m
}

// varied returns the mean of several moments of one quantity, and the standard
// deviation of each of them.
func varied(of []moments) (mean, sd moments) {
	v := make([]float64, len(of))
	for i := range mean {
		for j, m := range of {
			v[j] = m[i]
		}
		mean[i], sd[i] = stat.MeanStdDev(v, nil)
	}
	return mean, sd
}

// batched returns the moments of a chain of values and their standard errors,
// from those of so many pieces of it that follow each other: long pieces hardly
// depend on each other (batch means: Flegal, Haran & Jones 2008, Stat. Sci.
// 23:250-260). What is left over by the cutting joins no piece.
func batched(x []float64, pieces int) (all, err moments) {
	var each []moments
	size := len(x) / pieces
	for i := range pieces {
		each = append(each, momentsOf(x[i*size:(i+1)*size]))
	}
	_, err = varied(each)
	for i := range err {
		err[i] /= math.Sqrt(float64(pieces))
	}
	return momentsOf(x), err
}
