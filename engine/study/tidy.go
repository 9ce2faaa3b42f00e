package study

import "ripen/engine/model"

// mend has the keeper make no mistakes: drops that are read rightly each evening, every dose
// as meant, all of it written down, no day away. What is left open is what charts do not
// show: a haze, the steps, and how the tank's laws differ from the engine's.
func (k *keeper) mend() {
	k.tidy = true
	k.logs, k.habit, k.weekly, k.away = 1, whenClear, false, -20
	k.chart, k.tool = charts[0], model.Liquid
	k.chart.slips, k.chart.between = 0, 0
	k.bias = [3]float64{1, 1, 1}
}

// known is what a tidy keeper states: all facts, as they are.
func known(f *facts) model.Setup {
	s := f.set
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true,
		Source: true, Conditioner: true, Target: s.Given.Target, Stock: s.Method == model.FishIn, Feed: s.Feed > 0}
	return model.Typical(s)
}
