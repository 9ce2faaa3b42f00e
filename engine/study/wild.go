package study

import (
	"math"
	"math/rand/v2"
)

// strain is one kind of nitrifier of a wild tank.
type strain struct {
	nitrite  bool    // oxidises nitrite, else ammonia
	through  bool    // takes ammonia all the way to nitrate
	mu       float64 // growth at its stated temperature and best pH, 1/d
	at       float64 // that temperature, C
	k        float64 // half-saturation, mg N/L; of NH3-N when free is set
	free     bool    // takes up NH3 alone
	yield    float64 // biomass N per N oxidised
	decay    float64 // at 20 C, 1/d
	starving float64 // share of decay that goes on without food
	ki       float64 // NH3-N that halves growth, mg/L
	seed     float64 // oxidation at the stated temperature on day 0, mg N/L/d
	heat     func(t float64) float64
	acid     func(ph float64) float64
}

// kinds are what may live in a wild tank, three for each step. Growth, half-saturation, yield (g COD/g N),
// decay and inhibition are the medians of the rows of testdata/published/kinetics.csv
// on each: of Nitrosomonas (mostly at 20 C), of archaea, of comammox; of
// Nitrospira, Nitrobacter and the cold Nitrotoga. Where there are few rows the
// value is one of them. Decay takes in the rows of endogenous respiration, since
// films are grazed less than sludge.
var kinds = [2][3]strain{
	{
		{mu: 0.77, at: 21, k: 0.50, yield: 0.17, decay: 0.07, ki: 9.5},
		{mu: 0.36, at: 26, k: 0.02, yield: 0.12, decay: 0.04, ki: 2.0},
		{mu: 0.25, at: 28, k: 0.013, yield: 0.20, decay: 0.05, ki: 0.15, through: true},
	},
	{
		{mu: 0.66, at: 21, k: 0.17, yield: 0.06, decay: 0.07, ki: 0.7, nitrite: true},
		{mu: 0.67, at: 21, k: 1.4, yield: 0.06, decay: 0.08, ki: 4, nitrite: true},
		{mu: 0.31, at: 17, k: 0.45, yield: 0.06, decay: 0.07, ki: 0.7, nitrite: true},
	},
}

// The spreads of the same rows, as sd of the logarithm.
const (
	muSpread, kSpread, yieldSpread, decaySpread, kiSpread = 0.35, 0.75, 0.2, 0.45, 1.1
)

// perCOD is g N per g COD of biomass C5H7NO2 (Hoover & Porges 1952).
const perCOD = 14.007 / 159.99

// spreadOf draws a log-normal value.
func spreadOf(rng *rand.Rand, median, sd float64) float64 {
	return median * math.Exp(sd*rng.NormFloat64())
}

func between(rng *rand.Rand, low, high float64) float64 { return low + (high-low)*rng.Float64() }

// strains draws a tank's nitrifiers: one to three kinds for each step. What
// there is on day 0 is about 0.02 mg N/L/d, sixfold either way (DESIGN: start-up
// records; common practice, no source).
func strains(ph float64, rng *rand.Rand) []strain {
	var out []strain
	for _, step := range kinds {
		n := 1 + rng.IntN(3)
		order := rng.Perm(3)
		if n == 1 || rng.Float64() < 0.7 { // the common kind is mostly there
			order[0], order[indexOf(order, 0)] = 0, order[0]
		}
		for _, i := range order[:n] {
			out = append(out, step[i])
		}
	}
	heat, acid, free := rng.IntN(3), rng.IntN(5), ph > 7 && rng.Float64() < 0.2
	starving := between(rng, 0.02, 0.3) // starved nitrifiers keep most of their activity for weeks
	// Acid water holds strains that stand it: most such tanks are done in one to
	// two months (common practice, no source); films are known at pH 4.3 (Tarre &
	// Green 2004).
	adapted := between(rng, 0.4, 1.1) * max(7.2-ph, 0)
	for i := range out {
		s := &out[i]
		s.mu *= spreadOf(rng, 1, muSpread)
		s.k *= spreadOf(rng, 1, kSpread)
		s.yield *= spreadOf(rng, perCOD, yieldSpread)
		s.decay *= spreadOf(rng, 1, decaySpread)
		s.ki *= spreadOf(rng, 1, kiSpread)
		s.seed = spreadOf(rng, 0.02, 1.8)
		s.starving = starving
		hardy := !s.nitrite && s.k < 0.1
		s.heat = heatLaw(heat, s, rng)
		s.acid = acidLaw(acid, hardy, s.nitrite, rng)
		if adapted > 0 {
			f := s.acid
			s.acid = func(ph float64) float64 { return f(ph + adapted) }
		}
		if free && !s.nitrite { // NH3 at pH 7.5 and 25 C is a fifty-sixth of all
			s.free = true
			s.k /= 56
			s.acid = acidLaw(4, true, false, rng) // low pH counts through NH3 already
		}
	}
	return out
}

