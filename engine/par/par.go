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
	chunk := min(max(n/64, 1), 16) // several for each core, so that none waits long
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), (n+chunk-1)/chunk) {
		wg.Go(func() {
			f := worker()
			for {
				from := int(next.Add(int64(chunk))) - chunk
				if from >= n {
					return
				}
				for i := from; i < min(from+chunk, n); i++ {
					f(i)
				}
			}
		})
	}
	wg.Wait()
}
