package study

import (
	"math"
	"math/rand/v2"
)

// pond is the truth of a wild tank: its own laws, its own simulation. It shares
// nothing with package model but the meaning of mg N/L.
type pond struct {
	kinds  []strain
	warm   []float64 // mean temperature by day, C
	stray  []float64 // pH by day less what alkalinity accounts for
	swing  float64   // of temperature within the day, C up and down
	breath float64   // of pH within the day, by plants and light
	alk0   float64   // meq/L at which pH is as stray says
	uptake func(x, k float64) float64
	hinder func(nh3, ki float64) float64
	starve bool // NH3 hinders oxidation too, not growth alone

	ceiling  float64 // most that the film can oxidise, mg N/L/d
	loose    float64 // share of bacteria that go with the water
	lag      float64 // days to wake up
	air      float64 // share of growth that oxygen leaves
	rot      float64 // release from food and dirt at 25 C, 1/d
	leach    float64 // release from soil, 1/d
	plants   float64 // uptake, mg N/L/d
	sprout   float64 // growth of plants, 1/d
	gas      float64 // loss of nitrate, 1/d
	fish     float64 // ammonia from animals, mg N/L/d
	dirt     float64 // food and faeces, mg N/L/d
	appetite float64 // growth of both, share per day
	full     float64 // the most that both grow to
	fasting  bool    // no food for now
	tap      float64 // nitrate of new water, mg N/L

	day float64
	now water
}

// water is the state: pools in mg N/L, biomass of each strain as N, alkalinity
// in meq/L.
type water struct {
	tan, no2, no3, food, soil, alk float64
	bio                            [6]float64
}

// plus is w + h·d.
func (w water) plus(h float64, d *water) water {
	w.tan += h * d.tan
	w.no2 += h * d.no2
	w.no3 += h * d.no3
	w.food += h * d.food
	w.soil += h * d.soil
	w.alk += h * d.alk
	for i := range w.bio {
		w.bio[i] += h * d.bio[i]
	}
	return w
}

// Laws of uptake, each a half at k: Monod's, Teissier's, Blackman's.
var uptakes = []func(x, k float64) float64{
	func(x, k float64) float64 { return x / (k + x) },
	func(x, k float64) float64 { return 1 - math.Exp(-math.Ln2*x/k) },
	func(x, k float64) float64 { return min(x/(2*k), 1) },
}

// Laws of inhibition, each a half at ki: non-competitive, Aiba's, and one with a
// threshold.
var hinders = []func(x, ki float64) float64{
	func(x, ki float64) float64 { return ki / (ki + x) },
	func(x, ki float64) float64 { return math.Exp(-math.Ln2 * x / ki) },
	func(x, ki float64) float64 { return min(max(1.25-0.75*x/ki, 0), 1) },
}

// wander is a wandering value by day: back to zero within about tau days, with
// spread sd.
func wander(rng *rand.Rand, days int, sd, tau float64) []float64 {
	out := make([]float64, days)
	x, keep := sd*rng.NormFloat64(), math.Exp(-1/tau)
	for i := range out {
		out[i] = x
		x = keep*x + sd*math.Sqrt(1-keep*keep)*rng.NormFloat64()
	}
	return out
}

func (p *pond) today() int { return min(int(p.day), len(p.warm)-1) }

// sun is the time of day from -1, early morning, to 1, late afternoon.
func (p *pond) sun() float64 { return math.Sin(2 * math.Pi * (p.day - 0.45)) }

// temp is the temperature now, C.
func (p *pond) temp() float64 { return p.warm[p.today()] + p.swing*p.sun() }

// ph is the pH now: it strays, breathes, and falls as alkalinity is used up.
func (p *pond) ph() float64 {
	return p.stray[p.today()] + p.breath*p.sun() + math.Log10(max(p.now.alk/p.alk0, 0.01))
}

// climate is what one short step takes as constant.
type climate struct {
	best   [6]float64 // oxidation per biomass, 1/d
	decay  [6]float64
	k      [6]float64 // half-saturations, all as TAN or nitrite
	share  float64    // NH3 of TAN
	warmth float64    // of rotting
	fed    float64
	plants float64
}

func (p *pond) climate() (c climate) {
	t, ph := p.temp(), p.ph()
	c.share = 1 / (1 + math.Pow(10, 0.0902+2730/(t+273.15)-ph)) // Emerson et al. 1975
	c.warmth = math.Pow(1.08, t-25)
	if c.fed = max(min(1+p.appetite*p.day, p.full), 1); p.fasting {
		c.fed = 0.1
	}
	c.plants = p.plants * math.Exp(p.sprout*p.day)
	awake := 1 - math.Exp(-(p.day+0.01)/p.lag)
	carbon := max(p.now.alk, 0) / (0.2 + max(p.now.alk, 0))
	for i := range p.kinds {
		s := &p.kinds[i]
		f := s.heat(t) * s.acid(ph) * p.air * carbon
		c.best[i] = s.mu / s.yield * f * awake
		c.decay[i] = s.decay * math.Pow(1.05, t-20)
		c.k[i] = s.k
		if s.free {
			c.k[i] /= c.share
		}
	}
	return c
}

// slope is the rate of change of w.
func (p *pond) slope(w *water, c *climate) (d water) {
	const perMeq = 1 / 14.007
	tan, no2 := max(w.tan, 0), max(w.no2, 0)
	nh3 := tan * c.share
	var used, fed, held [6]float64
	var sum [2]float64
	for i := range p.kinds {
		s, on, j := &p.kinds[i], tan, 0
		if s.nitrite {
			on, j = no2, 1
		}
		fed[i], held[i] = p.uptake(on, c.k[i]), p.hinder(nh3, s.ki)
		used[i] = c.best[i] * w.bio[i] * fed[i]
		if p.starve {
			used[i] *= held[i]
			held[i] = 1
		}
		sum[j] += used[i]
	}
	// The film cannot take in more than its area lets through.
	through := [2]float64{1, 1}
	for j, on := range [2]float64{tan, no2} {
		if most := p.ceiling * on / (0.5 + on); sum[j] > most {
			through[j] = most / sum[j]
		}
	}
	for i := range p.kinds {
		s, j := &p.kinds[i], 0
		if s.nitrite {
			j = 1
		}
		u := used[i] * through[j]
		grown := s.yield * u * held[i]
		lost := c.decay[i] * (s.starving + (1-s.starving)*fed[i]) * w.bio[i]
		d.bio[i] = grown - lost
		d.food += lost
		if s.nitrite {
			d.no2 -= u + grown
			d.no3 += u
			continue
		}
		d.tan -= u + grown
		if s.through {
			d.no3 += u
		} else {
			d.no2 += u
		}
		d.alk -= (2*u + grown) * perMeq
	}
	rot := p.rot * c.warmth * w.food
	leach := p.leach * c.warmth * w.soil
	eaten := c.plants * tan / (tan + 0.15)
	left := (c.plants - eaten) * 0.4 * max(w.no3, 0) / (max(w.no3, 0) + 0.5)
	gas := p.gas * w.no3
	d.tan += rot + leach + p.fish*c.fed - eaten
	d.no3 -= left + gas
	d.food += p.dirt*c.fed - rot
	d.soil -= leach
	d.alk += (rot + leach + p.fish*c.fed - eaten + left + gas) * perMeq
	return d
}
