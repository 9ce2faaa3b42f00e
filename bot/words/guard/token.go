package guard

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Strength of what stands between two tokens.
const (
	joint = iota
	wordy // and, or, but
	comma // also a bracket, a dash
	pause // a semicolon
	stop  // a full stop, the end of a line
)

// token is one thing that counts in a text.
type token struct {
	key        string     // what it means: a word's concept, a quantity's kind and value
	kind       string     // of a quantity: "day", "date", "days", "%", "mg/l", ...; "" for words
	text       string     // as it stands in the text
	decimals   [2]int     // that a quantity is printed with, low and high end
	before     int        // the strongest separator before it
	value      [2]float64 // of a quantity with a unit as it is printed, low and high end
	of         float64    // how many of its kind its unit is
	ranged     bool       // it has two ends
	difference bool       // of a temperature, that it is one of two others
	ahead      bool       // of days, that they are counted from now
	opens      string     // the first word of its sentence
	pronoun    bool       // "it" or "they" stands before it in its sentence
}

var lexeme = regexp.MustCompile(`\n|mg/l|meq/l|g/kg|/[a-z]+(?:-[a-z]+)?|\d+(?:[.,]\d+)*|[a-z]+(?:['-][a-z]+)*|[^\sa-z0-9]`)

// strengthOf is how strongly a sign or word separates; -1 if it does not.
func strengthOf(s string) int {
	switch s {
	case "and", "or", "but":
		return wordy
	case ",", "(", ")", "-", ":":
		return comma
	case ";":
		return pause
	case ".", "\n", "?", "!":
		return stop
	}
	return -1
}

// bounding are words that bound what follows if that is a quantity, and are nothing
// elsewhere.
var bounding = set("by from since to into")

// bounds holds where a bounding word stands before a quantity; "behind by 24 days" bounds
// nothing.
func bounds(w string, after []string) bool {
	if len(after) > 0 && after[0] == "then" {
		return w == "by"
	}
	for i := 0; i < len(after) && i < 3; i++ {
		if _, t, ok := quantity(after[i:]); ok && t.kind != "weekday" {
			return t.kind != "days" && t.kind != "%"
		}
		if key, _ := concept(after[i]); key != "around" && !substance(key) && weekdays[after[i]] == 0 && after[i] != "," {
			return false
		}
	}
	return false
}

// named is the place of the tank's name.
var named = regexp.MustCompile(`\b` + Name + `\b(?:'s\b)?`)

// near holds where "about" stands before a quantity, and not as in "told me about".
func near(after []string) bool {
	for i := 0; i < len(after) && i < 2; i++ {
		if _, _, ok := quantity(after[i:]); ok {
			return true
		}
	}
	return false
}

// fold makes texts alike that differ in letters and signs only.
func fold(s string) string {
	s = strings.ToLower(named.ReplaceAllString(s, "it"))
	s = strings.NewReplacer("’", "'", "–", " - ", "—", " - ", "°", "", "per cent", "%", "percent", "%").Replace(s)
	return expanded.Replace(contracted.ReplaceAllString(s, "$1 is"))
}

// contracted and expanded make words of what is left of them: "it's", "won't", "you'll".
var (
	contracted = regexp.MustCompile(`\b(it|that|there|here|what|which|who|how|nothing|everything|all)'s\b`)
	expanded   = strings.NewReplacer("won't", "will not", "can't", "can not", "cannot", "can not", "n't", " not", "'ll", " will", "'ve", " have", "'re", " are", "'m ", " am ", "'d ", " would ")
)

// numbered is the number of a cause before it, which becomes a word.
var numbered = regexp.MustCompile(`^\s*[1-9]\d?\. `)

// tokens returns what counts in a text, in its order. A sentence in which nothing counts
// is one token that no draft has: such words can promise something all the same.
func tokens(s string) []token { return each(s, lineTokens) }

// each returns what a function makes of the lines of a text; no sentence goes beyond one.
func each(s string, of func(line string) []token) (all []token) {
	for line := range strings.SplitSeq(s, "\n") {
		all = append(all, of(line)...)
	}
	return all
}

