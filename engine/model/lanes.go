package model

import (
	"iter"
	"math/bits"
	"sync"

	"ripen/engine/par"
)

//go:generate go run -tags generate ./vectorise .

// Each is par.Each for work on runs: it calls, for every i in 0..n-1, the function
// that a worker made for itself. Each core keeps four or eight workers and makes the
// steps of their runs, where they ride on the worker's lane, at once. What comes out is
// the same to the last bit as without.
func Each(n int, worker func(on *Lane) func(i int)) {
	if wide == nil {
		par.Each(n, func() func(int) { return worker(nil) })
		return
	}
	par.Share(n, wide.lanes, func(next func() (from, upto int)) {
		r := roads.take()
		defer roads.giveBack(r)
		for i := range wide.lanes {
			l := &r.lane[i]
			resume, stop := iter.Pull(func(yield func(struct{}) bool) {
				l.yield = yield
				f := worker(l)
				for from, upto := next(); from < upto; from, upto = next() {
					for i := from; i < upto; i++ {
						f(i)
					}
				}
			})
			defer stop()
			l.road, l.i, l.resume = r, i, resume
		}
		r.drive(r.lane[:wide.lanes])
		clear(r.lane[:])
	})
}

// Run returns the run that rides on the lane for its worker; there is one.
func (l *Lane) Run() *Run {
	if l == nil {
		return new(Run)
	}
	l.own.lane, l.own.room = l, &l.room
	return &l.own
}

// Ride lets the run be integrated on a lane; nil takes it off. A run on a lane may be used
// by that lane's worker alone, and only while Each calls it.
func (r *Run) Ride(l *Lane) { r.lane = l }

// instructions do what Run.stepOn does for several runs at once, in two stages, which vectorise
// wrote: up to where the stretches of alkalinity at the end must be known, with a bit set
// for each lane whose stretch is the right one already, and from there on, with a bit set for
// each lane that goes on at once. The bare ones are for tanks
// without plants, soil and chlorine; commit takes over the ends of the steps that were taken.
type instructions struct {
	lanes              int
	first, firstBare   func(*lanes) (held uint64)
	second, secondBare func(*lanes) (goesOn uint64)
	commit             func(*lanes)
}

// wide are the widest instructions of the machine, or nil.
var wide = func() *instructions {
	if all := available(); len(all) > 0 {
		return all[0]
	}
	return nil
}()

// road is some runs being integrated side by side.
type road struct {
	lanes
	lane [8]Lane
	busy uint64 // a bit for each lane that has a step to make
	rich uint64 // and that needs more than the bare instructions
}

// roads are those in nobody's use, at most as many as a large machine uses at once. Unlike those
// of a sync.Pool they outlast a garbage collection, of which a fit sees several.
var roads garage

type garage struct {
	mu   sync.Mutex
	free []*road
}

func (g *garage) take() *road {
	g.mu.Lock()
	defer g.mu.Unlock()
	if n := len(g.free); n > 0 {
		r := g.free[n-1]
		g.free = g.free[:n-1]
		return r
	}
	r := new(road)
	r.putFixed()
	return r
}

func (g *garage) giveBack(r *road) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if len(g.free) < 64 {
		g.free = append(g.free, r)
	}
}

// Lane is one worker of Each.
type Lane struct {
	road   *road
	i      int
	yield  func(struct{}) bool
	resume func() (struct{}, bool)

	run   *Run // being integrated
	day   float64
	full  bool // with all stops up to the day
	seen  func(i int, r *Run) bool
	daily func(day int, r *Run) // see Daily
	last  float64               // day of Daily
	ok    bool                  // as To returns

	laid *Run // whose constants are laid out
	out  bool // the road knows better than the run where it stands

	own, room Run // the worker's, and room for its trials
}

