package study

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Report is what a study of outlooks found.
type Report struct {
	Question
	Each []Tank
}

// Scores are the scores of one stage over all tanks, each with its standard
// error.
type Scores struct {
	Tanks          int
	In, InSE       [3]float64 // coverage of Levels
	Before, After  float64    // share of tanks whose truth lies before, or after, the 80 % interval
	CRPS           float64    // days
	Error, ErrorSE float64    // median of |p50 - true| / true, the whole way; tanks done within the horizon
	Ahead          float64    // median of |p50 - true| over the days that were left
	Gain, GainSE   float64    // share by which the CRPS lies below that of the outlook of day 0
	Month, MonthSE float64    // the same against "a month"
}

// At scores stage i.
func (r *Report) At(i int) (s Scores) { return scores(r.Each, atStage, i) }

// On scores the i-th of Days.
func (r *Report) On(i int) (s Scores) { return scores(r.Each, onDay, i) }

func atStage(t *Tank) []Asked { return t.Asked }
func onDay(t *Tank) []Asked   { return t.OnDay }

// scores scores the i-th question of those of each tank that of picks.
func scores(tanks []Tank, of func(*Tank) []Asked, i int) (s Scores) {
	var in [3][]float64
	var crps, cold, month, whole, ahead []float64
	for _, t := range tanks {
		if i >= len(of(&t)) {
			continue
		}
		a := of(&t)[i]
		s.Tanks++
		for j := range in {
			in[j] = append(in[j], a.In[j])
		}
		s.Before += (1 - a.In[1]) * max(-a.Side, 0)
		s.After += (1 - a.In[1]) * max(a.Side, 0)
		crps, cold, month = append(crps, a.CRPS), append(cold, a.Cold), append(month, a.Month)
		if !t.Late && t.Done > 0 {
			whole = append(whole, math.Abs(a.P50-t.Done)/t.Done)
			ahead = append(ahead, math.Abs(a.P50-t.Done)/(t.Done-a.Now))
		}
	}
	for j := range in {
		s.In[j], s.InSE[j] = mean(in[j])
	}
	s.Before /= float64(s.Tanks)
	s.After /= float64(s.Tanks)
	s.CRPS, _ = mean(crps)
	s.Error, s.ErrorSE = median(whole)
	s.Ahead, _ = median(ahead)
	s.Gain, s.GainSE = gain(crps, cold)
	s.Month, s.MonthSE = gain(crps, month)
	return s
}

// Marks of the study.
const (
	coverLow, coverHigh = 0.72, 0.88 // of the 80 % interval, at each stage
	errorMark           = 0.15       // most, at 65 % of the way
	gainMark            = 0.40       // least, from half way on
)

func mark(met bool) string {
	if met {
		return "met"
	}
	return "missed"
}

// Table prints the scores by stage and by sort of tank, in Markdown.
func (r *Report) Table() string {
	var b strings.Builder
	late := 0
	for _, t := range r.Each {
		if t.Late {
			late++
		}
	}
	laws := "laws of their own"
	if r.Own {
		laws = "the engine's laws"
	}
	if r.Tidy {
		laws += ", told by tidy keepers"
	}
	if r.Bare {
		laws += ", and the draws alone"
	}
	fmt.Fprintf(&b, "%d tanks with %s, seed %d, %d draws; %d of them not done within %d days. Shares in %%, standard errors after ±.\n\n", len(r.Each), laws, r.Seed, r.Draws, late, horizon)
	b.WriteString("| asked | tanks | 50 % holds | 80 % holds | 95 % holds | done before / after the 80 % | CRPS, days | less than on day 0 | less than \"a month\" | median error, of the whole way | of what was left |\n")
	b.WriteString("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n")
	p := func(x float64) string { return fmt.Sprintf("%.0f", 100*x) }
	pm := func(x, se float64) string { return fmt.Sprintf("%.0f ± %.0f", 100*x, 100*se) }
	row := func(name string, s Scores) {
		if s.Tanks == 0 {
			return
		}
		fmt.Fprintf(&b, "| %s | %d | %s | %s | %s | %s / %s | %.1f | %s | %s | %s | %s |\n", name, s.Tanks, pm(s.In[0], s.InSE[0]), pm(s.In[1], s.InSE[1]),
			pm(s.In[2], s.InSE[2]), p(s.Before), p(s.After), s.CRPS, pm(s.Gain, s.GainSE), pm(s.Month, s.MonthSE), pm(s.Error, s.ErrorSE), p(s.Ahead))
	}
	for i, stage := range Stages {
		row(p(stage)+" % of the way", r.At(i))
	}
	for i, day := range Days {
		row(fmt.Sprintf("day %.0f, not done yet", day), r.On(i))
	}
	b.WriteString("\n")
	for i, stage := range Stages {
		s := r.At(i)
		fmt.Fprintf(&b, "- %s %% of the way, 80 %% interval holds %.0f to %.0f %%: %s (%s)\n", p(stage), 100*coverLow, 100*coverHigh, mark(s.In[1] >= coverLow && s.In[1] <= coverHigh), pm(s.In[1], s.InSE[1]))
		if stage == 0.65 {
			fmt.Fprintf(&b, "- %s %% of the way, median error at most %.0f %%: %s (%s)\n", p(stage), 100*errorMark, mark(s.Error <= errorMark), pm(s.Error, s.ErrorSE))
		}
		if stage >= 0.5 {
			fmt.Fprintf(&b, "- %s %% of the way, CRPS at least %.0f %% less than on day 0: %s (%s)\n", p(stage), 100*gainMark, mark(s.Gain >= gainMark), pm(s.Gain, s.GainSE))
		}
	}
	b.WriteString("\n" + r.sorts() + "\n" + r.known())
	return strings.TrimRight(b.String(), "\n")
}

