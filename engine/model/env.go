package model

import (
	"math"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// Env is what surrounds the bacteria between two changes: everything in it is
// constant over a segment of the integration and the same for all draws.
type Env struct {
	mu     [Guilds]float64 // Mu·fT, 1/d
	decay  [Guilds]float64 // 1/d
	kaNH3  float64         // dissociation constant of NH4, mol/L
	kaHNO2 float64         // of HNO2, mol/L
	kw     float64         // ion product of water, (mol/L)²
	satO2  float64         // oxygen saturation, mg/L
	kla    float64         // oxygen transfer, 1/d
	film   float64         // share of the water's oxygen that reaches the attached bacteria
	kOrg   float64         // mineralisation, 1/d
	kSoil  float64         // leaching of aquatic soil, 1/d
	cap    float64         // attached capacity, mg N/L/d
	rising bool            // the ration grows with the animals
	fedTAN float64         // ammonia from animals and food, mg N/L/d
	fedOrg float64         // organic nitrogen from food and faeces, mg N/L/d
	plant  float64         // largest uptake by plants, mg N/L/d
	kCl    float64         // loss of chlorine, 1/d
	clKill float64         // death of bacteria per mg/L chlorine, 1/d
	kill   float64         // death of bacteria from medicine or a stopped filter at Harm 1, 1/d
	inhib  float64         // slowing by medicine or a stopped filter at Harm 1
}

// condition is the set-up as it holds over one segment, with what is going on.
type condition struct {
	Setup
	outage   bool
	medicine bool
	carriers unit.Litres // media added since the start
	uptake   float64     // of plants added since the start, mg N/L/d
	retold   Given       // pH, KH and food that were told to hold from here on
}

// rooting lets plants that were added come to a share of their full uptake.
func (c *condition) rooting(p Plants, share float64) {
	c.uptake = max(c.uptake, share*plantUptake[p])
}

// Attachment and transport by class. Areas are in m² per litre of medium
// (KINETICS rows: sponge 1000, ceramic 600, plastic carrier 500-750, sand
// 7800 m²/m³ fluidised); floss as sponge. Transfer rates by flow class are
// common practice, no source: they give 5 to 8 mg/L oxygen in a lit tank.
var (
	areaPerLitre = [...]float64{NoMedia: 0, Sponge: 1.0, Ceramic: 0.6, Floss: 1.0, Sand: 3.0, MovingBed: 0.6}
	transfer     = [...]float64{Weak: 9, Normal: 40, Strong: 110}
	filmShare    = [...]float64{Weak: 0.45, Normal: 0.8, Strong: 0.95}
)

const (
	arealRate   = 1.8  // g N/m²/d, the most a mature film oxidises at 27 C with ample ammonia (Zhu & Chen 1999)
	wallShare   = 0.10 // share of bare glass and gravel that carries film as media do; common practice, no source
	soilRate    = 0.06 // 1/d, leaching of aquatic soil over about two weeks; common practice, no source
	orgRate     = 0.30 // 1/d at 25 C, mineralisation of food left to rot (memory)
	otherDemand = 18.0 // mg O2/L/d, respiration of all else in a tank; common practice, no source
	clLossFree  = 6.0  // 1/d, free chlorine in a running tank (half gone in about 3 h); common practice, no source
	clLossBound = 0.8  // 1/d, chloramine; common practice, no source
	// Death of attached bacteria per mg/L: Oldenburg et al. 2002 give 2.5e-3
	// L/(mg min) for monochloramine at pH 7, times 0.2 for attached cells; free
	// chlorine about 13 times that (memory).
	clKillBound = 2.5e-3 * 1440 * 0.2
	clKillFree  = 13 * clKillBound
)

// plantUptake is the largest uptake, mg N/L/d, by class in a tank of usual
// proportions. Floating cover sustains 150 to 200 mg N/m²/d (Körner & Vermaat
// 1998 for duckweed), about 0.6 mg N/L/d over 0.3 m; offered a dose, plants take
// ammonium several times faster for a day (4 to 8 umol/g fresh/h), so the
// largest rate lies above what they sustain. How dense each class stands is
// common practice, no source.
var plantUptake = [...]float64{NoPlants: 0, FewSlow: 0.07, ManySlow: 0.25, FewFast: 0.45, ManyFast: 1.6}

// wallArea is the wetted surface of glass and bottom, m², of a tank of usual
// proportions: 5.5 times the two-thirds power of its volume in m³, plus as much
// again of gravel grains.
func wallArea(v unit.Litres) float64 {
	return 2 * 5.5 * math.Pow(float64(v)/1000, 2.0/3)
}

// env works out the constants of one segment.
func (c *condition) env() Env {
	t := float64(c.Temp)
	var e Env
	for i := range Defaults {
		g := &Defaults[i]
		e.mu[i] = g.Mu * CardinalTemperature(t, g.TMin, g.TOpt, g.TMax)
		e.decay[i] = g.DecayAt(t)
		if t > g.TMax-2 { // beyond the growth range cells die off; rate from memory
			e.decay[i] += 0.5 * (t - g.TMax + 2)
		}
	}
	e.kaNH3 = math.Pow(10, -chem.PKaAmmonia(c.Temp, c.Salinity))
	e.kaHNO2 = math.Pow(10, -chem.PKaNitrous(c.Temp))
	e.kw = math.Pow(10, -chem.PKw(c.Temp))
	e.satO2 = chem.OxygenSaturationAt(c.Temp, c.Salinity, chem.PressureAt(c.Altitude))
	e.kla = transfer[c.Flow]
	e.film = filmShare[c.Flow]
	warm := math.Pow(1.07, t-25)
	e.kOrg = orgRate * warm
	e.kSoil = soilRate * warm

	vol := max(float64(c.Volume), 0.1)
	area := float64(c.MediaVolume+c.carriers)*areaPerLitre[c.Media] + wallShare*wallArea(c.Volume)
	e.cap = 1000 * arealRate * math.Pow(1.03, t-27) * area / vol

	// Food: 0.064 g N per g (40 % protein, 16 % N), four fifths released. Animals
	// pass about a third of it as ammonia within the day (Kinetics section 4);
	// food left to rot is mineralised by and by.
	feedN := FoodN * float64(c.Feed) / vol
	switch c.Method {
	case FishIn:
		e.rising = !c.Rationed() // a stated ration is what it is
		e.fedTAN = 0.35 * feedN
		e.fedOrg = 0.65 * feedN
		if feedN == 0 { // fasted animals: 150 mg N/kg/d at 25 C, Q10 of 2
			e.fedTAN = 0.15 * float64(c.Stock) / vol * math.Pow(2, (t-25)/10)
		}
	default:
		if c.Method == Food || c.retold.Feed { // else the food is planned, for the animals to come
			e.fedOrg = feedN
		}
	}
	e.plant = max(plantUptake[c.Plants], c.uptake) * CardinalTemperature(t, 8, 26, 36)

	e.kCl, e.clKill = clLossFree, clKillFree
	if c.Source == Chloraminated {
		e.kCl, e.clKill = clLossBound, clKillBound
	}
	if c.medicine {
		e.kill, e.inhib = 0.25, 1.2
	}
	if c.outage {
		// A stopped filter uses up its oxygen within the hour, and cells begin to
		// die; sizes from common practice, no source ("restart within hours").
		e.kill, e.inhib = 1.0, 12
		e.kla = min(e.kla, transfer[Weak])
	}
	return e
}
