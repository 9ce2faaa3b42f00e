package pool

import "math"

// How far centres stray, a priori, in scores: the club's from the general one, and a
// band's from the club's. That of the spread is on the log scale. Common sense, no source.
const (
	clubStray, bandStray, spreadStray = 0.5, 0.5, 0.5
)

// sums are what a normal with unknown centre needs of tanks, for one spread.
type sums struct{ w, wy, wyy, logw float64 }

func (s *sums) add(t seen, spread, sign float64) {
	w := 1 / (spread*spread + t.e2)
	s.w += sign * w
	s.wy += sign * w * t.y
	s.wyy += sign * w * t.y * t.y
	s.logw += sign * math.Log(w)
}

// fitted is the centre under a prior N(at, stray²), with its variance and the log of the
// joint density, up to a constant.
func (s sums) fitted(at, stray float64) (m, v, density float64) {
	prior := 1 / (stray * stray)
	v = 1 / (s.w + prior)
	m = v * (s.wy + prior*at)
	off := s.wyy - 2*m*s.wy + m*m*s.w + prior*(m-at)*(m-at)
	return m, v, 0.5*(s.logw-off) + 0.5*math.Log(v)
}

// spreads are those that are tried: from 0.2 to 2, evenly on the log scale.
var spreads = func() (all []float64) {
	for i := range 41 {
		all = append(all, 0.2*math.Pow(10, float64(i)/40))
	}
	return all
}()

// unlikely is how unlikely a spread is beforehand, in nats: the general one is 1.
func unlikely(spread float64) float64 {
	l := math.Log(spread) / spreadStray
	return 0.5 * l * l
}

// weighed is a normal distribution and the log of how likely it is, up to a constant.
type weighed struct{ mean, variance, density float64 }

// blend returns the mean and the spread of all of them together. What is doubtful about
// the spread widens it, so that few tanks promise little.
func blend(all []weighed) Normal {
	top := math.Inf(-1)
	for _, x := range all {
		top = max(top, x.density)
	}
	var w, m, v float64
	for _, x := range all {
		p := math.Exp(x.density - top)
		w += p
		m += p * x.mean
		v += p * (x.variance + x.mean*x.mean)
	}
	m /= w
	return Normal{m, math.Sqrt(v/w - m*m)}
}

// alike returns the distribution of tanks with one centre, over all spreads.
func alike(of func(spread int) sums) Normal {
	var all []weighed
	for i, s := range spreads {
		m, v, density := of(i).fitted(0, clubStray)
		all = append(all, weighed{m, s*s + v, density - unlikely(s)})
	}
	return blend(all)
}

// club pools all tanks.
func club(tanks []Tank, k int) Normal {
	all := gather(tanks, k)
	return alike(func(i int) sums { return all[i] })
}

// gather sums the tanks up for each spread.
func gather(tanks []Tank, k int) []sums {
	all := make([]sums, len(spreads))
	for i, s := range spreads {
		for _, t := range tanks {
			all[i].add(t.alone(k), s, 1)
		}
	}
	return all
}

// within returns the distribution of one band, number at of all of them, whose centres
// stray around the club's and whose spread is one.
func within(bands [][]sums, at int, c Normal) Normal {
	var all []weighed
	for i, s := range spreads {
		density := -unlikely(s)
		for _, b := range bands {
			_, _, d := b[i].fitted(c.Mean, bandStray)
			density += d
		}
		m, v, _ := bands[at][i].fitted(c.Mean, bandStray)
		all = append(all, weighed{m, s*s + v, density})
	}
	return blend(all)
}

// split returns the tanks of each band; they come sorted.
func split(tanks []Tank) (all [][]Tank) {
	for from := 0; from < len(tanks); {
		upto := from
		for upto < len(tanks) && tanks[upto].Band == tanks[from].Band {
			upto++
		}
		all, from = append(all, tanks[from:upto]), upto
	}
	return all
}

// gatherBands sums each band up.
func gatherBands(bands [][]Tank, k int) (all [][]sums) {
	for _, b := range bands {
		all = append(all, gather(b, k))
	}
	return all
}

// bands pools each band.
func bands(tanks []Tank, c [2]Normal) (all []BandPrior) {
	parts := split(tanks)
	for _, b := range parts {
		all = append(all, BandPrior{Band: b[0].Band, Tanks: len(b)})
	}
	for k := range c {
		sums := gatherBands(parts, k)
		for i := range all {
			all[i].Scores[k] = within(sums, i, c[k])
		}
	}
	return all
}
