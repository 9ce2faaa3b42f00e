package commands

import (
	"errors"
	"time"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/stocking"
	"ripen/engine/unit"
	"ripen/store"
)

func stockSpecs() []Spec {
	return []Spec{{Name: "stock", Private: true, Help: "how many animals the tank carries, and in which steps", Example: "/stock grams:20g", run: stock,
		Options: []Option{
			optTank(),
			{Name: "grams", Type: TypeMass, Min: 0.01, Max: 100000, Unit: "g", Help: "what the animals that you plan to add weigh together"},
			{Name: "feed", Type: TypeMass, Min: 0.001, Max: 10000, Unit: "g", Help: "food a day that you plan for them; by default 1.5 % of their weight"},
			optChloride(),
		}}}
}

// Stock is how much a tank carries, and in which steps animals may go in.
// Concentrations are on the member's scale.
type Stock struct {
	Head
	Capacity outlook.Quantiles `json:"capacity_mgn_per_day"` // of the whole tank
	Feed     outlook.Quantiles `json:"feed_g_per_day"`       // in all, what animals in the tank get included
	Now      string            `json:"now"`                  // "wait", "part" or "all"
	Reason   string            `json:"reason,omitempty"`     // why to wait: "hardness", "capacity", "water", "soon", "full" or "shows"
	Shows    []string          `json:"shows,omitempty"`      // what the last tests show, where that is why to wait
	Present  StockLoad         `json:"present"`              // in the tank already
	Wanted   StockLoad         `json:"wanted"`               // to be added
	Planned  bool              `json:"planned"`              // wanted was told; else it is what the capacity carries
	Steps    []StockStep       `json:"steps"`
	Rest     StockLoad         `json:"rest"` // of wanted, what no step carries
	AtOnce   *StockPeaks       `json:"at_once"`
	Staged   *StockPeaks       `json:"staged"`
	Limits   StockLimits       `json:"limits"`
	Prudent  float64           `json:"prudent_percent"` // share of the low figure of the capacity that is used
	Ration   float64           `json:"ration_percent"`  // food a day where it was not told, of the animals' weight
	Change   float64           `json:"water_change_percent"`
	Every    float64           `json:"water_change_every_days"`
	Chloride float64           `json:"chloride_mgl"` // as told; 0 if not
	Assumed  []string          `json:"assumed"`
	Fit      string            `json:"fit"`
	Target   float64           `json:"target_mgl"`
	Plants   bool              `json:"plants"` // more than a few slow ones
	Scale    string            `json:"scale"`
	Cautions []string          `json:"cautions"`
}

// StockLoad is animals and their food.
type StockLoad struct {
	Animals float64 `json:"grams"`
	Feed    float64 `json:"feed_g_per_day"`
}

// StockStep is what goes in on one day.
type StockStep struct {
	Step    int       `json:"step"`
	Day     float64   `json:"day"`
	Date    string    `json:"date"`
	Add     StockLoad `json:"add"`
	Total   StockLoad `json:"total"`   // with what is in already
	Percent float64   `json:"percent"` // chance that the water keeps within the limits
}

// StockPeaks are the highest levels until two weeks after the last animals.
type StockPeaks struct {
	Ammonia outlook.Quantiles `json:"ammonia_mgl"` // total
	Free    outlook.Quantiles `json:"free_ammonia_mgl"`
	Nitrite outlook.Quantiles `json:"nitrite_mgl"`
	Percent float64           `json:"percent"` // chance that they keep within the limits
}

// StockLimits is what the steps are held to.
type StockLimits struct {
	Ammonia float64 `json:"ammonia_mgl"` // total, at the tank's pH and temperature
	Free    float64 `json:"free_ammonia_mgl"`
	Nitrite float64 `json:"nitrite_mgl"`

	NoChloride bool `json:"no_chloride"` // none is known of, so nitrite counts as in water without
}

