package diagnose

import (
	"strings"
	"testing"
)

// TestOneBuffer: where two causes ask for bicarbonate, only the first names an
// amount, so that nobody adds both.
func TestOneBuffer(t *testing.T) {
	for _, order := range [][]string{{"acidic-water", "cold-water", "low-alkalinity"}, {"low-alkalinity", "acidic-water"}, {"low-alkalinity"}} {
		var d Diagnosis
		for _, name := range order {
			d.Causes = append(d.Causes, Cause{Name: name, Fix: Fix{Do: "add 3 g of sodium bicarbonate"}})
		}
		d.oneBuffer()
		n := 0
		for _, c := range d.Causes {
			if c.Name != "cold-water" && strings.Contains(c.Fix.Do, "3 g") {
				n++
			}
		}
		if n != 1 || !strings.Contains(d.Causes[0].Fix.Do, "3 g") {
			t.Errorf("%v: %d causes name an amount of bicarbonate", order, n)
		}
	}
}
