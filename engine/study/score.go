package study

import (
	"math"
	"slices"
)

// forecast is a distribution of the done day: the chance of done by a day,
// from 0 to horizon. What lies past the horizon is not told apart.
type forecast []float64

// grain is how finely forecasts are kept, days.
const grain = 0.1

// forecastOf tabulates a distribution function.
func forecastOf(by func(day float64) float64) forecast {
	f := make(forecast, int(horizon/grain)+1)
	for i := range f {
		f[i] = by(float64(i) * grain)
	}
	return f
}

// aMonth is what is told to all who ask: about a month, a week at best, two
// months and more at worst (common practice, no source): log-normal, median 30
// days, one in ten later than 60.
func aMonth() forecast {
	return forecastOf(func(day float64) float64 {
		if day <= 0 {
			return 0
		}
		z := math.Log(day/30) / (math.Log(2) / 1.2816)
		return 0.5 * math.Erfc(-z/math.Sqrt2)
	})
}

// quantile is the first day by which the chance is q; the horizon when later.
func (f forecast) quantile(q float64) float64 {
	i, _ := slices.BinarySearch(f, q)
	return min(float64(i)*grain, horizon)
}

// crps is the continuous ranked probability score of a done day, in days
// (Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102:359): the integral of
// the squared distance between the forecast's distribution and the step at the
// truth, up to the horizon. Less is better.
func (f forecast) crps(done float64) float64 {
	s := 0.0
	for i := 1; i < len(f); i++ {
		mid := (float64(i) - 0.5) * grain
		p := (f[i] + f[i-1]) / 2
		if mid >= done {
			p = 1 - p
		}
		s += p * p * grain
	}
	return s
}

// within is by how much the central interval of a share holds the truth: 1 or
// 0, or between when all that is known is that the truth lies past the horizon, or on
// day 0, with more than one chance level in it; then it is the share of
// these levels within the interval, which for a right forecast comes to share on
// average. side is -1 when the truth lies before the interval, 1 when after.
func (f forecast) within(done float64, late bool, share float64) (in, side float64) {
	low, high := (1-share)/2, (1+share)/2
	from, to := 0.0, 0.0
	switch i := min(int(done/grain), len(f)-2); {
	case late:
		from, to = f[len(f)-1], 1
	case done <= 0:
		to = f[0]
	default:
		from = f[i] + (f[i+1]-f[i])*(done/grain-float64(i))
		to = from
	}
	switch {
	case to > from:
		in = max(min(to, high)-max(from, low), 0) / (to - from)
	case from >= low && from <= high:
		in = 1
	}
	switch {
	case in == 1:
	case (from+to)/2 < low:
		side = -1
	default:
		side = 1
	}
	return in, side
}

// mean and its standard error.
func mean(x []float64) (m, se float64) {
	for _, v := range x {
		m += v / float64(len(x))
	}
	for _, v := range x {
		se += (v - m) * (v - m)
	}
	return m, math.Sqrt(se) / float64(len(x))
}

// gain is by what share the mean of x lies below that of y, tank by tank, with
// its standard error by the delta method.
func gain(x, y []float64) (g, se float64) {
	mx, _ := mean(x)
	my, _ := mean(y)
	r := mx / my
	for i := range x {
		d := x[i] - r*y[i]
		se += d * d
	}
	return 1 - r, math.Sqrt(se) / float64(len(x)) / my
}

// median and its standard error, from the order statistics one standard
// deviation of the binomial to both sides.
func median(x []float64) (m, se float64) {
	if len(x) == 0 {
		return math.NaN(), math.NaN()
	}
	s := slices.Sorted(slices.Values(x))
	n := len(s)
	m = (s[(n-1)/2] + s[n/2]) / 2
	half := math.Sqrt(float64(n)) / 2
	lo, hi := int(math.Floor(float64(n)/2-half)), int(math.Ceil(float64(n)/2+half))-1
	return m, (s[min(max(hi, 0), n-1)] - s[min(max(lo, 0), n-1)]) / 2
}