func lineTokens(s string) []token {
	s = fold(s)
	s = numbered.ReplaceAllStringFunc(s, func(m string) string {
		n, _ := strconv.Atoi(strings.Trim(m, " \n."))
		return " number-" + string(rune('a'+min(n, 26)-1)) + " "
	})
	raw := append(lexeme.FindAllString(idiomatic(s), -1), "\n")
	var all []token
	before := stop
	idle, counted := 0, false // words of the sentence that don't count, and whether any does
	opens, pronoun := "", false
	add := func(t token) {
		t.before, t.opens, t.pronoun = before, opens, pronoun
		all = append(all, t)
		before, counted = joint, true
	}
	for i := 0; i < len(raw); {
		if opens == "" {
			opens = raw[i]
		}
		if n, t, ok := quantity(raw[i:]); ok {
			t.text = strings.Join(raw[i:i+n], " ")
			t.difference = dimension(t.kind) == "c" && (i > 0 && raw[i-1] == "by" || at(raw, i+n) == "a" && at(raw, i+n+1) == "day")
			t.ahead = i > 0 && raw[i-1] == "in" || at(raw, i+n) == "from" && at(raw, i+n+1) == "now"
			add(t)
			i += n
			continue
		}
		w := raw[i]
		i++
		pronoun = pronoun || w == "it" || w == "they"
		if strength := strengthOf(w); strength >= 0 {
			if strength == stop {
				if idle > 1 && !counted {
					add(token{key: "idle words", text: "words that say nothing"})
				}
				idle, counted = 0, false
				opens, pronoun = "", false
			}
			before = max(before, strength)
			if w != "or" {
				continue
			}
		}
		key, counts := concept(w)
		switch {
		case bounding[w]:
			key, counts = w, bounds(w, raw[i:])
		case key == "around":
			counts = near(raw[i:])
		}
		if counts {
			add(token{key: key, text: w})
		} else {
			idle++
		}
	}
	inherit(all)
	return all
}

// inherit gives bare numbers the unit that stands elsewhere in their sentence: ranges that
// of the number before, concentrations of a list that of its end.
func inherit(all []token) {
	for i := range all {
		if all[i].kind != "" || !strings.HasPrefix(all[i].key, "number:") {
			continue
		}
		if i > 0 && all[i-1].key == "within" && all[i].before < comma && dayed(all, i) {
			all[i].setKind("days")
			continue
		}
		isRange := strings.Contains(all[i].key, "..")
		if isRange {
			for j := i - 1; j >= 0 && all[j+1].before < stop; j-- {
				if q := quantityKind(all[j]); q != "" {
					if q == "days" || q == "mg/l" {
						all[i].setKind(q)
					}
					break
				}
			}
			continue
		}
		if i == 0 || !substance(all[i-1].key) && (all[i-1].key != "around" || i < 2 || !substance(all[i-2].key)) {
			continue
		}
		if unit := next(all, i+1, "mg/l"); unit > 0 && !measuredBefore(all, i) {
			last := unit
			if unit+1 < len(all) && strings.HasPrefix(all[unit+1].key, "number:") {
				last++ // its range
			}
			if next(all, last+1, "mg/l") < 0 && next(all, last+1, "number") < 0 {
				all[i].setKind("mg/l")
			}
		}
	}
}

// dayed holds where a number of days stands after another "within" of token i's sentence.
func dayed(all []token, i int) bool {
	from, to := i, i
	for from > 0 && all[from].before < stop {
		from--
	}
	for to+1 < len(all) && all[to+1].before < stop {
		to++
	}
	for j := from + 1; j <= to; j++ {
		if all[j-1].key == "within" && all[j].kind == "days" {
			return true
		}
	}
	return false
}

// measuredBefore holds where a concentration before token i in its sentence has a unit of
// its own, so that the list is none with its unit at the end.
func measuredBefore(all []token, i int) bool {
	for j := i; j > 0 && all[j].before < stop; j-- {
		if all[j-1].kind == "mg/l" && strings.HasSuffix(all[j-1].text, "l") {
			return true
		}
	}
	return false
}

// next returns where the next quantity of a kind is in the sentence, -1 if there is none.
func next(all []token, from int, kind string) int {
	for j := from; j < len(all) && all[j].before < stop; j++ {
		if quantityKind(all[j]) == kind {
			return j
		}
	}
	return -1
}

func (t *token) setKind(kind string) {
	t.kind = kind
	t.key = kind + strings.TrimPrefix(t.key, "number")
}

// dimension is the kind that stands for all that measure the same.
func dimension(kind string) string {
	if d, ok := dimensions[kind]; ok {
		return d
	}
	return kind
}

// quantityKind is what a quantity measures, "" for words.
func quantityKind(t token) string {
	if t.kind == "" && strings.HasPrefix(t.key, "number:") {
		return "number"
	}
	return dimension(t.kind)
}

func substance(key string) bool {
	return slices.Contains([]string{"ammonia", "nitrite", "nitrate", "oxygen", "chlorine", "phosphate", "ph", "kh"}, key)
}