func indexOf(x []int, v int) int {
	for i := range x {
		if x[i] == v {
			return i
		}
	}
	return -1
}

// heatLaw is growth against temperature, 1 at the strain's stated temperature: a
// constant factor per degree, an activation energy, or the square-root law of
// Ratkowsky et al. (1983, J. Bacteriol. 154:1222), each with an end above its
// optimum.
func heatLaw(law int, s *strain, rng *rand.Rand) func(t float64) float64 {
	best := 29.5 + 1.2*rng.NormFloat64()
	if s.at < 20 {
		best = 20 + rng.NormFloat64()
	}
	width := between(rng, 7, 11)
	var f func(t float64) float64
	switch law {
	case 0: // rows: 1.072 to 1.128 for ammonia, 1.06 to 1.08 for nitrite
		theta := 1.10 + 0.015*rng.NormFloat64()
		if s.nitrite {
			theta -= 0.03
		}
		f = func(t float64) float64 { return math.Pow(theta, t) }
	case 1: // rows: 68 and 44 kJ/mol
		e := 68 + 8*rng.NormFloat64()
		if s.nitrite {
			e -= 24
		}
		f = func(t float64) float64 { return math.Exp(-e / 8.314e-3 / (t + 273.15)) }
	default:
		low, c := 3+2*rng.NormFloat64(), between(rng, 0.2, 0.4)
		high := best + 8
		root := func(t float64) float64 {
			if t <= low || t >= high {
				return 0
			}
			r := (t - low) * (1 - math.Exp(c*(t-high)))
			return r * r
		}
		at := root(s.at)
		return func(t float64) float64 { return root(t) / at }
	}
	at := f(s.at)
	return func(t float64) float64 {
		if t <= best {
			return f(t) / at
		}
		return f(best) / at * max(1-(t-best)/width, 0)
	}
}

// acidLaw is growth against pH, 1 at the optimum, with a floor for cells that
// stand acid: two dissociation constants, a cosine bell, a steady fall below
// 7.2, the straight line of Downing, or Henze's law by distance from the
// optimum. hardy strains mind less. All but the floor are rows of kinetics.csv.
func acidLaw(law int, hardy, nitrite bool, rng *rand.Rand) func(ph float64) float64 {
	best, tame := 8.0+0.2*rng.NormFloat64(), 0.0
	if hardy {
		best, tame = 7.5+0.3*rng.NormFloat64(), 0.8
	} else if nitrite {
		best, tame = 7.8+0.2*rng.NormFloat64(), 0.3
	}
	floor := min(spreadOf(rng, 0.08, 0.7), 0.3)
	var f func(ph float64) float64
	switch law {
	case 0:
		p1, p2 := best-1.2-tame+0.2*rng.NormFloat64(), best+1+0.2*rng.NormFloat64()
		f = func(ph float64) float64 { return 1 / (1 + math.Pow(10, p1-ph) + math.Pow(10, ph-p2)) }
	case 1:
		wide := 3.1 + 0.2*rng.NormFloat64() + tame/2
		f = func(ph float64) float64 { return 0.5 * (1 + math.Cos(math.Pi*min(math.Abs(ph-best)/wide, 1))) }
	case 2:
		base := max(2.35-tame+0.3*rng.NormFloat64(), 1.1)
		f = func(ph float64) float64 { return math.Pow(base, min(ph-7.2, 0)) }
	case 3:
		slope := (0.833 - 0.4*tame) * spreadOf(rng, 1, 0.2)
		f = func(ph float64) float64 { return max(1+slope*min(ph-7.2, 0), 0) }
	default:
		k := spreadOf(rng, 200*math.Pow(10, tame), 0.5)
		f = func(ph float64) float64 { return k / (k - 1 + math.Pow(10, math.Abs(ph-best))) }
	}
	top := 0.0
	for ph := 5.0; ph < 9.5; ph += 0.05 {
		top = max(top, f(ph))
	}
	return func(ph float64) float64 { return max(f(ph)/top, floor) }
}
