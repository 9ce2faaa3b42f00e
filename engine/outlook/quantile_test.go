package outlook

import (
	"math"
	"testing"
)

func TestDoneBy(t *testing.T) {
	done := []float64{5, 10, 10, 20, 30, 40, 50, 60, 70, math.Inf(1)}
	o := Outlook{Horizon: 180, ChanceDoneOn: func(day float64) float64 { return share(done, day) }}
	for _, tt := range []struct{ q, want float64 }{
		{0, 0}, {0.05, 5}, {0.1, 5}, {0.11, 10}, {0.3, 10}, {0.5, 30}, {0.9, 70}, {0.95, math.Inf(1)},
	} {
		if got := o.DoneBy(tt.q); got != tt.want {
			t.Errorf("done with chance %g by day %g, want %g", tt.q, got, tt.want)
		}
	}
}
