package outlook

import (
	"math"

	"ripen/engine/fit"
	"ripen/engine/model"
)

// stage says where most draws stand now, and whether the tank was further before: it
// cleared ammonia or nitrite once, and what does so was lost.
func stage(p *fit.Posterior, cs []model.Course) (name string, again bool) {
	now := p.Plan.Now
	var pass, ammonia, nitrite float64
	for _, c := range cs {
		if c.Passes {
			pass++
		}
		if c.AmmoniaClear <= now { // false for NaN
			ammonia++
			if math.IsNaN(c.NitritePeak) || c.NitriteClear <= now {
				nitrite++
			}
		}
	}
	n := float64(len(cs))
	if pass >= 0.8*n {
		return "ready", false
	}
	proving, second := nitrite >= 0.5*n, ammonia >= 0.5*n
	if !second && pass >= 0.5*n { // plants, or bacteria that met no ammonia yet
		return "proving", false
	}
	if !second {
		return "ammonia", false
	}
	left := leftovers(p)
	switch {
	case left[0] > 0.5:
		return "ammonia", true
	case !proving:
		return "nitrite", false
	case left[1] > 0.5:
		return "nitrite", true
	}
	return "proving", false
}

// soon is within how many days ammonia or nitrite goes that goes down by itself. Common
// practice, no source.
const soon = 3

// leftovers is the share of draws in which ammonia, and nitrite, stand now and will take
// longer than soon, by what the bacteria could oxidise.
func leftovers(p *fit.Posterior) (share [2]float64) {
	few := p.Thin(256)
	stands := make([][2]bool, len(few.Draws))
	model.Each(len(few.Draws), func(on *model.Lane) func(int) {
		run := on.Run()
		return func(i int) {
			few.Resume(i, run)
			run.To(few.Plan.Now, nil)
			can := run.Capacity()
			for j, over := range [2]float64{run.State.TAN - float64(model.ClearTAN), run.State.NO2 - float64(model.ClearNO2)} {
				stands[i][j] = over > soon*can[j]
			}
		}
	})
	for _, s := range stands {
		for j, yes := range s {
			if yes {
				share[j] += 1 / float64(len(few.Draws))
			}
		}
	}
	return share
}
