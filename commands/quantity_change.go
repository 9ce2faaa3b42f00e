package commands

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"ripen/engine/chem"
	"ripen/engine/dosing"
	"ripen/engine/model"
	"ripen/engine/safety"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// ChangeAmount is how much water to replace to reach a level.
type ChangeAmount struct {
	Amount
	Of          string      `json:"of"`
	From        float64     `json:"from_mgl"`
	To          float64     `json:"to_mgl"`
	New         float64     `json:"new_mgl"` // in the new water
	Percent     float64     `json:"percent"` // of each change
	Each        Quantity    `json:"each"`
	EachL       float64     `json:"each_l"`
	Times       int         `json:"times"`
	InAll       float64     `json:"in_all_percent"`
	Leaves      []LevelLeft `json:"leaves"` // of what else is known
	PHAfter     float64     `json:"ph_after"`
	Free        *float64    `json:"free_ammonia_mgl,omitempty"`
	FreeLeft    *float64    `json:"free_ammonia_after_mgl,omitempty"`
	Brings      *float64    `json:"brings_chlorine_mgl,omitempty"` // unless it is conditioned
	MostPercent float64     `json:"most_at_once_percent"`
	Salinity    float64     `json:"salinity_gkg"`
	Tap         bool        `json:"tap"` // the new water may hold chlorine
}

// LevelLeft is a level before and after.
type LevelLeft struct {
	What   string   `json:"what"`
	Before Quantity `json:"before"`
	After  Quantity `json:"after"`
}

// changeAmount works out a change of water.
func (c *call) changeAmount(w treated) (Result, error) {
	of, refused := c.changeOf(w)
	if refused != nil {
		return nil, refused
	}
	fresh := c.freshWater(&w)
	to, refused := c.level("to", of.option)
	if refused != nil {
		return nil, refused
	}
	from, refused := c.level("from", of.option)
	if refused != nil {
		return nil, refused
	}
	if from != nil {
		w.levels[of.name] = &level{now: of.base(*from), told: true}
	} else {
		w.rests(c, of.name)
	}
	now := w.levels[of.name]
	if now == nil {
		return nil, refuse(CodeMissing, "from", "say how much %s there is now, as in from:5, or note a test with /reading %s:5", of.name, of.name)
	}
	if w.levels["ammonia"] != nil || w.newKH != nil {
		w.assumed = append(w.assumed, w.usual...)
	}
	goal := of.base(*to)
	shown := func(x float64) float64 { return digits(of.shown(scaleOf(c), x), 3) }
	d, err := dosing.Dilute(now.now, goal, fresh[of.name])
	if n, ok := errors.AsType[*dosing.NewWater](err); ok {
		return nil, refuse(CodeRange, "to", "to %s cannot be reached by changing water: the new water holds %s mg/L %s itself; try a to: well above that, up to %s, or other water",
			quote(to.typed), sigText(shown(n.New)), of.name, sigText(shown(now.now)))
	}
	if errors.Is(err, dosing.ErrNoRise) || err == nil && d.Share < 0.005 {
		return nil, refuse(CodeNothing, "to", "%s is at %s mg/L, not above to %s, so there is nothing to change; try a to: below %s", of.name, sigText(shown(now.now)), quote(to.typed), sigText(shown(now.now)))
	}
	if err != nil {
		return nil, amountError(err, "to", to.typed)
	}
	r := ChangeAmount{
		Amount: w.base(c, "water-change"), Of: of.name, From: shown(now.now), To: shown(goal), New: shown(fresh[of.name]),
		Percent: rounded(100*d.Single, 0), Times: d.Times, InAll: rounded(100*d.Share, 0), EachL: digits(d.Single*float64(w.Volume), 3),
		Each: inUnit(volumes(), c.units.Volume, d.Single*float64(w.Volume)), Leaves: []LevelLeft{}, MostPercent: 100 * dosing.MostAtOnce,
		Salinity: rounded(w.Salinity, 1), Tap: w.source <= model.Chloraminated,
	}
	c.left(&r, w, d.Share, fresh)
	if x := fresh["chlorine"]; x > 0 && of.name != "chlorine" {
		r.Brings = new(digits(dosing.Mix(0, x, d.Single), 2))
	}
	if now.over {
		r.Warnings = append(r.Warnings, fmt.Sprintf("The chart topped out at %s mg/L, so there may be more %s and it may take more: mix a sample with as much clean water, test that and double it.", sigText(r.From), of.name))
	}
	risks := []string{"amount water-change"}
	if w.source > model.Chloraminated {
		risks = []string{"amount water-change without tap"}
	}
	rise := r.PHAfter - r.PH
	if w.animals == "yes" && rise > tryout.GentlePH {
		risks = append(risks, "raise pH with animals")
	}
	r.Cautions = cautionsOf(risks...)
	if w.animals == "yes" && math.Abs(rise) > jump {
		r.Warnings = append(r.Warnings, phStep{r.PH, r.PHAfter, r.Free, r.FreeLeft, harmFrom, tryout.GentlePH}.Text())
	}
	return r, nil
}

