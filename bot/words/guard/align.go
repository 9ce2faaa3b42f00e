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
	failed map[[2]int]bool // claim and token from where nothing was found
	claim  int             // the furthest that was come to
	at     int
	steps  int // tokens looked at so far
}

// most is how many tokens are looked at before a text is given up: a hundred times as
// many as a usual answer takes.
const most = 200_000

// align returns nil if the answer's tokens are the claims, in order, and nothing else.
func align(claims []claim, said []token, today time.Time) error {
	a := &aligner{claims: claims, said: said, today: today, failed: map[[2]int]bool{}}
	if a.from(0, 0) {
		return nil
	}
	if a.steps > most {
		return refuse("it can be read in too many ways", "")
	}
	want := "the end"
	if a.claim < len(claims) {
		var keys []string
		for _, t := range claims[a.claim].tokens {
			keys = append(keys, t.key)
		}
		want = strings.Join(keys, " ")
	}
	got := "the end"
	if a.at < len(said) {
		got = said[a.at].text
		for _, t := range said[a.at+1 : min(a.at+5, len(said))] {
			got += " " + t.text
		}
	}
	return refuse(fmt.Sprintf("it does not say [%s]", want), got)
}

// from aligns the claims from k on with what is said from i on.
func (a *aligner) from(k, i int) bool {
	if k == len(a.claims) {
		a.reach(k, i)
		return i == len(a.said)
	}
	if a.failed[[2]int{k, i}] {
		return false
	}
	for _, end := range a.ends(k, i) {
		if a.from(k+1, end) {
			return true
		}
	}
	if a.claims[k].optional && a.from(k+1, i) {
		return true
	}
	a.failed[[2]int{k, i}] = true
	return false
}

func (a *aligner) reach(k, i int) {
	if k > a.claim || k == a.claim && i > a.at {
		a.claim, a.at = k, i
	}
}

// ends returns where claim k can end if it begins at token i, longest first.
func (a *aligner) ends(k, i int) []int {
	c := &a.claims[k]
	s := span{claim: c, from: i, used: make([]bool, len(c.tokens)), again: map[string]bool{}, as: map[int]int{}}
	var ends []int
	for j := i; j < len(a.said) && a.steps <= most && a.take(&s, j); j++ {
		a.steps++
		a.reach(k, j+1)
		if s.complete() && a.sound(k, &s, j+1) {
			ends = append([]int{j + 1}, ends...)
		}
	}
	a.reach(k, i)
	return ends
}

// span is a stretch of an answer that is to say a claim.
type span struct {
	claim  *claim
	from   int
	used   []bool          // tokens of the claim that were said
	again  map[string]bool // concepts of its sentence that were said, once each
	counts bool            // it says that causes follow, or how many
	as     map[int]int     // token of the answer -> token of the claim
}

// complete holds when all is said that has to be.
func (s *span) complete() bool {
	for i, t := range s.claim.tokens {
		if !s.used[i] && !droppable(t.key) {
			return s.counts
		}
	}
	return s.counts || len(s.claim.tokens) > 0
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
		if same(want, t) || want.key == "likely" && t.key == "chance" && s.claim.percent() {
			s.used[i], s.as[j] = true, i
			return true
		}
		if class != "" && classOf(want, s.claim.advice) == class && !added[t.key] && !s.claim.shared[t.key] && !a.derived(s, j) {
			return false // another of its class has to come first
		}
		if class != "" && classOf(want, s.claim.advice) == class {
			break
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
	case added[t.key], t.key == "while" && t.before >= comma: // a contrast, no condition
		return true
	case s.claim.shared[t.key] && !s.again[t.key] && !s.claim.has(t.key):
		s.again[t.key] = true
		return true
	case t.key == "around" && (s.claim.has("likely") || s.claim.shared["likely"]) || s.claim.percent() && (t.key == "likely" || t.key == "chance"):
		return true
	}
	return a.derived(s, j)
}

func (c *claim) has(key string) bool {
	return slices.ContainsFunc(c.tokens, func(t token) bool { return t.key == key })
}

func (c *claim) percent() bool {
	return slices.ContainsFunc(c.tokens, func(t token) bool { return t.kind == "%" })
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
	case want.key == t.key:
		return t.decimals[0] <= want.decimals[0] && t.decimals[1] <= want.decimals[1]
	case want.key == "%:50" && t.key == "half":
		return true
	}
	return false
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
