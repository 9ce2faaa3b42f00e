package model

import "math"

// kin holds the kinetics of one draw over one segment: Env times Params, so
// that the inner loop only multiplies.
type kin struct {
	Env
	p         *Params
	phMin     [Guilds]float64
	yieldN, q [Guilds]float64 // q: mg N oxidised per mg biomass N per day at the optimum
	kPhi      float64         // (NH3 fraction at pH 7.5 and 25 C)^¼
	vmax      [Guilds]float64 // mg N oxidised per mg biomass N and day, with what slows them for now
	full      [Guilds]float64 // the same without
	perCap    float64         // 1/cap
	loss      float64         // death by medicine or a stopped filter, 1/d
	rise      float64         // growth of the ration, share of the first per day
	firstTAN  float64         // what the first ration gives off
	firstOrg  float64
	acidity   acidity
}

// phiRef is the NH3 fraction at pH 7.5 and 25 C, where KTAN is stated.
var phiRef = 1 / (1 + math.Pow(10, 9.24629-7.5))

// acidity is what depends on pH, alkalinity and oxygen alone. It is worked out
// anew when alkalinity has moved by 1 %, which is 0.004 pH, or by 0.002 meq/L,
// or oxygen by 2 %.
type acidity struct {
	alk, acid, o2 float64
	phi           float64         // NH3 fraction of total ammonia
	hno2          float64         // HNO2 fraction of nitrite
	kScale        float64         // K(pH,T)/K: (phi_ref/phi)^¼
	f             [Guilds]float64 // factor of growth for pH, oxygen and inorganic carbon
}

// at brings the acidity up to date with a state.
func (k *kin) at(s *State) *acidity {
	a := &k.acidity
	if math.Abs(s.Alk-a.alk) < 0.01*max(math.Abs(a.alk), 0.2) && s.acid == a.acid && math.Abs(s.O2-a.o2) < 0.02*a.o2 {
		return a
	}
	a.alk, a.acid, a.o2 = s.Alk, s.acid, s.O2
	o2, alk := s.O2*k.film, max(s.Alk, 0)
	h := hydrogen(s.Alk, s.acid, k.kw)
	ph := -math.Log10(h)
	a.phi = k.kaNH3 / (k.kaNH3 + h)
	a.hno2 = h / (h + k.kaHNO2)
	a.kScale = k.kPhi / math.Sqrt(math.Sqrt(a.phi))
	for i := range a.f {
		g := &Defaults[i]
		f := 0.0
		if x, y := ph-k.phMin[i], ph-g.PHMax; x > 0 && y < 0 {
			d := ph - g.PHOpt
			f = x * y / (x*y - d*d)
		}
		f = max(f, 0.02) // a floor for acid-adapted cells; common practice, no source
		a.f[i] = f * o2 * alk / ((g.KO2 + o2) * (g.KAlk + alk))
	}
	return a
}

func newKin(p *Params) kin {
	k := kin{p: p, kPhi: math.Sqrt(math.Sqrt(phiRef))}
	for i := range Defaults {
		g := &Defaults[i]
		k.phMin[i] = g.PHMin + p.PHMin
		k.yieldN[i] = g.yieldN()
		k.q[i] = 1 / k.yieldN[i]
	}
	return k
}

