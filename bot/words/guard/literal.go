package guard

import (
	"regexp/syntax"
	"slices"
	"strings"
)

// literals returns texts of which every match of a pattern has one, so that most patterns
// need not be tried; none if there are no such texts.
func literals(pattern string) []string {
	re, err := syntax.Parse(pattern, syntax.Perl)
	if err != nil {
		return nil
	}
	return literalsOf(re.Simplify())
}

func literalsOf(re *syntax.Regexp) []string {
	switch re.Op {
	case syntax.OpLiteral:
		return []string{string(re.Rune)}
	case syntax.OpCapture, syntax.OpPlus:
		return literalsOf(re.Sub[0])
	case syntax.OpAlternate:
		var all []string
		for _, sub := range re.Sub {
			of := literalsOf(sub)
			if len(of) == 0 {
				return nil
			}
			all = append(all, of...)
		}
		return all
	case syntax.OpConcat: // the part whose shortest text is longest
		var best []string
		for _, sub := range re.Sub {
			if of := literalsOf(sub); len(of) > 0 && (best == nil || shortest(of) > shortest(best)) {
				best = of
			}
		}
		return best
	}
	return nil
}

func shortest(all []string) int {
	return len(slices.MinFunc(all, func(a, b string) int { return len(a) - len(b) }))
}

// hasAny holds where s has one of the texts, or there are none.
func hasAny(s string, texts []string) bool {
	return len(texts) == 0 || slices.ContainsFunc(texts, func(t string) bool { return strings.Contains(s, t) })
}
