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
	counted  string          // of how many causes the answer may speak here, as a key
}

// settling are words that may introduce what would settle a cause.
var settling = set("test check read look take tell need think")

// introducing are words that may say that causes follow.
var introducing = set("may hold up see stand out cause thing reason suspect look worth likely possibl follow explain")

// announcing are those of them that say so.
var announcing = set("hold cause reason suspect worth explain")

// claims takes a draft apart.
func claims(body string) []claim {
	var all []claim
	causes, introduced := 0, -1
	for _, line := range strings.Split(body, "\n") {
		low := strings.ToLower(strings.TrimSpace(line))
		advice, settles, seen := false, false, strings.HasPrefix(low, "- ")
		switch {
		case strings.HasPrefix(low, "to be sure:"):
			advice, settles = true, true
		case strings.HasPrefix(low, "do:"), strings.HasPrefix(low, "do not "), strings.HasPrefix(low, "next:"):
			advice = true
		}
		if strings.HasPrefix(low, "this is worth a look") {
			introduced = len(all)
			all = append(all, claim{tokens: tokens(line), optional: true})
			continue
		}
		words := tokens(line)
		if len(words) > 0 && strings.HasPrefix(words[0].key, "number-") {
			if causes++; causes == 1 && introduced < 0 {
				introduced = len(all)
				all = append(all, claim{optional: true})
			}
		}
		for _, sentence := range splitAt(words, func(_ []token, t token, _ []token) bool { return t.before == stop }) {
			in := map[string]bool{}
			for _, t := range sentence {
				in[t.key] = in[t.key] || shared[t.key]
			}
			for w := range settling {
				in[w] = in[w] || settles
			}
			in["read"] = in["read"] || seen
			if in["within"] && slices.ContainsFunc(sentence, func(t token) bool { return t.kind == "%" }) {
				in["done"], in["chance"] = true, true
			}
			for _, part := range splitAt(sentence, startsClaim) {
				all = append(all, claim{tokens: part, shared: in, advice: advice})
			}
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
