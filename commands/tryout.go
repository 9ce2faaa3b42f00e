package commands

import (
	"errors"
	"slices"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

func tryoutSpecs() []Spec {
	dose := Option{Name: "dose", Type: TypeConc, Min: 0.01, Max: 50, Unit: "mg/L", Help: "a dose of ammonia now, as the rise that it gives: 2ppm", scaled: true}
	return []Spec{{Name: "tryout", Private: true, Help: "what a change would save or cost, before you make it; up to five at once", Example: "/tryout temp:27C water-change:40% conditioned:yes", run: tryOut,
		Options: []Option{
			optTank(), optTemp("temperature from now on: 27C, 80F"), optKH("carbonate hardness to raise the water to: 6dKH"), optPH("ph", "pH to bring the water to"),
			{Name: "water-change", Type: TypeShare, Min: 1, Max: 100, Unit: "%", Help: "part of the water replaced now: 40%"}, dose,
			{Name: "plants", Type: TypeChoice, Choices: plantNames[:], Help: "how many plants, and how fast they grow"},
			{Name: "seed", Type: TypeVolume, Min: 0.001, Max: 10000, Unit: "L", Help: "mature media from another tank added now: 0.5L"},
			optPH("donor-ph", "pH of the tank that the seed comes from"), optDonorTemp(), optDonorSalinity(), optHours("how long the seed is out of water: 1, 12h, 2d"), optKept(),
			optContent("culture"),
			{Name: "media", Type: TypeChoice, Choices: mediaNames[:], Help: "filter medium from now on"},
			{Name: "media-volume", Type: TypeVolume, Min: 0.001, Max: 10000, Unit: "L", Help: "how much filter medium from now on: 1L"},
			{Name: "flow", Type: TypeChoice, Choices: flowNames[:], Help: "strength of the filter's flow from now on"},
			optYesNo("conditioned", "whether the new water is conditioned: of water-change, or from now on"),
			optMember(),
		}}}
}

// Tryout is what changes would save or cost against going on as now.
type Tryout struct {
	Head
	Now          WaterAt  `json:"now"`
	Read         ReadWith `json:"read"`
	Changes      []Tried  `json:"changes"`            // each alone
	Together     *Tried   `json:"together,omitempty"` // all of them, when there are several
	ReadyPercent float64  `json:"percent_ready_now"`
	NotWithin    float64  `json:"chance_not_within_horizon"` // as now
	NotPercent   float64  `json:"percent_not_within_horizon"`
	Horizon      int      `json:"horizon_days"`
	Animals      bool     `json:"animals"`
	Fit          string   `json:"fit"`
	Scale        string   `json:"scale"`
	Assumed      []string `json:"assumed"`
	Cautions     []string `json:"cautions"`
}

// ReadWith is what tests showed in the last days of what the draws have a say in too; nil
// where none was made.
type ReadWith struct {
	PH *float64  `json:"ph,omitempty"`
	KH *Quantity `json:"kh,omitempty"` // in the member's unit
}

// Tried is a change, or all together.
type Tried struct {
	Change      string            `json:"change"` // the option, "all" for all together
	What        string            `json:"what"`
	DaysSaved   outlook.Quantiles `json:"days_saved"` // below zero for days lost
	Chance      float64           `json:"chance_helps"`
	Percent     float64           `json:"percent_helps"`
	ChanceHarms float64           `json:"chance_harms"`
	HarmPercent float64           `json:"percent_harms"`
	NotWithin   float64           `json:"chance_not_within_horizon"`
	NotPercent  float64           `json:"percent_not_within_horizon"`
	Already     bool              `json:"already"` // it is so, nothing to change
	After       WaterAt           `json:"after"`
	SideEffects []SideEffect      `json:"side_effects"`
	Lives       *SeedLives        `json:"lives,omitempty"` // of a seed of which something is known
}

// WaterAt is a tank's likely water at a moment, in fixed units and, where that
// differs, in the member's.
type WaterAt struct {
	PH          float64  `json:"ph"`
	KHdKH       float64  `json:"kh_dkh"`
	TempC       float64  `json:"temp_c"`
	Ammonia     float64  `json:"ammonia_mgl"` // total, on the member's scale
	Nitrite     float64  `json:"nitrite_mgl"` // on the same
	FreeAmmonia float64  `json:"free_ammonia_mgl"`
	Oxygen      float64  `json:"oxygen_saturation_mgl"`
	KH          Quantity `json:"kh"`
	Temp        Quantity `json:"temp"`
}

// SideEffect is what comes with a change beside the days.
type SideEffect struct {
	Name    string `json:"name"`
	Text    string `json:"text"`
	Caution bool   `json:"caution,omitempty"` // it would harm animals that are in
}

// tryOut asks the engine what changes would bring. It stores nothing.
func tryOut(c *call) (Result, error) {
	t, cs, now, err := c.theCase()
	if err != nil {
		return nil, err
	}
	names, changes, refused := c.changes(current(cs.Setup, cs.Changes, now))
	if refused != nil {
		return nil, refused
	}
	found, err := c.adviser.Tryout(cs, now, changes...)
	if low, ok := errors.AsType[*tryout.LowerKH](err); ok {
		at := c.likelyKH(low.Now)
		return nil, refuse(CodeRange, "kh", "kh %s is below what the tank has, about %s; hardness goes down only by changing water for softer water, so try water-change: or a higher kh. If your test shows less, note it first with /reading kh:",
			quote(c.args["kh"].typed), at)
	}
	if err != nil {
		return nil, engineError(err)
	}
	r := Tryout{
		Head: headOf(t, c.At), Now: c.waterAt(found.Before), ReadyPercent: percent(found.Ready), NotWithin: rounded(found.NotWithin, 3), NotPercent: percent(found.NotWithin),
		Horizon: int(found.Horizon), Animals: found.Animals, Fit: found.Fit, Scale: c.units.Scale, Assumed: []string{}, Cautions: []string{},
	}
	if note := untoldWater(cs, now, c.units); note != "" {
		r.Assumed = append(r.Assumed, note)
	}
	r.Read = c.readWith(cs, now)
	setup := current(cs.Setup, cs.Changes, now)
	for i, x := range found.Each {
		one := c.tried(names[i], c.changeWords(names[i], changes[i], setup, r.Now, r.Read), x, r.Now, r.Animals)
		if seed, ok := changes[i].(tryout.Seed); ok {
			one.Lives = c.lives(seed.Event(), x.Lives)
		}
		r.Changes = append(r.Changes, one)
	}
	if found.Together != nil {
		r.Together = new(c.tried("all", "all together", *found.Together, r.Now, r.Animals))
	}
	r.Cautions = append(r.Cautions, cautionsOf(r.risks()...)...)
	return r, nil
}

// readWith finds the tests of the last three days.
func (c *call) readWith(cs model.Case, now unit.Days) (w ReadWith) {
	const fresh = 3
	if r := lastWith(cs.Readings, now, func(r model.Reading) bool { return r.PH != nil }); r != nil && r.Day >= now-fresh {
		w.PH = new(rounded(*r.PH, 2))
	}
	if r := lastWith(cs.Readings, now, func(r model.Reading) bool { return r.KH != nil }); r != nil && r.Day >= now-fresh {
		w.KH = new(c.likelyKH(*r.KH))
	}
	return w
}

func (c *call) waterAt(w tryout.Water) WaterAt {
	return WaterAt{
		PH: rounded(w.PH, 2), KHdKH: rounded(float64(w.KH.DKH()), 2), TempC: rounded(float64(w.Temp), 2),
		Ammonia: rounded(digits(onScaleOf(c.units.Scale, w.Ammonia, unit.Ammonia), 2), 2), Nitrite: rounded(digits(onScaleOf(c.units.Scale, w.Nitrite, unit.Nitrite), 2), 2), FreeAmmonia: rounded(digits(w.FreeAmmonia, 2), 4), Oxygen: rounded(w.Oxygen, 1),
		KH: c.likelyKH(w.KH), Temp: inUnit(temps(), c.units.Temp, float64(w.Temp)),
	}
}

// likelyKH is a hardness that nobody just measured, to a decimal.
func (c *call) likelyKH(a unit.MgCaCO3) Quantity {
	q := inUnit(hardnesses(), c.units.KH, float64(a.DKH()))
	q.Value = rounded(q.Value, 1)
	return q
}

// tried makes the typed result of one rerun.
func (c *call) tried(name, what string, x tryout.Trial, now WaterAt, animals bool) Tried {
	r := Tried{
		Change: name, What: what, DaysSaved: x.Saved, Chance: rounded(x.Helps, 3), Percent: percent(x.Helps), ChanceHarms: rounded(x.Harms, 3), HarmPercent: percent(x.Harms),
		NotWithin: rounded(x.NotWithin, 3), NotPercent: percent(x.NotWithin), Already: x.Already, After: c.waterAt(x.After), SideEffects: []SideEffect{},
	}
	for _, e := range x.Effects {
		text, bad := c.effectText(e, now, r.After, animals)
		r.SideEffects = append(r.SideEffects, SideEffect{string(e), text, bad})
	}
	return r
}

// all is all together, then each change.
func (r Tryout) all() []Tried {
	if r.Together == nil {
		return r.Changes
	}
	return slices.Insert(slices.Clone(r.Changes), 0, *r.Together)
}

// risks names what was tried, as the table of cautions does.
func (r Tryout) risks() (names []string) {
	for _, x := range r.all() {
		switch {
		case x.Already:
			continue
		case x.Change == "dose":
			names = append(names, "tryout dose")
		case x.Change == "temp", x.Change == "flow", x.Change == "media", x.Change == "media-volume":
			names = append(names, "tryout equipment")
		case x.Change == "kh", x.Change == "ph":
			names = append(names, "tryout buffer")
		}
		if x.Change == "ph" && x.After.PH < r.Now.PH {
			names = append(names, "tryout lower pH")
		}
		if r.Animals && x.After.PH > r.Now.PH+0.1 {
			names = append(names, "raise pH with animals")
		}
		if slices.ContainsFunc(x.SideEffects, func(e SideEffect) bool { return e.Caution }) {
			names = append(names, "tryout harm")
		}
	}
	return names
}
