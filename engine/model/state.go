package model

import "ripen/engine/unit"

// State is a tank at one moment: nitrogen pools in mg N/L of tank water, the
// attached guilds counted over the same litres.
type State struct {
	TAN   float64         // total ammonia
	NO2   float64         // nitrite
	NO3   float64         // nitrate
	Org   float64         // organic nitrogen that will be mineralised: food, faeces, dead cells
	Soil  float64         // ammonium held by aquatic soil that will leach
	Plant float64         // taken up by plants
	Gone  float64         // nitrate taken up by algae or lost as gas
	B     [Guilds]float64 // nitrogen in each guild's biomass
	Alk   float64         // alkalinity, meq/L; below zero when strong acid is left over
	O2    float64         // oxygen, mg/L
	Cl    float64         // chlorine or chloramine, mg Cl2/L

	acid   float64 // K1·[CO2], (mol/L)²: what ties pH to alkalinity; see PH
	demand float64 // oxygen demand of all else, mg O2/L/d
}

// Nitrogen returns all nitrogen in the tank, mg N/L.
func (s *State) Nitrogen() float64 {
	n := s.TAN + s.NO2 + s.NO3 + s.Org + s.Soil + s.Plant + s.Gone
	for _, b := range s.B {
		n += b
	}
	return n
}

// Ledger counts the nitrogen that entered and left a tank, mg N/L, so that
// what is in it can be balanced.
type Ledger struct{ In, Out float64 }

// Pools are the three pools that kits see, mg N/L.
type Pools [3]float64

// Pools returns what the kits would see if they were perfect.
func (s *State) Pools() Pools { return Pools{s.TAN, s.NO2, s.NO3} }

// N returns the concentration of one species.
func (p Pools) N(s unit.Species) unit.MgN { return unit.MgN(p[s]) }
