package stocking

import (
	"math"
	"slices"

	"ripen/engine/chem"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// peak is the highest of each level that one draw has shown.
type peak struct {
	tan, nh3, no2 float64 // mg N/L, mg NH3/L, mg N/L
	ratio         float64 // of the worst to its limit, 1 at the limit
}

// lookEvery is how often the levels are looked at, days.
const lookEvery = 0.5

// look takes a run to a day and notes the peaks on the way.
func (h *herd) look(run *model.Run, p peak, until float64) peak {
	for d := run.Day + lookEvery; ; d += lookEvery {
		d = min(d, until)
		run.To(d, nil)
		p = p.or(h.level(run))
		if d >= until {
			return p
		}
	}
}

// level is the levels of a run as it stands.
func (h *herd) level(run *model.Run) peak {
	s, ph := &run.State, run.PH()
	free := chem.FreeAmmoniaFraction(ph, h.temp, h.salinity)
	p := peak{tan: s.TAN, nh3: s.TAN * free * unit.MolarNH3 / unit.MolarN, no2: s.NO2}
	p.ratio = max(p.tan/float64(chem.ChronicTAN(ph, h.temp)), p.nh3/chem.HarmNH3, p.no2/h.nitriteLimit)
	return p
}

func (p peak) or(q peak) peak {
	return peak{max(p.tan, q.tan), max(p.nh3, q.nh3), max(p.no2, q.no2), max(p.ratio, q.ratio)}
}

// limits are those at the middle draw's pH.
func (h *herd) limits() Limits {
	ph := make([]float64, len(h.runs))
	for i := range h.runs {
		ph[i] = h.runs[i].PH()
	}
	slices.Sort(ph)
	return Limits{
		Ammonia: chem.ChronicTAN(quantile(ph, 0.5), h.temp).Ion(unit.Ammonia),
		Free:    chem.HarmNH3,
		Nitrite: unit.MgN(h.nitriteLimit).Ion(unit.Nitrite),
	}
}

// trial is what each draw would show.
type trial []peak

// try adds a load at the herd's day and watches, the herd staying as it is.
func (h *herd) try(more Load) trial {
	_, plan := h.with(more)
	t := make(trial, len(h.runs))
	until := h.day + watched
	model.Each(len(t), func(on *model.Lane) func(int) {
		run := on.Run()
		return func(i int) {
			run.CopyFrom(&h.runs[i], &h.calm[i])
			run.Follow(plan)
			t[i] = h.look(run, h.worst[i], until)
		}
	})
	return t
}

// chance is the share of draws within the limits, to a hundredth: as it is told, and
// finer than so many draws can tell.
func (t trial) chance() float64 {
	n := 0
	for _, p := range t {
		if p.ratio <= 1 {
			n++
		}
	}
	return math.Round(100*float64(n)/float64(len(t))) / 100
}

// peaks is the middle and the 90 % point of each level.
func (t trial) peaks() *Peaks {
	of := func(get func(peak) float64) outlook.Quantiles {
		v := make([]float64, len(t))
		for i, p := range t {
			v[i] = get(p)
		}
		slices.Sort(v)
		q := quantiles(v, 1)
		q.P10 = nil
		return q
	}
	return &Peaks{
		Ammonia: of(func(p peak) float64 { return float64(unit.MgN(p.tan).Ion(unit.Ammonia)) }),
		Free:    of(func(p peak) float64 { return p.nh3 }),
		Nitrite: of(func(p peak) float64 { return float64(unit.MgN(p.no2).Ion(unit.Nitrite)) }),
		Chance:  t.chance(),
	}
}
