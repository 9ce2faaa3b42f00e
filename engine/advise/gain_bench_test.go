package advise

import (
	"slices"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// BenchmarkGain is what a seed of the first day saved, in a tank with 30 readings; the
// mark is a second on two cores, asked for the first time or after an outlook.
func BenchmarkGain(b *testing.B) {
	c := monthOfReadings(30, func(*model.Setup) {})
	seed := model.Event{Kind: model.Seed, Volume: 0.2, DonorPH: 7.4, Day: 0.5}
	i := slices.IndexFunc(c.Events, func(e model.Event) bool { return e.Day > seed.Day })
	c.Events = slices.Insert(c.Events, max(i, 0), seed)
	gain := func(b *testing.B, e *Engine, now unit.Days) {
		if _, err := e.Gain(c, now, seed); err != nil {
			b.Fatal(err)
		}
	}
	b.Run("first", func(b *testing.B) {
		for b.Loop() {
			gain(b, New(1), 30)
		}
	})
	b.Run("after an outlook", func(b *testing.B) {
		e := New(1)
		now := unit.Days(30)
		for b.Loop() {
			now += 0.001
			gain(b, e, now)
		}
	})
}
