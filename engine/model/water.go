package model

import (
	"math"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// Water is what is believed of a tank's pH and alkalinity: what the keeper told,
// or what is usual for water from where it comes.
type Water struct {
	PH   float64      // most likely pH
	PHSD float64      // how far the truth may lie from it, standard deviation in pH
	KH   unit.MgCaCO3 // most likely alkalinity
	KHSD float64      // the same, standard deviation of its natural logarithm
}

// What a stated value leaves open: kits and pens err, and water moves by a few
// tenths over a day. Common practice, no source.
const (
	toldPH = 0.15
	toldKH = 0.1
)

// usual is what comes from a source when nothing was told; KH in dKH. Suppliers
// keep tap water between pH 6.5 and 8.5 (US EPA secondary standard) and name 20
// to 200 mg/L as usual alkalinities; the rest is common practice, no source.
// RO and rain count as made up with some salts.
var usual = [...]struct{ ph, phSD, kh, khSD float64 }{
	Chlorinated:   {7.5, 0.4, 5, 0.55},
	Chloraminated: {7.5, 0.4, 5, 0.55},
	Well:          {7.3, 0.5, 6, 0.7},
	RO:            {6.8, 0.4, 2.5, 0.5},
	Rain:          {6.6, 0.4, 2, 0.6},
}

// Salt tanks are kept alike: sea water has pH 8.1 and 2.3 meq/L (Millero 2013,
// Chemical Oceanography, from memory), mixes for tanks somewhat more.
const (
	seaPH, seaPHSD = 8.1, 0.15
	seaKH, seaKHSD = 7.5, 0.2 // dKH
)

// Saltiness is 0 in fresh water and rises to 1 at 10 g/kg, where the law for
// ammonia in sea water begins.
func (s *Setup) Saltiness() float64 { return min(max(s.Salinity, 0)/10, 1) }

// Salt says whether the set-up counts as a salt tank: from 5 g/kg on.
func (s *Setup) Salt() bool { return s.Saltiness() >= 0.5 }

// Water returns what is believed of the set-up's pH and alkalinity before any
// reading. Of the set-up it uses source, temperature, salinity, and pH and
// alkalinity where those were given.
func (s *Setup) Water() Water {
	u := usual[s.Source]
	w := Water{PH: s.PH, PHSD: toldPH, KH: s.KH, KHSD: toldKH}
	if s.Given.PH && s.Given.KH {
		return w
	}
	salt := s.Saltiness()
	mix := func(fresh, sea float64) float64 { return fresh + salt*(sea-fresh) }
	if !s.Given.PH {
		w.PH, w.PHSD = u.ph, u.phSD
		if s.Given.KH { // with the carbon dioxide of an ordinary tank, known to a factor of two
			c := chem.CarbonateAt(s.Temp, chem.IonicStrength(0, s.KH))
			w.PH, w.PHSD = min(max(c.PH(s.KH, tankCO2), 5.5), 8.4), 0.35
		}
		w.PH, w.PHSD = math.Round(10*mix(w.PH, seaPH))/10, mix(w.PHSD, seaPHSD)
	}
	if !s.Given.KH {
		kh, sd := u.kh, u.khSD
		if s.Given.PH {
			kh, sd = hardnessAt(s.PH, s.Source), 0.45
		}
		w.KH = unit.DKH(math.Round(2*mix(kh, seaKH)) / 2).CaCO3()
		w.KHSD = mix(sd, seaKHSD)
	}
	return w
}

// hardnessAt is the alkalinity, in dKH, that goes with a pH in fresh water.
// Common practice, no source.
func hardnessAt(ph float64, s Source) float64 {
	switch {
	case ph < 6.3:
		return 1.5
	case s == RO, s == Rain, ph < 6.7:
		return 2.5
	case ph < 7.1:
		return 3.5
	case ph >= 7.9:
		return 9
	}
	return 5
}
