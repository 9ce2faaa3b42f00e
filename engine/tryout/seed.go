package tryout

import (
	"errors"
	"math"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

type (
	// Seed adds media from a mature tank once. Of the donor's water counts what is
	// known of it.
	Seed struct {
		Volume        unit.Litres  // above 0, up to the tank's own
		DonorPH       float64      // up to 14, 0 when unknown
		DonorTemp     unit.Celsius // 4 to 40 C, 0 when unknown
		DonorSalinity *float64     // 0 to 45 g/kg, nil when unknown
		Hours         float64      // out of water, up to 720
		Kept          model.Kept   // while out of water
	}
	// Culture adds a bottled culture of this content once.
	Culture model.Content
)

func (x Seed) valid() error {
	err := errors.Join(within(float64(x.Volume), math.SmallestNonzeroFloat64, math.MaxFloat64), within(x.DonorPH, 0, 14),
		within(x.Hours, 0, 720), within(float64(x.Kept), float64(model.MoistWarm), float64(model.Dried)))
	if x.DonorTemp != 0 {
		err = errors.Join(err, within(float64(x.DonorTemp), 4, 40))
	}
	if x.DonorSalinity != nil {
		err = errors.Join(err, within(*x.DonorSalinity, 0, 45))
	}
	return err
}
func (x Seed) isSo(*tank) bool       { return false }
func (x Seed) act(_ *tank, w *trial) { w.do(once, x.Event()) }

// Event is the seed as it would be logged, without its day.
func (x Seed) Event() model.Event {
	return model.Event{Kind: model.Seed, Volume: x.Volume, DonorPH: x.DonorPH, DonorTemp: x.DonorTemp,
		DonorSalinity: x.DonorSalinity, Hours: x.Hours, Kept: x.Kept}
}

func (x Culture) valid() error {
	return within(float64(x), float64(model.UnknownContent), float64(model.Heterotrophs))
}
func (x Culture) isSo(*tank) bool { return false }
func (x Culture) act(_ *tank, w *trial) {
	w.do(once, model.Event{Kind: model.Culture, Content: model.Content(x)})
}

// Lives is how much of a seed's bacteria is expected to live on, and the water that it
// comes into, by the medians of the draws.
type Lives struct {
	model.Survival
	TankPH       float64
	TankTemp     unit.Celsius
	TankSalinity float64 // g/kg
}

// livesOf is how much of the seed among the changes lives on, nil if there is none.
func livesOf(p *fit.Posterior, changes []Change) *Lives {
	for _, c := range changes {
		if s, ok := c.(Seed); ok {
			e := s.Event()
			e.Day = unit.Days(p.Plan.Now)
			return lives(p, e)
		}
	}
	return nil
}

// lives is how much of a seed lives on in the water of its day.
func lives(p *fit.Posterior, e model.Event) *Lives {
	p = p.Thin(fewDraws)
	var all [6][]float64 // pH of the tank, then what survives it, by draw
	for i := range all {
		all[i] = make([]float64, len(p.Draws))
	}
	model.Each(len(p.Draws), func(on *model.Lane) func(int) {
		run := on.Run()
		return func(i int) {
			run.Reset(p.Plan, &p.Draws[i])
			run.To(float64(e.Day), nil)
			s := run.Survival(&e)
			for k, v := range [...]float64{run.PH(), s.PH, s.Acid, s.Temp, s.Salinity, s.Air} {
				all[k][i] = v
			}
		}
	})
	var run model.Run
	run.Reset(p.Plan, &p.Draws[0])
	run.To(float64(e.Day), nil)
	at := run.Setup()
	return &Lives{
		Survival: model.Survival{PH: median(all[1]), Acid: median(all[2]), Temp: median(all[3]), Salinity: median(all[4]), Air: median(all[5])},
		TankPH:   median(all[0]), TankTemp: at.Temp, TankSalinity: at.Salinity,
	}
}