// diluting is what a change of water is to bring down.
type diluting struct {
	name    string
	species unit.Species
	option  Option
}

func (d diluting) base(a arg) float64 {
	if d.name == "chlorine" {
		return a.low
	}
	return float64(nitrogen(a, d.species))
}

func (d diluting) shown(scale string, x float64) float64 {
	if d.name == "chlorine" {
		return x
	}
	return onScaleOf(scale, unit.MgN(x), d.species)
}

// dilutings are what can be brought down, in the order of levelNames.
func dilutings() []diluting {
	nitrate, _ := readingSpecs()[0].Option("nitrate")
	nitrate.Type = TypeConc
	return []diluting{{"ammonia", unit.Ammonia, optAmmonia(TypeConc)}, {"nitrite", unit.Nitrite, optNitrite(TypeConc)}, {"nitrate", unit.Nitrate, nitrate}, {"chlorine", 0, optChlorine()}}
}

// changeOf is what was named with of:, or the only thing that can be meant.
func (c *call) changeOf(w treated) (diluting, *Error) {
	a, ok := c.args["of"]
	if !ok {
		return diluting{}, refuse(CodeMissing, "of", "say what the change is to bring down: of:%s", strings.Join(levelNames[:], ", of:"))
	}
	for _, d := range dilutings() {
		if d.name == a.word {
			return d, nil
		}
	}
	return diluting{}, refuse(CodeChoice, "of", "of %s is none of %s", quote(a.typed), strings.Join(levelNames[:], ", "))
}

// freshWater is what the new water holds, by levelNames in mg N/L and mg Cl2/L; what
// was not told is taken as none, and said. The ammonia of chloramine counts.
func (c *call) freshWater(w *treated) map[string]float64 {
	fresh := map[string]float64{}
	bound := w.source == model.Chloraminated
	var untold []string
	for _, d := range dilutings() {
		if a, ok := c.args["new-"+d.name]; ok {
			fresh[d.name] = d.base(a)
		} else if asked := d.name == c.args["of"].word; asked || w.levels[d.name] != nil && d.name != "chlorine" {
			if d.name != "ammonia" || !bound {
				untold = append(untold, d.name)
			}
		}
	}
	if len(untold) > 0 {
		w.assumed = append(w.assumed, "no "+list(untold, "or")+" in the new water")
	}
	if a, ok := c.args["new-kh"]; ok {
		w.newKH = new(unit.DKH(a.low).CaCO3())
	}
	if leaves := dosing.ChloramineLeaves(fresh["chlorine"]); bound && leaves > 0 {
		fresh["ammonia"] += float64(leaves)
		w.assumed = append(w.assumed, fmt.Sprintf("%s mg/L ammonia from the chloramine in the new water, once it is conditioned", sigText(onScaleOf(scaleOf(c), leaves, unit.Ammonia))))
	} else if bound && !c.has("new-ammonia") && !c.has("new-chlorine") {
		fresh["ammonia"] = float64(safety.ChloramineLeaves)
		w.assumed = append(w.assumed, fmt.Sprintf("%s mg/L ammonia in the new water, as usual chloramine leaves", sigText(onScaleOf(scaleOf(c), safety.ChloramineLeaves, unit.Ammonia))))
	}
	return fresh
}