// enter takes over the constants of a segment.
func (k *kin) enter(e *Env) {
	k.Env = *e
	k.acidity.acid = -1 // out of date
	act := 1 / (1 + e.inhib*k.p.Harm)
	k.loss = e.kill * k.p.Harm
	for i := range k.mu {
		f := k.p.GrowA
		if i == NOB {
			f = k.p.GrowN
		}
		k.mu[i] *= f * k.p.Phos
		k.decay[i] *= k.p.Decay
		k.full[i] = k.mu[i] * k.q[i]
		k.vmax[i] = k.full[i] * act
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

// rates are the flows as multiples of their donor: a flow is rate·donor.
type rates struct {
	tanNO2, tanNO3 float64         // oxidation of total ammonia to nitrite, and right through
	no2NO3         float64         // oxidation of nitrite
	grow           [Guilds]float64 // assimilation; donor is TAN, for NOB nitrite
	growC          float64         // comammox from nitrite
	die            [Guilds]float64 // donor is the guild
	plantT, plantN float64         // uptake; donors TAN and NO3
	org, soil      float64         // release of ammonia; donors Org and Soil
	loss           float64         // of nitrate; donor NO3
	o2             float64         // consumption and loss to the air; donor O2
	cl             float64         // loss; donor Cl
}

// acidFactor is the non-competitive inhibition Ki/(Ki + x) by free nitrous acid.
func acidFactor(x, ki float64) float64 {
	if x < 0.005*ki {
		return 1 - x/ki // within 3e-5
	}
	return ki / (ki + x)
}

// restDecay is the share of decay that goes on in cells without food: starved
// nitrifiers keep most of their activity for weeks (from memory; reviewed by
// Geets, Boon & Verstraete 2006, FEMS Microbiol. Ecol. 58:1-13).
const restDecay = 0.4

// rates works out all flows of a state.
func (k *kin) rates(s *State, r *rates) {
	a := k.at(s)
	nh3 := s.TAN * a.phi
	hno2 := s.NO2 * a.hno2
	ga, go_, gc, gn := &Defaults[AOB], &Defaults[AOA], &Defaults[CMX], &Defaults[NOB]

	// v is each guild's capacity under this pH, oxygen and carbon.
	var v [Guilds]float64
	for i := range v {
		v[i] = k.vmax[i] * s.B[i] * a.f[i]
	}
	loadC := k.full[CMX] * s.B[CMX]
	// A film grows freely until it is nearly full, so room falls with the square.
	fullA := (k.full[AOB]*s.B[AOB] + k.full[AOA]*s.B[AOA] + loadC) * k.perCap
	fullN := (k.full[NOB]*s.B[NOB] + loadC) * k.perCap
	roomA, roomN := max(1-fullA*fullA, 0), max(1-fullN*fullN, 0)

	// Saturation over its donor: 1/(K + S), with self-inhibition by NH3.
	nh3 /= k.p.FreeNH3 // as if there were so much less
	kScale := a.kScale * k.p.HalfA
	satA := 1 / (ga.KTAN*kScale + s.TAN*(1+nh3/ga.KiNH3))
	satO := 1 / (go_.KTAN*kScale + s.TAN*(1+nh3/go_.KiNH3))
	satC := 1 / (gc.KTAN*a.kScale + s.TAN)
	satC2 := 1 / (gc.KNO2 + s.NO2)
	satN := 1 / (gn.KNO2*k.p.HalfN + s.NO2)

	kA := v[AOB] * satA * acidFactor(hno2, ga.KiHNO2)
	kO := v[AOA] * satO * acidFactor(hno2, go_.KiHNO2)
	inhC := v[CMX] * max(gc.KiNH3/(gc.KiNH3+nh3), 0.3) * acidFactor(hno2, gc.KiHNO2)
	kC, kC2 := inhC*satC, inhC*satC2
	leak := s.TAN / (s.TAN + 10*gc.KTAN*a.kScale)
	kN := v[NOB] * satN * acidFactor(hno2, gn.KiHNO2)
	inhN := gn.KiNH3 / (gn.KiNH3 + nh3) // on growth: respiration loses little (Vadivelu et al. 2007)

	r.tanNO2 = kA + kO + kC*leak
	r.tanNO3 = kC * (1 - leak)
	r.no2NO3 = kN + kC2
	r.grow[AOB] = k.yieldN[AOB] * kA * roomA
	r.grow[AOA] = k.yieldN[AOA] * kO * roomA
	r.grow[CMX] = k.yieldN[CMX] * kC * roomA * 0.5
	r.growC = k.yieldN[CMX] * kC2 * roomN * 0.5
	r.grow[NOB] = k.yieldN[NOB] * kN * inhN * roomN

	cl := s.Cl * k.clKill * k.p.Chlorine
	fed := [Guilds]float64{AOB: s.TAN * satA, AOA: s.TAN * satO, CMX: s.TAN * satC, NOB: s.NO2 * satN}
	for i := range r.die {
		r.die[i] = k.decay[i]*(restDecay+(1-restDecay)*fed[i]) + k.loss + cl
	}
	r.die[AOA] -= 0.85 * cl // archaea stand about 2 mg/L; common practice, no source
	if k.plant > 0 {
		// Ammonium first: 3 to 1 over nitrate; half-saturation 0.1 mg N/L.
		want := s.TAN + s.NO3/3
		r.plantT = k.plant / (0.1 + want)
		r.plantN = k.plant / 3 / (0.1 + want)
	} else {
		r.plantT, r.plantN = 0, 0
	}
	use := 3.43*(r.tanNO2+r.tanNO3)*s.TAN + 1.14*(r.no2NO3*s.NO2+r.tanNO3*s.TAN) + s.demand
	r.o2 = k.kla + use/(s.O2+0.05)
	r.org, r.soil, r.cl, r.loss = k.kOrg, k.kSoil, k.kCl, k.p.Loss
}

// solve makes one modified Patankar step of length dt from s0 with rates r,
// each weighted by its donor's new value, into s1. The linear system is small
// and nearly triangular, so it is solved by hand: everything is expressed by
// the new TAN.
func (k *kin) solve(s0 *State, r *rates, dt float64, s1 *State) {
	const perMeq = 1 / 14.007 // meq per mg N
	soil := s0.Soil / (1 + dt*r.soil)
	// NO2 = n0 + n1·T
	den := 1 / (1 + dt*(r.no2NO3+r.grow[NOB]+r.growC))
	n0, n1 := s0.NO2*den, dt*r.tanNO2*den
	// B = b0 + bT·T + bN·NO2, and Org = o0 + o1·T
	o0 := s0.Org + dt*k.fedOrg
	o1 := 0.0
	var b0, bT, bN [Guilds]float64
	for i := range b0 {
		d := 1 / (1 + dt*r.die[i])
		b0[i] = s0.B[i] * d
		switch i {
		case NOB:
			bN[i] = dt * r.grow[i] * d
		case CMX:
			bT[i], bN[i] = dt*r.grow[i]*d, dt*r.growC*d
		default:
			bT[i] = dt * r.grow[i] * d
		}
		o0 += dt * r.die[i] * (b0[i] + bN[i]*n0)
		o1 += dt * r.die[i] * (bT[i] + bN[i]*n1)
	}
	d := 1 / (1 + dt*r.org)
	o0, o1 = o0*d, o1*d
	grow := r.grow[AOB] + r.grow[AOA] + r.grow[CMX]
	t := (s0.TAN + dt*(k.fedTAN+r.soil*soil+r.org*o0)) /
		(1 + dt*(r.tanNO2+r.tanNO3+grow+r.plantT) - dt*r.org*o1)

	s1.TAN, s1.Soil = t, soil
	s1.NO2 = n0 + n1*t
	s1.Org = o0 + o1*t
	for i := range b0 {
		s1.B[i] = b0[i] + bT[i]*t + bN[i]*s1.NO2
	}
	s1.NO3 = (s0.NO3 + dt*(r.no2NO3*s1.NO2+r.tanNO3*t)) / (1 + dt*(r.plantN+r.loss))
	s1.Gone = s0.Gone + dt*r.loss*s1.NO3
	s1.Plant = s0.Plant + dt*(r.plantT*t+r.plantN*s1.NO3)
	s1.Alk = s0.Alk + dt*perMeq*(r.org*s1.Org+r.soil*soil+k.fedTAN-
		(2*(r.tanNO2+r.tanNO3)+grow+r.plantT)*t+(r.plantN+r.loss)*s1.NO3)
	s1.O2 = (s0.O2 + dt*k.kla*k.satO2) / (1 + dt*r.o2)
	s1.Cl = s0.Cl / (1 + dt*r.cl)
	s1.acid, s1.demand = s0.acid, s0.demand
}

// step makes one step of the second-order modified Patankar Runge-Kutta scheme
// MPRK22(1) (Burchard, Deleersnijder & Meister 2003, Appl. Numer. Math.
// 47:1-30): non-negative and conservative whatever dt. It returns the largest
// difference to the first-order step relative to rtol·value + atol.
func (k *kin) step(s *State, dt, rtol, atol float64) (next State, err float64) {
	var r0, r1 rates
	var a State
	k.rates(s, &r0)
	k.solve(s, &r0, dt, &a)
	k.rates(&a, &r1)
	// Means of the flows, each over its donor at the first stage.
	t, n, m := ratio(s.TAN, a.TAN), ratio(s.NO2, a.NO2), ratio(s.NO3, a.NO3)
	r1.tanNO2 = 0.5 * (r0.tanNO2*t + r1.tanNO2)
	r1.tanNO3 = 0.5 * (r0.tanNO3*t + r1.tanNO3)
	r1.plantT = 0.5 * (r0.plantT*t + r1.plantT)
	r1.grow[AOB] = 0.5 * (r0.grow[AOB]*t + r1.grow[AOB])
	r1.grow[AOA] = 0.5 * (r0.grow[AOA]*t + r1.grow[AOA])
	r1.grow[CMX] = 0.5 * (r0.grow[CMX]*t + r1.grow[CMX])
	r1.grow[NOB] = 0.5 * (r0.grow[NOB]*n + r1.grow[NOB])
	r1.growC = 0.5 * (r0.growC*n + r1.growC)
	r1.no2NO3 = 0.5 * (r0.no2NO3*n + r1.no2NO3)
	r1.plantN = 0.5 * (r0.plantN*m + r1.plantN)
	r1.loss = 0.5 * (r0.loss*m + r1.loss)
	for i := range r1.die {
		r1.die[i] = 0.5 * (r0.die[i]*ratio(s.B[i], a.B[i]) + r1.die[i])
	}
	r1.org = 0.5 * (r0.org*ratio(s.Org, a.Org) + r1.org)
	r1.soil = 0.5 * (r0.soil*ratio(s.Soil, a.Soil) + r1.soil)
	r1.o2 = 0.5 * (r0.o2*ratio(s.O2, a.O2) + r1.o2)
	r1.cl = 0.5 * (r0.cl*ratio(s.Cl, a.Cl) + r1.cl)
	k.solve(s, &r1, dt, &next)

	err = max(math.Abs(a.TAN-next.TAN)/(rtol*next.TAN+atol),
		math.Abs(a.NO2-next.NO2)/(rtol*next.NO2+atol),
		math.Abs(a.Cl-next.Cl)/(rtol*next.Cl+atol))
	for i := range a.B {
		err = max(err, math.Abs(a.B[i]-next.B[i])/(rtol*next.B[i]+1e-6))
	}
	return next, err
}

// ratio returns y0/y1, or 1 for an empty donor, whose flow is nil anyway.
func ratio(y0, y1 float64) float64 {
	if y1 < 1e-30 {
		return 1
	}
	return y0 / y1
}
