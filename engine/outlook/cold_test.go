package outlook_test

import (
	"math"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// cold is the outlook of a tank without readings: 60 L, sponge, dosed, all
// right unless changed.
func cold(t *testing.T, name string, change func(*model.Setup)) (p10, p50, p90 float64) {
	t.Helper()
	s := model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 26, Media: model.Sponge, MediaVolume: 0.6,
		Flow: model.Normal, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	change(&s)
	o := outlook.Of(fit.Fit(model.Case{Setup: s}, 0, fit.Hypothesis{}, fit.Draws))
	at := func(d *float64) float64 {
		if d == nil {
			return math.Inf(1)
		}
		return *d
	}
	p10, p50, p90 = at(o.Done.P10), at(o.Done.P50), at(o.Done.P90)
	t.Logf("%-34s p10 %5.1f  p50 %5.1f  p90 %5.1f  not within 180 days %4.1f %%", name, p10, p50, p90, 100*o.ChanceNotWithin)
	return p10, p50, p90
}

func within(t *testing.T, what string, v, low, high float64) {
	t.Helper()
	if !(v >= low && v <= high) {
		t.Errorf("%s is day %.1f, want %g to %g", what, v, low, high)
	}
}

// TestColdStart holds outlooks without a reading to the bands that keepers
// commonly see (common practice, no source), and to their order.
func TestColdStart(t *testing.T) {
	// Row 1: pH 7.3 to 8.0 at 25 C and more, everything right: about 7 to 14
	// days at the fast end, 10 to 24 for the middle of tanks.
	fast, warm, _ := cold(t, "pH 7.6, 26 C", func(*model.Setup) {})
	within(t, "the fast end at pH 7.6, 26 C", fast, 7, 14)
	within(t, "the middle at pH 7.6, 26 C", warm, 10, 24)
	fast, mid, _ := cold(t, "pH 8.0, 27 C", func(s *model.Setup) { s.PH, s.KH, s.Temp = 8, unit.DKH(10).CaCO3(), 27 })
	within(t, "the fast end at pH 8.0, 27 C", fast, 7, 14)
	within(t, "the middle at pH 8.0, 27 C", mid, 10, 24)
	fast, mid, _ = cold(t, "pH 7.3, 25 C", func(s *model.Setup) { s.PH, s.KH, s.Temp = 7.3, unit.DKH(5).CaCO3(), 25 })
	within(t, "the fast end at pH 7.3, 25 C", fast, 7, 14)
	within(t, "the middle at pH 7.3, 25 C", mid, 10, 24)

	// Row 2: below pH 7: one to two months.
	_, acid, _ := cold(t, "pH 6.5, 24 C, KH 3", func(s *model.Setup) { s.PH, s.KH, s.Temp = 6.5, unit.DKH(3).CaCO3(), 24 })
	within(t, "the middle at pH 6.5", acid, 28, 62)
	_, mild, _ := cold(t, "pH 6.8, 25 C, KH 4", func(s *model.Setup) { s.PH, s.KH, s.Temp = 6.8, unit.DKH(4).CaCO3(), 25 })
	within(t, "the middle at pH 6.8", mild, 24, 62)

	// Row 3: most tanks, all kinds: about a month; a week at best, two months
	// and more at worst.
	var best, worst, sum, n float64 = math.Inf(1), 0, 0, 0
	for m, name := range []string{"dosed", "food", "dark start", "seeded", "planted", "fish in"} {
		p10, p50, p90 := cold(t, "pH 7.0, 23 C, "+name, func(s *model.Setup) {
			s.PH, s.KH, s.Temp, s.Method = 7.0, unit.DKH(4).CaCO3(), 23, model.Method(m)
			if s.Method == model.Planted {
				s.Plants = model.FewFast
			}
		})
		if s := model.Method(m); s != model.Seeded {
			best = min(best, p10)
			sum, n = sum+min(p50, 180), n+1
		}
		worst = max(worst, p90)
	}
	within(t, "the mean of the middles", sum/n, 20, 50)
	within(t, "the best tenth of all kinds", best, 6, 20)
	if worst < 60 {
		t.Errorf("the worst tenth of all kinds is by day %.0f, want two months and more", worst)
	}

	// Row 4: below 20 C clearly slower.
	_, cool, _ := cold(t, "pH 7.6, 18 C", func(s *model.Setup) { s.Temp = 18 })
	if cool < 1.6*warm {
		t.Errorf("the middle at 18 C is day %.1f against %.1f at 26 C, want clearly slower", cool, warm)
	}

	// The order of the other rows.
	_, seed, late := cold(t, "seeded, pH 7.6", func(s *model.Setup) { s.Method = model.Seeded })
	within(t, "the middle of seeded alkaline tanks", seed, 0, 14)
	if late > warm+10 {
		t.Errorf("nine in ten seeded tanks by day %.1f, want about two weeks", late)
	}
	_, acidSeed, _ := cold(t, "seeded, pH 6.5", func(s *model.Setup) { s.Method, s.PH, s.KH = model.Seeded, 6.5, unit.DKH(3).CaCO3() })
	if gain, acidGain := seed/warm, acidSeed/acid; acidGain < gain {
		t.Errorf("seed shortens acidic tanks to %.2f and alkaline ones to %.2f of the time; want little gain in acidic water", acidGain, gain)
	}
	_, culture, _ := coldCulture(t)
	if culture < seed || culture > warm {
		t.Errorf("a bottled culture brings the middle to day %.1f, want between seed (%.1f) and nothing (%.1f)", culture, seed, warm)
	}
	_, plants, _ := cold(t, "many fast plants", func(s *model.Setup) { s.Plants = model.ManyFast })
	if plants > 0.85*warm {
		t.Errorf("many fast plants bring the middle to day %.1f of %.1f, want much shorter", plants, warm)
	}
	_, bare, _ := cold(t, "no media", func(s *model.Setup) { s.Media, s.MediaVolume = model.NoMedia, 0 })
	if bare < 1.3*warm {
		t.Errorf("without media the middle is day %.1f against %.1f, want clearly slower", bare, warm)
	}
	_, hot, _ := cold(t, "pH 7.6, 35 C", func(s *model.Setup) { s.Temp = 35 })
	_, thirty, _ := cold(t, "pH 7.6, 29 C", func(s *model.Setup) { s.Temp = 29 })
	if hot < 1.3*thirty {
		t.Errorf("the middle at 35 C is day %.1f against %.1f at 29 C, want clearly slower", hot, thirty)
	}
}

// coldCulture is a dosed tank with a bottled culture on day 0.
func coldCulture(t *testing.T) (p10, p50, p90 float64) {
	t.Helper()
	s := model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 26, Media: model.Sponge, MediaVolume: 0.6,
		Flow: model.Normal, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	c := model.Case{Setup: model.Typical(s), Events: []model.Event{{Kind: model.Culture}, {Kind: model.Dose, Seq: 1, N: unit.MgIon(2).N(unit.Ammonia)}}}
	o := outlook.Of(fit.Fit(c, 0, fit.Hypothesis{}, fit.Draws))
	t.Logf("%-34s p10 %5.1f  p50 %5.1f  p90 %5.1f", "bottled culture", *o.Done.P10, *o.Done.P50, *o.Done.P90)
	return *o.Done.P10, *o.Done.P50, *o.Done.P90
}
