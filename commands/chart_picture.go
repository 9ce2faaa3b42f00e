package commands

import (
	"math"
	"slices"

	"ripen/commands/picture"
	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
	"ripen/store"
)

// pictureOf gathers what is drawn of a tank, in a member's units, from a day on.
func pictureOf(r Outlook, o outlook.Outlook, cs model.Case, u store.Units, first float64) picture.Picture {
	p := picture.Picture{Title: titleOf(r), First: rounded(first, 2), Now: rounded(o.Day, 2), Last: rounded(o.Day+7, 2), Done: picture.Window(o.Done), Events: []picture.Event{}}
	for _, l := range o.Course {
		p.Last = max(p.Last, l.Day)
	}
	of := "mg/L"
	if u.Scale == "n" {
		of += " as N"
	}
	for _, sp := range []unit.Species{unit.Ammonia, unit.Nitrite, unit.Nitrate} {
		p.Pools = append(p.Pools, picture.Panel{Name: upperFirst(sp.String()), Unit: of, Course: levels3(o, sp, u.Scale), Read: marksOf(cs.Readings, sp, u.Scale, o.Day)})
	}
	p.Waters = watersOf(cs, u, o.Day)
	for _, e := range cs.Events {
		if float64(e.Day) <= o.Day {
			p.Events = append(p.Events, picture.Event{Day: rounded(float64(e.Day), 2), What: eventLabel(e.Kind)})
		}
	}
	return p
}

// titleOf is the answer in a few words.
func titleOf(r Outlook) string {
	title := "Day " + number(r.Day, 0) + ": "
	d := r.DoneDay
	switch {
	case r.Stage == "ready" && d.P50 != nil && *d.P50 <= r.Chart.Now+1:
		return title + "done"
	case d.P50 != nil && *d.P50 <= r.Chart.Now:
		return title + "most likely done already"
	case d.P50 != nil && d.P10 != nil && d.P90 != nil:
		return title + "done around day " + number(r.dayAt(*d.P50), 0) + r.between(d)
	case d.P50 != nil:
		return title + "done around day " + number(r.dayAt(*d.P50), 0) + ", or much later"
	case d.P10 != nil:
		return title + "most likely not done by day " + number(float64(r.HorizonDays), 0)
	}
	return title + "hardly done by day " + number(float64(r.HorizonDays), 0)
}

// levels3 is the course of one species on the member's scale.
func levels3(o outlook.Outlook, sp unit.Species, scale string) []picture.Level {
	out := []picture.Level{}
	to := func(v float64) float64 { return digits(shownOn(scale, v, sp), 3) }
	for _, l := range o.Course {
		q := [...]outlook.Quantiles{l.Ammonia, l.Nitrite, l.Nitrate}[sp]
		half := [...]outlook.Half{l.AmmoniaHalf, l.NitriteHalf, l.NitrateHalf}[sp]
		if q.P10 == nil || q.P50 == nil || q.P90 == nil {
			continue
		}
		mid := func(v, low, high float64) float64 { return min(max(v, low), high) }
		out = append(out, picture.Level{Day: l.Day, P10: to(*q.P10), P25: to(mid(half.P25, *q.P10, *q.P50)), P50: to(*q.P50),
			P75: to(mid(half.P75, *q.P50, *q.P90)), P90: to(*q.P90)})
	}
	return out
}

// marksOf are the readings of one species up to a day, each with the range that its
// step of the chart stands for.
func marksOf(readings []model.Reading, sp unit.Species, scale string, now float64) []picture.Mark {
	out := []picture.Mark{}
	for _, r := range readings {
		s := r.Of(sp)
		if s == nil || float64(r.Day) > now {
			continue
		}
		bin := kit.For(r.Kit, sp).Bin(*s, sp)
		to := func(v float64) float64 { return digits(shownOn(scale, max(v, 0), sp), 3) }
		m := picture.Mark{Day: rounded(float64(r.Day), 2), Value: to(ionOf(s, sp)), Low: to(bin.Low)}
		if m.Open = math.IsInf(bin.High, 1); m.Open {
			m.High = m.Value
		} else {
			m.High = to(bin.High)
		}
		out = append(out, m)
	}
	return out
}

// watersOf are pH, KH and temperature as they were told and read.
func watersOf(cs model.Case, u store.Units, now float64) []picture.Panel {
	ph, kh, temp := picture.Panel{Name: "pH"}, picture.Panel{Name: "KH", Unit: inUnit(hardnesses(), u.KH, 0).Unit}, picture.Panel{Name: "Temperature", Unit: "°" + u.Temp}
	if u.Temp == "" {
		temp.Unit = "°C"
	}
	add := func(to *picture.Panel, day unit.Days, v float64) {
		if float64(day) <= now {
			to.Read = append(to.Read, picture.Mark{Day: rounded(float64(day), 2), Value: v, Low: v, High: v})
		}
	}
	all := func(day unit.Days, p *float64, k *unit.MgCaCO3, t *unit.Celsius) {
		if p != nil {
			add(&ph, day, *p)
		}
		if k != nil {
			add(&kh, day, inUnit(hardnesses(), u.KH, float64(k.DKH())).Value)
		}
		if t != nil {
			add(&temp, day, inUnit(temps(), u.Temp, float64(*t)).Value)
		}
	}
	s, g := cs.Setup, cs.Setup.Given
	all(0, given(g.PH, &s.PH), given(g.KH, &s.KH), given(g.Temp, &s.Temp))
	for _, c := range cs.Changes {
		all(c.Day, c.PH, c.KH, c.Temp)
	}
	for _, r := range cs.Readings {
		all(r.Day, r.PH, r.KH, r.Temp)
	}
	out := []picture.Panel{ph, kh, temp}
	for i := range out {
		out[i].Course = []picture.Level{}
		if out[i].Read == nil {
			out[i].Read = []picture.Mark{}
		}
		slices.SortStableFunc(out[i].Read, func(a, b picture.Mark) int {
			switch {
			case a.Day < b.Day:
				return -1
			case a.Day > b.Day:
				return 1
			}
			return 0
		})
	}
	return out
}

func given[T any](told bool, v *T) *T {
	if told {
		return v
	}
	return nil
}

// eventLabel is a log entry in a word that fits under its tick.
func eventLabel(k model.EventKind) string {
	for _, kind := range logKinds() {
		if !kind.noEvent && kind.event == k {
			if k == model.WaterChange {
				return "water"
			}
			return kind.name
		}
	}
	return "other"
}
