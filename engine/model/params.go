package model

// Params is what differs from tank to tank and is unknown: one draw of it
// gives one course.
type Params struct {
	Seed     [Guilds]float64 // what is there on day 0, as oxidation capacity at its optimum, mg N/L/d
	GrowA    float64         // factor on the growth of ammonia oxidisers
	GrowN    float64         // factor on the growth of nitrite oxidisers
	HalfA    float64         // factor on ammonia oxidisers' half-saturation
	HalfN    float64         // factor on nitrite oxidisers' half-saturation
	Decay    float64         // factor on the decay of all guilds
	Area     float64         // factor on the attached capacity
	Source   float64         // factor on ammonia from food, soil and animals
	Plant    float64         // factor on uptake by plants
	PHOffset float64         // true pH less the stated one
	AlkRatio float64         // true alkalinity over the stated one
	PHMin    float64         // shift of the lower pH limit of growth
	FreeNH3  float64         // factor on the free ammonia that inhibits each guild
	Chlorine float64         // factor on chlorine's strength and harm
	Harm     float64         // factor on the harm of medicine, outages and cleaning
	Gift     float64         // factor on what seeding and cultures bring
	Dose     float64         // factor on logged doses, as measured by the keeper
	TapNO3   float64         // nitrate of the new water, mg N/L
	Phos     float64         // growth left by phosphate shortage, 0..1; 1 when ample
	Loss     float64         // nitrate lost to algae and as gas, 1/d
	Rise     float64         // growth of the ration of a tank with animals, share of the first per day
	Ask      float64         // what a tank with animals and no stated target is asked to carry, 0..1 on a log scale
	Silent   bool            `json:",omitempty"` // the keeper doses without a note: what is Perhaps happened
	HoldsOff bool            `json:",omitempty"` // the keeper puts no food to rot in while ammonia reads high
	Unseen   Unseen          // an event that nobody logged, if any
}

// Unseen is a loss of bacteria that nobody logged.
type Unseen struct {
	Day  float64 // when, from the start
	Kill float64 // share lost, 0 when nothing happened
}

// Central returns the parameters with every factor at one and no unseen event.
func Central() Params {
	return Params{GrowA: 1, GrowN: 1, HalfA: 1, HalfN: 1, Decay: 1, Area: 1, Source: 1, Plant: 1, AlkRatio: 1,
		FreeNH3: 1, Chlorine: 1, Harm: 1, Gift: 1, Dose: 1, Phos: 1, TapNO3: 1, Ask: 1}
}
