package guard

import (
	"slices"
	"strings"
)

// claim is what a part of the draft says. An answer has to say all of it and no more.
type claim struct {
	tokens   []token
	shared   map[string]bool // concepts that may be said again, as they are of the same sentence
	advice   bool            // what to do: keeps the order of all that counts
	optional bool            // may be left out, in part or whole
	heads    bool            // names a cause, that "it" may stand for right after
	counted  string          // of how many causes the answer may speak here, as a key
	place    place           // where it may be said
}

// place is where a claim may be said: passages keep their order, the units of a passage
// don't, and the claims of a unit do unless they are free.
type place struct {
	passage, unit int
	free          bool
}

// settling are words that may introduce what would settle a cause.
var settling = set("test check read look take tell need think compar run")

// introducing are words that may say that causes follow.
var introducing = set("may hold up show stand out cause thing look worth likely possibl follow explain")

// announcing are those of them that say so.
var announcing = set("hold cause worth explain")

// claims takes a draft apart.
func claims(body string) []claim {
	var all []claim
	causes, introduced := 0, -1
	var at place
	for _, line := range strings.Split(body, "\n") {
		low := strings.ToLower(strings.TrimSpace(line))
		if low == "" || strings.HasPrefix(low, "next:") {
			at = place{passage: at.passage + 1}
		}
		advice, settles, seen := false, false, strings.HasPrefix(low, "- ")
		switch {
		case strings.HasPrefix(low, "to be sure:"):
			advice, settles = true, true
		case strings.HasPrefix(low, "do:"), strings.HasPrefix(low, "do not "), strings.HasPrefix(low, "next:"):
			advice = true
		}
		if strings.HasPrefix(low, "this is worth a look") {
			introduced = len(all)
			at = place{passage: at.passage + 1}
			all = append(all, claim{tokens: tokens(line), optional: true, place: at})
			continue
		}
		words := tokens(line)
		heads := len(words) > 0 && strings.HasPrefix(words[0].key, "number-")
		if heads {
			if causes++; causes == 1 && introduced < 0 {
				introduced = len(all)
				all = append(all, claim{optional: true, place: at})
			}
			at = place{passage: at.passage + 1}
		}
		for n, sentence := range splitAt(words, func(_ []token, t token, _ []token) bool { return t.before == stop }) {
			switch {
			case at.unit == mostParts:
				at = place{passage: at.passage + 1, unit: 1}
			case at.unit == 0 || !leans(line, n, sentence):
				at.unit++
			}
			in := map[string]bool{}
			for _, t := range sentence {
				in[t.key] = in[t.key] || shared[t.key]
			}
			for w := range settling {
				in[w] = in[w] || settles
			}
			in["read"] = in["read"] || seen
			in["next"] = strings.HasPrefix(low, "next:")
			if in["within"] && slices.ContainsFunc(sentence, func(t token) bool { return t.kind == "%" }) {
				in["done"], in["chance"] = true, true
			}
			parts := splitAt(sentence, startsClaim)
			at.free = len(parts) > 1 && !slices.ContainsFunc(parts, func(part []token) bool { return !milestone(part) })
			for i, part := range parts {
				if i > 0 && i%mostParts == 0 {
					at = place{passage: at.passage + 1, unit: 1}
				}
				all = append(all, claim{tokens: part, shared: in, advice: advice, heads: heads, place: at})
			}
		}
		if heads {
			at = place{passage: at.passage + 1}
		}
	}
	if introduced >= 0 {
		all[introduced].shared = introducing
		all[introduced].counted = "number:" + printed(float64(causes))
	}
	return all
}

// splitAt splits tokens before each one that starts something new; so far and rest are
// what stands before and after it.
func splitAt(all []token, starts func(sofar []token, t token, rest []token) bool) [][]token {
	var parts [][]token
	from := 0
	for i, t := range all {
		if i > from && starts(all[from:i], t, all[i+1:]) {
			parts = append(parts, all[from:i])
			from = i
		}
	}
	if from < len(all) {
		parts = append(parts, all[from:])
	}
	return parts
}

// startsClaim holds where a sentence of the draft goes on to the next thing: after a
// semicolon, at the chances after a day, and at the next item of a list of quantities.
func startsClaim(sofar []token, t token, rest []token) bool {
	if t.before < comma {
		return false
	}
	has := func(of func(token) bool) bool { return slices.ContainsFunc(sofar, of) }
	next := token{}
	if len(rest) > 0 {
		next = rest[0]
	}
	switch {
	case t.before >= pause:
		return true
	case t.kind == "%" || t.key == "may":
		return has(func(s token) bool { return s.kind == "day" || s.kind == "date" })
	case t.kind == "days" && next.kind == "%":
		return has(func(s token) bool { return s.kind == "%" })
	case substance(t.key) && next.kind == "mg/l":
		return has(func(s token) bool { return s.kind == "mg/l" })
	}
	return false
}

// mostParts is how many units a passage has, and claims a unit, so that a word can tell
// which were said.
const mostParts = 60

// leaning are words that point back to what was said right before, at the head of a
// sentence.
var leaning = set("this that these those they not")

// leans holds for the n-th sentence of a line where it can only follow the one before: it
// points back, or is an item of a list.
func leans(line string, n int, sentence []token) bool {
	whole := func(t token) bool { return t.key == "assume" || t.key == "rest" } // "this" is all of it
	return strings.HasPrefix(line, "- ") || n > 0 && leaning[sentence[0].opens] && !slices.ContainsFunc(sentence, whole)
}

// milestone holds for a claim that says when something comes, and stands by itself.
func milestone(part []token) bool {
	has := func(of func(token) bool) bool { return slices.ContainsFunc(part, of) }
	return has(func(t token) bool { return t.key == "clear" || t.key == "highest" }) && has(func(t token) bool { return substance(t.key) }) &&
		has(func(t token) bool { return t.kind == "day" }) && !has(func(t token) bool { return t.key == "not" })
}
