package model

import "ripen/engine/unit"

// scenario is a tank over 60 days, picked to make one part of the equations work.
type scenario struct {
	name, reason string
	setup        func(*Setup)
	par          func(*Params)
	events       []Event
	changes      []Change
}

const scenarioDays = 60

// daily returns an event on each of the days from, from+every, ... below to.
func daily(e Event, from, to, every float64) (out []Event) {
	for d := from; d < to; d += every {
		e.Day = unit.Days(d)
		out = append(out, e)
	}
	return out
}

func join(lists ...[]Event) (out []Event) {
	for _, l := range lists {
		for _, e := range l {
			e.Seq = len(out)
			out = insert(out, e)
		}
	}
	return out
}

func at(day float64, e Event) []Event {
	e.Day = unit.Days(day)
	return []Event{e}
}

func dose(n unit.MgN) Event { return Event{Kind: Dose, N: n} }

func changed(f float64, how Treated) Event {
	return Event{Kind: WaterChange, Fraction: f, Treated: how}
}

// scenarios are tanks as different as the model knows, with everything that
// makes steps hard: stiff uptake, collapse, poison, sudden change.
var scenarios = []scenario{
	{name: "dosed", reason: "the ordinary start: growth by six orders of e, then uptake that clears each dose",
		events: join(daily(dose(1.6), 0, 1, 1), daily(dose(1.6), 18, 60, 3))},
	{name: "daily", reason: "the speed benchmark: a dose every day, so 53 fresh starts",
		setup:  func(s *Setup) { s.KH = unit.DKH(14).CaCO3() },
		events: join(daily(dose(1.5), 0, 1, 1), daily(dose(1), 8, 60, 1))},
	{name: "food", reason: "ammonia from food left to rot, then more food at once",
		setup:  func(s *Setup) { s.Method, s.Feed = Food, 1.2 },
		events: join(at(25, Event{Kind: FeedOnce, Mass: 8}))},
	{name: "dark", reason: "leaching soil, water changes that take out what leached",
		setup:  func(s *Setup) { s.Method, s.PH, s.KH = DarkStart, 6.9, unit.DKH(4).CaCO3() },
		events: join(daily(changed(0.5, Yes), 7, 40, 7), daily(dose(1), 42, 60, 6))},
	{name: "planted", reason: "plants with their small half-saturation compete for ammonium; more are added",
		setup:  func(s *Setup) { s.Method, s.Plants, s.Temp = Planted, FewFast, 24 },
		events: join(at(12, Event{Kind: PlantsAdded, Plants: ManyFast}), daily(dose(0.8), 20, 60, 8))},
	{name: "fish", reason: "a ration that rises every day, so the equations depend on time, and weekly changes",
		setup:  func(s *Setup) { s.Method, s.Stock, s.Feed, s.Given.Stock, s.Given.Feed = FishIn, 15, 0.3, false, false },
		par:    func(p *Params) { p.Rise, p.Loss = 0.03, 0.02 },
		events: join(daily(changed(0.3, Yes), 7, 60, 7), at(30.4, Event{Kind: Stocked, Mass: 5}))},
	{name: "cold", reason: "14 C: slow growth, hard to see an error of rate",
		setup:  func(s *Setup) { s.Temp = 14 },
		par:    func(p *Params) { p.Seed, p.Decay = [Guilds]float64{0.05, 0.05, 0.02, 0.05}, 1.3 },
		events: join(at(0, dose(1.6)), daily(dose(0.8), 35, 60, 4))},
	{name: "hot", reason: "35 C: close to the upper limits, fast decay, little oxygen, weak flow",
		setup:  func(s *Setup) { s.Temp, s.Flow = 35, Weak },
		par:    func(p *Params) { p.HalfA, p.Phos = 1.5, 0.9 },
		events: join(at(0, dose(2)), daily(dose(1.2), 15, 60, 2))},
	{name: "acidic", reason: "pH 6.2 and little alkalinity: factors of pH at their steepest",
		setup:  func(s *Setup) { s.PH, s.KH = 6.2, unit.DKH(1.2).CaCO3() },
		par:    func(p *Params) { p.Seed = [Guilds]float64{0.05, 0.08, 0.03, 0.05} },
		events: join(at(0, dose(1.2)), daily(dose(0.6), 25, 60, 5), at(40, changed(0.5, Yes)))},
	{name: "crash", reason: "salt doses use up all alkalinity: growth stops until a buffer is added",
		setup: func(s *Setup) { s.KH = unit.DKH(1.5).CaCO3() },
		events: join(at(0, Event{Kind: Dose, N: 3, Salt: true}), daily(Event{Kind: Dose, N: 2, Salt: true}, 14, 60, 4),
			at(41, Event{Kind: Buffer, Alk: unit.DKH(3).CaCO3()}))},
	{name: "chlorine", reason: "untreated tap water kills most of a grown film within hours",
		setup:  func(s *Setup) { s.Source = Chlorinated },
		events: join(at(0, dose(1.6)), daily(dose(1), 14, 60, 2), at(24.3, changed(0.4, No)), at(40.6, changed(0.25, No)))},
	{name: "chloramine", reason: "the same with chloramine, slower, and it brings ammonia",
		setup:  func(s *Setup) { s.Source = Chloraminated },
		events: join(at(0, dose(1.6)), daily(dose(1), 14, 60, 2), at(24.3, changed(0.5, No)), at(40.6, changed(0.3, No)))},
	{name: "outage", reason: "30 hours without the filter, later the heater fails for four days",
		events:  join(at(0, dose(1.6)), daily(dose(1), 12, 60, 1.5), at(26.2, Event{Kind: Outage, Hours: 30})),
		changes: []Change{{Day: 40, Temp: new(unit.Celsius(17))}, {Day: 44, Temp: new(unit.Celsius(26))}}},
	{name: "medicine", reason: "five days of slowing and death in a tank with doses; then an unseen loss",
		par:    func(p *Params) { p.Unseen = Unseen{Day: 45.25, Kill: 0.5} },
		events: join(at(0, dose(1.6)), daily(dose(1), 14, 60, 2), at(22, Event{Kind: Medicine, Hours: 120}))},
	{name: "changes", reason: "half the water every third day, cleaned twice: 20 jumps of most pools",
		setup: func(s *Setup) { s.PH, s.KH = 7.9, unit.DKH(9).CaCO3() },
		par:   func(p *Params) { p.TapNO3, p.AlkRatio = 3, 0.9 },
		events: join(daily(changed(0.5, Yes), 3, 60, 3), daily(dose(1.2), 0, 60, 3), at(20.5, Event{Kind: Cleaned}),
			at(38.5, Event{Kind: Cleaned, Harsh: true}))},
	{name: "seeded", reason: "mature media on day 0: full uptake at once, stiff from the start",
		setup:  func(s *Setup) { s.Method = Seeded },
		events: join(at(0, Event{Kind: Seed, Volume: 0.5}), daily(dose(1.6), 0.01, 60, 2), at(5, Event{Kind: Culture}))},
	{name: "bare", reason: "no medium: glass alone, so growth meets the limit of room",
		setup:  func(s *Setup) { s.Volume, s.Media, s.MediaVolume, s.Flow = 30, NoMedia, 0, Weak },
		par:    func(p *Params) { p.Area = 0.5 },
		events: join(at(0, dose(1.6)), daily(dose(1.5), 14, 60, 1))},
	{name: "brackish", reason: "salt water at pH 8.2: much free ammonia, less oxygen",
		setup:  func(s *Setup) { s.PH, s.KH, s.Salinity, s.Temp = 8.2, unit.DKH(8).CaCO3(), 15, 27 },
		par:    func(p *Params) { p.HalfN, p.GrowN = 0.7, 0.9 },
		events: join(at(0, dose(1.6)), daily(dose(1), 16, 60, 1))},
	{name: "high", reason: "8 mg N/L at pH 8.3: both guilds inhibited by free ammonia, nitrite high for weeks",
		setup:  func(s *Setup) { s.PH, s.KH = 8.3, unit.DKH(12).CaCO3() },
		par:    func(p *Params) { p.FreeNH3 = 0.8 },
		events: join(at(0, dose(8)), at(30, dose(4)), at(50, changed(0.8, Yes)))},
	{name: "starving", reason: "a grown film without food for 35 days, then a dose",
		par:    func(p *Params) { p.Seed = [Guilds]float64{0.5, 0.3, 0.1, 0.6} },
		events: join(daily(dose(2), 0, 20, 1), at(55, dose(2)))},
}

// build returns the scenario's plan and parameters.
func (x *scenario) build() (*Plan, *Params) {
	s := typicalCase().Setup
	s.Given.Stock, s.Given.Feed = true, true
	if x.setup != nil {
		x.setup(&s)
	}
	par := typicalParams()
	if x.par != nil {
		x.par(&par)
	}
	return NewPlan(Case{Setup: Typical(s), Events: x.events, Changes: x.changes}, scenarioDays), &par
}
