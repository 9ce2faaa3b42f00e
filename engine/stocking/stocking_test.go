package stocking

import (
	"errors"
	"math"
	"reflect"
	"runtime"
	"testing"

	"ripen/engine/chem"
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// with is the herd of a tank with so many times the bacteria, all else being as it is.
func with(p *fit.Posterior, times float64) *herd {
	h := newHerd(p.Thin(draws))
	for i := range h.runs {
		for g := range h.runs[i].State.B {
			h.runs[i].State.B[g] *= times
		}
	}
	return h
}

func must(t *testing.T, p *fit.Posterior, w Wish) Advice {
	t.Helper()
	a, err := Of(p, w)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// now is what may go in at the first step, g/d of food.
func now(a Advice) float64 {
	if a.Now == "wait" {
		return 0
	}
	return float64(a.Steps[0].Add.Feed)
}

// TestMoreCapacityCarriesMore: on the same tank with more of the same bacteria
// never less is allowed at first, and food follows capacity. In all it may be a little
// less: stages are chosen one after another, so that a larger first one can cost
// a later one, and what is left may not be worth a step, which grows with capacity.
func TestMoreCapacityCarriesMore(t *testing.T) {
	p := fit.Fit(read(22, plain), 22, fit.Hypothesis{}, fit.Draws) // what is carried in all is of much chance
	var last Advice
	for i, times := range []float64{0.05, 0.2, 0.5, 1, 2, 4} {
		a := with(p, times).advise(Wish{Animals: 1000})
		if i > 0 {
			if got, want := *a.Capacity.P10, *last.Capacity.P10; got <= want {
				t.Errorf("%g times the bacteria oxidise %g mg N/d, fewer %g", times, got, want)
			}
			if in, before := a.Wanted.Feed-a.Rest.Feed, last.Wanted.Feed-last.Rest.Feed; now(a) < now(last) || in < 0.85*before {
				t.Errorf("%g times the bacteria: %g g/d at first, %v left; fewer: %g g/d, %v left", times, now(a), a.Rest, now(last), last.Rest)
			}
		}
		if got, want := *a.Feed.P10, *a.Capacity.P10*Prudent/model.FoodN; math.Abs(got-want) > 0.01*want {
			t.Errorf("food %g g/d of %g mg N/d, want %g", got, *a.Capacity.P10, want)
		}
		last = a
	}
	if now(last) == 0 {
		t.Error("no tank may be stocked, so nothing was compared")
	}
}

// TestYoungTankWaits: without capacity, and without a reading, nothing goes in.
func TestYoungTankWaits(t *testing.T) {
	for _, day := range []unit.Days{0, 3} {
		a := must(t, fitted(read(int(day), plain), day), Wish{Animals: 20})
		if a.Now != "wait" || a.Reason != TooSmall || len(a.Steps) > 0 || a.Rest != a.Wanted {
			t.Errorf("day %g: %s because of %q, steps %v, left %v of %v", float64(day), a.Now, a.Reason, a.Steps, a.Rest, a.Wanted)
		}
	}
}

// TestStagesAddUp: the steps and what is left sum to what is wanted, each keeps
// its chance, comes a week or more after the last, and asks for no more than the
// prudent share at the first one.
func TestStagesAddUp(t *testing.T) {
	p := ready()
	for _, w := range []Wish{{}, {Animals: 5}, {Animals: 60}, {Feed: 2}, {Animals: 400}, {Animals: 100, Feed: 1}, {Animals: 10000}} {
		a := must(t, p, w)
		sum, last := a.Rest, math.Inf(-1)
		total := a.Present
		for i, s := range a.Steps {
			sum, total = sum.plus(s.Add), total.plus(s.Add)
			if s.Chance < Chance {
				t.Errorf("%v: step %d holds with chance %g", w, i, s.Chance)
			}
			if s.Day < last+between {
				t.Errorf("%v: step %d on day %g follows day %g", w, i, s.Day, last)
			}
			if math.Abs(float64(s.Total.Feed-total.Feed)) > 1e-9 {
				t.Errorf("%v: step %d has %v in all, want %v", w, i, s.Total, total)
			}
			last = s.Day
		}
		if math.Abs(float64(sum.Animals-a.Wanted.Animals)) > 1e-6 || math.Abs(float64(sum.Feed-a.Wanted.Feed)) > 1e-6 {
			t.Errorf("%v: steps and rest sum to %v of %v", w, sum, a.Wanted)
		}
		if len(a.Steps) > 0 && float64(a.Steps[0].Total.Feed) > *a.Feed.P10*1.01 {
			t.Errorf("%v: the first step asks for %g g/d, more than %g", w, float64(a.Steps[0].Total.Feed), *a.Feed.P10)
		}
		if (a.Now == "all") != (len(a.Steps) == 1 && a.Rest.Feed < 1e-9 && a.Reason == "") {
			t.Errorf("%v: %s with steps %v, rest %v", w, a.Now, a.Steps, a.Rest)
		}
	}
}

// TestTooManyAtOnce: a stock far beyond the capacity makes peaks above the limits,
// and more animals never lower ones; in stages the same tank stays within them.
func TestTooManyAtOnce(t *testing.T) {
	p := ready()
	var last Peaks
	for i, grams := range []unit.Grams{20, 100, 500, 2000} {
		x := must(t, p, Wish{Animals: grams})
		a := *x.AtOnce
		if i > 0 && (*a.Ammonia.P90 < *last.Ammonia.P90 || a.Chance > last.Chance) {
			t.Errorf("%g g at once: %g mg/L with chance %g, fewer animals %g with %g", float64(grams), *a.Ammonia.P90, a.Chance, *last.Ammonia.P90, last.Chance)
		}
		if x.Staged != nil && x.Staged.Chance < Chance {
			t.Errorf("%g g in stages keep within the limits with chance %g", float64(grams), x.Staged.Chance)
		}
		last = a
	}
	if last.Chance > 0.1 || *last.Ammonia.P50 < 1 {
		t.Errorf("2 kg at once in 100 L: %g mg/L, chance %g of staying within the limits", *last.Ammonia.P50, last.Chance)
	}
}

// TestAnimalsInCount: what is in already asks for its part, so less is added than
// to the same tank without.
func TestAnimalsInCount(t *testing.T) {
	c := read(22, plain)
	empty := must(t, ready(), Wish{Animals: 1000})
	c.Events = append(c.Events, model.Event{Day: 22, Seq: 9, Kind: model.Stocked, Mass: 30})
	a := must(t, fitted(c, 22), Wish{Animals: 1000})
	if a.Present.Animals != 30 || math.Abs(float64(a.Present.Feed)-30*model.Ration) > 1e-9 {
		t.Errorf("30 g put in count as %v", a.Present)
	}
	if now(a) >= now(empty) || now(empty) == 0 {
		t.Errorf("with animals in %g g/d more may be fed, without %g", now(a), now(empty))
	}
	c.Events = append(c.Events, model.Event{Day: 22, Seq: 10, Kind: model.Losses, Mass: 50})
	if l := must(t, fitted(c, 22), Wish{}).Present; l.Animals != 0 || l.Feed != 0 {
		t.Errorf("after all died %v is in", l)
	}
}

// TestFoodFactors holds the model's factors to the published ones: nitrogen in
// protein, and the share that fish give off at once.
func TestFoodFactors(t *testing.T) {
	const protein = 400 // mg in a gram of food of 40 %
	if n := protein * chem.NitrogenPerProtein; math.Abs(model.FoodN-0.8*n) > 1e-9 {
		t.Errorf("a gram of food sets free %g mg N, want four fifths of %g", model.FoodN, n)
	}
	if tan := protein * chem.TANPerProtein; math.Abs(tan-36.8) > 1e-9 || model.FoodN < tan {
		t.Errorf("a gram of food: %g mg N in the end, less than the %g mg given off at once (Timmons & Ebeling)", model.FoodN, tan)
	}
}

// TestAnyCores: the advice is the same, bit for bit, on any number of cores.
func TestAnyCores(t *testing.T) {
	p := ready()
	a := must(t, p, Wish{Animals: 150})
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if b := must(t, p, Wish{Animals: 150}); !reflect.DeepEqual(a, b) {
		t.Errorf("%+v on several cores, %+v on one", a, b)
	}
}

func TestWishRefused(t *testing.T) {
	p := fitted(read(3, plain), 3)
	for _, w := range []Wish{{Animals: -1}, {Feed: -0.1}, {Animals: unit.Grams(math.NaN())}, {Feed: unit.Grams(math.Inf(1))}, {Animals: 10001}, {Feed: 1001}} {
		if _, err := Of(p, w); !errors.Is(err, ErrWish) {
			t.Errorf("%v: %v, want ErrWish", w, err)
		}
	}
}

// TestChlorideGuards: told chloride lifts the nitrite limit as salt does, and never
// lets fewer animals in.
func TestChlorideGuards(t *testing.T) {
	p := ready()
	without := must(t, p, Wish{Animals: 300})
	last := without
	for _, tt := range []struct {
		chloride, limit float64 // mg Cl/L, mg N/L: British Columbia 2006, Table 16
	}{{5, 0.18}, {40, 0.60}} {
		a := must(t, p, Wish{Animals: 300, Chloride: tt.chloride})
		if got := float64(a.Limits.Nitrite.N(unit.Nitrite)); math.Abs(got-tt.limit) > 1e-9 {
			t.Errorf("%g mg Cl/L: nitrite is held to %g mg N/L, want %g", tt.chloride, got, tt.limit)
		}
		if now(a) < now(last) {
			t.Errorf("%g mg Cl/L: %g g/d at first, with less chloride %g", tt.chloride, now(a), now(last))
		}
		last = a
	}
	if now(without) >= now(last) {
		t.Errorf("chloride makes no difference: %g g/d", now(last))
	}
	if _, err := Of(p, Wish{Chloride: -1}); !errors.Is(err, ErrWish) {
		t.Errorf("negative chloride: %v", err)
	}
}

// TestPresent: what is in eats what was told since it went in, else its ration.
func TestPresent(t *testing.T) {
	half, thirty := unit.Grams(0.5), unit.Grams(30)
	in := model.Event{Day: 5, Kind: model.Stocked, Mass: 10}
	for _, tt := range []struct {
		reason string
		c      model.Case
		want   Load
	}{
		{"nothing", model.Case{}, Load{}},
		{"the ration of 10 g", model.Case{Events: []model.Event{in}}, Load{10, 0.15}},
		{"told since", model.Case{Events: []model.Event{in}, Changes: []model.Change{{Day: 5, Feed: &half}}}, Load{10, 0.5}},
		{"told before", model.Case{Events: []model.Event{in}, Changes: []model.Change{{Day: 4, Feed: &half}}}, Load{10, 0.15}},
		{"more since it was told", model.Case{Events: []model.Event{in, {Day: 7, Kind: model.Stocked, Mass: 10}}, Changes: []model.Change{{Day: 6, Feed: &half}}}, Load{20, 0.65}},
		{"weighed again after more went in", model.Case{Setup: model.Setup{Method: model.FishIn, Stock: 20, Feed: 0.3}, Events: []model.Event{in}, Changes: []model.Change{{Day: 10, Stock: &thirty}}}, Load{30, 0.45}},
		{"and after losses", model.Case{Setup: model.Setup{Method: model.FishIn, Stock: 40, Feed: 0.6}, Events: []model.Event{{Day: 5, Kind: model.Losses, Mass: 10}}, Changes: []model.Change{{Day: 6, Stock: &thirty}}}, Load{30, 0.45}},
		{"some died", model.Case{Events: []model.Event{in, {Day: 7, Kind: model.Losses, Mass: 4}}}, Load{6, 0.09}},
	} {
		got := present(&tt.c, &model.Habit{})
		if math.Abs(float64(got.Animals-tt.want.Animals)) > 1e-9 || math.Abs(float64(got.Feed-tt.want.Feed)) > 1e-9 {
			t.Errorf("%s: %v, want %v", tt.reason, got, tt.want)
		}
	}
}

// TestRationGrown: animals whose food nobody told eat by now what the draws have fed them, not the
// ration of the first day.
func TestRationGrown(t *testing.T) {
	p := fitted(read(60, func(s *model.Setup) { s.Method = model.FishIn }), 60).Thin(draws)
	h := newHerd(p)
	var was, is float64 // a day's food of all draws, before one asks and after
	for i := range p.Draws {
		day := func(r *model.Run) float64 {
			before := r.Ledger.In
			r.To(61, nil)
			return r.Ledger.In - before
		}
		r := p.Plan.Start(&p.Draws[i])
		r.To(60, nil)
		was, is = was+day(r), is+day(&h.runs[i])
	}
	if t.Logf("%.2f g a day, %.2f times the first ration", float64(h.present.Feed), grown(p)); is < 0.85*was || is > 1.15*was || grown(p) < 1.5 {
		t.Errorf("they get %.2f of what they got, which had grown %.2f times", is/was, grown(p))
	}
}
