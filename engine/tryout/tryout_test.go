package tryout

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"runtime"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

const now unit.Days = 12

// fitted is a dosed tank after twelve days in which little happened yet.
func fitted(change func(*model.Case)) *fit.Posterior {
	s := model.Setup{Volume: 60, PH: 7.4, KH: unit.DKH(6).CaCO3(), Temp: 18, Media: model.Sponge, MediaVolume: 0.6,
		Flow: model.Normal, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	c := model.Case{Setup: model.Typical(s)}
	c.Events = append(c.Events, model.Event{Kind: model.Dose, N: c.Setup.Target})
	seen := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	for _, x := range []struct{ day, ammonia, nitrite float64 }{{1, 2, 0}, {4, 2, 0}, {8, 2, 0.25}, {11, 1, 0.5}} {
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(x.day), Ammonia: seen(x.ammonia), Nitrite: seen(x.nitrite)})
	}
	change(&c)
	return fit.Fit(c, now, fit.Hypothesis{}, 256)
}

func asIs(*model.Case) {}

func fishIn(c *model.Case) {
	c.Setup.Method, c.Events, c.Setup.Stock, c.Setup.Feed = model.FishIn, nil, 20, 0.3
}

func try(t *testing.T, p *fit.Posterior, changes ...Change) Result {
	t.Helper()
	r, err := Of(p, changes...)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func has(x Trial, e Effect) bool {
	for _, f := range x.Effects {
		if f == e {
			return true
		}
	}
	return false
}

// A cold tank that is warmed is done sooner, one that is cooled later; warmer water
// holds less oxygen and more free ammonia.
func TestWarmer(t *testing.T) {
	p := fitted(asIs)
	warm := try(t, p, Temp(27)).Each[0]
	if *warm.Saved.P50 < 2 || *warm.Saved.P10 < 0 || warm.Helps < 0.9 {
		t.Errorf("27 C instead of 18 saves%s, helps %.2f; want days", spread(warm.Saved), warm.Helps)
	}
	warmer := try(t, p, Temp(22)).Each[0]
	if *warmer.Saved.P50 <= 0 || *warmer.Saved.P50 >= *warm.Saved.P50 {
		t.Errorf("22 C saves%s, want less than 27 C, which saves%s", spread(warmer.Saved), spread(warm.Saved))
	}
	r := try(t, p, Temp(12)) // a draw that is past the horizon as it is cannot be later still
	if cold := r.Each[0]; *cold.Saved.P50 > -2 || cold.Harms+r.NotWithin < 0.95 || cold.Helps > 0 || cold.NotWithin <= r.NotWithin || has(cold, LessOxygen) {
		t.Errorf("12 C saves%s, harms %.2f, %v; want days lost", spread(cold.Saved), cold.Harms, cold.Effects)
	}
	if !has(warm, LessOxygen) || !has(warm, FreesAmmonia) || warm.After.Oxygen >= r.Before.Oxygen || warm.After.FreeAmmonia <= r.Before.FreeAmmonia {
		t.Errorf("27 C: %v, oxygen %.2f after %.2f, free ammonia %.4f after %.4f", warm.Effects, warm.After.Oxygen, r.Before.Oxygen, warm.After.FreeAmmonia, r.Before.FreeAmmonia)
	}
}

func spread(q outlook.Quantiles) string {
	s := ""
	for _, x := range []*float64{q.P10, q.P50, q.P90} {
		s += fmt.Sprintf(" %.1f", *x)
	}
	return s
}

// What is so already changes nothing at all.
func TestAlready(t *testing.T) {
	p := fitted(asIs)
	w := try(t, p, Temp(18)).Before
	for _, c := range []Change{Temp(18), PH(w.PH), KH(w.KH), Plants(model.NoPlants), Media{Kind: model.Sponge}, Flow(model.Normal), Conditioned(true)} {
		x := try(t, p, c).Each[0]
		if !x.Already || *x.Saved.P10 != 0 || *x.Saved.P90 != 0 || x.Helps != 0 || x.Harms != 0 || x.After != w || x.Effects != nil {
			t.Errorf("%T %v, which is so already: %+v", c, c, x)
		}
	}
	// Hardly anything told anew moves hardly a day, so what acts is the change, not the rerun.
	if x := try(t, p, Temp(18.06)).Each[0]; x.Already || math.Abs(*x.Saved.P50) > 0.3 {
		t.Errorf("0.06 C more moves%s days", spread(x.Saved))
	}
}

// A change is the same whatever is tried beside it, and alone it is all there is.
// What is tried together differs from each.
func TestAloneIsSingle(t *testing.T) {
	p := fitted(asIs)
	changes := []Change{Temp(26), KH(unit.DKH(9).CaCO3()), WaterChange{Fraction: 0.5, Treated: model.Yes}, Seed{Volume: 0.2}, Flow(model.Strong)}
	all := try(t, p, changes...)
	if all.Together == nil || len(all.Each) != len(changes) {
		t.Fatalf("five changes gave %d trials, together %v", len(all.Each), all.Together)
	}
	for i, c := range changes[:3] {
		one := try(t, p, c)
		if one.Together != nil || !reflect.DeepEqual(one.Each[0], all.Each[i]) {
			t.Errorf("%T alone: %+v, among others %+v", c, one.Each[0], all.Each[i])
		}
		if one.Before != all.Before || one.NotWithin != all.NotWithin {
			t.Errorf("%T: the tank before differs", c)
		}
	}
	for i, x := range all.Each {
		if *x.Saved.P50 > *all.Together.Saved.P50+0.5 {
			t.Errorf("%T saves%s alone, more than all with%s", changes[i], spread(x.Saved), spread(all.Together.Saved))
		}
	}
	if got := all.Together.After; got.Temp != 26 || math.Abs(float64(got.KH/unit.DKH(9).CaCO3())-1) > 0.06 {
		t.Errorf("together: %+v, want 26 C and 9 dKH", got)
	}
	back := []Change{changes[4], changes[3], changes[2], changes[1], changes[0]}
	if x := try(t, p, back...).Together; *x.Saved.P50 != *all.Together.Saved.P50 {
		t.Errorf("the order asked matters: %s and%s", spread(x.Saved), spread(all.Together.Saved))
	}
}

// The water comes to what was asked, also when it was tested that very moment.
func TestBrought(t *testing.T) {
	p := fitted(func(c *model.Case) {
		c.Readings = append(c.Readings, model.Reading{Day: now, PH: new(7.2), KH: new(unit.DKH(5).CaCO3())})
	})
	r := try(t, p, PH(8), KH(unit.DKH(10).CaCO3()))
	if math.Abs(r.Before.PH-7.2) > 0.12 || math.Abs(float64(r.Before.KH.DKH())-5) > 0.5 {
		t.Errorf("before: %+v, want what was read: pH 7.2, 5 dKH", r.Before)
	}
	if x := r.Each[0]; math.Abs(x.After.PH-8) > 0.05 || !has(x, FreesAmmonia) || has(x, PHJump) {
		t.Errorf("pH 8: %+v", x)
	}
	x := r.Each[1]
	rise := math.Log10(float64(unit.DKH(10).CaCO3() / r.Before.KH)) // at the same carbon dioxide
	if math.Abs(float64(x.After.KH.DKH())-10) > 0.3 || math.Abs(x.After.PH-r.Before.PH-rise) > 0.05 {
		t.Errorf("10 dKH: %+v, want the pH higher by %.2f than %.2f", x.After, rise, r.Before.PH)
	}
	if math.Abs(r.Together.After.PH-8) > 0.05 {
		t.Errorf("pH 8 with 10 dKH comes to pH %.2f", r.Together.After.PH)
	}
}

// Treated new water costs next to nothing, untreated tap water days.
func TestWaterChange(t *testing.T) {
	p := fitted(asIs)
	good := try(t, p, WaterChange{Fraction: 0.5, Treated: model.Yes}).Each[0]
	bad := try(t, p, WaterChange{Fraction: 0.5, Treated: model.No}).Each[0]
	if *bad.Saved.P50 >= *good.Saved.P50-1 || !has(bad, Chlorine) || has(bad, Diluted) || !has(good, Diluted) {
		t.Errorf("untreated saves%s %v, treated%s %v", spread(bad.Saved), bad.Effects, spread(good.Saved), good.Effects)
	}
	w := try(t, p, WaterChange{Fraction: 1, Treated: model.Yes})
	if w.Each[0].After.Ammonia > w.Before.Ammonia/50 {
		t.Errorf("all water replaced leaves %.3f of %.3f mg N/L", w.Each[0].After.Ammonia, w.Before.Ammonia)
	}
}

// A medium that is taken out takes bacteria along; more of it never harms.
func TestMedia(t *testing.T) {
	p := fitted(asIs)
	none := try(t, p, Media{Kind: model.NoMedia}).Each[0]
	more := try(t, p, Media{Kind: model.Sponge, Volume: 2}).Each[0]
	if *none.Saved.P50 > -2 || !has(none, NoMediaLeft) || *more.Saved.P50 < 0 || has(more, OldMedia) {
		t.Errorf("no medium saves%s %v, more of it%s %v", spread(none.Saved), none.Effects, spread(more.Saved), more.Effects)
	}
}

// With animals in, what endangers them is told, and only then.
func TestAnimalsFirst(t *testing.T) {
	fish, none := fitted(fishIn), fitted(asIs)
	changes := []Change{PH(9.2), Dose{N: unit.MgIon(5).N(unit.Ammonia)}}
	in, out := try(t, fish, changes...), try(t, none, changes...)
	if !in.Animals || out.Animals {
		t.Fatalf("animals %v and %v", in.Animals, out.Animals)
	}
	if x := in.Each[0]; !has(x, PHJump) || !has(x, Poison) || x.After.FreeAmmonia <= HarmFrom {
		t.Errorf("pH 9.2 on fish: %v, free ammonia %.3f", x.Effects, x.After.FreeAmmonia)
	}
	if x := in.Each[1]; !has(x, DosedAnimals) || !has(x, LargeDose) {
		t.Errorf("5 mg/L dosed on fish: %v", x.Effects)
	}
	if x := try(t, fish, Temp(27)).Each[0]; !has(x, TempJump) || has(try(t, fish, Temp(19)).Each[0], TempJump) || has(try(t, none, Temp(27)).Each[0], TempJump) {
		t.Errorf("27 C instead of 18 on fish: %v", x.Effects)
	}
	if x := *in.Together; !has(x, PHJump) || !has(x, Poison) || has(x, LargeDose) || x.After.FreeAmmonia <= in.Each[0].After.FreeAmmonia {
		t.Errorf("both on fish: %v, free ammonia %.3f after %.3f with the pH alone", x.Effects, x.After.FreeAmmonia, in.Each[0].After.FreeAmmonia)
	}
	for _, x := range out.Each {
		if has(x, PHJump) || has(x, Poison) || has(x, DosedAnimals) {
			t.Errorf("without animals: %v", x.Effects)
		}
	}
	if has(try(t, fish, PH(in.Before.PH+0.2)).Each[0], PHJump) || has(try(t, none, Dose{N: unit.MgIon(4).N(unit.Ammonia)}).Each[0], LargeDose) {
		t.Error("0.2 of pH and 4 mg/L are within what is gentle")
	}
}

// Animals that went in after the start count as those that were there from then on.
func TestStockedAreAnimals(t *testing.T) {
	p := fitted(func(c *model.Case) {
		asIs(c)
		c.Events = append(c.Events, model.Event{Day: 11, Kind: model.Stocked, Mass: 10})
	})
	r := try(t, p, PH(9.2), KH(unit.DKH(20).CaCO3()))
	if x := r.Each[0]; !r.Animals || !has(x, PHJump) || !has(x, Poison) {
		t.Errorf("pH 9.2 on animals that were put in: %v", x.Effects)
	}
	if x := r.Each[1]; !has(x, RaisesPH) || x.After.PH <= r.Before.PH || x.After.FreeAmmonia <= r.Before.FreeAmmonia {
		t.Errorf("20 dKH: %v, pH %.2f after %.2f", x.Effects, x.After.PH, r.Before.PH)
	}
	if r.Fit != "good" {
		t.Errorf("the fit of readings that were made from the model is %s", r.Fit)
	}
}

func TestRefused(t *testing.T) {
	p := fitted(asIs)
	six := []Change{Temp(25), PH(8), Flow(model.Strong), Conditioned(false), Plants(model.FewFast), Seed{Volume: 1}}
	for _, x := range []struct {
		changes []Change
		want    error
	}{
		{nil, ErrNothing}, {six, ErrMany}, {[]Change{Temp(25), Temp(26)}, ErrTwice}, {[]Change{Temp(41)}, ErrRange}, {[]Change{PH(math.NaN())}, ErrRange},
		{[]Change{WaterChange{Fraction: 1.1}}, ErrRange}, {[]Change{WaterChange{}}, ErrRange}, {[]Change{Dose{N: -1}}, ErrRange}, {[]Change{Seed{}}, ErrRange},
		{[]Change{Media{Kind: 9}}, ErrRange}, {[]Change{KH(-1)}, ErrRange},
	} {
		if _, err := Of(p, x.changes...); !errors.Is(err, x.want) {
			t.Errorf("%v: %v, want %v", x.changes, err, x.want)
		}
	}
	_, err := Of(p, Temp(25), KH(unit.DKH(2).CaCO3()))
	low, ok := errors.AsType[*LowerKH](err)
	if !ok || math.Abs(float64(low.Now.DKH())-6) > 1 || math.Abs(float64(low.Asked.DKH())-2) > 1e-9 {
		t.Errorf("2 dKH in a tank of 6: %v", err)
	}
}

// The answer is the same on one core as on all.
func TestCores(t *testing.T) {
	p := fitted(asIs)
	many := try(t, p, Temp(25), Flow(model.Weak))
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if one := try(t, p, Temp(25), Flow(model.Weak)); !reflect.DeepEqual(one, many) {
		t.Errorf("one core: %+v\nall: %+v", one, many)
	}
}

// BenchmarkTryout is five changes at once, each alone and all together.
func BenchmarkTryout(b *testing.B) {
	p := fitted(asIs)
	p = fit.FitPlan(p.Plan, nil, fit.Hypothesis{}, fit.Draws)
	for b.Loop() {
		if _, err := Of(p, Temp(26), KH(unit.DKH(9).CaCO3()), WaterChange{Fraction: 0.5}, Seed{Volume: 0.2}, Flow(model.Strong)); err != nil {
			b.Fatal(err)
		}
	}
}

// Going on as now is the outlook's own: /tryout and /outlook of one moment never say two
// chances that the tank is not done by the horizon.
func TestAsNowIsTheOutlooks(t *testing.T) {
	p := fitted(func(c *model.Case) { c.Setup.Temp, c.Setup.PH = 14, 6.6 })
	o := outlook.Of(p)
	if o.ChanceNotWithin < 0.05 {
		t.Fatalf("too quick a tank to tell: %g", o.ChanceNotWithin)
	}
	r := try(t, p, Temp(26))
	if math.Abs(r.NotWithin-o.ChanceNotWithin) > 0.001 {
		t.Errorf("not within the horizon: %g, by the outlook %g", r.NotWithin, o.ChanceNotWithin)
	}
	if x := r.Each[0]; x.NotWithin >= r.NotWithin || x.NotWithin < 0 {
		t.Errorf("warmed: %g of %g", x.NotWithin, r.NotWithin)
	}
}

// What endangers animals is judged by a fresh test, though the draws take it for a slip.
func TestTestedCounts(t *testing.T) {
	seen := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	p := fitted(func(c *model.Case) {
		fishIn(c)
		c.Setup.Feed = 0.02
		c.Readings = []model.Reading{{Day: 11.5, Ammonia: seen(4), Nitrite: seen(0)}}
	})
	read := unit.MgIon(4).N(unit.Ammonia)
	r := try(t, p, PH(8.4), WaterChange{Fraction: 0.5, Treated: model.Yes})
	if r.Before.Ammonia < read-0.01 || !has(r.Each[0], Poison) {
		t.Errorf("4 mg/L read, %.2f mg N/L counted, %v", float64(r.Before.Ammonia), r.Each[0].Effects)
	}
	if got := r.Each[1].After.Ammonia / r.Before.Ammonia; got < 0.45 || got > 0.55 {
		t.Errorf("half the water leaves %.2f of the ammonia", float64(got))
	}
	c := p.Plan.Case
	c.Events = append(c.Events, model.Event{Day: 11.8, Kind: model.WaterChange, Fraction: 0.9})
	if n := tested(&c, 12); n != 0 {
		t.Errorf("water was changed since, and still %.2f", float64(n))
	}
	if n := tested(&p.Plan.Case, 15); n != 0 {
		t.Errorf("an old test counts %.2f", float64(n))
	}
	for seq, want := range map[int]unit.MgN{1: read, 3: 0} { // told of the same moment, before and after the test
		c := model.Case{Readings: []model.Reading{{Day: 11.5, Seq: 2, Ammonia: seen(4)}},
			Events: []model.Event{{Day: 11.5, Seq: seq, Kind: model.WaterChange, Fraction: 0.5}}}
		if n := tested(&c, 12); n != want {
			t.Errorf("a test told 2, a change of water told %d: %.2f counted, want %.2f", seq, float64(n), float64(want))
		}
		c.Events[0] = model.Event{Day: 11.5, Seq: seq, Kind: model.Dose, N: 1}
		if seq == 3 {
			want = read + 1
		}
		if n := tested(&c, 12); n != want {
			t.Errorf("a test told 2, a dose told %d: %.2f counted, want %.2f", seq, float64(n), float64(want))
		}
	}
}

// A dose that the outlook counts on anyway is told to be one, and one onto ammonia is not.
func TestCountedOn(t *testing.T) {
	seen := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	idle := fitted(func(c *model.Case) {
		c.Events = nil
		c.Readings = []model.Reading{{Day: 5, Ammonia: seen(0), Nitrite: seen(0)}, {Day: 10, Ammonia: seen(0), Nitrite: seen(0)}}
	})
	two := Dose{N: unit.MgIon(2).N(unit.Ammonia)}
	if r := try(t, idle, two); !has(r.Each[0], CountedOn) {
		t.Errorf("nothing was dosed yet: %v", r.Each[0].Effects)
	}
	if r := try(t, fitted(asIs), two); has(r.Each[0], CountedOn) {
		t.Errorf("1 mg/L stands: %v", r.Each[0].Effects)
	}
}

// What the last tests show against all draws stands in trials too: the tank is not done
// in them either, and a change starts from what was read.
func TestWhatStandsIsTried(t *testing.T) {
	seen := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	p := fitted(func(c *model.Case) {
		c.Setup.Temp, c.Readings = 26, nil
		dose := c.Events[0]
		for _, x := range []struct{ day, ammonia, nitrite float64 }{{1, 1, 0.5}, {2, 0, 1}, {3, 0, 0}, {5, 0, 0}, {7, 0, 0}} {
			c.Readings = append(c.Readings, model.Reading{Day: unit.Days(x.day), Ammonia: seen(x.ammonia), Nitrite: seen(x.nitrite)})
			dose.Day, dose.Seq = unit.Days(x.day), 1
			if x.ammonia == 0 && x.nitrite == 0 {
				c.Events = append(c.Events, dose)
			}
		}
		c.Readings = append(c.Readings, model.Reading{Day: 10, Ammonia: seen(2), Nitrite: seen(0)}, model.Reading{Day: 11.5, Ammonia: seen(2), Nitrite: seen(0)})
	})
	if outlook.Stands(p) == nil {
		t.Fatal("nothing stands")
	}
	read := unit.MgIon(2).N(unit.Ammonia)
	r := try(t, p, WaterChange{Fraction: 0.5, Treated: model.Yes})
	if r.Ready > 0.05 || r.Before.Ammonia < read-0.01 {
		t.Errorf("done with a chance of %.2f, %.2f mg N/L of ammonia; 2 mg/L was read twice", r.Ready, float64(r.Before.Ammonia))
	}
	if got := r.Each[0].After.Ammonia / r.Before.Ammonia; got < 0.45 || got > 0.55 {
		t.Errorf("half the water leaves %.2f of the ammonia", float64(got))
	}
}
