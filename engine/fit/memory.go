package fit

import (
	"sync"

	"ripen/engine/par"
)

// Memory keeps the populations of recent fits, so that a log with one more
// reading is fitted from where the last fit stopped. The result is the same,
// bit for bit, as without: the way through the readings depends on nothing that
// comes later. It is safe for use by several goroutines.
type Memory struct {
	mu    sync.Mutex
	size  int
	paths []*path // most recently used last
}

// NewMemory returns a memory of the last size fits, each about 2 MB.
func NewMemory(size int) *Memory { return &Memory{size: size} }

// path is a population that has taken in the first visits of a log.
type path struct {
	key    uint64
	cloud  *cloud
	visits int
}

// recall returns a copy of the longest path with one of the keys, which belong
// to the first 1, 2, ... days of sights; nil if there is none.
func (m *Memory) recall(keys []uint64, b *problem) *path {
	if m == nil {
		return nil
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	for k := len(keys) - 1; k >= 0; k-- {
		for i := len(m.paths) - 1; i >= 0; i-- {
			if p := m.paths[i]; p.key == keys[k] {
				m.paths = append(append(m.paths[:i:i], m.paths[i+1:]...), p)
				return &path{key: p.key, cloud: p.cloud.copyFor(b), visits: p.visits}
			}
		}
	}
	return nil
}

// keep remembers a path; it must not be used any more afterwards.
func (m *Memory) keep(p *path) {
	if m == nil {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	for i, q := range m.paths {
		if q.key == p.key {
			m.paths = append(m.paths[:i:i], m.paths[i+1:]...)
			break
		}
	}
	m.paths = append(m.paths, p)
	if len(m.paths) > m.size {
		m.paths = m.paths[1:]
	}
}

// copyFor copies the population for a problem whose plan is the same so far.
func (c *cloud) copyFor(b *problem) *cloud {
	n := len(c.x)
	d := *c
	d.b, d.logw = b, append([]float64(nil), c.logw...)
	d.population, d.next, d.rooms, d.room, d.scale, d.behind, d.workers = newPopulation(n), population{}, new(rooms), nil, scale{}, nil, make([]*worker, workersKept)
	par.Each(n, func() func(int) {
		return func(i int) {
			d.copyOf(i, &c.population)
			if d.twin[i] == i {
				d.run[i].Follow(b.plan)
			}
		}
	})
	return &d
}
