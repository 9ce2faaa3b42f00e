package commands

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// Lesson is something that the club's own tanks show.
type Lesson struct {
	// How long finished tanks of two sorts took, in the middle.
	Sort    string  `json:"sort,omitempty"`
	Than    string  `json:"than,omitempty"`
	Tanks   int     `json:"tanks,omitempty"`
	Others  int     `json:"others,omitempty"`
	Days    float64 `json:"days,omitempty"`
	OthersD float64 `json:"others_days,omitempty"`
	// Else what holds up most open tanks.
	Cause string `json:"cause,omitempty"`
	Held  int    `json:"held_up,omitempty"` // tanks
	Of    int    `json:"behind,omitempty"`
}

const (
	lessonTanks = 5 // finished tanks of each sort before they are compared
	lessonSure  = 2 // standard errors by which their ranks must differ
	lessonHeld  = 3 // tanks that a cause must hold up to be worth a lesson
)

// sorts of tanks that may be compared: what was stated of them, or done to them. What a tank
// is of each is kept with it; so a change here counts assessForm up.
var sorts = []struct {
	name, than string
	is         func(c model.Case) (yes, known bool)
}{
	{"at 25 °C and more", "in cooler water", func(c model.Case) (bool, bool) { return c.Setup.Temp >= 25, c.Setup.Given.Temp }},
	{"at pH 7 and more", "in more acidic water", func(c model.Case) (bool, bool) { return c.Setup.PH >= 7, c.Setup.Given.PH }},
	{"with a KH of 4 dKH and more", "in softer water", func(c model.Case) (bool, bool) { return c.Setup.KH >= unit.DKH(4).CaCO3(), c.Setup.Given.KH }},
	{"seeded with old media", "without", func(c model.Case) (bool, bool) {
		return slices.ContainsFunc(c.Events, func(e model.Event) bool { return e.Kind == model.Seed && e.Day < 7 }), true
	}},
	{"with plants", "without", func(c model.Case) (bool, bool) { return c.Setup.Plants != model.NoPlants, true }},
}

// sortsOf says of which of the compared sorts a tank is, as far as that is known.
func sortsOf(c model.Case) map[string]bool {
	is := map[string]bool{}
	for _, s := range sorts {
		if yes, known := s.is(c); known {
			is[s.name] = yes
		}
	}
	return is
}

// lesson finds what the club's tanks show plainly; nil if nothing yet. Where there are
// several lessons the weeks take turns.
func (c *call) lesson(open, closed []seen) *Lesson {
	var found []Lesson
	for _, s := range sorts {
		var these, those []float64
		for _, tanks := range [][]seen{closed, open} {
			for i := range tanks { // seen is large
				t := &tanks[i].assessment
				switch yes, known := t.Sorts[s.name]; {
				case t.DoneOn == nil || !known:
				case yes:
					these = append(these, *t.DoneOn)
				default:
					those = append(those, *t.DoneOn)
				}
			}
		}
		if len(these) >= lessonTanks && len(those) >= lessonTanks && math.Abs(rankSum(these, those)) >= lessonSure {
			found = append(found, Lesson{Sort: s.name, Than: s.than, Tanks: len(these), Others: len(those), Days: *middle(these, 0), OthersD: *middle(those, 0)})
		}
	}
	if l := commonCause(open); l != nil {
		found = append(found, *l)
	}
	if len(found) == 0 {
		return nil
	}
	_, week := c.At.ISOWeek()
	return &found[week%len(found)]
}

// commonCause is what holds up most of the tanks that are behind, if it is several.
func commonCause(open []seen) *Lesson {
	count := map[string]int{}
	behind := 0
	for _, t := range open {
		if t.Cause != "" && (t.assessment.Verdict == "slow" || t.assessment.Verdict == "stalled") {
			behind++
			count[t.Cause]++
		}
	}
	best := ""
	for cause, n := range count {
		if cmp.Or(cmp.Compare(n, count[best]), cmp.Compare(best, cause)) > 0 {
			best = cause
		}
	}
	if count[best] < lessonHeld {
		return nil
	}
	return &Lesson{Cause: best, Held: count[best], Of: behind}
}

// rankSum is the statistic of Wilcoxon (1945) for two samples in standard errors, ties
// at half: above zero if a tends to be larger.
func rankSum(a, b []float64) float64 {
	u := 0.0
	for _, x := range a {
		for _, y := range b {
			switch {
			case x > y:
				u++
			case x == y:
				u += 0.5
			}
		}
	}
	n, m := float64(len(a)), float64(len(b))
	return (u - n*m/2) / math.Sqrt(n*m*(n+m+1)/12)
}

// sentence tells the lesson.
func (l Lesson) sentence() string {
	if l.Cause != "" {
		return fmt.Sprintf("%s, likely, in %d of the %d tanks here that are behind. /why tells what to do.", causeWords(l.Cause), l.Held, l.Of)
	}
	return fmt.Sprintf("of tanks that are done here, those %s took %s days in the middle (%d tanks), those %s %s days (%d tanks).",
		l.Sort, number(l.Days, 0), l.Tanks, l.Than, number(l.OthersD, 0), l.Others)
}
