package diagnose

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// Of diagnoses a fitted tank whose outlook is o. What a condition costs is how many
// days earlier the same draws are done with it put right; what an unseen event's
// chance is follows from the evidence with and without it (Kass & Raftery 1995,
// J. Am. Stat. Assoc. 90:773-795) and a prior chance (common practice, no source).
func Of(p *fit.Posterior, o outlook.Outlook) Diagnosis {
	s := newStudy(p, o)
	like := s.reference()
	ref := doneDays(like)
	d := Diagnosis{Verdict: s.verdict(ref), Delay: s.delay(like)}

	for _, w := range s.weighAll() {
		d.add(s, w.name, s.plain(w, ref), w.cost, found{})
	}
	for _, f := range s.unseen() {
		d.add(s, f.name, f.chance, f.cost, f)
	}
	if p := s.mostToPlants(); s.planted() && p > worthNaming {
		if i := d.index("no-ammonia-source"); i >= 0 && p > 0.5 && !s.fewPlants() { // what is given goes to the plants
			d.Causes[i].Chance *= 0.6
		}
		if s.fewPlants() || d.index("no-ammonia-source") >= 0 { // they take the most of next to nothing
			p *= 0.2
		}
		d.add(s, "plants-take-up", p, s.plantCost(), found{})
	}
	if i := d.index("test-artefact"); i >= 0 && d.Causes[i].Chance > 0.5 {
		d.Notes = append(d.Notes, "If the test sees what is not there, as seems likely, the tank is nearer to done than its readings and the outlook say: settle that first.")
		if d.Verdict == Stalled { // hardly anything is left to grow on
			d.Verdict = Slow
		}
	} else if i := d.index("low-alkalinity"); o.Stands != "" && (i < 0 || d.Causes[i].Chance < 0.5) { // without hardness it stands
		d.Notes = append(d.Notes, o.Stands)
	}
	if d.carried(s) {
		d.Verdict = OnTrack
	}
	d.judge(s)
	d.Notes = append(d.Notes, s.notes(&d)...)
	if v, _ := s.highest(unit.Nitrite); d.Verdict != Stalled && v >= 0 && v < 0.2 && s.planted() && s.mostToPlants() > 0.5 && s.clear() {
		d.Notes = append(d.Notes, "Plants take most of the ammonia, so this cycle may show no nitrite at all. That is not a stall.")
	}
	for i := range d.Causes {
		d.Causes[i].Chance = math.Round(d.Causes[i].Chance*100) / 100
	}
	slices.SortFunc(d.Causes, func(a, b Cause) int {
		return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(b.DaysCost, a.DaysCost), cmp.Compare(a.Name, b.Name))
	})
	d.oneBuffer()
	return d
}

// oneBuffer sees to it that bicarbonate is advised once, where two causes ask for
// it.
func (d *Diagnosis) oneBuffer() {
	i, j := d.index("acidic-water"), d.index("low-alkalinity")
	if i < 0 || j < 0 {
		return
	}
	second := &d.Causes[max(i, j)]
	for _, c := range []*Cause{&d.Causes[min(i, j)], second} {
		if !strings.Contains(c.Fix.Do, "sodium bicarbonate") {
			return
		}
	}
	second.Fix.Do = "what raises the hardness against the other cause does this as well; do not add both amounts"
}

// clearIon is what counts as clear on a kit, mg/L: below the challenge's 0.25.
const clearIon = 0.2

// index is where a cause stands on the list, -1 when nowhere.
func (d *Diagnosis) index(name string) int {
	return slices.IndexFunc(d.Causes, func(c Cause) bool { return c.Name == name })
}

// carried says whether plants carry the cycle and nothing else is at fault: such
// a tank builds up few bacteria, which is no reason to call it slow. Where plants keep
// the water clear, acidic, soft or cold water that slows bacteria is no fault either.
func (d *Diagnosis) carried(s *study) bool {
	if d.Verdict == Ready || !s.planted() || s.mostToPlants() < 0.5 {
		return false
	}
	kept := s.clear() && !s.fewPlants()
	return !slices.ContainsFunc(d.Causes, func(c Cause) bool {
		if c.Name == "plants-take-up" || kept && (c.Name == "acidic-water" || c.Name == "low-alkalinity" || c.Name == "cold-water") {
			return false
		}
		return c.Chance > 0.3
	})
}

// clear says whether the last two tests of ammonia, and of nitrite, showed next to
// none: one alone may be a slip.
func (s *study) clear() bool {
	for _, sp := range []unit.Species{unit.Ammonia, unit.Nitrite} {
		n := 0
		for _, r := range slices.Backward(s.c.Readings) {
			if x := r.Of(sp); x != nil && float64(r.Day) <= s.now && n < 2 {
				if n++; x.Ion(sp) >= clearIon {
					return false
				}
			}
		}
		if n < 2 {
			return false
		}
	}
	return true
}

// add puts a cause on the list unless it is too unlikely to mention. One name
// may come from the log and as an unseen event; the likelier stays.
func (d *Diagnosis) add(s *study, name string, chance, days float64, f found) {
	if chance < worthNaming {
		return
	}
	c := Cause{Name: name, Chance: math.Round(math.Min(chance, 0.99)*100) / 100, DaysCost: math.Round(max(days, 0)*10) / 10}
	for i := range d.Causes {
		if d.Causes[i].Name == name {
			if d.Causes[i].Chance >= c.Chance {
				return
			}
			d.Causes = slices.Delete(d.Causes, i, i+1)
			break
		}
	}
	c.Evidence, c.Fix = s.words(name, days, f)
	d.Causes = append(d.Causes, c)
}

// plantCost is the mean delay from plants, days: none if they help.
func (s *study) plantCost() float64 {
	bare := s.without(func(c *model.Case) {
		c.Setup.Plants = model.NoPlants
		dropEvents(c, model.PlantsAdded)
		edit(c, func(ch *model.Change) { ch.Plants = nil }, nil)
	})
	return max(weigh(s.done, bare).cost, 0)
}

// quantile of unsorted values.
func quantile(x []float64, q float64) float64 {
	v := slices.Clone(x)
	slices.Sort(v)
	return v[min(int(q*float64(len(v))), len(v)-1)]
}
