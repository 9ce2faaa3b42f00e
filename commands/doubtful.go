package commands

import (
	"fmt"
	"math"
	"strings"
	"time"

	"ripen/engine/chem"
	"ripen/engine/dosing"
	"ripen/engine/model"
	"ripen/engine/tryout"
	"ripen/engine/unit"
	"ripen/store"
)

// Doubt is what is noted all the same, with what it does: so much ammonia, food or
// hardness, or a step of pH with animals in, that a slip or harm is likely.
type Doubt struct {
	What    string       `json:"what"` // "dose", "feed", "kh" or "ph"
	Effect  *LevelEffect `json:"effect,omitempty"`
	KH      *khStep      `json:"kh_step,omitempty"`
	Step    *phStep      `json:"step,omitempty"`
	Animals bool         `json:"animals"`
	Caution string       `json:"caution,omitempty"`
}

// khStep is a hardness raised further than any common water goes.
type khStep struct {
	Before Quantity `json:"kh_before"`
	After  Quantity `json:"kh_after"`
	Most   Quantity `json:"kh_most"`
	Sum    string   `json:"kh_rests_on,omitempty"` // where Before is but a sum of buffers: how long ago it was told
}

// mostKH is about the hardest water that animals or bacteria are kept in. Common
// practice, no source.
const mostKH unit.DKH = 25

// Text says how hard the water is then, and that it may be a slip; of a mere sum, to test.
func (s khStep) Text() string {
	if s.Sum != "" {
		return fmt.Sprintf("%s, and with all buffers since it might be up to %s by now, while even hard water hardly has %s. Test it before you add more, and tell me with /reading kh:", s.Sum, s.After, s.Most)
	}
	return fmt.Sprintf("that takes the KH from %s to about %s, and even hard water hardly has %s. Check the number and its unit; if it was a slip, /undo takes it back, and if not, change water until a test shows less.", s.Before, s.After, s.Most)
}

// phStep is a change of pH and what it does to the ammonia in the water.
type phStep struct {
	Before float64  `json:"ph_before"`
	After  float64  `json:"ph_after"`
	Free   *float64 `json:"free_ammonia_before_mgl,omitempty"` // if the ammonia is known
	Freed  *float64 `json:"free_ammonia_after_mgl,omitempty"`
	Harm   float64  `json:"free_ammonia_harm_mgl"`
	Gentle float64  `json:"ph_a_day"`
}

// Text says what the step is, what it frees, and how to go about it.
func (s phStep) Text() string {
	text := fmt.Sprintf("pH %s to %s is a big step with animals in; no more than %s a day is gentle.", number(s.Before, 1), number(s.After, 1), number(s.Gentle, 1))
	if s.Free == nil || s.Freed == nil || *s.Free == 0 && *s.Freed == 0 {
		return text
	}
	text += fmt.Sprintf(" Free ammonia, the harmful part, goes from %s to %s mg/L NH3", sigText(*s.Free), sigText(*s.Freed))
	if *s.Freed > s.Harm {
		text += fmt.Sprintf(", and gills are harmed from about %s", sigText(s.Harm))
	}
	return text + "."
}

// Text says what is doubtful and what it does.
func (d Doubt) Text() string {
	text := ""
	switch {
	case d.KH != nil && d.Step != nil:
		text = d.KH.Text() + " " + d.Step.Text()
	case d.KH != nil:
		text = d.KH.Text()
	case d.What == "feed":
		text = fmt.Sprintf("so much food brings about %s mg/L ammonia as it rots: %s Take out what is left of it; if it was a slip, /undo takes it back.", sigText(d.Effect.Level), d.Effect.does(d.Animals))
	case d.Step != nil:
		text = d.Step.Text()
	case d.Animals:
		text = "animals are in, and ammonia harms them: " + d.Effect.does(true) + " Test now and ask /safe."
	default:
		text = fmt.Sprintf("more than %s mg/L at once is a lot: %s Dose no more until it is clear; if it was a slip, /undo takes it back.", number(d.Effect.Largest, 1), d.Effect.does(false))
	}
	if d.Caution != "" {
		text += "\n" + d.Caution
	}
	return "Careful: " + text
}

