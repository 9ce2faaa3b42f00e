// Package par spreads independent pieces of work over all cores.
package par

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each calls, for every i in 0..n-1, the function that a worker made for
// itself; a worker may so keep scratch space of its own. Which worker gets
// which i is not determined, so results must go by i alone.
func Each(n int, worker func() func(i int)) {
	Share(n, 1, func(next func() (from, upto int)) {
		f := worker()
		for from, upto := next(); from < upto; from, upto = next() {
			for i := from; i < upto; i++ {
				f(i)
			}
		}
	})
}

// Share calls core on every core, with a function that gives out what is left of 0..n-1,
// some at a time, until from is upto. Each core takes several of these at once. They become
// fewer towards the end, so that none is waited for long (guided self-scheduling, Polychronopoulos
// & Kuck 1987, IEEE Trans. Comput. C-36:1425-1439).
func Share(n, several int, core func(next func() (from, upto int))) {
	cores := runtime.GOMAXPROCS(0)
	takers := cores * several
	var given atomic.Int64
	next := func() (from, upto int) {
		for {
			had := given.Load()
			from = int(had)
			upto = from + (n-from+2*takers-1)/(2*takers)
			if from == upto || given.CompareAndSwap(had, int64(upto)) {
				return from, upto
			}
		}
	}
	var wg sync.WaitGroup
	for range min(cores, n) {
		wg.Go(func() { core(next) })
	}
	wg.Wait()
}
