package advise

import "sync"

// recent keeps the answers to the last size questions. A nil recent keeps none.
type recent[V any] struct {
	mu   sync.Mutex
	size int
	m    map[key]V
	keys []key // oldest first
}

func newRecent[V any](size int) *recent[V] { return &recent[V]{size: size, m: map[key]V{}} }

func (r *recent[V]) get(k key) (v V, ok bool) {
	if r == nil {
		return v, false
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	v, ok = r.m[k]
	return v, ok
}

func (r *recent[V]) put(k key, v V) {
	if r == nil {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if _, ok := r.m[k]; !ok {
		r.keys = append(r.keys, k)
		if len(r.keys) > r.size {
			delete(r.m, r.keys[0])
			r.keys = r.keys[1:]
		}
	}
	r.m[k] = v
}
