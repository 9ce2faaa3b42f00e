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
	read     float64 // day of the last test that shows it
	left     unit.MgCaCO3
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

// crashed returns the crash that the tests up to now show and no later one takes back, nor a buffer
// or change of water that brings enough hardness, nor a dose that was gone all the same; nil without one.
func crashed(c *model.Case, now float64) *crash {
	first := math.Inf(-1) // highest pH so far
	if c.Setup.Given.PH {
		first = c.Setup.PH
	}
	low := crashKH
	if c.Setup.Given.KH { // soft water has little of it to begin with
		low = min(low, c.Setup.KH/2)
	}
	var found *crash
	at := func(day float64, ph *float64, kh *unit.MgCaCO3) {
		if day > now || ph == nil && kh == nil {
			return
		}
		found.raise(c, low, day)
		shows := ""
		switch {
		case kh != nil && *kh <= low:
			shows = fmt.Sprintf("KH %.1f dKH on day %d", float64(kh.DKH()), c.DayOf(unit.Days(day)))
		case ph != nil && *ph < crashPH && *ph <= first-crashFall && (kh == nil || *kh <= ampleKH):
			shows = fmt.Sprintf("pH %.1f on day %d after %.1f", *ph, c.DayOf(unit.Days(day)), first)
		}
		if ph != nil {
			first = max(first, *ph)
		}
		if shows == "" {
			if found != nil && (kh != nil || *ph >= crashPH) { // up again
				found.to = min(found.to, day)
			}
			return
		}
		if found == nil || found.to <= day {
			found = &crash{from: day - crashBefore, to: math.Inf(1)}
		}
		found.shows, found.read, found.left = shows, day, 0 // of a pH alone hardly any is left
		if kh != nil {
			found.left = *kh
		}
	}
	i := 0
	for _, r := range c.Readings {
		for ; i < len(c.Changes) && c.Changes[i].Day <= r.Day; i++ {
			at(float64(c.Changes[i].Day), c.Changes[i].PH, c.Changes[i].KH)
		}
		at(float64(r.Day), r.PH, r.KH)
		if float64(r.Day) <= now {
			found.disprove(c, &r)
		}
	}
	for ; i < len(c.Changes); i++ {
		at(float64(c.Changes[i].Day), c.Changes[i].PH, c.Changes[i].KH)
	}
	found.raise(c, low, math.Nextafter(now, math.Inf(1)))
	return found
}

// raise ends the crash when, before a day, buffers and changes of water have brought more than low.
func (x *crash) raise(c *model.Case, low unit.MgCaCO3, before float64) {
	if x == nil {
		return
	}
	left := x.left
	for _, e := range c.Events {
		if d := float64(e.Day); d <= x.read || d >= before {
			continue
		}
		switch e.Kind {
		case model.Buffer:
			left += e.Alk
		case model.WaterChange:
			left += unit.MgCaCO3(e.Fraction) * (newKH(c, e.Day) - left)
		default:
			continue
		}
		if left > low {
			x.to = min(x.to, float64(e.Day))
			return
		}
	}
}

// newKH is the hardness of new water on a day: as told last, or as is usual.
func newKH(c *model.Case, day unit.Days) unit.MgCaCO3 {
	kh := c.Setup.KH
	for _, x := range c.Changes {
		if x.KH != nil && x.Day <= day {
			kh = *x.KH
		}
	}
	return kh
}

// disprove ends the crash when a test shows that a whole dose which went in after it is gone.
func (x *crash) disprove(c *model.Case, r *model.Reading) {
	if x == nil || r.Ammonia == nil || r.Nitrite == nil || r.Ammonia.Ion(unit.Ammonia) >= clearIon || r.Nitrite.Ion(unit.Nitrite) >= clearIon {
		return
	}
	for _, e := range c.Events {
		if e.Kind == model.Dose && !e.Perhaps && float64(e.Day) > x.read && !e.After(r) && e.N >= whole*c.Setup.Target {
			x.to = min(x.to, float64(r.Day))
		}
	}
}

// Crash is the test that shows that a tank's hardness is used up at a time, in plain words; "" where none
// does. The case is complete, its lists ordered by day.
func Crash(c *model.Case, now unit.Days) string {
	if x := crashed(c, float64(now)); x.goesOn(float64(now)) {
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
