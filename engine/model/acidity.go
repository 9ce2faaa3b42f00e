package model

import "math"

// The terms that depend on pH and alkalinity alone.
const (
	phiTerm   = iota // NH3 fraction of total ammonia
	hno2Term         // HNO2 fraction of nitrite
	kTerm            // K(pH,T)/K of ammonia oxidisers: (phi_ref/phi)^¼
	growTerm         // factors of growth for pH and inorganic carbon, one a guild
	acidTerms = growTerm + Guilds
)

// stretch is half the width of a stretch of alkalinity, as a share of ln 10·dalk/dpH.
const stretch = 0.15

// acidity holds the terms over a stretch of alkalinity 0.13 pH wide, as parabolas
// through their exact values at lo, mid and hi: right to about 3e-4, but for
// nitrous acid (1.5e-3).
type acidity struct {
	acid, lo, mid, hi float64
	term              [acidTerms]parabola
}

// holds says whether the terms are those of an alkalinity and acid.
func (a *acidity) holds(alk, acid float64) bool { return alk >= a.lo && alk <= a.hi && acid == a.acid }

// parabola is a + b·d + c·d², d the distance from the middle.
type parabola struct{ a, b, c float64 }

func (p *parabola) at(d float64) float64 { return p.a + d*(p.b+d*p.c) }

// slope is the parabola's slope.
func (p *parabola) slope(d float64) float64 { return p.b + 2*d*p.c }

// acidities are the stretches last used: a tank goes up and down with its doses.
type acidities struct {
	cell      [stretches]acidity
	now, next uint
}

const stretches = 8

// at returns the stretch that an alkalinity lies in, for this acid; see PH.
func (k *kin) at(alk, acid float64) *acidity {
	c := &k.acidity
	for i := range c.cell {
		a := &c.cell[i]
		if a.holds(alk, acid) {
			c.now = uint(i)
			return a
		}
	}
	c.now, c.next = c.next, (c.next+1)%stretches
	a := &c.cell[c.now]
	k.lay(a, alk, acid)
	return a
}

// lay lays a stretch round an alkalinity, on its side of nil, where growth stops.
func (k *kin) lay(a *acidity, alk, acid float64) {
	w := k.stretch * math.Sqrt(alk*alk+4e6*(acid+k.kw)) // dpH/dalk is 1/(ln 10·this root)
	a.acid, a.lo, a.hi = acid, alk-w, alk+w
	if alk >= 0 {
		a.lo = max(a.lo, 0)
	} else {
		a.hi = min(a.hi, 0)
	}
	a.mid, w = (a.lo+a.hi)/2, (a.hi-a.lo)/2
	lo, mid, hi := k.acidTerms(a.lo, acid), k.acidTerms(a.mid, acid), k.acidTerms(a.hi, acid)
	for i := range a.term {
		a.term[i] = parabola{mid[i], (hi[i] - lo[i]) / (2 * w), (hi[i] - 2*mid[i] + lo[i]) / (2 * w * w)}
	}
}

// acidTerms works out the terms.
func (k *kin) acidTerms(alk, acid float64) (x [acidTerms]float64) {
	h := hydrogen(alk, acid, k.kw)
	ph := -math.Log10(h)
	x[phiTerm] = k.kaNH3 / (k.kaNH3 + h)
	x[hno2Term] = h / (h + k.kaHNO2)
	x[kTerm] = kPhi / math.Sqrt(math.Sqrt(x[phiTerm]))
	carbon := max(alk, 0)
	for i := range Defaults {
		g := &Defaults[i]
		f := CardinalPH(ph, k.phMin[i], g.PHOpt, g.PHMax)
		f = max(f, 0.02) // a floor for acid-adapted cells; common practice, no source
		x[growTerm+i] = f * carbon / (g.KAlk + carbon)
	}
	return x
}
