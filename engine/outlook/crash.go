package outlook

import (
	"fmt"
	"math"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// crash is hardness that was used up, as a reading shows: the bacteria stop, and ammonia
// or nitrite stands whatever they did before. From what day on is not read, so tests of some
// days before count as well. Sizes are our own judgement, no source.
type crash struct {
	shows    string  // the reading, in plain words
	from, to float64 // days for which it explains what stands, to without its end
}

const (
	crashBefore = 10  // days before the reading for which it may explain what stood
	crashPH     = 6.5 // a pH below it
	crashFall   = 0.6 // that fell by so much
)

var (
	crashKH = unit.DKH(1).CaCO3() // or a hardness of no more, and no more than half of what was told at the start
	ampleKH = unit.DKH(2).CaCO3() // beyond which a low pH is a slip, or carbon dioxide
)

// crashed returns the crash that the readings up to now show and no later one, buffer or
// change of water takes back; nil without one.
func crashed(p *model.Plan) *crash {
	now, c := p.Now, &p.Case
	first := math.Inf(-1) // highest pH so far
	if c.Setup.Given.PH {
		first = c.Setup.PH
	}
	low := crashKH
	if c.Setup.Given.KH { // soft water has little of it to begin with
		low = min(low, c.Setup.KH/2)
	}
	var found *crash
	// raised ends it at the first buffer or change of water before a day.
	raised := func(before float64) {
		for _, e := range c.Events {
			if d := float64(e.Day); found != nil && (e.Kind == model.Buffer || e.Kind == model.WaterChange) && d > found.from+crashBefore && d < before {
				found.to = min(found.to, d)
			}
		}
	}
	at := func(day float64, ph *float64, kh *unit.MgCaCO3) {
		if day > now || ph == nil && kh == nil {
			return
		}
		raised(day)
		shows := ""
		switch {
		case kh != nil && *kh <= low:
			shows = fmt.Sprintf("KH %.1f dKH on day %.0f", float64(kh.DKH()), day)
		case ph != nil && *ph < crashPH && *ph <= first-crashFall && (kh == nil || *kh <= ampleKH):
			shows = fmt.Sprintf("pH %.1f on day %.0f after %.1f", *ph, day, first)
		}
		if ph != nil {
			first = max(first, *ph)
		}
		switch {
		case shows == "" && (kh != nil || *ph >= crashPH): // up again
			if found != nil {
				found.to = min(found.to, day)
			}
		case shows != "" && (found == nil || found.to <= day):
			found = &crash{shows: shows, from: day - crashBefore, to: math.Inf(1)}
		case shows != "": // still
			found.shows = shows
		}
	}
	i := 0
	for _, r := range c.Readings {
		for ; i < len(c.Changes) && c.Changes[i].Day <= r.Day; i++ {
			at(float64(c.Changes[i].Day), c.Changes[i].PH, c.Changes[i].KH)
		}
		at(float64(r.Day), r.PH, r.KH)
	}
	for ; i < len(c.Changes); i++ {
		at(float64(c.Changes[i].Day), c.Changes[i].PH, c.Changes[i].KH)
	}
	raised(math.Nextafter(now, math.Inf(1)))
	return found
}

// Crash is the test that shows that the hardness is used up now, in plain words; "" where none does.
func Crash(p *model.Plan) string {
	if x := crashed(p); x.goesOn(p.Now) {
		return x.shows
	}
	return ""
}

// explains says whether the crash is why a value was read higher than foreseen.
func (x *crash) explains(o fit.Odd, r *model.Reading) bool {
	return x != nil && o.Over && o.Species != unit.Nitrate && float64(r.Day) >= x.from && float64(r.Day) < x.to
}

// goesOn says whether the crash still holds at now.
func (x *crash) goesOn(now float64) bool { return x != nil && x.to > now }
