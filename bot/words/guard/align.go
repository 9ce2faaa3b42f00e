package guard

import (
	"fmt"
	"slices"
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

// span is a stretch of an answer that is to say a claim.
type span struct {
	claim  *claim
	last   *claim // the one that was said before, nil for none
	from   int
	used   []bool          // tokens of the claim that were said
	again  map[string]bool // concepts of its sentence that were said, once each
	counts bool            // it says that causes follow, or how many
	as     map[int]int     // token of the answer -> token of the claim
	twice  map[int]bool    // tokens of the answer that say a quantity again
}

// complete holds when all is said that has to be, up to end.
func (a *aligner) complete(s *span, end int) bool {
	for i, t := range s.claim.tokens {
		if !s.used[i] && !droppable(t.key) && !a.goesOn(s, t, end) && !a.implied(s, t, end) {
			return s.counts
		}
	}
	return s.counts || len(s.claim.tokens) > 0
}

// implied holds for the chance that a percentage is, for "within" where "in 7 days" was said, and for a reading that is to be
// taken where a test was.
func (a *aligner) implied(s *span, t token, end int) bool {
	switch t.key {
	case "chance":
		return s.claim.has("done") && slices.ContainsFunc(a.said[s.from:end], func(t token) bool { return t.kind == "%" })
	case "within":
		return slices.ContainsFunc(a.said[s.from:end], func(t token) bool { return t.kind == "days" && t.ahead })
	case "read":
		return s.again["test"] || s.again["check"]
	}
	return false
}

// goesOn holds for what the claim before was about, and for what it said happens: "nitrite
// peaks around day 20 and clears around day 30", "medicine is likely: you logged it".
func (a *aligner) goesOn(s *span, t token, end int) bool {
	if s.last == nil || !s.last.has(t.key) {
		return false
	}
	pronoun := slices.ContainsFunc(a.said[s.from:end], func(t token) bool { return t.pronoun })
	switch {
	case s.last.heads:
		return pronoun && !s.claim.advice && quantityKind(t) == "" && ordered[t.key] == "" && t.key != "not" && t.key != "hardly"
	case milestone(s.last.tokens) && milestone(s.claim.tokens):
		return (pronoun || a.said[s.from].before < stop) && (substance(t.key) || t.key == "clear" || t.key == "highest")
	}
	return false
}

func droppable(key string) bool { return dropped[key] || strings.HasPrefix(key, "number-") }

// take counts token j of the answer as said, and returns whether the claim knows it.
func (a *aligner) take(s *span, j int) bool {
	t := a.said[j]
	class := classOf(t, s.claim.advice)
	for i, want := range s.claim.tokens {
		if s.used[i] || droppable(want.key) && want.key != t.key {
			continue
		}
		if same(want, t) || want.key == "likely" && t.key == "chance" && s.claim.kind("%") {
			s.used[i], s.as[j] = true, i
			return true
		}
		if class != "" && classOf(want, s.claim.advice) == class {
			return a.more(s, j) // another of its class has to come first
		}
	}
	switch {
	case s.claim.counted != "" && t.key == s.claim.counted && j > 0 && a.said[j-1].key == "counted":
		s.counts = true
		return true
	case s.claim.counted != "" && t.key == "counted":
		return true
	case s.claim.counted != "" && announcing[t.key]:
		s.counts = true
		return true
	}
	return a.more(s, j)
}

// more holds for token j if the answer may say it though the claim does not, or says it
// elsewhere.
func (a *aligner) more(s *span, j int) bool {
	t := a.said[j]
	switch {
	case t.key == "cause" && s.claim.heads: // what is likely is not certain
		return j > 0 && (a.said[j-1].key == "likely" || a.said[j-1].key == "may")
	case added[t.key], t.key == "while" && t.before >= comma: // a contrast, no condition
		return true
	case things[t.key] && s.claim.has(t.key):
		return true
	case s.claim.shared[t.key] && !s.again[t.key] && !s.claim.has(t.key), hedges[t.key] && !s.again[t.key] && s.claim.has(t.key):
		s.again[t.key] = true
		return true
	case t.key == "around" && (s.claim.has("likely") || s.claim.shared["likely"]) || s.claim.kind("%") && (t.key == "likely" || t.key == "chance"):
		return true
	case t.key == "likely" && milestone(s.claim.tokens):
		return true
	case t.key == "only" && !s.claim.advice && j+1 < len(a.said) && quantityKind(a.said[j+1]) != "":
		return true
	case t.kind != "" && t.before >= comma && (j+1 == len(a.said) || a.said[j+1].before >= comma) && s.said(t): // "40 %, four in ten"
		s.twice[j] = true
		return true
	case slices.ContainsFunc(lent[t.key], func(by string) bool { return s.claim.has(by) || s.claim.kind(by) }):
		return true
	}
	return a.derived(s, j)
}

// said holds for a quantity of the claim that was said before.
func (s *span) said(t token) bool {
	for i, want := range s.claim.tokens {
		if s.used[i] && quantityKind(want) == quantityKind(t) && same(want, t) {
			return true
		}
	}
	return false
}

func (c *claim) has(key string) bool {
	return slices.ContainsFunc(c.tokens, func(t token) bool { return t.key == key })
}

// kind holds for a claim that has a quantity of a kind.
func (c *claim) kind(kind string) bool {
	return slices.ContainsFunc(c.tokens, func(t token) bool { return t.kind == kind })
}

// classOf is the class of things that keep their order; "" for what may move.
func classOf(t token, advice bool) string {
	switch {
	case advice:
		return "advice"
	case quantityKind(t) != "":
		return quantityKind(t)
	case substance(t.key):
		return "substance"
	}
	return ordered[t.key]
}

// same holds where a token of the answer says a token of the draft: as exactly as it was
// printed, and no more exactly.
func same(want, t token) bool {
	switch {
	case want.kind == "date" && t.kind == "date":
		return t.key == want.key || strings.HasSuffix(t.key, "-") && strings.HasPrefix(want.key, t.key)
	case want.key == t.key && t.decimals[0] <= want.decimals[0] && t.decimals[1] <= want.decimals[1]:
		return true
	case want.key == "%:50" && t.key == "half":
		return true
	}
	return converted(want, t)
}

// derived holds for what follows from a date of the claim: its weekday, and its days from
// today, as in "in 9 days".
func (a *aligner) derived(s *span, j int) bool {
	t := a.said[j]
	if t.kind != "weekday" && t.kind != "days" {
		return false
	}
	for _, want := range s.claim.tokens {
		if want.kind != "date" {
			continue
		}
		day, err := time.Parse("date:1-2-2006", want.key)
		if err != nil {
			continue
		}
		if t.kind == "weekday" && t.key == "weekday:"+day.Weekday().String() {
			return true
		}
		if t.kind == "days" && t.ahead && t.key == "days:"+printed(day.Sub(a.today).Hours()/24) {
			return true
		}
	}
	return false
}