// left works out what else a change leaves.
func (c *call) left(r *ChangeAmount, w treated, share float64, fresh map[string]float64) {
	ammonia := w.Ammonia
	for _, d := range dilutings() {
		now := w.levels[d.name]
		if now == nil || d.name == "chlorine" {
			continue
		}
		after := dosing.Mix(now.now, fresh[d.name], share)
		if d.name == "ammonia" {
			w.Ammonia, ammonia = unit.MgN(now.now), unit.MgN(after)
		}
		if d.name != r.Of {
			r.Leaves = append(r.Leaves, LevelLeft{d.name, Quantity{digits(d.shown(r.Scale, now.now), 2), "mg/L"}, Quantity{digits(d.shown(r.Scale, after), 2), "mg/L"}})
		}
	}
	kh := w.KH
	if w.newKH != nil && w.khKnown {
		kh = unit.MgCaCO3(dosing.Mix(float64(w.KH), float64(*w.newKH), share))
		r.Leaves = append(r.Leaves, LevelLeft{label("kh"), c.kh(w.KH), c.kh(kh)})
	}
	ph := chem.PHAfter(w.PH, w.KH, kh, w.Temp, w.Salinity)
	r.PHAfter = rounded(ph, 2)
	if w.levels["ammonia"] != nil {
		r.Free = new(free(dosing.BurdenOf(w.Ammonia, w.PH, w.Temp, w.Salinity).Free))
		r.FreeLeft = new(free(dosing.BurdenOf(ammonia, ph, w.Temp, w.Salinity).Free))
	}
}

// Text says how much water, how often, and what it leaves.
func (r ChangeAmount) Text() string {
	head := fmt.Sprintf("In %s replace %s (%s %%) once", r.where(), r.Each, number(r.Percent, 0))
	if r.Times > 1 {
		head = fmt.Sprintf("In %s replace %s (%s %%) %d times, some hours apart, as at most %s %% goes at once (together %s %%)", r.where(), r.Each, number(r.Percent, 0), r.Times, number(r.MostPercent, 0), number(r.InAll, 0))
	}
	head += fmt.Sprintf(": %s goes from %s to %s mg/L%s", r.Of, sigText(r.From), sigText(r.To), asNitrogen(r.Scale))
	if r.New > 0 {
		head += fmt.Sprintf(", with %s in the new water", sigText(r.New))
	}
	var left []string
	for _, l := range r.Leaves {
		left = append(left, fmt.Sprintf("%s %s (was %s)", l.What, l.After, l.Before))
	}
	if r.PHAfter != r.PH {
		left = append(left, fmt.Sprintf("pH about %s (was %s)", number(r.PHAfter, 1), number(r.PH, 1)))
	}
	if r.Free != nil {
		left = append(left, fmt.Sprintf("free ammonia %s mg/L NH3 (was %s)", sigText(*r.FreeLeft), sigText(*r.Free)))
	}
	leaves, chlorine := "", ""
	if len(left) > 0 {
		leaves = "It leaves " + strings.Join(left, ", ") + "."
	}
	if r.Brings != nil {
		chlorine = fmt.Sprintf("Condition the new water: untreated, one change would bring %s mg/L chlorine; /amount what:conditioner volume:%sL says how much.", sigText(*r.Brings), number(r.EachL, 1))
	}
	if r.Of == "chlorine" {
		chlorine = "A conditioner takes it out at once, see /amount what:conditioner; the new water has to be conditioned as well."
	}
	return r.text(head+".", leaves, chlorine, r.newWater())
}

// newWater says which water to use. That tap water has to be conditioned is left to
// the lines on chlorine where these are.
func (r ChangeAmount) newWater() string {
	text := "Use water of the same temperature"
	if r.Salinity > freshUpTo {
		text = "Use water of the same salt and temperature"
	}
	if r.Tap && r.Brings == nil && r.Of != "chlorine" {
		text += ", conditioned first if it is tap water, since its chlorine harms bacteria and animals"
	}
	return text + ", and test again afterwards."
}
