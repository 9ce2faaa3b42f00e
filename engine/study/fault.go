package study

import (
	"math"
	"math/rand/v2"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// fault is one thing that holds a tank up, as it is and as it is told of.
type fault struct {
	cause string
	// needs makes the set-up one that the fault can come to, in the sound twin as well.
	needs func(f *facts, rng *rand.Rand)
	// facts makes the set-up faulty; told says what the keeper states of it.
	facts func(f *facts, rng *rand.Rand)
	told  func(s *model.Setup, f *facts, rng *rand.Rand)
	// acts makes the water, the keeper's ways or a day of the tank faulty; within is
	// the day on which the tank would be done without the fault.
	acts func(k *keeper, p *pond, within float64, rng *rand.Rand)
	// shows says of an evening of the tank, and of its twin without the fault, whether
	// the fault can be seen; nil for when they differ by more than kits err.
	shows func(k *keeper, tank, twin levels) bool
	free  bool // it costs no days and only looks like a delay
}

// faults are the causes of the command book, their sizes drawn wide (common
// practice, no source). What decides is told nine times in ten; of outages and
// untreated water less.
var faults = []fault{
	{cause: "acidic-water",
		facts: func(f *facts, rng *rand.Rand) {
			f.set.PH, f.set.KH = between(rng, 5.8, 6.6), unit.DKH(between(rng, 1.5, 4)).CaCO3()
		}, told: tellPH},
	{cause: "low-alkalinity",
		facts: func(f *facts, rng *rand.Rand) {
			f.set.PH, f.set.KH = between(rng, 6.8, 7.4), unit.DKH(between(rng, 0.4, 1.6)).CaCO3()
		}, told: func(s *model.Setup, f *facts, rng *rand.Rand) {
			tellPH(s, f, rng)
			if rng.Float64() < 0.9 {
				s.KH, s.Given.KH = unit.DKH(max(between(rng, 0.7, 1.3)*float64(f.set.KH.DKH()), 0.3)).CaCO3(), true
			}
		}},
	{cause: "cold-water",
		facts: func(f *facts, rng *rand.Rand) { f.set.Temp = unit.Celsius(between(rng, 11, 20)) },
		told:  tellTemp},
	{cause: "hot-water",
		facts: func(f *facts, rng *rand.Rand) { f.set.Temp = unit.Celsius(between(rng, 34, 38)) },
		told:  tellTemp},
	{cause: "low-oxygen",
		facts: func(f *facts, rng *rand.Rand) { f.set.Flow = model.Weak },
		told: func(s *model.Setup, f *facts, rng *rand.Rand) {
			if rng.Float64() < 0.9 {
				s.Flow, s.Given.Flow = model.Weak, true
			}
		},
		acts: func(k *keeper, p *pond, _ float64, rng *rand.Rand) {
			// Monod with 0.5 mg/L: 1 mg/L leaves two thirds, 0.1 a sixth.
			oxygen := between(rng, 0.1, 1)
			p.air = oxygen / (oxygen + 0.5)
			if rng.Float64() < 0.5 {
				k.oxygen = oxygen
			}
		}},
	{cause: "chlorine",
		needs: func(f *facts, rng *rand.Rand) { f.set.Source = model.Source(rng.IntN(2)) },
		facts: func(f *facts, _ *rand.Rand) { f.set.Conditioner = false },
		told: func(s *model.Setup, f *facts, rng *rand.Rand) {
			s.Source, s.Given.Source = f.set.Source, true
			s.Conditioner = rng.Float64() < 0.4
			s.Given.Conditioner = rng.Float64() < 0.5
			if !s.Given.Conditioner {
				s.Conditioner = true
			}
		},
		acts: func(k *keeper, p *pond, within float64, rng *rand.Rand) {
			first, gap := between(rng, 0.2, 0.8)*within, between(rng, 4, 10)
			says := rng.Float64() < 0.4 // that it was not treated
			writes := rng.Float64() < 0.75
			kill := between(rng, 0.3, 0.9)
			k.each = daily(first, gap, func(day float64) {
				share := between(rng, 0.25, 0.6)
				k.tank.change(share)
				k.tank.lose(kill * min(1.5*share, 1))
				if writes {
					e := model.Event{Kind: model.WaterChange, Fraction: share}
					if says {
						e.Treated = model.No
					}
					k.note(day, e)
				}
			})
		}},
	{cause: "ammonia-overdose",
		needs: func(f *facts, rng *rand.Rand) { f.set.PH, f.set.Method = between(rng, 7.7, 8.4), model.Dosed },
		told:  tellPH,
		acts: func(k *keeper, _ *pond, _ float64, rng *rand.Rand) {
			k.dose, k.habit = float64(unit.MgIon(between(rng, 6, 14)).N(unit.Ammonia)), whenClear
		}},
	{cause: "no-ammonia-source",
		needs: dosed,
		acts: func(k *keeper, p *pond, _ float64, rng *rand.Rand) {
			k.starves = true // nobody told them
			if rng.Float64() < 0.5 {
				p.dirt = 0
			}
		}},
	{cause: "little-surface",
		facts: func(f *facts, rng *rand.Rand) {
			f.set.Media, f.set.MediaVolume = model.NoMedia, 0
			if rng.Float64() < 0.5 {
				f.set.Media, f.set.MediaVolume = model.Sponge, f.set.Volume*unit.Litres(between(rng, 0.0003, 0.0012))
			}
		},
		told: func(s *model.Setup, f *facts, rng *rand.Rand) {
			s.Media, s.MediaVolume, s.Given.Media, s.Given.MediaVolume = f.set.Media, f.set.MediaVolume, true, true
		},
		acts: func(k *keeper, p *pond, _ float64, rng *rand.Rand) {
			p.ceiling = between(rng, 0.4, 1.1) * k.facts.target
		}},
	{cause: "medication",
		acts: func(k *keeper, p *pond, within float64, rng *rand.Rand) {
			first, days := between(rng, 0.2, 0.8)*within, 3+rng.IntN(5)
			kill, slow := between(rng, 0.2, 0.8), between(rng, 0.05, 0.5)
			writes := rng.Float64() < 0.9
			air := p.air
			k.each = func(day float64) {
				switch at := int(day - first); {
				case at == 0:
					k.tank.lose(kill)
					p.air = slow * air
					if writes {
						k.note(day, model.Event{Kind: model.Medicine, Hours: float64(24 * days)})
					}
				case at == days:
					p.air = air
				}
			}
		}},
	{cause: "filter-interrupted",
		acts: func(k *keeper, _ *pond, within float64, rng *rand.Rand) {
			kill, hours := between(rng, 0.3, 0.95), between(rng, 10, 72)
			k.each = once(between(rng, 0.2, 0.8)*within, func(day float64) {
				k.tank.lose(kill)
				if rng.Float64() < 0.5 {
					k.note(day, model.Event{Kind: model.Outage, Hours: hours})
				}
			})
		}},
	{cause: "media-washed",
		acts: func(k *keeper, _ *pond, within float64, rng *rand.Rand) {
			kill := between(rng, 0.4, 0.95)
			k.each = once(between(rng, 0.2, 0.8)*within, func(day float64) {
				k.tank.lose(kill)
				if rng.Float64() < 0.9 {
					k.note(day, model.Event{Kind: model.Cleaned, Harsh: rng.Float64() < 0.7})
				}
			})
		}},
	{cause: "mismatched-seed",
		needs: func(f *facts, _ *rand.Rand) { f.set.Method = model.Seeded },
		acts: func(k *keeper, _ *pond, _ float64, rng *rand.Rand) {
			k.lives = between(rng, 0, 0.15)
			k.donor = k.facts.set.PH - between(rng, 0.8, 2)
		}},
	{cause: "plants-take-up", free: true,
		facts: func(f *facts, rng *rand.Rand) { f.set.Plants = model.ManySlow + model.Plants(rng.IntN(3)) },
		acts: func(k *keeper, p *pond, _ float64, rng *rand.Rand) {
			p.plants = between(rng, 0.6, 2)
		}},
	{cause: "test-artefact", free: true,
		shows: func(k *keeper, tank, _ levels) bool { return tank.ammonia < k.bound+0.15 }, // all that is read is bound
		acts: func(k *keeper, _ *pond, _ float64, rng *rand.Rand) {
			k.bound = between(rng, 0.5, 1.5)
			if rng.Float64() < 0.5 {
				k.note(float64(rng.IntN(3)), model.Event{Kind: model.Conditioned})
			}
		}},
	{cause: "low-phosphate",
		needs: func(f *facts, rng *rand.Rand) {
			f.set.Source, f.set.Method = model.RO+model.Source(rng.IntN(2)), model.Dosed
		},
		told: func(s *model.Setup, f *facts, rng *rand.Rand) { s.Source, s.Given.Source = f.set.Source, true },
		acts: func(_ *keeper, p *pond, _ float64, rng *rand.Rand) {
			short, idle := between(rng, 0.1, 0.4), rng.Float64() < 0.5
			for i := range p.kinds {
				p.kinds[i].mu *= short
				if !idle { // they oxidise as ever, and only grow less of it
					p.kinds[i].yield *= short
				}
			}
		}},
	{cause: "nitrite-backlog",
		shows: func(_ *keeper, tank, _ levels) bool { return tank.nitrite > 16 },
		needs: dosed,
		acts: func(k *keeper, p *pond, _ float64, rng *rand.Rand) {
			k.dose, k.habit, k.heedless = float64(unit.MgIon(between(rng, 3, 5)).N(unit.Ammonia)), topsUp, true
			weak := between(rng, 0.01, 0.2)
			for i := range p.kinds {
				if p.kinds[i].nitrite {
					p.now.bio[i] *= weak
				}
			}
		}},
}

func dosed(f *facts, _ *rand.Rand) { f.set.Method = model.Dosed }

// tellPH states the pH as a chart shows it.
func tellPH(s *model.Setup, f *facts, rng *rand.Rand) {
	if rng.Float64() < 0.9 {
		s.PH, s.Given.PH = near(f.set.PH, 0.15, 5, rng), true
	}
}

func tellTemp(s *model.Setup, f *facts, rng *rand.Rand) {
	if rng.Float64() < 0.9 {
		s.Temp, s.Given.Temp = unit.Celsius(near(float64(f.set.Temp), 0.8, 1, rng)), true
	}
}

// near is x as someone states it: off by about sd, and on a scale of so many steps to one.
func near(x, sd, steps float64, rng *rand.Rand) float64 {
	return math.Round(steps*(x+sd*rng.NormFloat64())) / steps
}

// once does something on the first day from at on.
func once(at float64, do func(day float64)) func(day float64) { return daily(at, 1e9, do) }

// daily does something from a day on, every gap days.
func daily(at, gap float64, do func(day float64)) func(day float64) {
	return func(day float64) {
		if day >= at {
			at = day + gap
			do(day)
		}
	}
}
