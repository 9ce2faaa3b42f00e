package fit

import (
	"sync"

	"ripen/engine/model"
)

// population is draws on their way through the readings. Many are copies of others,
// apart from unknowns that have had no effect so far; of these only the first runs.
type population struct {
	x    []z
	par  []model.Params
	lens []lens
	led  []led
	run  []*model.Run // of draws that are their own twin, else nil
	twin []int        // the first draw whose run is that of this one
	like []float64    // log-likelihood of the readings taken in so far
	inc  []float64    // log-likelihood of the readings being taken in
	leg  []leg        // of draws that run
}

func newPopulation(n int) population {
	p := population{make([]z, n), make([]model.Params, n), make([]lens, n), make([]led, n), make([]*model.Run, n), make([]int, n), make([]float64, n), make([]float64, n), make([]leg, n)}
	for i := range p.twin {
		p.twin[i] = i
	}
	return p
}

// first returns the first n draws.
func (p *population) first(n int) population {
	return population{p.x[:n], p.par[:n], p.lens[:n], p.led[:n], p.run[:n], p.twin[:n], p.like[:n], p.inc[:n], p.leg[:n]}
}

// outfit works out what follows from the scores of draw i.
func (p *population) outfit(i int, b *problem) {
	b.params(&p.x[i], &p.par[i])
	p.lens[i] = b.lens(&p.x[i])
}

// set makes draw i the same as draw j of q, with room for a run of its own.
func (p *population) set(i int, q *population, j int, room *model.Run) {
	p.x[i], p.par[i], p.lens[i], p.led[i], p.like[i], p.inc[i], p.twin[i] = q.x[j], q.par[j], q.lens[j], q.led[q.twin[j]], q.like[j], q.inc[j], i
	p.run[i], p.leg[i] = room, q.leg[q.twin[j]]
	room.CopyFrom(q.run[q.twin[j]], &p.par[i])
}

// copyOf makes draw i the same as draw i of q, twins included.
func (p *population) copyOf(i int, q *population) {
	if q.twin[i] == i {
		p.set(i, q, i, new(model.Run))
		return
	}
	p.x[i], p.par[i], p.lens[i], p.like[i], p.inc[i], p.twin[i] = q.x[i], q.par[i], q.lens[i], q.like[i], q.inc[i], q.twin[i]
}

// rooms are runs in nobody's use.
type rooms struct {
	mu   sync.Mutex
	free []*model.Run
}

func (r *rooms) take() *model.Run {
	r.mu.Lock()
	defer r.mu.Unlock()
	n := len(r.free)
	if n == 0 {
		return new(model.Run)
	}
	room := r.free[n-1]
	r.free = r.free[:n-1]
	return room
}

// clear takes over the runs of a population.
func (r *rooms) clear(p *population) {
	for i, run := range p.run {
		if run != nil {
			r.free, p.run[i] = append(r.free, run), nil
		}
	}
}
