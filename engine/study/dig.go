package study

import (
	"math"
	"math/rand/v2"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// horizon is the last day that a wild tank is followed to.
const horizon = 180

// facts are the set-up as it truly is; the keeper states something near it.
type facts struct {
	set    model.Setup // true values
	net    float64     // share of the stated volume that is water
	target float64     // of the trial, mg N/L
}

// someFacts draws what a keeper sets up: any method, mostly dosed.
func someFacts(rng *rand.Rand) facts {
	method := model.Dosed
	switch u := rng.Float64(); {
	case u < 0.10:
		method = model.Food
	case u < 0.18:
		method = model.DarkStart
	case u < 0.30:
		method = model.Seeded
	case u < 0.37:
		method = model.Planted
	case u < 0.47:
		method = model.FishIn
	}
	volume := spreadOf(rng, 80, 0.7)
	s := model.Setup{
		Volume: unit.Litres(volume), PH: between(rng, 6.2, 8.3), Temp: unit.Celsius(between(rng, 18, 29)), Method: method,
		Media: model.Media(1 + rng.IntN(5)), MediaVolume: unit.Litres(volume * spreadOf(rng, 0.012, 0.5)),
		Flow: model.Flow(rng.IntN(3)), Source: model.Source(rng.IntN(5)), Conditioner: true,
	}
	s.KH = unit.DKH(max(4.5+3*(s.PH-7)+1.5*rng.NormFloat64(), 1.5)).CaCO3()
	switch {
	case method == model.Planted:
		s.Plants = model.Plants(2 + rng.IntN(3))
	case rng.Float64() < 0.4:
		s.Plants = model.Plants(1 + rng.IntN(3))
	}
	f := facts{set: s, net: between(rng, 0.78, 0.98), target: float64(unit.MgIon(2).N(unit.Ammonia))}
	switch {
	case method == model.FishIn: // what it will be asked to carry: a light to a full stock
		f.target = 0.3 * math.Pow(f.target/2/0.3, rng.Float64())
	case s.PH < 6.9 && rng.Float64() < 0.6: // soft-water practice: small loads
		f.target /= 2
		f.set.Target, f.set.Given.Target = unit.MgN(f.target), true
	}
	return f
}

// kind names the sort of tank.
func (f *facts) kind() string {
	switch s := &f.set; {
	case s.Method == model.Food:
		return "food"
	case s.Method == model.DarkStart:
		return "dark start"
	case s.Method == model.Seeded:
		return "seeded"
	case s.Method == model.Planted:
		return "planted"
	case s.Method == model.FishIn:
		return "fish in"
	case s.PH < 7:
		return "dosed, below pH 7"
	case s.Temp < 22:
		return "dosed, below 22 C"
	}
	return "dosed, warm, pH 7 up"
}

// dig fills the tank: draws its laws and what surrounds them.
func dig(f *facts, rng *rand.Rand) *pond {
	s := &f.set
	volume := float64(s.Volume) * f.net
	p := &pond{kinds: strains(s.PH, rng), alk0: float64(s.KH.Meq()),
		warm: wander(rng, horizon+5, 0.6, 6), stray: wander(rng, horizon+5, 0.1, 5)}
	p.uptake, p.hinder, p.starve = uptakes[rng.IntN(3)], hinders[rng.IntN(3)], rng.Float64() < 0.4
	drift := 0.12 / 30 * rng.NormFloat64()
	season, phase := 0.3, rng.Float64()
	p.swing, p.breath = between(rng, 0.1, 0.5), between(rng, 0, 0.08)
	if rng.Float64() < 0.3 { // no heater
		season, p.swing = between(rng, 0.5, 2.5), between(rng, 0.5, 2)
	}
	if s.Plants != model.NoPlants {
		p.breath += between(rng, 0, 0.15)
	}
	for i := range p.warm {
		p.warm[i] += float64(s.Temp) + season*(math.Sin(2*math.Pi*(float64(i)/365+phase))-math.Sin(2*math.Pi*phase))
		p.stray[i] += s.PH + drift*min(float64(i), 60)
	}
	// Area of film in m², per litre of medium (published specific areas) and of
	// glass and gravel; what a square metre oxidises is half or twice 1.2 g N/m²/d.
	per := [...]float64{model.NoMedia: 0, model.Sponge: 0.9, model.Ceramic: 0.5, model.Floss: 1.1, model.Sand: 2.5, model.MovingBed: 0.6}
	area := float64(s.MediaVolume)*per[s.Media] + 4*math.Pow(volume/1000, 2.0/3)
	p.ceiling = 1000 * 1.2 * spreadOf(rng, 1, 0.5) * area / volume
	p.loose = between(rng, 0, 0.3)
	p.lag = spreadOf(rng, 0.5, 0.9)
	p.air = [...]float64{0.8, 0.92, 0.97}[s.Flow]
	p.rot, p.leach = spreadOf(rng, 0.3, 0.4), spreadOf(rng, 0.06, 0.4)
	p.gas, p.tap = spreadOf(rng, 0.006, 1.2), spreadOf(rng, 1.5, 1)
	p.dirt = spreadOf(rng, 0.015, 1)
	p.plants = [...]float64{0, 0.06, 0.2, 0.4, 1.2}[s.Plants] * spreadOf(rng, 1, 0.7)
	p.sprout = between(rng, 0, 0.01)
	switch s.Method {
	case model.DarkStart:
		p.now.soil = spreadOf(rng, 12, 0.5)
	case model.Planted:
		p.now.soil = spreadOf(rng, 4, 0.6)
	case model.Food:
		s.Feed = unit.Grams(0.02 * float64(s.Volume) * spreadOf(rng, 1, 0.5))
	case model.FishIn: // begun lightly, and stocked up to what is asked of it
		s.Feed = unit.Grams(f.target * between(rng, 0.3, 0.8) * volume / (64 * 0.75))
		s.Stock = s.Feed / unit.Grams(spreadOf(rng, 0.015, 0.4))
		p.appetite, p.full = spreadOf(rng, 0.025, 0.8), 1.1*f.target*volume/(64*0.75*float64(s.Feed))
	}
	fed := 64 * float64(s.Feed) / volume * spreadOf(rng, 0.75, 0.25) // mg N/L/d, 40 % protein
	if s.Method == model.FishIn {
		direct := between(rng, 0.25, 0.5)
		p.fish, fed = direct*fed, (1-direct)*fed
	}
	p.dirt += fed
	p.now.no3, p.now.alk = p.tap, p.alk0
	for i := range p.kinds {
		p.now.bio[i] = p.kinds[i].seed * p.kinds[i].yield / p.kinds[i].mu
	}
	return p
}

// stated is what the keeper says of the facts: pH off a chart, round numbers,
// the tank's volume to the brim, and not everything.
func stated(f *facts, rng *rand.Rand) model.Setup {
	s := f.set
	s.PH = math.Round(5*(s.PH+0.15*rng.NormFloat64())) / 5
	s.KH = unit.DKH(max(math.Round(float64(s.KH.DKH())+0.8*rng.NormFloat64()), 1)).CaCO3()
	s.Temp = unit.Celsius(math.Round(float64(s.Temp) + 0.8*rng.NormFloat64()))
	s.MediaVolume = unit.Litres(float64(s.MediaVolume) * spreadOf(rng, 1, 0.3))
	s.Feed *= unit.Grams(spreadOf(rng, 1, 0.3))
	says := func(share float64) bool { return rng.Float64() < share }
	s.Given = model.Given{PH: says(0.85), KH: says(0.55), Temp: says(0.9), Media: says(0.8), MediaVolume: says(0.55),
		Flow: says(0.6), Source: says(0.7), Conditioner: says(0.5)}
	s.Given.Target = f.set.Given.Target
	if says(0.6) {
		s.Given.Stock, s.Given.Feed = s.Method == model.FishIn, s.Feed > 0
	}
	forget(&s)
	return model.Typical(s)
}

// forget takes out what was not stated.
func forget(s *model.Setup) {
	g := &s.Given
	blank(&s.PH, g.PH)
	blank(&s.KH, g.KH)
	blank(&s.Temp, g.Temp)
	blank(&s.Media, g.Media)
	blank(&s.MediaVolume, g.MediaVolume)
	blank(&s.Flow, g.Flow)
	blank(&s.Source, g.Source)
	blank(&s.Conditioner, g.Conditioner)
	blank(&s.Stock, g.Stock)
	blank(&s.Feed, g.Feed)
}

func blank[T any](v *T, given bool) {
	if !given {
		var zero T
		*v = zero
	}
}
