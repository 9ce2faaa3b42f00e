package year

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"ripen/engine/model"
	"ripen/engine/study"
	"ripen/engine/unit"
)

// said is what a member of a simulated club types, and when.
type said struct {
	at     time.Time
	member string
	line   string
}

// lifeOf is all that a member types about a tank: as its keeper told of it, with slips that
// are taken back, questions, silences, and a closing in most cases.
func lifeOf(member string, k study.Kept, start time.Time, rng *rand.Rand) (all []said, shown bool) {
	when := func(day float64) time.Time {
		return start.Add(time.Duration(day * 24 * float64(time.Hour))).Truncate(time.Second)
	}
	say := func(day float64, line string) { all = append(all, said{when(day), member, line}) }
	shown = rng.Float64() < 0.7
	setup := setupLine(&k.Told.Setup)
	if shown {
		setup += " share:yes"
	}
	say(0, setup)
	end := k.Done
	asks, again := rng.Float64() < 0.6, rng.Float64() < 0.3
	if gone := 180 * rng.Float64(); rng.Float64() < 0.1 { // loses heart and says nothing more
		end = min(end, gone)
	}
	for _, e := range k.Told.Events {
		if line := eventLine(e); line != "" && float64(e.Day) <= end+2 {
			say(float64(e.Day), line)
		}
	}
	if asks { // how long will it take? is what beginners want to know first
		say(0, "/outlook")
	}
	if again { // on some day, without a reading
		say(end*rng.Float64(), "/outlook")
	}
	for _, r := range k.Told.Readings {
		day := float64(r.Day)
		line := readingLine(r)
		if line == "" || day > end+2 {
			continue
		}
		if rng.Float64() < 0.04 { // a slip of the finger, seen at once
			say(day, "/reading ammonia:8")
			say(day, "/undo")
		}
		if rng.Float64() < 0.01 {
			say(day, "/tank close reason:done")
			say(day, "/undo")
		}
		if late := 4 * rng.Float64(); rng.Float64() < 0.05 && day+late < end+1 { // told some days later
			say(day+late, line+" at:"+when(day).Format(time.RFC3339))
			continue
		}
		say(day, line)
		if rng.Float64() < 0.25 {
			say(day, "/outlook")
		}
		if rng.Float64() < 0.04 {
			say(day, "/why")
		}
	}
	proves, closes, later := rng.Float64() < 0.5, rng.Float64() < 0.85, 10*rng.Float64()
	switch {
	case end < k.Done:
	case k.Late:
		say(k.Done+1, "/tank close reason:given-up")
	case proves && !k.Told.Setup.Rationed(): // two doses in a row, each gone on the next day
		for _, day := range []float64{k.Done + 2.1, k.Done + 3.2} {
			say(day, fmt.Sprintf("/log what:dose amount:%.2fppm", max(float64(k.Told.Setup.Target.Ion(unit.Ammonia)), 0.25)))
			say(day+1, "/reading ammonia:0 nitrite:0")
		}
		end = k.Done + 2.2 + later
	}
	if end >= k.Done && !k.Late && closes {
		say(end+2.1, "/tank close reason:done")
	}
	if rng.Float64() < 0.03 {
		say(end+3+20*rng.Float64(), "/data erase confirm:yes")
	}
	slices.SortStableFunc(all, func(a, b said) int { return a.at.Compare(b.at) })
	return all, shown
}

var (
	methods = [...]string{"dosed", "food", "dark-start", "seeded", "planted", "fish-in"}
	plants  = [...]string{"none", "few-slow", "many-slow", "few-fast", "many-fast"}
	media   = [...]string{"none", "sponge", "ceramic", "floss", "sand", "moving-bed"}
	flows   = [...]string{"weak", "normal", "strong"}
	sources = [...]string{"chlorine", "chloramine", "well", "ro", "rain"}
	kits    = [...]string{"liquid", "strip", "meter"}
)

// setupLine registers a tank with what its keeper stated.
func setupLine(s *model.Setup) string {
	line := []string{"/tank new name:tank", fmt.Sprintf("volume:%.1fL method:%s plants:%s", max(float64(s.Volume), 1), methods[s.Method], plants[s.Plants])}
	for _, o := range []struct {
		given bool
		text  string
	}{
		{s.Given.PH, fmt.Sprintf("ph:%.1f", s.PH)}, {s.Given.KH, fmt.Sprintf("kh:%.1fdKH", float64(s.KH.DKH()))},
		{s.Given.Temp, fmt.Sprintf("temp:%.1fC", float64(s.Temp))}, {s.Given.Media, "media:" + media[s.Media]},
		{s.Given.MediaVolume, fmt.Sprintf("media-volume:%.2fL", float64(s.MediaVolume))}, {s.Given.Flow, "flow:" + flows[s.Flow]},
		{s.Given.Conditioner, "conditioner:" + yesNo(s.Conditioner)}, {s.Given.Source, "source:" + sources[s.Source]}, {s.Given.Stock && s.Stock > 0, fmt.Sprintf("stock:%.1fg", float64(s.Stock))},
		{s.Given.Feed && s.Feed > 0, fmt.Sprintf("feed:%.2fg", float64(s.Feed))},
		{s.Given.Target, fmt.Sprintf("target:%.2fppm", float64(s.Target.Ion(unit.Ammonia)))},
	} {
		if o.given {
			line = append(line, o.text)
		}
	}
	return strings.Join(line, " ")
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

// eventLine logs an event; "" for those that keepers of a study do not tell.
func eventLine(e model.Event) string {
	switch e.Kind {
	case model.Dose:
		return fmt.Sprintf("/log what:dose amount:%.2fppm", float64(e.N.Ion(unit.Ammonia)))
	case model.FeedOnce:
		return fmt.Sprintf("/log what:feed amount:%.3fg", max(float64(e.Mass), 0.001))
	case model.WaterChange:
		return fmt.Sprintf("/log what:water-change amount:%.0f%%", 100*e.Fraction)
	case model.Seed:
		return "/log what:seed"
	case model.Culture:
		return "/log what:culture"
	}
	return ""
}

// readingLine tells a reading.
func readingLine(r model.Reading) string {
	var line []string
	for i, x := range []*model.Seen{r.Ammonia, r.Nitrite, r.Nitrate} {
		if x == nil {
			continue
		}
		text := fmt.Sprintf("%s:%g", unit.Species(i), x.Low)
		if x.High > x.Low {
			text += fmt.Sprintf("-%g", x.High)
		}
		if x.Over {
			text += "+"
		}
		line = append(line, text)
	}
	if r.PH != nil {
		line = append(line, fmt.Sprintf("ph:%.1f", *r.PH))
	}
	if r.KH != nil {
		line = append(line, fmt.Sprintf("kh:%.1fdKH", float64(r.KH.DKH())))
	}
	if len(line) == 0 {
		return ""
	}
	return "/reading " + strings.Join(line, " ") + " kit:" + kits[r.Kit]
}

// inOrder puts what several members say into the order of time.
func inOrder(all []said) {
	slices.SortStableFunc(all, func(a, b said) int { return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.member, b.member)) })
}
