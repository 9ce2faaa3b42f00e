package advise

import (
	"testing"

	"ripen/engine/model"
	"ripen/engine/stocking"
)

// BenchmarkStock is a plan for more animals than go in at once, of a tank with 30
// readings that was asked about before; the mark is half a second on two cores.
func BenchmarkStock(b *testing.B) {
	c := monthOfReadings(30, func(*model.Setup) {})
	e := New(4)
	for b.Loop() {
		if _, err := e.Stock(c, 30, stocking.Wish{Animals: 150}); err != nil {
			b.Fatal(err)
		}
	}
}
