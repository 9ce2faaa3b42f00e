package study

import (
	"fmt"
	"slices"
	"strings"

	"ripen/engine/diagnose"
)

// Marks of the study of faults.
const (
	firstMark, threeMark = 0.75, 0.92 // least share of tanks with the right cause first, and among three
	soonMark             = 2. / 3     // the same, five days after the fault can be seen
	stalledMark          = 0.04       // most sound tanks called stalled
	realLow, realHigh    = 0.7, 0.9   // of causes given these chances, as many are real
)

// tally counts how often the right causes stood first and among the first three.
type tally struct{ tanks, first, three float64 }

func (s *tally) add(f *Found, t *Told) {
	best, worst := len(t.Causes)+1, 0
	for _, c := range f.Causes {
		r := t.Rank(c)
		if r == 0 {
			r = len(t.Causes) + 1
		}
		best, worst = min(best, r), max(worst, r)
	}
	s.tanks++
	if best == 1 && len(t.Causes) > 0 {
		s.first++
	}
	if worst <= min(3, len(t.Causes)) {
		s.three++
	}
}

func (s *tally) String() string {
	return fmt.Sprintf("%.0f / %.0f", 100*s.first/s.tanks, 100*s.three/s.tanks)
}

// likely is the chance from which a sound tank's first cause counts as one that
// it was told.
const likely = 0.5

// atWork names what is at work in a tank.
func (f *Found) atWork() string {
	switch len(f.Causes) {
	case 0:
		return sound
	case 1:
		return f.Causes[0]
	}
	return "two at once"
}

const sound = "nothing"

// FaultsTable prints how diagnoses did, in Markdown.
func FaultsTable(all []Found) string {
	var b strings.Builder
	b.WriteString("| at work | tanks | soon: first / among three, % | later: first / among three, % | later: on track / slow / stalled / ready | later, first instead |\n")
	b.WriteString("| --- | --- | --- | --- | --- | --- |\n")
	var names []string
	by := map[string][]*Found{}
	for i := range all {
		name := all[i].atWork()
		if by[name] == nil {
			names = append(names, name)
		}
		by[name] = append(by[name], &all[i])
	}
	var soon, later tally // of tanks with one fault
	stalled, asked := 0.0, 0.0
	for _, name := range names {
		var s, l tally
		verdicts, instead := map[string]int{}, map[string]int{}
		for _, f := range by[name] {
			verdicts[f.Later.Verdict]++
			first, chance := "none", 0.0
			if len(f.Later.Causes) > 0 {
				first, chance = f.Later.Causes[0].Name, f.Later.Causes[0].Chance
			}
			if name == sound {
				for _, t := range []*Told{&f.Soon, &f.Later} {
					asked++
					if t.Verdict == diagnose.Stalled {
						stalled++
					}
				}
				if chance >= likely {
					instead[first]++
				}
				continue
			}
			s.add(f, &f.Soon)
			l.add(f, &f.Later)
			if len(f.Causes) == 1 {
				soon.add(f, &f.Soon)
				later.add(f, &f.Later)
			}
			if !slices.Contains(f.Causes, first) {
				instead[first]++
			}
		}
		scores := [2]string{s.String(), l.String()}
		if name == sound {
			scores = [2]string{"", ""}
		}
		fmt.Fprintf(&b, "| %s | %d | %s | %s | %d / %d / %d / %d | %s |\n", name, len(by[name]), scores[0], scores[1],
			verdicts[diagnose.OnTrack], verdicts[diagnose.Slow], verdicts[diagnose.Stalled], verdicts[diagnose.Ready], counts(instead))
	}
	bins := reliability(all)
	fmt.Fprintf(&b, "\n- right cause first in at least %.0f %% of tanks with one fault: %s (%.0f %%)\n", 100*firstMark, mark(later.first >= firstMark*later.tanks), 100*later.first/later.tanks)
	fmt.Fprintf(&b, "- among the first three in at least %.0f %%: %s (%.0f %%)\n", 100*threeMark, mark(later.three >= threeMark*later.tanks), 100*later.three/later.tanks)
	fmt.Fprintf(&b, "- first within five days of becoming visible in at least two of three: %s (%.0f %%)\n", mark(soon.first >= soonMark*soon.tanks), 100*soon.first/soon.tanks)
	if asked > 0 {
		fmt.Fprintf(&b, "- sound tanks called stalled, at most %.0f %%: %s (%.1f %%)\n", 100*stalledMark, mark(stalled <= stalledMark*asked), 100*stalled/asked)
	}
	told, real := bins[7].told+bins[8].told, bins[7].real+bins[8].real
	fmt.Fprintf(&b, "- of causes given %.0f to %.0f %%, as many are real: %s (%.0f of %.0f, %.0f %%)\n", 100*realLow, 100*realHigh,
		mark(real >= realLow*told && real <= realHigh*told), real, told, 100*real/max(told, 1))
	b.WriteString("\n| chance told, % | mean | causes told | of them real, % |\n| --- | --- | --- | --- |\n")
	for i, x := range bins {
		if x.told > 0 {
			fmt.Fprintf(&b, "| %d to %d | %.0f | %.0f | %.0f |\n", 10*i, 10*i+10, 100*x.sum/x.told, x.told, 100*x.real/x.told)
		}
	}
	return strings.TrimRight(b.String(), "\n")
}

// bin is a range of chances: how many causes were told with one, the sum of these, and
// how many were real.
type bin struct{ told, sum, real float64 }

// reliability bins all causes told, on both days, by tens of per cent.
func reliability(all []Found) (bins [10]bin) {
	for i := range all {
		f := &all[i]
		for _, t := range []*Told{&f.Soon, &f.Later} {
			for _, c := range t.Causes {
				x := &bins[min(int(10*c.Chance), len(bins)-1)]
				x.told++
				x.sum += c.Chance
				if slices.Contains(f.Causes, c.Name) {
					x.real++
				}
			}
		}
	}
	return bins
}

// counts prints names by how often they came, most first.
func counts(m map[string]int) string {
	var names []string
	for k := range m {
		names = append(names, k)
	}
	slices.SortFunc(names, func(a, b string) int {
		if m[a] != m[b] {
			return m[b] - m[a]
		}
		return strings.Compare(a, b)
	})
	for i, k := range names {
		names[i] = fmt.Sprintf("%s %d", k, m[k])
	}
	return strings.Join(names, ", ")
}

// FaultsLines prints one line a tank: what is at work, when, and what was told.
func FaultsLines(all []Found) string {
	var b strings.Builder
	for i := range all {
		f := &all[i]
		fmt.Fprintf(&b, "%s: visible on day %.0f, done on %.0f, without on %.0f", strings.Join(append([]string{f.atWork()}, f.Causes...), " "), f.Visible, f.Done, f.Without)
		for _, t := range []*Told{&f.Soon, &f.Later} {
			fmt.Fprintf(&b, "; day %.0f %s", t.Day, t.Verdict)
			for _, c := range t.Causes {
				fmt.Fprintf(&b, ", %s %.2f (%.0f d)", c.Name, c.Chance, c.DaysCost)
			}
		}
		b.WriteString("\n")
	}
	return b.String()
}
