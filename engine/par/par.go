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
// a few at a time, until from is upto. Each core takes several of these at once.
func Share(n, several int, core func(next func() (from, upto int))) {
	chunk := min(max(n/(64*several), 1), 16) // many for each core, so that none waits long
	var given atomic.Int64
	next := func() (from, upto int) {
		from = min(int(given.Add(int64(chunk)))-chunk, n)
		return from, min(from+chunk, n)
	}
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), (n+chunk-1)/chunk) {
		wg.Go(func() { core(next) })
	}
	wg.Wait()
}
