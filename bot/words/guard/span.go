package guard

import (
	"slices"
	"strings"
	"time"
)

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
