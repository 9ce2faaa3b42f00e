package advise

import (
	"slices"
	"testing"

	"ripen/engine/model"
)

// BenchmarkGain is what a seed of the first day saved, in a tank with 30 readings
// that nobody asked about before; the mark is a second on two cores.
func BenchmarkGain(b *testing.B) {
	c := monthOfReadings(30, func(*model.Setup) {})
	seed := model.Event{Kind: model.Seed, Volume: 0.2, DonorPH: 7.4, Day: 0.5}
	i := slices.IndexFunc(c.Events, func(e model.Event) bool { return e.Day > seed.Day })
	c.Events = slices.Insert(c.Events, max(i, 0), seed)
	for b.Loop() {
		if _, err := New(1).Gain(c, 30, seed); err != nil {
			b.Fatal(err)
		}
	}
}
