package par

import (
	"sync/atomic"
	"testing"
)

// TestShare: every piece is given out once, however many at a time.
func TestShare(t *testing.T) {
	for _, n := range []int{0, 1, 2, 15, 16, 17, 1000} {
		for _, several := range []int{1, 8} {
			given := make([]atomic.Int32, n)
			Share(n, several, func(next func() (from, upto int)) {
				for from, upto := next(); from < upto; from, upto = next() {
					for i := from; i < upto; i++ {
						given[i].Add(1)
					}
				}
			})
			for i := range given {
				if k := given[i].Load(); k != 1 {
					t.Errorf("piece %d of %d was given out %d times to %d at once", i, n, k, several)
				}
			}
		}
	}
}
