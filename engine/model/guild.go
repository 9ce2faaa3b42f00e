package model

import "math"

// The guilds of nitrifiers, as indices of State.B.
const (
	AOB    = iota // ammonia-oxidising bacteria, Nitrosomonas oligotropha-like
	AOA           // ammonia-oxidising archaea
	CMX           // complete ammonia oxidisers (comammox Nitrospira)
	NOB           // nitrite-oxidising bacteria, Nitrospira-like
	Guilds        // how many there are
)

// Guild holds the kinetic constants of one guild of nitrifiers at its own
// optimum of temperature and pH. Rates are per day, concentrations mg N/L
// unless said otherwise.
type Guild struct {
	Name             string
	Mu               float64 // maximum specific growth rate, 1/d
	KTAN             float64 // half-saturation for total ammonia at pH 7.5 and 25 C, mg N/L
	KNO2             float64 // half-saturation for nitrite, mg N/L
	KO2              float64 // half-saturation for oxygen, mg O2/L
	KAlk             float64 // half-saturation for alkalinity, meq/L
	Yield            float64 // g COD of biomass per g N oxidised
	Decay            float64 // at 20 C, 1/d
	DecayTheta       float64 // temperature factor of decay, per degree
	TMin, TOpt, TMax float64 // cardinal temperatures, C
	PHMin            float64 // cardinal pH values
	PHOpt            float64
	PHMax            float64
	KiNH3            float64 // free ammonia that halves the rate, mg NH3-N/L
	KiHNO2           float64 // free nitrous acid that halves the rate, mg HNO2-N/L
}

// nPerCOD is the nitrogen in biomass, g N per g COD: C5H7NO2 holds 14.007 g N
// and takes 5 O2 (159.99 g) to oxidise (Hoover & Porges 1952).
const nPerCOD = 14.007 / 159.99

// Defaults are the guilds' constants: centres of the published values gathered
// in testdata/published/kinetics.csv, whose header names their sources. The
// spread round them is in the prior of package fit.
//
// Growth of the two bacteria is such that, decay left out, they double at 27 C and pH 7.5 in
// about 12 and 17 hours, within the middle half of the growth curves of
// testdata/published/doubling.csv. AOB stand for both oligotropha-
// and europaea-like ones, NOB for Nitrospira and Nitrobacter, since dosed tanks hold
// both; comammox numbers are the weakest of all.
var Defaults = [Guilds]Guild{
	AOB: {Name: "ammonia-oxidising bacteria", Mu: 1.5, KTAN: 0.45, KO2: 0.5, KAlk: 0.2,
		Yield: 0.16, Decay: 0.09, DecayTheta: 1.05, TMin: 4, TOpt: 29, TMax: 38,
		PHMin: 5.4, PHOpt: 8.0, PHMax: 9.8, KiNH3: 2.5, KiHNO2: 0.15},
	AOA: {Name: "ammonia-oxidising archaea", Mu: 0.55, KTAN: 0.02, KO2: 0.10, KAlk: 0.15,
		Yield: 0.12, Decay: 0.05, DecayTheta: 1.05, TMin: 6, TOpt: 30, TMax: 42,
		PHMin: 4.3, PHOpt: 7.3, PHMax: 9.0, KiNH3: 1.0, KiHNO2: 0.1},
	CMX: {Name: "comammox", Mu: 0.39, KTAN: 0.015, KNO2: 0.3, KO2: 0.25, KAlk: 0.15,
		Yield: 0.20, Decay: 0.04, DecayTheta: 1.05, TMin: 4, TOpt: 30, TMax: 45,
		PHMin: 5.0, PHOpt: 7.8, PHMax: 9.5, KiNH3: 0.15, KiHNO2: 0.05},
	NOB: {Name: "nitrite-oxidising bacteria", Mu: 1.05, KNO2: 0.20, KO2: 0.30, KAlk: 0.05,
		Yield: 0.06, Decay: 0.08, DecayTheta: 1.05, TMin: 2, TOpt: 30, TMax: 38,
		PHMin: 4.8, PHOpt: 7.7, PHMax: 9.6, KiNH3: 0.2, KiHNO2: 0.05},
}

// What follows from Defaults: the biomass nitrogen made per nitrogen oxidised, and one
// over the free nitrous acid that halves the rate.
var yieldN, acids = func() (y, a [Guilds]float64) {
	for i := range Defaults {
		y[i], a[i] = Defaults[i].Yield*nPerCOD, 1/Defaults[i].KiHNO2
	}
	return y, a
}()

// CardinalTemperature returns the growth factor, 0..1, of the cardinal
// temperature model with inflection:
//
//	f = (T-Tmax)(T-Tmin)² / ((Topt-Tmin)[(Topt-Tmin)(T-Topt) - (Topt-Tmax)(Topt+Tmin-2T)])
//
// It is 1 at tOpt and 0 outside (tMin, tMax). Temperatures in C,
// tMin < tOpt < tMax with tOpt above the middle. Source: Rosso, Lobry & Flandrois (1993),
// J. Theor. Biol. 162:447-463.
func CardinalTemperature(t, tMin, tOpt, tMax float64) float64 {
	if t <= tMin || t >= tMax {
		return 0
	}
	d := (tOpt - tMin) * ((tOpt-tMin)*(t-tOpt) - (tOpt-tMax)*(tOpt+tMin-2*t))
	return (t - tMax) * (t - tMin) * (t - tMin) / d
}

// CardinalPH returns the growth factor, 0..1, of the cardinal pH model:
//
//	f = (pH-pHmin)(pH-pHmax) / ((pH-pHmin)(pH-pHmax) - (pH-pHopt)²)
//
// It is 1 at phOpt and 0 outside (phMin, phMax). Source: Rosso, Lobry,
// Bajard & Flandrois (1995), Appl. Environ. Microbiol. 61:610-616.
func CardinalPH(ph, phMin, phOpt, phMax float64) float64 {
	if ph <= phMin || ph >= phMax {
		return 0
	}
	a := (ph - phMin) * (ph - phMax)
	d := ph - phOpt
	return a / (a - d*d)
}

// DecayAt returns the guild's decay rate at t in C, 1/d: b20·theta^(t-20).
func (g *Guild) DecayAt(t float64) float64 {
	return g.Decay * math.Pow(g.DecayTheta, t-20)
}
