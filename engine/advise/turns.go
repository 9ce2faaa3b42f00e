package advise

import "runtime"

// turns lets as many work at a time as there are processors, in the order of
// coming: shared between more, all would wait for all. Outlooks do not wait for
// questions that take longer. Nil turns let all work at once.
type turns chan struct{}

func newTurns() turns { return make(turns, runtime.GOMAXPROCS(0)) }

// take waits for a turn and returns what ends it.
func (t turns) take() (end func()) {
	if t == nil {
		return func() {}
	}
	t <- struct{}{}
	return func() { <-t }
}
