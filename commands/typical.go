package commands

import (
	"ripen/engine/chem"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// Typical values stand in for what a member did not say; the engine knows that
// they were not given and keeps its doubt wide. All are common practice, no
// source.
const (
	typicalTemp       unit.Celsius = 25
	typicalCO2        float64      = 5 // mg/L, of a tank that is neither bare nor fed with gas
	typicalMediaShare float64      = 0.02
	typicalTarget     unit.MgIon   = 2     // mg/L, of the command book
	typicalStock      float64      = 0.05  // g of animals per litre, a lightly stocked tank
	typicalRation     float64      = 0.02  // g of food per g of animals and day
	typicalRotting    float64      = 0.005 // g of food per litre and day, left to rot
)

// typicalKH returns the usual carbonate hardness of a water.
func typicalKH(s model.Source, m model.Method) unit.DKH {
	switch {
	case s == model.RO || s == model.Rain:
		return 1
	case m == model.DarkStart: // aquatic soil takes hardness up
		return 2
	case s == model.Well:
		return 8
	}
	return 6
}

// typical returns the set-up that s describes, with typical values for the
// rest. pH and hardness go together: the one is taken from the other and the
// usual carbon dioxide.
func typical(s statement) model.Setup {
	t := model.Setup{Temp: typicalTemp, Media: model.Sponge, Flow: model.Normal, Target: typicalTarget.N(unit.Ammonia)}
	put(&t.Method, s.Method, nil)
	if t.Method == model.Planted {
		t.Plants = model.ManySlow
	}
	s.merge(&t)
	if s.KH == nil {
		t.KH = typicalKH(t.Source, t.Method).CaCO3()
	}
	co2 := typicalCO2 / 1000 / chem.MolarCO2
	switch {
	case s.PH == nil:
		ph := chem.PHFromAlkalinity(t.KH, co2, t.Temp, chem.IonicStrength(t.Salinity, t.KH))
		t.PH = rounded(min(max(ph, 5.5), 8.4), 1)
	case s.KH == nil:
		alk := chem.AlkalinityFromPH(t.PH, co2, t.Temp, chem.IonicStrength(t.Salinity, t.KH))
		kh := min(max(alk.DKH(), 0.3), 1.5*t.KH.DKH())
		t.KH = unit.DKH(rounded(float64(kh), 1)).CaCO3()
	}
	if s.MediaVolume == nil && t.Media != model.NoMedia {
		t.MediaVolume = unit.Litres(typicalMediaShare) * t.Volume
	}
	if s.Conditioner == nil {
		t.Conditioner = t.Source == model.Chlorinated || t.Source == model.Chloraminated
	}
	if s.Stock == nil && t.Method == model.FishIn {
		t.Stock = unit.Grams(typicalStock * float64(t.Volume))
	}
	if s.Feed == nil {
		switch t.Method {
		case model.FishIn:
			t.Feed = unit.Grams(typicalRation) * t.Stock
		case model.Food:
			t.Feed = unit.Grams(typicalRotting * float64(t.Volume))
		}
	}
	return t
}