// stock asks the engine what a tank carries.
func stock(c *call) (Result, error) {
	t, cs, now, err := c.theCase()
	if err != nil {
		return nil, err
	}
	if err := c.checkStock(cs.Setup.Volume); err != nil {
		return nil, err
	}
	wish := stocking.Wish{Animals: unit.Grams(c.args["grams"].low), Feed: unit.Grams(c.args["feed"].low)}
	if wish == (stocking.Wish{}) {
		wish = planned(cs, now)
	}
	wish.Chloride = c.args["chloride"].low
	a, err := c.adviser.Stock(cs, now, wish)
	if errors.Is(err, stocking.ErrWish) {
		return nil, refuse(CodeRange, "grams", "the planned animals of %s g and food of %s g a day are more than its water can hold; correct them with /tank edit stock: feed:, or name them here, as in grams:20g",
			number(float64(wish.Animals), 2), number(float64(wish.Feed), 3))
	}
	if err != nil {
		return nil, engineError(err)
	}
	r := stockResult(t, cs, a, c.At, c.units.Scale)
	r.Chloride = wish.Chloride
	r.Limits.NoChloride = r.Limits.NoChloride && wish.Chloride == 0
	if a.Crash != "" {
		r.Shows = []string{a.Crash}
	}
	if r.Now != "wait" {
		if r.Shows = showing(cs, now, c.units.Scale); len(r.Shows) > 0 {
			r.Now, r.Reason, r.Steps, r.Staged, r.Rest = "wait", "shows", []StockStep{}, nil, r.Wanted
		}
	}
	return r, nil
}

// checkStock refuses what no water can hold.
func (c *call) checkStock(volume unit.Litres) *Error {
	for _, o := range []struct {
		name string
		most float64
	}{{"grams", stocking.MostAnimals}, {"feed", stocking.MostFeed}} {
		a := c.args[o.name]
		if err := checkLoad(o.name, quote(a.typed), a.low, o.most, volume); err != nil {
			return err
		}
	}
	return nil
}

// planned is what the set-up plans and is not in yet.
func planned(c model.Case, now unit.Days) (w stocking.Wish) {
	set := current(c.Setup, c.Changes, now)
	if set.Method == model.FishIn {
		return w
	}
	w = stocking.Wish{Animals: set.Stock, Feed: set.Feed}
	if set.Method == model.Food {
		w.Feed = 0 // is given to rot
	}
	for _, e := range c.Events {
		if e.Kind == model.Stocked && e.Day <= now {
			w.Animals, w.Feed = max(w.Animals-e.Mass, 0), max(w.Feed-model.Ration*e.Mass, 0)
		}
	}
	if set.Stock > 0 && w.Animals == 0 {
		w.Feed = 0
	}
	return w
}

// stockResult makes the typed result of what the engine found.
func stockResult(t store.Tank, cs model.Case, a stocking.Advice, at time.Time, scale string) Stock {
	ion := func(c unit.MgIon, s unit.Species) float64 { return digits(shownOn(scale, float64(c), s), 3) }
	r := Stock{
		Head: headOf(t, at), Capacity: a.Capacity, Feed: a.Feed, Now: a.Now, Reason: a.Reason, Planned: a.Planned,
		Present: stockLoad(a.Present), Wanted: stockLoad(a.Wanted), Rest: stockLoad(a.Rest), Steps: []StockStep{},
		AtOnce: stockPeaks(a.AtOnce, scale), Staged: stockPeaks(a.Staged, scale),
		Limits:  StockLimits{ion(a.Limits.Ammonia, unit.Ammonia), digits(a.Limits.Free, 3), ion(a.Limits.Nitrite, unit.Nitrite), current(cs.Setup, cs.Changes, daysSince(t.Started, at)).Salinity == 0},
		Prudent: 100 * stocking.Prudent, Ration: 100 * model.Ration, Change: rounded(100*a.Change, 0), Every: rounded(a.Every, 0),
		Target: rounded(onScaleOf(scale, cs.Setup.Target, unit.Ammonia), 2), Scale: scale,
		Assumed: append([]string{}, a.Assumed...), Fit: a.Fit, Plants: wellPlanted(cs, daysSince(t.Started, at)),
		Cautions: cautionTexts("test-before-animals", "species", "welfare"),
	}
	for i, s := range a.Steps {
		when := dateOf(t.Started, s.Day).Round(time.Minute)
		r.Steps = append(r.Steps, StockStep{i + 1, dayNumber(t.Started, when), when.UTC().Format("2006-01-02"), stockLoad(s.Add), stockLoad(s.Total), percent(s.Chance)})
	}
	return r
}

func stockLoad(l stocking.Load) StockLoad {
	return StockLoad{digits(float64(l.Animals), 3), digits(float64(l.Feed), 3)}
}

func stockPeaks(p *stocking.Peaks, scale string) *StockPeaks {
	if p == nil {
		return nil
	}
	return &StockPeaks{scaled3(p.Ammonia, scale, unit.Ammonia), p.Free, scaled3(p.Nitrite, scale, unit.Nitrite), percent(p.Chance)}
}
