package guard

import (
	"fmt"
	"strings"
	"time"
)

// aligner finds each claim of a draft in an answer.
type aligner struct {
	claims []claim
	said   []token
	today  time.Time
	failed map[state]bool // from where nothing was found
	far    state          // the furthest that was come to
	steps  int            // tokens looked at so far
}

// state is how far an answer was read.
type state struct {
	passage int    // that is being said
	units   uint64 // of it that were said
	unit    int    // that is being said, 0 for none
	claims  uint64 // of it that were said
	last    int    // the claim that was said last, -1 for none
	inner   int    // the strongest separator between its quantities
	at      int    // the token that comes next
}

// most is how many tokens are looked at before a text is given up: a hundred times as
// many as a usual answer takes.
const most = 200_000

// align returns nil if the answer's tokens are the claims, each once and in a place where
// it may be, and nothing else.
func align(claims []claim, said []token, today time.Time) error {
	a := &aligner{claims: claims, said: said, today: today, failed: map[state]bool{}}
	if a.from(state{last: -1}) {
		return nil
	}
	if a.steps > most {
		return refuse("it can be read in too many ways", "")
	}
	want := "the end"
	if next := a.next(a.far); len(next) > 0 {
		var keys []string
		for _, t := range claims[next[0]].tokens {
			keys = append(keys, t.key)
		}
		want = strings.Join(keys, " ")
	}
	got := "the end"
	if at := a.far.at; at < len(said) {
		got = said[at].text
		for _, t := range said[at+1 : min(at+5, len(said))] {
			got += " " + t.text
		}
	}
	return refuse(fmt.Sprintf("it does not say [%s]", want), got)
}

// next returns the claims that may be said next; none at the end.
func (a *aligner) next(s state) []int {
	var all []int
	units := uint64(0) // that were looked at
	for k, c := range a.claims {
		p := c.place
		switch {
		case p.passage < s.passage || p.passage == s.passage && s.units&(1<<p.unit) > 0:
			continue
		case len(all) > 0 && p.passage > a.claims[all[0]].place.passage:
			return all
		case s.unit > 0 && p.passage == s.passage && p.unit != s.unit:
			continue
		}
		first := a.first(k)
		if s.unit > 0 && p.passage == s.passage && s.claims&(1<<(k-first)) > 0 || !p.free && units&(1<<p.unit) > 0 {
			continue
		}
		units |= 1 << p.unit
		all = append(all, k)
	}
	return all
}

// first returns the first claim of a claim's unit.
func (a *aligner) first(k int) int {
	for k > 0 && a.claims[k-1].place == a.claims[k].place {
		k--
	}
	return k
}

// after returns the state after claim k was said, or left out, up to token end.
func (a *aligner) after(s state, k, end int) state {
	p := a.claims[k].place
	if p.passage != s.passage {
		s.passage, s.units = p.passage, 0
	}
	if s.unit != p.unit {
		s.unit, s.claims = p.unit, 0
	}
	first, whole := a.first(k), uint64(0)
	for i := first; i < len(a.claims) && a.claims[i].place == p; i++ {
		whole |= 1 << (i - first)
	}
	if s.claims |= 1 << (k - first); s.claims == whole {
		s.units, s.unit, s.claims = s.units|1<<p.unit, 0, 0
	}
	s.at = end
	return s
}

// from aligns what is left of the claims with what is left of the answer.
func (a *aligner) from(s state) bool {
	if a.failed[s] || a.steps > most {
		return false
	}
	if s.at > a.far.at {
		a.far = s
	}
	next := a.next(s)
	if len(next) == 0 {
		return s.at == len(a.said)
	}
	for _, k := range next {
		for _, r := range a.ends(k, s) {
			to := a.after(s, k, r.end)
			to.last, to.inner = k, r.inner
			if a.from(to) {
				return true
			}
		}
		if a.claims[k].optional && a.from(a.after(s, k, s.at)) {
			return true
		}
	}
	a.failed[s] = true
	return false
}

// reading is a stretch of an answer that says a claim: where it ends, and what separates
// its quantities.
type reading struct{ end, inner int }

// ends returns where claim k can end if it is said next, longest first.
func (a *aligner) ends(k int, s state) []reading {
	c := &a.claims[k]
	sp := span{claim: c, from: s.at, used: make([]bool, len(c.tokens)), again: map[string]bool{}, as: map[int]int{}, twice: map[int]bool{}}
	if s.last >= 0 && s.at < len(a.said) {
		sp.last = &a.claims[s.last]
	}
	var ends []reading
	a.steps++
	for j := s.at; j < len(a.said) && a.steps <= most && a.take(&sp, j); j++ {
		a.steps++
		if j >= a.far.at {
			a.far = s
			a.far.at = j + 1
		}
		if !a.complete(&sp, j+1) || !a.sound(&sp, j+1) {
			continue
		}
		if inner := a.inner(&sp, j+1); a.apart(s, k, inner) {
			ends = append([]reading{{j + 1, inner}}, ends...)
		}
	}
	return ends
}