// take is To or, unless full, integrate.
func (l *Lane) take(r *Run, day float64, full bool, seen func(i int, r *Run) bool) bool {
	l.run, l.day, l.full, l.seen = r, day, full, seen
	if l.goOn() {
		l.yield(struct{}{})
	}
	l.run, l.seen, l.daily = nil, nil, nil
	return l.ok
}

// goOn brings the run to where it must be integrated next. It says whether there is such;
// if not, the run is where it should be, or was stopped.
func (l *Lane) goOn() bool {
	r := l.run
	for {
		to, h := l.day, atEnd
		if l.full {
			to, h = r.ahead(l.day)
		}
		if r.Day < to {
			if !l.out {
				l.enter()
			}
			x := r.stride(to)
			l.road.putStride(l.i, &x)
			l.road.busy |= 1 << l.i
			return true
		}
		switch {
		case h == atEnd && l.daily != nil:
			l.daily(int(r.Day), r)
			if l.day++; l.day <= l.last {
				continue
			}
			fallthrough
		case h == atEnd:
			l.fetch()
			l.ok = true
			return false
		case h != atStop || !r.plan.stops[r.next].calm:
			l.fetch()
		}
		if !r.halted(h, l.seen) {
			l.fetch()
			l.ok = false
			return false
		}
	}
}

// enter lays out the run on the road.
func (l *Lane) enter() {
	x, k := l.run, &l.run.k
	x.setOut()
	l.road.putState(l.i, &x.State)
	l.road.putPace(l.i, &x.now)
	l.road.putPassed(l.i, &x.passed)
	if l.laid != x || !x.laid {
		l.road.putKin(l.i, k)
		l.laid, x.laid = x, true
	}
	l.road.putCell(l.i, k.acidity.last())
	l.road.rich &^= 1 << l.i
	if k.plant != 0 || x.State.Cl != 0 || x.State.Soil != 0 {
		l.road.rich |= 1 << l.i
	}
	l.out = true
}

// fetch completes the run by what was left on the road.
func (l *Lane) fetch() {
	if l.out {
		l.road.getPace(l.i, &l.run.now)
		l.road.getPassed(l.i, &l.run.passed)
		l.run.at = l.run.State.steeped()
		l.out = false
	}
}

// leave ends an integration and goes on to the next.
func (l *Lane) leave() {
	l.road.busy &^= 1 << l.i
	var x stride
	l.road.getStride(l.i, &x)
	l.run.arrive(&x)
	l.road.getState(l.i, &l.run.State)
	if !l.goOn() {
		l.resume()
	}
}

// drive integrates until no lane has work left.
func (r *road) drive(lane []Lane) {
	for i := range lane {
		lane[i].resume()
	}
	for r.busy != 0 {
		first, second := wide.first, wide.second
		if r.busy&r.rich == 0 {
			first, second = wide.firstBare, wide.secondBare
		}
		for lost := r.busy &^ first(&r.lanes); lost != 0; lost &= lost - 1 {
			i := bits.TrailingZeros64(lost)
			r.putCell(i, lane[i].run.k.at(r.alk[i], r.s[laneAcid][i]))
		}
		arrived := uint64(0)
		for halt := r.busy &^ second(&r.lanes); halt != 0; halt &= halt - 1 {
			i := bits.TrailingZeros64(halt) & 7
			if r.crossed[i] != 0 {
				r.cross(i)
			}
			if r.x[laneAt][i] >= r.x[laneTo][i] {
				arrived |= 1 << i
			}
		}
		wide.commit(&r.lanes)
		for ; arrived != 0; arrived &= arrived - 1 {
			lane[bits.TrailingZeros64(arrived)].leave()
		}
	}
}

// cross is that of a lane's milestones, after a step that was not taken over yet.
func (l *lanes) cross(i int) {
	var x stride
	var m passed
	l.getStride(i, &x)
	l.getPassed(i, &m)
	m.cross(x.from, x.at, l.s[laneTAN][i], l.s[laneNO2][i], l.next[laneTAN][i], l.next[laneNO2][i])
	l.putPassed(i, &m)
}
