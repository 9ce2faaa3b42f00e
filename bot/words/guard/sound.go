package guard

import "slices"

// sound holds for a span, up to end, whose words not only are the claim's but are put
// together as it puts them.
func (a *aligner) sound(s *span, end int) bool {
	if s.claim.counted != "" && end < len(a.said) && a.said[end].before < comma {
		return false // "the cause is" says more than that causes follow
	}
	return a.negations(s, end) && a.carried(s, end)
}

// negations hold: each "not" and "hardly" is of the same word as in the draft, with no
// end of a sentence between.
func (a *aligner) negations(s *span, end int) bool {
	for j := s.from; j < end; j++ {
		i, taken := s.as[j]
		if !taken || a.said[j].key != "not" && a.said[j].key != "hardly" {
			continue
		}
		want := i + 1
		for want < len(s.claim.tokens) && droppable(s.claim.tokens[want].key) {
			want++
		}
		next := j + 1
		for next < end {
			if _, taken := s.as[next]; taken || !added[a.said[next].key] && a.said[next].key != "done" {
				break
			}
			next++
		}
		switch {
		case want == len(s.claim.tokens):
			if next < end {
				return false
			}
		case next == end || s.as[next] != want:
			return false
		case a.said[next].before >= pause && s.claim.tokens[want].before < comma:
			return false
		}
	}
	return true
}

// inner returns the strongest separator between the quantities of a span.
func (a *aligner) inner(s *span, end int) int {
	first, last, inner := -1, -1, joint
	for j := s.from; j < end; j++ {
		if quantityKind(a.said[j]) == "" {
			continue
		}
		if first < 0 {
			first = j
		}
		last = j
	}
	for j := first + 1; first >= 0 && j <= last; j++ {
		if !s.twice[j] && !s.twice[j-1] {
			inner = max(inner, a.said[j].before)
		}
	}
	return inner
}

// apart holds where the quantities of claim k, and of the one before it, stand closer to
// each other than to those of the other, if they are of a kind, so that none can be read
// with another's.
func (a *aligner) apart(s state, k, inner int) bool {
	return s.last < 0 || s.at >= len(a.said) || !alike(&a.claims[s.last], &a.claims[k]) || a.said[s.at].before >= max(inner, s.inner)
}

// alike holds for claims that have quantities of one kind.
func alike(a, b *claim) bool {
	for _, t := range a.tokens {
		if kind := quantityKind(t); kind != "" && slices.ContainsFunc(b.tokens, func(u token) bool { return quantityKind(u) == kind }) {
			return true
		}
	}
	return false
}

// carried holds where every sentence of a span says something of the claim: words that
// may be added make none by themselves, and "done" not even between two commas.
func (a *aligner) carried(s *span, end int) bool {
	whole, part := false, false // whether something was said in this sentence, between these commas
	done := false
	check := func() bool { return part || !done }
	for j := s.from; j < end; j++ {
		if j > s.from && a.said[j].before >= comma {
			if !check() {
				return false
			}
			part, done = false, false
		}
		if j > s.from && a.said[j].before >= pause {
			if !whole {
				return false
			}
			whole = false
		}
		_, taken := s.as[j]
		whole, part = whole || taken, part || taken
		done = done || !taken && a.said[j].key == "done"
	}
	return check() && (whole || s.claim.optional)
}
