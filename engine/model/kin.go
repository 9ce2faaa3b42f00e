package model

import "math"

// kin holds the kinetics of one draw over one segment: Env times Params, so
// that the inner loop only multiplies.
type kin struct {
	Env
	p        *Params
	phMin    [Guilds]float64
	vmax     [Guilds]float64 // mg N oxidised per mg biomass N and day, with what slows them for now
	full     [Guilds]float64 // the same without
	perCap   float64         // 1/cap
	loss     float64         // death by medicine or a stopped filter, 1/d
	rise     float64         // growth of the ration, share of the first per day
	sated    float64         // how many times the first it becomes at most
	firstTAN float64         // what the first ration gives off
	firstOrg float64
	rest     [Guilds]float64 // death without food, 1/d
	live     [Guilds]float64 // what food adds to it
	halfA    float64         // factors of half-saturation with TAN, of AOB and AOA
	halfN    float64         // half-saturations with nitrite, mg N/L: NOB and comammox
	halfM    float64
	rhoA     float64 // self-inhibition by NH3, L/mg: AOB and AOA
	rhoO     float64
	kiC      float64 // free ammonia that halves comammox's rate, mg N/L
	kiN      float64 // and nitrite oxidisers' growth
	longest  float64 // the step over which biomass can be foreseen, without chlorine, d
	paced    bool    // the run's pace is up to date, unless its state was changed
	stretch  float64 // see acidity
	acidity  acidities
}

// kPhi is the fourth root of the NH3 fraction at pH 7.5 and 25 C, where KTAN is stated.
var kPhi = math.Sqrt(math.Sqrt(1 / (1 + math.Pow(10, 9.24629-7.5))))

// begin sets the constants of a draw that no segment changes; k must be nil.
func (k *kin) begin(p *Params) {
	k.p, k.stretch = p, stretch
	for i := range Defaults {
		g := &Defaults[i]
		k.phMin[i] = g.PHMin + p.PHMin
	}
	k.halfA = p.HalfA
	k.halfN, k.halfM = Defaults[NOB].KNO2*p.HalfN, Defaults[CMX].KNO2
	// FreeNH3 acts as if there were so much less.
	k.rhoA, k.rhoO = 1/(Defaults[AOB].KiNH3*p.FreeNH3), 1/(Defaults[AOA].KiNH3*p.FreeNH3)
	k.kiC, k.kiN = Defaults[CMX].KiNH3*p.FreeNH3, Defaults[NOB].KiNH3*p.FreeNH3
}

// restDecay is the share of decay that goes on in cells without food: starved
// nitrifiers keep most of their activity for weeks (from memory; reviewed by
// Geets, Boon & Verstraete 2006, FEMS Microbiol. Ecol. 58:1-13).
const restDecay = 0.4

// enter takes over the constants of a segment, after begin.
func (k *kin) enter(e *Env) {
	k.Env = *e
	k.longest = stepMax
	act := 1 / (1 + e.inhib*k.p.Harm)
	k.loss = e.kill * k.p.Harm
	for i := range k.mu {
		f := k.p.GrowA
		if i == NOB {
			f = k.p.GrowN
		}
		k.mu[i] *= f * k.p.Phos
		k.decay[i] *= k.p.Decay
		k.full[i] = k.mu[i] * (1 / yieldN[i])
		k.vmax[i] = k.full[i] * act
		k.rest[i], k.live[i] = restDecay*k.decay[i]+k.loss, (1-restDecay)*k.decay[i]
		k.longest = min(k.longest, 1.5/max(k.mu[i], k.decay[i]+k.loss))
	}
	k.perCap = 1 / (k.cap * k.p.Area)
	k.fedTAN *= k.p.Source
	k.fedOrg *= k.p.Source
	k.plant *= k.p.Plant
	k.rise, k.firstTAN, k.firstOrg = 0, k.fedTAN, k.fedOrg
	if e.rising {
		k.rise = k.p.Rise
	}
}

// hydrogen returns [H+] in mol/L from alkalinity in meq/L and acid = K1·[CO2]:
// Alk = (acid + Kw)/H - H, the carbonate ion left out, which moves pH by less
// than 0.02 below pH 8.5.
func hydrogen(alk, acid, kw float64) float64 {
	a := alk * 1e-3
	c := acid + kw
	r := math.Sqrt(a*a + 4*c)
	if a > 0 {
		return 2 * c / (a + r) // the same root without cancellation
	}
	return (r - a) / 2
}

// PH returns the state's pH.
func (s *State) PH(e *Env) float64 { return -math.Log10(hydrogen(s.Alk, s.acid, e.kw)) }
