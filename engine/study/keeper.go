package study

import (
	"math"
	"math/rand/v2"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// wild is a wild tank as its keeper tells of it, and the day on which it was
// truly done.
type wild struct {
	kind string
	told model.Case
	done float64 // horizon when it was not done by then
	late bool    // it was not
}

// keeper is one who reads every few days, forgets to write things down, and
// does them as keepers differ.
type keeper struct {
	rng      *rand.Rand
	tank     tank
	facts    facts
	told     model.Case
	seq      int
	chart    chart
	tool     model.Kit
	bias     [3]float64        // of each bottle, up to 1.5 either way
	mixed    float64           // share of nitrite that the nitrate bottle shows
	gap      float64           // days between readings, about
	logs     float64           // share of what is done that gets logged
	dose     float64           // what is meant to be dosed, mg N/L
	bottle   float64           // what a dose holds of what is meant
	habit    int               // doses when clear, tops up, or doses by the calendar
	weekly   bool              // changes water every week
	away     float64           // day from which nobody is there for ten days
	bound    float64           // ammonia that the kit sees though bacteria cannot use it, mg/L
	oxygen   float64           // that the keeper has measured, mg/L; 0 for never
	lives    float64           // share of a seed that lives
	donor    float64           // pH that the seed came from; 0 when not told
	starves  bool              // gives nothing
	heedless bool              // doses on when nitrite is off the chart
	tidy     bool              // reads each evening and writes all down as it is
	each     func(day float64) // what else happens each day; nil for nothing
	diary    []levels          // how the tank stood at the end of each day
}

// levels are the ions at one time, mg/L; ammonia as the kit shows it.
type levels struct{ ammonia, nitrite float64 }

const (
	whenClear = iota
	topsUp
	byCalendar
)

// tank is what keepers have to do with.
type tank interface {
	to(day float64)                           // lets time pass
	trial(target float64, fedOn bool) float64 // the challenge; below 1 it passes
	carries() float64                         // the same, with its ration
	pools() (tan, no2, no3 float64)           // mg N/L
	ph() float64
	temp() float64                              // C
	alkalinity() (meq, share float64)           // meq/L, and as a share of that of new water
	dose(n float64)                             // ammonia, mg N/L
	change(share float64)                       // of the water
	seed(culture bool, v float64, r *rand.Rand) // bacteria, mg N/L/d
	lose(share float64)                         // of all bacteria
	fast(on bool)                               // no food for now
}

// keepWild draws a wild tank and keeps it until it is done. own has it follow
// the engine's own laws; tidy has it kept by one who makes no mistakes.
func keepWild(rng *rand.Rand, own, tidy bool) wild {
	if own {
		return keepAny(rng, newOwn, tidy)
	}
	return keepAny(rng, nil, tidy)
}

// keepAny is keepWild of a tank that follows the engine's own laws, made by ours from what
// its keeper states, unless that is nil.
func keepAny(rng *rand.Rand, ours func(*model.Setup, *rand.Rand) *own, tidy bool) wild {
	k := keeper{rng: rng, facts: someFacts(rng)}
	k.tank = dig(&k.facts, rng)
	k.told.Setup = stated(&k.facts, rng)
	if tidy {
		k.told.Setup = known(&k.facts)
	}
	if ours != nil {
		k.tank = ours(&k.told.Setup, rng)
	}
	setback := k.settle()
	if tidy {
		setback = 0
		k.mend()
	}
	return k.keep(setback)
}

// settle draws the keeper's ways, and the day of a setback that nobody knows of,
// mostly 0 for none.
func (k *keeper) settle() (setback int) {
	rng := k.rng
	k.lives = 1
	k.buyKit()
	k.gap, k.logs = between(rng, 1.2, 5), between(rng, 0.6, 1)
	k.dose = float64(unit.MgIon(2).N(unit.Ammonia)) * between(rng, 0.7, 1.3)
	k.bottle = spreadOf(rng, 1, 0.2)
	if k.facts.set.PH < 6.9 {
		k.dose /= 2 // soft-water practice
	}
	k.habit = [...]int{whenClear, whenClear, whenClear, whenClear, topsUp, byCalendar}[rng.IntN(6)]
	k.weekly = rng.Float64() < 0.25
	k.away = -20
	if rng.Float64() < 0.15 {
		k.away = between(rng, 5, 60)
	}
	if rng.Float64() < 0.08 { // nobody knows
		setback = 3 + rng.IntN(25)
	}
	return setback
}

// keep keeps the tank until two daily trials in a row pass.
func (k *keeper) keep(setback int) wild {
	w := wild{kind: k.facts.kind()}
	k.begin()
	read := k.next(0)
	last, done := k.trial(), math.NaN()
	if last < 1 {
		done = 0
	}
	for day := 1; day <= horizon; day++ {
		for read < float64(day) {
			k.tank.to(read)
			if read < k.away || read > k.away+10 {
				k.read(read)
			}
			read = k.next(read)
		}
		k.tank.to(float64(day))
		tan, no2, _ := k.tank.pools()
		k.diary = append(k.diary, levels{tan*unit.Ammonia.IonPerN() + k.bound, no2 * unit.Nitrite.IonPerN()})
		if k.each != nil {
			k.each(float64(day))
		}
		if day == setback {
			k.tank.lose(between(k.rng, 0.2, 0.7))
		}
		if k.weekly && day%7 == 0 {
			k.change(float64(day), between(k.rng, 0.2, 0.4))
		}
		switch m := k.trial(); {
		case m >= 1:
			last, done = m, math.NaN()
		case !math.IsNaN(done):
			w.told, w.done = k.told, done
			return w
		default:
			done = passed(float64(day-1), float64(day), last, m)
		}
	}
	w.told, w.done, w.late = k.told, horizon, true
	return w
}

// next is when the keeper will look again: some time of the day, most in the
// evening.
func (k *keeper) next(now float64) float64 {
	if k.tidy {
		return math.Floor(now) + 1.8
	}
	days := math.Max(math.Round(k.gap+k.rng.NormFloat64()), 1)
	if k.rng.Float64() < 0.08 {
		days += 4
	}
	hour := 0.8 + 0.05*k.rng.NormFloat64()
	if k.rng.Float64() < 0.25 {
		hour = 0.35 + 0.05*k.rng.NormFloat64()
	}
	return math.Floor(now) + days + min(max(hour, 0.2), 0.95)
}

func (k *keeper) trial() float64 {
	if k.told.Setup.Rationed() {
		return k.tank.carries()
	}
	return k.tank.trial(k.facts.target, k.facts.set.Method == model.FishIn)
}

// log writes down an event, or forgets to.
func (k *keeper) log(day float64, e model.Event) {
	if k.rng.Float64() < k.logs {
		k.note(day, e)
	}
}

// note writes down an event.
func (k *keeper) note(day float64, e model.Event) {
	k.seq++
	e.Day, e.Seq = unit.Days(day), k.seq
	k.told.Events = append(k.told.Events, e)
}

// begin is day 0: seed, a bottled culture, the first dose.
func (k *keeper) begin() {
	volume := float64(k.facts.set.Volume) * k.facts.net
	switch {
	case k.facts.set.Method == model.Seeded:
		litres := volume * spreadOf(k.rng, 0.004, 0.7)
		// A litre of mature medium is about 1 m² of film at 0.12 g N/m²/d; how much
		// of it lives on differs widely.
		k.tank.seed(false, 1000*0.12*litres/volume*spreadOf(k.rng, 0.6, 1.1)*k.lives, k.rng)
		e := model.Event{Kind: model.Seed, DonorPH: k.donor, Volume: unit.Litres(litres * spreadOf(k.rng, 1, 0.3))}
		if k.rng.Float64() < 0.4 {
			e.Volume = 0
		}
		if k.donor > 0 {
			k.note(0, e)
		} else {
			k.log(0, e)
		}
	case k.rng.Float64() < 0.2:
		k.tank.seed(true, spreadOf(k.rng, 0.05, 1.8), k.rng)
		k.log(0, model.Event{Kind: model.Culture})
	}
	if m := k.facts.set.Method; m == model.Dosed || m == model.Seeded {
		k.add(0, k.dose)
	}
}

// add doses; what is written down is what was meant, now and then half or
// double.
func (k *keeper) add(day, meant float64) {
	if k.starves {
		return
	}
	if k.tidy {
		k.tank.dose(meant / k.facts.net)
		k.log(day, model.Event{Kind: model.Dose, N: unit.MgN(meant / k.facts.net)})
		return
	}
	k.tank.dose(meant * k.bottle * spreadOf(k.rng, 1, 0.12) / k.facts.net)
	says := meant
	switch u := k.rng.Float64(); {
	case u < 0.03:
		says *= 2
	case u < 0.06:
		says /= 2
	}
	k.log(day, model.Event{Kind: model.Dose, N: unit.MgN(says)})
}

func (k *keeper) change(day, share float64) {
	k.tank.change(share)
	k.log(day, model.Event{Kind: model.WaterChange, Fraction: math.Round(20*share) / 20})
}
