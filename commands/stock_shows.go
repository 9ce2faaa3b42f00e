package commands

import (
	"ripen/engine/model"
	"ripen/engine/unit"
)

// showsFrom is from what a kit shows ammonia or nitrite, mg/L of the ion: the first step
// of most charts.
const showsFrom = 0.25

// showing lists which of ammonia and nitrite the last test of each still showed, with how
// much: then no animals go in, whatever the filter should carry.
func showing(c model.Case, now unit.Days, scale string) (shown []string) {
	for _, s := range []unit.Species{unit.Ammonia, unit.Nitrite} {
		var last *model.Seen
		for i := range c.Readings {
			if r := &c.Readings[i]; r.Day <= now && r.Of(s) != nil {
				last = r.Of(s)
			}
		}
		if last == nil {
			continue
		}
		if ion := last.Ion(s); ion >= showsFrom {
			shown = append(shown, s.String()+" "+sigText(digits(shownOn(scale, ion, s), 3))+" mg/L")
		}
	}
	return shown
}
