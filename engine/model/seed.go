package model

import "math"

// Kept is how a seed was kept while it was out of water.
type Kept int

// The ways to keep a seed.
const (
	MoistWarm Kept = iota // wet, at room temperature; also when not told
	MoistCool             // wet, in a cool bag or box
	Dried                 // left to dry
)

// Content is what a bottled culture holds.
type Content int

// The classes of cultures.
const (
	UnknownContent Content = iota // not told, or not on the label
	Nitrospira                    // nitrite oxidisers of the kind that lives in tanks, with ammonia oxidisers
	Nitrobacter                   // those that need much nitrite, with ammonia oxidisers that need much ammonia
	Heterotrophs                  // eaters of waste, which oxidise neither
)

// What a seed and a culture bring, as oxidation capacity, and what they lose. A
// litre of mature sponge carries about 1 m² of film; what survives a
// move, a tenth of its best rate. Amounts and widths without a source here are common practice, no source.
const (
	seedFilm = 0.12  // g N/m²/d of ammonia or nitrite that moved film oxidises
	handful  = 0.004 // of the tank's volume: a seed of unknown size

	widthPH = 0.75 // gap of pH that leaves a third
	// A fall by 10 C at once cost a fifth more of the rate than its temperature
	// explains (Hwang & Oleszkiewicz 2007, Water Environ. Res. 79:964-968); a rise is
	// taken to cost as much.
	widthTemp = 21.2 // C
	// Nitrifiers of fresh water hardly recovered in sea water, those of the sea stood
	// fresh water well (Gonzalez-Silva et al. 2021, Sci. Rep. 11:2979).
	widthSaltier = 12.0 // g/kg
	widthFresher = 40.0 // g/kg

	// Loss of nitrifying activity at 20 C without food in air: 0.2 a day, and 0.03
	// without oxygen (Siegrist et al. 1999, Water Sci. Technol. 39(1):129-137).
	starving         = 0.2  // 1/d
	starvingTheta    = 1.05 // per degree, as decay
	warmBag, coolBag = 24., 10.
	// Dried nitrifiers had a tenth of their rate left or less (Vogelsang, Gollembiewski
	// & Østgaard, Water Res. 33:164-168; volume from memory).
	dryLeft = 0.1
	drying  = 0.25 // d, until a sponge in the air is mostly dry

	// A bottle of the right bacteria is worth about a handful of seed.
	bottle = 0.3 // mg N/L/d at Gift 1
	// kNitrobacter is the half-saturation for nitrite of an enrichment, mg N/L
	// (Blackburne et al. 2007, Biodegradation, as kinetics.csv has it from memory).
	kNitrobacter = 1.34
	// lingers is what is left of them, at low nitrite, by the time a tank is done.
	lingers = 0.2
)

// Survival is how much of a seed's bacteria lives on in a tank, as shares from 0 to 1
// that multiply; 1 where what it takes to know was not told.
type Survival struct {
	PH       float64 // after the step from the donor's pH
	Acid     float64 // in water below pH 7, which gains little from seed
	Temp     float64 // after the step from the donor's temperature
	Salinity float64 // after the step from the donor's salinity
	Air      float64 // of the time out of water
}

// All is the share that is left after everything.
func (s Survival) All() float64 { return s.PH * s.Acid * s.Temp * s.Salinity * s.Air }

// Survival says how much of the seed e would live on in the run's water as it is now.
// Only the event's Donor fields, Hours and Kept count.
func (r *Run) Survival(e *Event) Survival {
	s := Survival{1, 1, 1, 1, 1}
	c := &r.plan.conds[r.seg]
	ph := r.State.PH(&r.k.Env)
	if e.DonorPH > 0 {
		s.PH = bell(e.DonorPH-ph, widthPH)
	}
	if ph < 7 {
		s.Acid = math.Exp(-3.5 * (7 - ph))
	}
	if e.DonorTemp > 0 {
		s.Temp = bell(float64(c.Temp-e.DonorTemp), widthTemp)
	}
	if e.DonorSalinity != nil {
		width := widthFresher
		if c.Salinity > *e.DonorSalinity {
			width = widthSaltier
		}
		s.Salinity = bell(c.Salinity-*e.DonorSalinity, width)
	}
	s.Air = e.Kept.left(e.Hours/24, r.p.Decay)
	return s
}

// bell is what a gap leaves: a third at its width.
func bell(gap, width float64) float64 {
	d := gap / width
	return math.Exp(-d * d)
}

// left is the share of bacteria left after days out of water. What is dry fares no
// better than what is moist.
func (k Kept) left(days, decay float64) float64 {
	temp := warmBag
	if k == MoistCool {
		temp = coolBag
	}
	share := math.Exp(-starving * math.Pow(starvingTheta, temp-20) * decay * days)
	if k == Dried {
		share *= dryLeft + (1-dryLeft)*math.Exp(-days/drying)
	}
	return share
}

// seed adds mature media.
func (r *Run) seed(e *Event, vol float64) {
	litres := float64(e.Volume)
	if litres == 0 {
		litres = handful * vol
	}
	litres = min(litres, vol) // no more fits in
	gift := 1000 * seedFilm * litres / vol * r.p.Gift
	s := r.Survival(e)
	for _, share := range [...]float64{s.PH, s.Acid, s.Temp, s.Salinity, s.Air} {
		gift *= share
	}
	r.give(AOB, 0.5*gift)
	r.give(AOA, 0.3*gift)
	r.give(CMX, 0.3*gift)
	r.give(NOB, gift)
}

// culture adds a bottled culture, made for alkaline warm water. Nitrospira-like
// bacteria are those that live in tanks (Hovanec et al. 1998, Appl. Environ.
// Microbiol. 64:258-264, from memory); of Nitrobacter-like ones counts what they do
// at the nitrite that a tank must come below. An unknown content is worth mostly
// little: one wide log-normal says much the same as a mixture of the classes, by
// 45, 30 and 25 % (common practice, no source), and a fit can walk through it.
func (r *Run) culture(c Content) {
	gift := 0.06 * r.p.Gift * r.p.Gift // its spread is the square of media's
	switch c {
	case Nitrospira:
		gift = bottle * r.p.Gift
	case Nitrobacter:
		gift = bottle * r.p.Gift * lingers * atLowNitrite()
	case Heterotrophs:
		return
	}
	ph := r.State.PH(&r.k.Env)
	if ph < 7 {
		gift *= math.Exp(-2 * (7 - ph))
	}
	r.give(AOB, gift)
	r.give(NOB, 0.7*gift)
}

// atLowNitrite is how fast Nitrobacter-like bacteria are beside Nitrospira-like ones
// at the nitrite that counts as clear.
func atLowNitrite() float64 {
	return (Defaults[NOB].KNO2 + float64(ClearNO2)) / (kNitrobacter + float64(ClearNO2))
}

// give adds a guild by its capacity.
func (r *Run) give(i int, v float64) {
	n := capacityToN(i, v)
	r.State.B[i] += n
	r.Ledger.In += n
}
