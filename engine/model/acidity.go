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

// stretch is half the width of a stretch of alkalinity, in units of ln 10 pH.
const stretch = 0.15

// acidity holds the terms over a stretch of alkalinity 0.13 pH wide, as parabolas
// through their exact values at lo, mid and hi: right to about 3e-4, but for
// nitrous acid (1.5e-3). With q = √(acid + Kw), [H+] is q·e^-u where alkalinity is 2q·sinh u;
// stretch number n goes from u = 2n·stretch to 2(n+1)·stretch, so that nil, where growth stops,
// is the end of two.
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

// acidities are the stretches last used, by the last bits of their numbers: a tank goes up and
// down with its doses.
type acidities struct {
	cell [stretches]acidity
	n    int     // number of the last
	q    float64 // mol/L, and
	ph   float64 // where alkalinity is nil, of the last one's acid
}

const stretches = 4

// last is the stretch looked up last.
func (c *acidities) last() *acidity { return &c.cell[uint(c.n)%stretches] }

// at returns the stretch that an alkalinity in meq/L lies in, for this acid; see PH.
func (k *kin) at(alk, acid float64) *acidity {
	c := &k.acidity
	n := c.n
	if c.last().acid != acid {
		c.q = math.Sqrt(acid + k.kw)
		c.ph = -math.Log10(c.q)
		n = 0
		if u := math.Asinh(alk*0.5e-3/c.q) / (2 * k.stretch); math.Abs(u) < 1e9 { // and a number
			n = int(math.Floor(u))
		}
	}
	for alk < k.end(2*n) {
		n--
	}
	for alk > k.end(2*n+2) {
		n++
	}
	c.n = n
	if a := c.last(); !a.holds(alk, acid) {
		k.lay(a, acid)
	}
	return c.last()
}

// powers are e^(i·stretch).
var powers = func() (e [257]float64) {
	for i := range e {
		e[i] = math.Exp(float64(i-128) * stretch)
	}
	return e
}()

// power returns e^u, where u is so many halves of a stretch.
func (k *kin) power(i int) float64 {
	if i >= -128 && i <= 128 && k.stretch == stretch {
		return powers[i+128]
	}
	return math.Exp(float64(i) * k.stretch)
}

// end is the alkalinity, meq/L, so many halves of a stretch from nil.
func (k *kin) end(i int) float64 {
	q, e := k.acidity.q, k.power(i)
	return 1e3 * (q*e - q/e)
}

// lay lays the last stretch anew.
func (k *kin) lay(a *acidity, acid float64) {
	n := k.acidity.n
	a.acid = acid
	var lo, mid, hi [acidTerms]float64
	a.lo, a.mid, a.hi = k.acidTerms(2*n, &lo), k.acidTerms(2*n+1, &mid), k.acidTerms(2*n+2, &hi)
	x, y := a.lo-a.mid, a.hi-a.mid
	perX, perY, per := 1/x, 1/y, 1/(y-x)
	for i := range a.term {
		s, t := (lo[i]-mid[i])*perX, (hi[i]-mid[i])*perY
		bend := (t - s) * per
		a.term[i] = parabola{mid[i], s - bend*x, bend}
	}
}

// acidTerms works out the terms so many halves of a stretch from where alkalinity is nil, and
// returns the alkalinity there, meq/L.
func (k *kin) acidTerms(i int, x *[acidTerms]float64) (alk float64) {
	c := &k.acidity
	e := k.power(i)
	h := c.q / e
	alk = 1e3 * (c.q*e - h)
	ph := c.ph + float64(i)*k.stretch*(1/math.Ln10)
	x[phiTerm] = k.kaNH3 / (k.kaNH3 + h)
	x[hno2Term] = h / (h + k.kaHNO2)
	x[kTerm] = kPhi / math.Sqrt(math.Sqrt(x[phiTerm]))
	carbon := max(alk, 0)
	for i := range Defaults {
		g := &Defaults[i]
		// CardinalPH, with a floor for acid-adapted cells; common practice, no source
		const floor = 0.02
		f, d := (ph-k.phMin[i])*(ph-g.PHMax), ph-g.PHOpt
		d = f - d*d
		if f >= floor*d { // both below nil
			f, d = floor, 1
		}
		x[growTerm+i] = f * carbon / (d * (g.KAlk + carbon))
	}
	return alk
}
