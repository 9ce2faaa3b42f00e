package discord

import "sync"

// seen knows the deliveries of late, so that one that comes again is dropped.
type seen struct {
	mu   sync.Mutex // protects all below
	ids  map[string]bool
	ring []string // in the order of coming
	next int
}

// seenMost is how many deliveries are known, many times what comes within the
// seconds in which one may be repeated.
const seenMost = 4096

func newSeen() *seen { return &seen{ids: map[string]bool{}, ring: make([]string, seenMost)} }

// first says whether id comes for the first time.
func (s *seen) first(id string) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.ids[id] {
		return false
	}
	delete(s.ids, s.ring[s.next])
	s.ids[id], s.ring[s.next] = true, id
	s.next = (s.next + 1) % seenMost
	return true
}
