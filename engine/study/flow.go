package study

import (
	"math"
	"math/rand/v2"
)

// to moves the tank on, by the classic fourth-order Runge-Kutta scheme in steps
// short enough for the quickest uptake.
func (p *pond) to(day float64) {
	for p.day < day {
		c := p.climate()
		quick := c.plants / 0.15
		for i := range p.kinds {
			quick += c.best[i] * p.now.bio[i] / c.k[i]
		}
		h := min(0.04, 1.2/max(quick, 1), day-p.day)
		a := p.slope(&p.now, &c)
		x := p.now.plus(h/2, &a)
		b := p.slope(&x, &c)
		x = p.now.plus(h/2, &b)
		e := p.slope(&x, &c)
		x = p.now.plus(h, &e)
		f := p.slope(&x, &c)
		for _, s := range [...]struct {
			w float64
			d *water
		}{{1, &a}, {2, &b}, {2, &e}, {1, &f}} {
			p.now = p.now.plus(h*s.w/6, s.d)
		}
		p.now.tan, p.now.no2, p.now.no3 = max(p.now.tan, 0), max(p.now.no2, 0), max(p.now.no3, 0)
		p.day += h
		if day-p.day < 1e-9 {
			p.day = day
		}
	}
}

// change replaces a share of the water; what floats in it goes along.
func (p *pond) change(share float64) {
	w := &p.now
	w.tan *= 1 - share
	w.no2 *= 1 - share
	w.no3 += share * (p.tap - w.no3)
	w.alk += share * (p.alk0 - w.alk)
	for i := range w.bio {
		w.bio[i] *= 1 - share*p.loose
	}
}

// dose adds ammonia, and the alkalinity that comes with it.
func (p *pond) dose(n float64) {
	p.now.tan += n
	p.now.alk += n / 14.007
}

// seed gives each kind about half of v mg N/L/d.
func (p *pond) seed(_ bool, v float64, rng *rand.Rand) {
	for i := range p.kinds {
		s := &p.kinds[i]
		p.now.bio[i] += v * spreadOf(rng, 0.5, 0.7) * s.yield / s.mu
	}
}

func (p *pond) pools() (tan, no2, no3 float64)   { return p.now.tan, p.now.no2, p.now.no3 }
func (p *pond) alkalinity() (meq, share float64) { return p.now.alk, p.now.alk / p.alk0 }
func (p *pond) fast(on bool)                     { p.fasting = on }

// lose takes a share of all bacteria.
func (p *pond) lose(share float64) {
	for i := range p.now.bio {
		p.now.food += share * p.now.bio[i]
		p.now.bio[i] *= 1 - share
	}
}

// trial is the challenge: ammonia raised to target, a day on, the larger of
// ammonia and nitrite over what kits read as clear, 0.25 mg/L of the ion; below
// 1 the tank passes. fedOn goes on feeding meanwhile. The tank itself is left as
// it is.
func (p *pond) trial(target float64, fedOn bool) float64 {
	x := *p
	x.now.tan = max(x.now.tan, target)
	if !fedOn {
		x.fish, x.dirt = 0, 0
	}
	x.to(x.day + 1)
	return max(x.now.tan*18.039/14.007, x.now.no2*46.005/14.007) / 0.25
}

// carries is the trial of a tank that nobody may dose: by how much a day of its
// ration brings ammonia above its limit from there, or nitrite above its own.
func (p *pond) carries() float64 {
	const tanLimit, no2Limit = 0.25 * 14.007 / 18.039, 0.25 * 14.007 / 46.005
	a, n := *p, *p
	a.now.tan, n.now.no2 = max(a.now.tan, tanLimit), max(n.now.no2, no2Limit)
	a.to(a.day + 1)
	n.to(n.day + 1)
	return max(a.now.tan/tanLimit, n.now.no2/no2Limit)
}

// passed is where a trial that fell from m0 at day d0 to m1 at day d1 passed,
// on a log scale.
func passed(d0, d1, m0, m1 float64) float64 {
	if m0 < 1 {
		return d0
	}
	return d0 + (d1-d0)*math.Log(m0)/math.Log(m0/max(m1, 1e-9))
}
