package model

import (
	"math"
	"slices"
	"testing"

	"ripen/testdata"
)

// TestDoublingTimes holds the growth of the two bacteria to the published curves of
// testdata/published/doubling.csv: within the middle half of them in warm alkaline
// water, where most of them were measured, and within their range in cool acidic water.
func TestDoublingTimes(t *testing.T) {
	rows := testdata.Table(t, "doubling.csv")
	for _, place := range []struct {
		column   string
		temp, ph float64
		cut      float64 // share of the curves left out at either end
	}{{"h_27c_ph75", 27, 7.5, 0.25}, {"h_22c_ph65", 22, 6.5, 0}} {
		for _, i := range []int{AOB, NOB} {
			var h []float64
			for _, r := range rows {
				if r.Text("guild") == [...]string{AOB: "AOB", NOB: "NOB"}[i] {
					h = append(h, r.Number(place.column))
				}
			}
			slices.Sort(h)
			last := float64(len(h) - 1)
			low, high := h[int(math.Floor(place.cut*last))], h[int(math.Ceil((1-place.cut)*last))]
			g := &Defaults[i]
			f := CardinalTemperature(place.temp, g.TMin, g.TOpt, g.TMax) * CardinalPH(place.ph, g.PHMin, g.PHOpt, g.PHMax)
			got := 24 * math.Ln2 / (g.Mu * f)
			t.Logf("%s at %g C and pH %g double in %.1f h; curves %g to %g, middle %g", g.Name, place.temp, place.ph, got, low, high, h[len(h)/2])
			if got < low || got > high {
				t.Errorf("%s at %g C and pH %g double in %.1f h, want %g to %g", g.Name, place.temp, place.ph, got, low, high)
			}
		}
	}
}