// doubtfulEvent weighs what is logged, on what was known before; nil without doubt.
func (c *call) doubtfulEvent(t store.Tank, before []store.Entry, e model.Event, at time.Time) (*Doubt, error) {
	if e.N == 0 && e.Alk == 0 && e.Mass == 0 {
		return nil, nil // of a note the kind says nothing
	}
	cs, err := caseOf(t, before)
	if err != nil {
		return nil, err
	}
	e.Day = daysSince(t.Started, at)
	switch e.Kind {
	case model.Dose:
		return c.doubtfulDose(cs, e), nil
	case model.FeedOnce:
		return c.doubtfulFeed(cs, e), nil
	case model.Buffer:
		return c.doubtfulBuffer(cs, e), nil
	}
	return nil, nil
}

// doubtfulFeed weighs a meal by the ammonia that it brings in the end; nil unless that is
// more than the largest sensible dose.
func (c *call) doubtfulFeed(cs model.Case, e model.Event) *Doubt {
	w := treatedAt(cs, e.Day)
	level := unit.MgN(model.FoodN * float64(e.Mass) / float64(w.Volume))
	if level.Ion(unit.Ammonia) <= dosing.LargestDose {
		return nil
	}
	return &Doubt{What: "feed", Effect: new(c.effectOf(level, w.PH, w.Water)), Animals: w.animals == "yes"}
}

// doubtfulDose weighs a dose that is logged: on top of what was read or dosed within a
// day before it, above the largest sensible one, or with animals in. nil if there is no
// doubt.
func (c *call) doubtfulDose(cs model.Case, e model.Event) *Doubt {
	w := treatedAt(cs, e.Day)
	level := e.N + unit.MgN(w.added("ammonia"))
	if age, tested := w.age("ammonia"); tested && age <= 1 {
		level = e.N + w.Ammonia
	}
	animals := w.animals == "yes"
	if level.Ion(unit.Ammonia) <= dosing.LargestDose && !animals {
		return nil
	}
	return &Doubt{What: "dose", Effect: new(c.effectOf(level, w.PH, w.Water)), Animals: animals, Caution: strings.Join(cautionsOf("log large dose"), " ")}
}

// doubtfulPH weighs a step of pH from what was known before; nil without animals, or if
// it is small.
func (c *call) doubtfulPH(cs model.Case, day unit.Days, to float64) *Doubt {
	w := treatedAt(cs, day)
	if w.animals != "yes" || math.Abs(to-w.PH) <= jump+1e-9 || !w.phTold {
		return nil
	}
	return c.stepDoubt(w, to)
}

// doubtfulBuffer weighs what a buffer brings the hardness to, and with animals in the
// step of pH that it makes.
func (c *call) doubtfulBuffer(cs model.Case, e model.Event) *Doubt {
	w := treatedAt(cs, e.Day)
	to := w.KH + e.Alk
	var d Doubt
	if ph := chem.PHAfter(w.PH, w.KH, to, w.Temp, w.Salinity); w.animals == "yes" && ph-w.PH > jump {
		d = *c.stepDoubt(w, ph)
	}
	if to > mostKH.CaCO3() {
		s := khStep{Before: c.kh(w.KH), After: c.kh(to), Most: c.kh(mostKH.CaCO3()), Sum: w.khSum()}
		if told := w.KH - unit.MgCaCO3(w.added("kh")); s.Sum != "" && told+e.Alk > mostKH.CaCO3() {
			s.Before, s.After, s.Sum = c.kh(told), c.kh(told+e.Alk), ""
		}
		d.What, d.Animals, d.KH = "kh", w.animals == "yes", &s
	}
	if d.What == "" {
		return nil
	}
	return &d
}

func (c *call) stepDoubt(w treated, to float64) *Doubt {
	s := phStep{Before: rounded(w.PH, 2), After: rounded(to, 2), Harm: harmFrom, Gentle: tryout.GentlePH}
	if w.levels["ammonia"] != nil {
		s.Free = new(free(dosing.BurdenOf(w.Ammonia, w.PH, w.Temp, w.Salinity).Free))
		s.Freed = new(free(dosing.BurdenOf(w.Ammonia, to, w.Temp, w.Salinity).Free))
	}
	d := &Doubt{What: "ph", Step: &s, Animals: true}
	if to > w.PH {
		d.Caution = strings.Join(cautionsOf("raise pH with animals"), " ")
	}
	return d
}

// treatedAt is a tank's water at a time.
func treatedAt(cs model.Case, day unit.Days) treated {
	var w treated
	w.phTold = w.ofCase(cs, day, "", 0).PH
	return w
}