// sorts breaks the misses down by sort of tank.
func (r *Report) sorts() string {
	by := map[string][]Tank{}
	for _, t := range r.Each {
		by[t.Kind] = append(by[t.Kind], t)
	}
	var names []string
	for k := range by {
		names = append(names, k)
	}
	slices.Sort(names)
	var b strings.Builder
	b.WriteString("| sort of tank | tanks | done: p10 / p50 / p90 | 80 % holds at")
	for _, s := range Stages {
		fmt.Fprintf(&b, " %.0f", 100*s)
	}
	b.WriteString(" % of the way | before / after, all stages | error at 65 % |\n| --- | --- | --- | --- | --- | --- |\n")
	for _, k := range names {
		var done []float64
		for _, t := range by[k] {
			done = append(done, t.Done)
		}
		slices.Sort(done)
		at := func(q float64) float64 { return done[int(q*float64(len(done)-1)+0.5)] }
		fmt.Fprintf(&b, "| %s | %d | %.0f / %.0f / %.0f |", k, len(done), at(0.1), at(0.5), at(0.9))
		var before, after float64
		for i := range Stages {
			s := scores(by[k], atStage, i)
			fmt.Fprintf(&b, " %.0f", 100*s.In[1])
			before += s.Before / float64(len(Stages))
			after += s.After / float64(len(Stages))
		}
		fmt.Fprintf(&b, " | %.0f / %.0f | %.0f |\n", 100*before, 100*after, 100*scores(by[k], atStage, 4).Error)
	}
	return b.String()
}

// known breaks the error at 65 % of the way down by what was known of a tank by then.
func (r *Report) known() string {
	const stage = 4
	var b strings.Builder
	fmt.Fprintf(&b, "| known at %.0f %% of the way | tanks done | median error, %% | said too late, %% |\n| --- | --- | --- | --- |\n", 100*Stages[stage])
	row := func(name string, is func(a *Asked) bool) {
		var off []float64
		late := 0
		for _, t := range r.Each {
			if t.Late || stage >= len(t.Asked) || !is(&t.Asked[stage]) {
				continue
			}
			off = append(off, math.Abs(t.Asked[stage].P50-t.Done)/t.Done)
			if t.Asked[stage].P50 > t.Done {
				late++
			}
		}
		if len(off) == 0 {
			return
		}
		m, se := median(off)
		fmt.Fprintf(&b, "| %s | %d | %.0f ± %.0f | %.0f |\n", name, len(off), 100*m, 100*se, 100*float64(late)/float64(len(off)))
	}
	most := math.MaxInt
	for _, n := range [...][2]int{{0, 2}, {3, 5}, {6, 11}, {12, most}} {
		name := fmt.Sprintf("%d to %d readings", n[0], n[1])
		if n[1] == most {
			name = fmt.Sprintf("%d readings or more", n[0])
		}
		row(name, func(a *Asked) bool { return n[0] <= a.Readings && a.Readings <= n[1] })
	}
	for _, what := range []string{"ammonia", "nitrite", "proving", "ready"} {
		row("stage "+what, func(a *Asked) bool { return a.Stage == what })
	}
	return b.String()
}

// Lines prints one line a tank: at each stage the outlook's 10, 50 and 90 %
// days, marked where the truth lies before or after.
func (r *Report) Lines() string {
	var b strings.Builder
	for i, t := range r.Each {
		fmt.Fprintf(&b, "%d %s, done %.1f:", i, t.Kind, t.Done)
		for _, a := range t.Asked {
			side := [...]string{"<", "", ">"}[int(a.Side)+1]
			fmt.Fprintf(&b, "  @%.0f %s %d %s%.0f/%.0f/%.0f", a.Now, a.Stage, a.Readings, side, a.P10, a.P50, a.P90)
		}
		b.WriteString("\n")
	}
	return b.String()
}
