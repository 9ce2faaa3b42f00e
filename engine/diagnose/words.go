package diagnose

import (
	"fmt"
	"math"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// Names of cautions that a fix may carry; package commands has their words.
const (
	CautionAmmonia    = "ammonia"
	CautionChlorine   = "chlorine"
	CautionElectric   = "electricity"
	CautionRaisePH    = "raise-ph"
	CautionLabel      = "label"
	CautionMedicine   = "medicine"
	CautionMix        = "mix"
	CautionTestBefore = "test-before-animals"
)

// words says which readings and log entries speak for a cause that costs so many days,
// and what to do about it.
func (s *study) words(name string, days float64, f found) (evidence []string, fix Fix) {
	w := s.water()
	vol := s.c.Setup.Volume
	animals := s.animals()
	say := func(format string, a ...any) { evidence = append(evidence, fmt.Sprintf(format, a...)) }
	switch name {
	case "acidic-water":
		say("pH %.1f %s; nitrifiers grow best from 7.3 to 8", min(w.ph, s.lowestPH()), s.when(w.phDay))
		g := bicarbonate(max(unit.DKH(4).CaCO3()-s.kh(), unit.DKH(1).CaCO3()), vol)
		fix = Fix{
			Do:       fmt.Sprintf("raise the alkalinity slowly: about %s of sodium bicarbonate in all, a third each day, or water changes with harder water, and see with each test what pH that gives; or keep the soft water, if what shall live there likes it, and give the bacteria time", grams(g)),
			DoNot:    "do not raise pH quickly while ammonia is in the water: more of it turns toxic",
			Settle:   "pH and KH on the same day",
			Cautions: []string{CautionRaisePH, CautionLabel},
		}
		if kh := s.kh(); kh >= unit.DKH(4).CaCO3() && s.knowsKH() {
			say("KH %.1f dKH now is not low: so acidic with it, water holds much carbon dioxide, or acids from soil, wood or peat", float64(kh.DKH()))
			fix.Do = "let the filter ripple the surface so that carbon dioxide leaves, and test the pH of a glass of tank water that stood for a day"
			if s.planted() {
				fix.Do = "if carbon dioxide is given to the plants, leave it so: it slows the bacteria, and the plants do their part; else " + fix.Do
			}
		}
	case "low-alkalinity":
		say("KH %.1f dKH %s%s; each 1 mg/L of ammonia oxidised uses up about 0.2 to 0.3 dKH", float64(w.kh.DKH()), s.when(w.khDay), s.byNow(w.kh))
		if low := s.lowestPH(); low < s.c.Setup.PH-0.3 {
			say("pH fell from %.1f to %.1f", s.c.Setup.PH, low)
		}
		g := bicarbonate(max(unit.DKH(5).CaCO3()-s.kh(), unit.DKH(1).CaCO3()), vol)
		steps := "half today and half tomorrow"
		if animals {
			steps = "in the daily portions that /amount what:buffer to:5dKH gives"
		}
		fix = Fix{
			Do:       fmt.Sprintf("bring KH to about 5 dKH: %s of sodium bicarbonate for %.0f L, %s, or a water change with harder water", grams(g), float64(vol), steps),
			DoNot:    s.sparing(),
			Settle:   "KH before and a day after",
			Cautions: []string{CautionRaisePH, CautionLabel},
		}
		if s.kh() >= unit.DKH(4).CaCO3() && s.knowsKH() {
			fix.Do = "nothing more now, as the KH is up again: keep it at 4 dKH or more, and test it each week, since each dose uses some up"
		}
	case "cold-water":
		say("water at %s %s; growth is best at 25 to 30 °C (77 to 86 °F)", degrees(w.temp), s.when(w.tempDay))
		fix = Fix{
			Do:       fmt.Sprintf("warm it to %s, that is by %s, about %s a day", degrees(goodTemp), steps(max(goodTemp-float64(w.temp), 1)), steps(2)),
			DoNot:    "do not warm a tank above what its plants and later animals stand",
			Cautions: []string{CautionElectric},
		}
		if w.temp >= warmNow {
			evidence[0] = fmt.Sprintf("water began at %s and is at %s %s; growth is best at 25 to 30 °C (77 to 86 °F)", degrees(s.c.Setup.Temp), degrees(w.temp), s.when(w.tempDay))
			fix = Fix{Do: "nothing more now, as the water is warm: keep it so"}
		} else if animals {
			fix.Do = fmt.Sprintf("warm it only as far as its animals like, by %s a day at most; where it cannot be heated, as a pond, feed little and change water as /safe says until it warms by itself", steps(1))
			fix.DoNot = "do not warm a tank above what its animals stand"
		}
	case "hot-water":
		say("water at %s %s; nitrite oxidisers fail first above about %s", degrees(w.temp), s.when(w.tempDay), degrees(34))
		fix = Fix{Do: fmt.Sprintf("let it cool to %s, that is by %s, about %s a day", degrees(28), steps(max(float64(w.temp)-28, 1)), steps(2)),
			DoNot: "do not cool it in one go", Cautions: []string{CautionElectric}}
	case "low-oxygen":
		if w.oxygenDay >= 0 {
			say("oxygen %.1f mg/L on day %d", w.oxygen, s.no(w.oxygenDay))
		}
		if s.flow() == model.Weak {
			say("the flow is weak; each 1 mg/L of nitrogen needs 4.6 mg/L of oxygen")
		}
		fix = Fix{Do: "move the surface: an air stone or the outlet turned up, and rinse a clogged sponge in tank water", DoNot: "do not stop the filter overnight",
			Settle: "an oxygen reading before the lights go on", Cautions: []string{CautionElectric}}
	case "ammonia-overdose":
		high, day := s.highest(unit.Ammonia)
		if high >= 3.9 {
			say("ammonia read %.1f mg/L%s on day %d", high, s.open(unit.Ammonia, day), s.no(day))
		}
		if n := s.largestDose(); n > 1.6*float64(s.c.Setup.Target) {
			say("doses of %.1f mg/L within a day", float64(unit.MgN(n).Ion(unit.Ammonia)))
		}
		if s.overfed() || s.starts() && s.fed() > float64(s.fedFor()) {
			per := float64(unit.MgN(model.FoodN * s.fed() / float64(vol)).Ion(unit.Ammonia))
			say("%s g of food a day brings about %s mg/L ammonia a day to %.0f L", brief(s.fed()), brief(per), float64(vol))
		}
		now := s.ammoniaNow()
		want := float64(s.c.Setup.Target.Ion(unit.Ammonia))
		stop := "stop dosing"
		if s.starts() {
			stop = "stop feeding"
		}
		fix = Fix{Do: fmt.Sprintf("%s until ammonia is below %.1f mg/L", stop, want), DoNot: "do not add more on top of what is left",
			Settle: "ammonia and nitrite in two days", Cautions: []string{CautionAmmonia}}
		if now > 1.2*want {
			fix.Do = fmt.Sprintf("change about %.0f%% of the water in all, no more than half at once%s, to bring ammonia from %.2g%s to %.1f mg/L, and %s until it is clear", percent(1-want/now), s.treated(), now, s.openNow(), want, stop)
		}
		if animals {
			fix.Do, fix.DoNot = "ask /safe how much water to change for the animals, and dose nothing", "do not dose ammonia with animals in"
			if s.overfed() {
				fix.Cautions = nil
				fix.Do, fix.DoNot = "feed half as much or less, keep fewer animals in it until the filter has grown, and ask /safe how much water to change for them", "do not add animals, and do not dose ammonia"
			}
		}
	case "no-ammonia-source":
		switch {
		case f.fast != [2]float64{}:
			say("from day %d to day %d no ammonia or food was told of; bacteria starve without", s.no(f.fast[0]), s.no(f.fast[1]))
			s.lossWords(f, say)
		case s.perhaps():
			say("no more than the first dose is noted, and ammonia reads clear since; if you gave no more, the bacteria went without food")
		default:
			say("hardly any ammonia was logged, fed or read in the last days; bacteria without it do not grow")
		}
		want := float64(s.c.Setup.Target.Ion(unit.Ammonia))
		fix = Fix{Do: fmt.Sprintf("with no animals in, dose ammonia to %.1f mg/L and again whenever it is clear", min(want, 2)), DoNot: "do not add animals to feed the filter",
			Settle: "ammonia the day after", Cautions: []string{CautionAmmonia, CautionLabel}}
		if s.starts() {
			fix.Do = fmt.Sprintf("drop in about %.1g g of food a day and note it with /log what:feed, or, %s", float64(s.fedFor()), fix.Do)
		}
	case "little-surface":
		media := "no media"
		if v := s.litresOfMedia(); v > 0 {
			media = fmt.Sprintf("%.2g L of media", v)
		}
		say("%s for %.3g L of water and %.2g mg/L of ammonia a day", media, float64(vol), float64(unit.MgN(s.load()).Ion(unit.Ammonia)))
		fix = Fix{Do: fmt.Sprintf("add about %.2g L of sponge or other porous media to the filter", float64(s.ampleSurface())), DoNot: "do not throw out old media when new goes in"}
	case "chlorine":
		s.chlorineWords(f, say)
		fix = Fix{Do: "treat all new water before it goes in, dosed for the whole tank as the label says; ask your supplier whether it is chlorine or chloramine",
			DoNot: "do not rinse media under the tap", Settle: "a chlorine reading of the tap and, right after the next change, of the tank", Cautions: []string{CautionChlorine, CautionLabel}}
	case "medication":
		for _, e := range s.events(model.Medicine) {
			say("medicine logged on day %d", s.c.DayOf(e.Day))
		}
		s.lossWords(f, say)
		fix = Fix{Do: "once the course is over, change 30 to 50% of the water and filter with fresh carbon for a few days, as the label says", DoNot: "do not break off a course that a vet ordered",
			Settle: "ammonia and nitrite two and four days after", Cautions: []string{CautionMedicine}}
	case "filter-interrupted":
		outages := s.events(model.Outage)
		for _, e := range outages {
			say("filter off on day %d for %.0f h", s.c.DayOf(e.Day), hoursOf(e))
		}
		s.lossWords(f, say)
		fix = Fix{Do: "keep the filter running day and night; after hours without flow rinse its media in tank water before starting it", DoNot: "do not switch it off for feeding longer than some minutes",
			Settle: "whether the filter stood still (power cut, cleaning, feeding switch)", Cautions: []string{CautionElectric}}
		if len(outages) > 0 {
			fix.Do = s.afterLoss() + "; " + fix.Do
			fix.Settle = "ammonia and nitrite in two days"
		}
	case "media-washed":
		harsh := false
		for _, e := range s.events(model.Cleaned) {
			how := ""
			if e.Harsh {
				how, harsh = " in a way that kills bacteria: tap water, heat or soap, or replaced", true
			}
			say("filter cleaned on day %d%s", s.c.DayOf(e.Day), how)
		}
		s.lossWords(f, say)
		fix = Fix{Do: "rinse media only in water taken from the tank, one half at a time, two weeks apart", DoNot: "do not clean it under the tap, and do not replace it all at once",
			Settle: "when and how the media were last cleaned"}
		if harsh {
			fix.Do = s.afterLoss() + "; from now on " + fix.Do
			fix.Settle = "ammonia and nitrite in two days"
		}
	case "mismatched-seed":
		for _, e := range s.events(model.Seed) {
			s.seedWords(&e, say)
		}
		fix = Fix{Do: "take seed from a tank whose pH is as near yours as you can find, with about your temperature and salt, and move it wet and within the hour", DoNot: "do not shift your water to suit a seed"}
	case "plants-take-up":
		say("plants took about %.0f%% of the nitrogen so far, by the fitted tank", 100*quantile(s.plantShares(), 0.5))
		fix = Fix{Do: "nothing: plants are part of the filter; stock slowly and keep them growing", DoNot: "do not take many plants out at once", Settle: "ammonia a day after a 1 mg/L dose"}
		if animals { // nobody doses onto them
			fix.Settle = ""
		}
	case "test-artefact":
		v, day := s.last(unit.Ammonia)
		say("ammonia still reads %.2g mg/L on day %d, more than the rest of what was told explains", v, s.no(day))
		for _, e := range s.events(model.Conditioned) {
			say("conditioner on day %d; some bind ammonia so that kits go on seeing it", s.c.DayOf(e.Day))
		}
		fix = Fix{Do: "test a sample of tap or pure water the same way, and repeat with another kit; check the date on the bottles", DoNot: "do not dose or change water on this reading alone", Settle: "ammonia with a second kit"}
		if animals {
			fix.DoNot = "until that is settled take the reading at its word: change water as /safe says"
		}
	case "low-phosphate":
		say("growth is slower than pH, temperature and alkalinity explain")
		if src := s.c.Setup.Source; src >= model.RO {
			say("water from %s brings little phosphate", sourceName(src))
		} else {
			say("water from %s seldom lacks phosphate, so test before you add any", sourceName(src))
		}
		fix = Fix{Do: "add a pinch of food, or a plant fertiliser with phosphate to about 0.5 mg/L", DoNot: "do not overdose", Settle: "a phosphate reading", Cautions: []string{CautionLabel}}
		if s.c.Setup.Salinity >= 5 {
			fix.Do = "add a pinch of food, which brings phosphate; no plant fertiliser, which may hold metals that animals of the sea do not bear"
		}
	case "nitrite-backlog":
		fix = s.backlogWords(days, animals, say)
	}
	return evidence, fix
}

// chlorineWords names the water changes behind a suspicion of chlorine.
func (s *study) chlorineWords(f found, say func(string, ...any)) {
	un := s.untreated()
	if set := &s.c.Setup; set.Given.Conditioner && !set.Conditioner && set.Source <= model.Chloraminated {
		say("by the set-up new water comes from the tap and is not conditioned")
	}
	for _, e := range un {
		say("%.0f%% water change on day %d without conditioner", 100*e.Fraction, s.c.DayOf(e.Day))
	}
	for _, r := range s.c.Readings {
		if r.Chlorine != nil && *r.Chlorine > 0.05 && float64(r.Day) <= s.now {
			say("chlorine %.2g mg/L on day %d", *r.Chlorine, s.c.DayOf(r.Day))
		}
	}
	if f.name != "" && f.day >= 0 {
		say("progress dropped after the water change on day %d", s.no(f.day))
	}
	if len(un) == 0 {
		s.lossWords(f, say)
	}
}

// sparing is what to give while the hardness is used up.
func (s *study) sparing() string {
	if s.animals() {
		return "feed little while KH is under 2 dKH"
	}
	return joined("do not go on ", s.supply(), " while KH is under 2 dKH")
}

// lossWords says when and how much seems to have been lost.
func (s *study) lossWords(f found, say func(string, ...any)) {
	if f.name == "" || f.loss == 0 {
		return
	}
	lost := "nearly all"
	if f.loss < 0.95 {
		lost = fmt.Sprintf("about %.0f%%", 100*f.loss)
	}
	if f.day >= 0 {
		say("readings fit best if %s of the bacteria were lost then", lost)
		return
	}
	say("readings fit best if %s of the bacteria were lost near day %d, though nothing was logged", lost, s.no(f.onset))
}

// kh is the alkalinity now: as last read, or as foreseen when that is lower; with what a buffer or a
// change of water brought since.
func (s *study) kh() unit.MgCaCO3 {
	w := s.water()
	for _, kind := range []model.EventKind{model.Buffer, model.WaterChange} {
		for _, e := range s.events(kind) {
			if float64(e.Day) > w.khDay && w.khDay >= 0 {
				return max(w.kh+s.alkalinity(s.now)-s.alkalinity(w.khDay), 0)
			}
		}
	}
	return max(min(w.kh, s.alkalinity(s.now)), 0)
}

func (s *study) when(day float64) string {
	if day < 0 {
		return "by the set-up"
	}
	return fmt.Sprintf("on day %d", s.no(day))
}

// no is the number of a day in replies.
func (s *study) no(day float64) int { return s.c.DayOf(unit.Days(day)) }

func hoursOf(e model.Event) float64 {
	if e.Hours > 0 {
		return e.Hours
	}
	return 12
}

func grams(g float64) string {
	if g < 10 {
		return fmt.Sprintf("%.1f g", g)
	}
	return fmt.Sprintf("%.0f g", g)
}

// brief prints two digits, or all of a number of more.
func brief(x float64) string {
	if x >= 99.5 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.2g", x)
}

// percent rounds a share to the nearest 5 %, at most 90.
func percent(share float64) float64 { return min(math.Round(share*20)*5, 90) }

func sourceName(s model.Source) string {
	return [...]string{"the tap", "the tap", "a well", "reverse osmosis", "rain"}[s]
}
