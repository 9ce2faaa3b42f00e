package tryout

import (
	"errors"
	"fmt"
	"math"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// Change is one thing that is tried: a Temp, PH, KH, WaterChange, Dose, Plants,
// Seed, Culture, Media, Flow or Conditioned.
type Change interface {
	valid() error
	isSo(*tank) bool // the tank is like this already
	act(*tank, *trial)
}

type (
	// Temp is the temperature of the water from now on, 4 to 40 C.
	Temp unit.Celsius
	// PH is the pH that the water is brought to, 3.5 to 10.5. It moves on by itself
	// from there, as its alkalinity does.
	PH float64
	// KH is the alkalinity that the water is brought to by a bicarbonate, mg/L as
	// CaCO3, up to 900, and that new water has from now on. The pH rises with it.
	KH unit.MgCaCO3
	// WaterChange replaces a share of the water once.
	WaterChange struct {
		Fraction float64       // above 0, up to 1
		Treated  model.Treated // the new water
	}
	// Dose adds total ammonia once, up to 50 mg N/L, beside the keeper's habit.
	Dose struct {
		N    unit.MgN
		Salt bool // an ammonium salt, which brings no alkalinity
	}
	// Plants is how many plants grow in the tank from now on, rooted and growing.
	Plants model.Plants
	// Media is the filter's medium from now on. What lives in the old one stays, but
	// for NoMedia, which takes it out.
	Media struct {
		Kind   model.Media
		Volume unit.Litres // 0 for as much as there is, or the usual if there is none
	}
	// Flow is the strength of the filter's flow from now on.
	Flow model.Flow
	// Conditioned says whether the keeper treats new water from now on.
	Conditioned bool
)

// ErrRange says that a change cannot be: its value is outside its range.
var ErrRange = errors.New("change outside its range")

// LowerKH says that a KH below what the tank has was asked for. Nothing that is
// added to water lowers its alkalinity safely; only softer water does.
type LowerKH struct {
	Asked, Now unit.MgCaCO3 // mg/L as CaCO3; Now is the likely one
}

// Error says what was asked and what there is.
func (e *LowerKH) Error() string {
	return fmt.Sprintf("alkalinity %.0f mg/L is below the tank's %.0f", float64(e.Asked), float64(e.Now))
}

// within says whether low <= x <= high.
func within(x, low, high float64) error {
	if x >= low && x <= high { // false for what is not a number
		return nil
	}
	return ErrRange
}

// What counts as the same: less than a test can tell.
const (
	samePH   = 0.05
	sameTemp = 0.05 // C
	sameKH   = 0.02 // share
)

func (x Temp) valid() error      { return within(float64(x), 4, 40) }
func (x Temp) isSo(t *tank) bool { return math.Abs(float64(x-Temp(t.water.Temp))) < sameTemp }
func (x Temp) act(_ *tank, w *trial) {
	w.change(model.Change{Temp: new(unit.Celsius(x))})
}

func (x PH) valid() error      { return within(float64(x), 3.5, 10.5) }
func (x PH) isSo(t *tank) bool { return math.Abs(float64(x)-t.water.PH) < samePH }

// act tells the pH thrice, as a pH that was told takes the model seven tenths of the way.
func (x PH) act(_ *tank, w *trial) {
	for after := range 3 {
		w.changeAt(surroundings+float64(after), model.Change{PH: new(float64(x))})
	}
}

func (x KH) valid() error      { return within(float64(x), 0, 900) }
func (x KH) isSo(t *tank) bool { return math.Abs(float64(x)/float64(t.water.KH)-1) < sameKH }
func (x KH) act(t *tank, w *trial) {
	w.do(hardness, model.Event{Kind: model.Buffer, Alk: unit.MgCaCO3(x) - t.water.KH})
	w.change(model.Change{KH: new(unit.MgCaCO3(x))})
}

func (x WaterChange) valid() error    { return within(x.Fraction, math.SmallestNonzeroFloat64, 1) }
func (x WaterChange) isSo(*tank) bool { return false }
func (x WaterChange) act(_ *tank, w *trial) {
	w.do(once, model.Event{Kind: model.WaterChange, Fraction: x.Fraction, Treated: x.Treated})
}

func (x Dose) valid() error    { return within(float64(x.N), math.SmallestNonzeroFloat64, 50) }
func (x Dose) isSo(*tank) bool { return false }
func (x Dose) act(_ *tank, w *trial) {
	w.do(once, model.Event{Kind: model.Dose, N: x.N, Salt: x.Salt})
}

func (x Plants) valid() error {
	return within(float64(x), float64(model.NoPlants), float64(model.ManyFast))
}
func (x Plants) isSo(t *tank) bool { return model.Plants(x) == t.setup.Plants }
func (x Plants) act(_ *tank, w *trial) {
	w.change(model.Change{Plants: new(model.Plants(x))})
}

func (x Media) valid() error {
	return errors.Join(within(float64(x.Kind), float64(model.NoMedia), float64(model.MovingBed)), within(float64(x.Volume), 0, math.MaxFloat64))
}
func (x Media) isSo(t *tank) bool {
	return x.Kind == t.setup.Media && (x.Kind == model.NoMedia || x.litres(t) == t.setup.MediaVolume)
}

// act counts a medium taken out as the model does one that is replaced.
func (x Media) act(t *tank, w *trial) {
	if x.Kind == model.NoMedia {
		w.do(once, model.Event{Kind: model.Cleaned, Harsh: true})
	}
	w.change(model.Change{Media: new(x.Kind), MediaVolume: new(x.litres(t))})
}

// litres is how much medium there will be; the usual is that of model.Typical.
func (x Media) litres(t *tank) unit.Litres {
	switch {
	case x.Kind == model.NoMedia:
		return 0
	case x.Volume > 0:
		return x.Volume
	case t.setup.MediaVolume > 0 && t.setup.Media != model.NoMedia:
		return t.setup.MediaVolume
	}
	return t.setup.Volume / 100
}

func (x Flow) valid() error      { return within(float64(x), float64(model.Weak), float64(model.Strong)) }
func (x Flow) isSo(t *tank) bool { return model.Flow(x) == t.setup.Flow }
func (x Flow) act(_ *tank, w *trial) {
	w.change(model.Change{Flow: new(model.Flow(x))})
}

func (x Conditioned) valid() error { return nil }
func (x Conditioned) isSo(t *tank) bool {
	return bool(x) == t.setup.Conditioner && (t.habit.Change == 0 || t.habit.Treated == model.AsHabit || t.habit.Treated == x.treated())
}
func (x Conditioned) act(_ *tank, w *trial) {
	w.change(model.Change{Conditioner: new(bool(x))})
	w.habit.Treated = x.treated()
}

func (x Conditioned) treated() model.Treated {
	if x {
		return model.Yes
	}
	return model.No
}
