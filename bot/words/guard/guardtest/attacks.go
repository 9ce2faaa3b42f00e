package guardtest

import (
	"regexp"
	"slices"
	"strings"
)

// anAttack alters an answer so that it says something else, or is no plain text any
// more. It returns several answers, each with one fault, or none where it has no hold.
type anAttack struct {
	kind string
	on   func(text string, d Draft) []string
}

// Altered returns altered answers, each made of one text by one attack.
func Altered(base Answer) []Answer {
	var all []Answer
	seen := map[string]bool{base.Text: true}
	for _, a := range slices.Concat(numberAttacks, meaningAttacks, adviceAttacks, characterAttacks, wordAttacks) {
		for _, text := range a.on(base.Text, base.Draft) {
			if !seen[text] {
				seen[text] = true
				all = append(all, Answer{base.Draft, a.kind, text})
			}
		}
	}
	return all
}

// Bases returns texts of a set that Altered may work on: the drafts themselves and one
// answer of the templates to each. If they do not pass, that what is made of them does not
// pass says nothing.
func Bases(set Set) []Answer {
	var all []Answer
	for n, d := range Drafts(set) {
		all = append(all, Answer{d, "draft", d.Text()}, Answer{d, "template", d.With(restyle(d, 1+n%(styles-1)))})
	}
	return all
}

// once returns a copy of text for up to most matches of pattern, spread over the text,
// with to's words in place of the match.
func once(text, pattern string, most int, to func(m []string) string) []string {
	re := regexp.MustCompile(pattern)
	found := re.FindAllStringSubmatchIndex(text, -1)
	var out []string
	step := max(1, len(found)/max(1, most))
	for i := 0; i < len(found) && len(out) < most; i += step {
		at := found[i]
		var m []string
		for g := 0; g < len(at); g += 2 {
			if at[g] < 0 {
				m = append(m, "")
				continue
			}
			m = append(m, text[at[g]:at[g+1]])
		}
		if words := to(m); words != m[0] {
			out = append(out, text[:at[0]]+words+text[at[1]:])
		}
	}
	return out
}

// swap is an attack that puts fixed words in the place of others, each once.
func swap(kind string, pairs ...string) anAttack {
	return anAttack{kind, func(text string, d Draft) []string {
		var out []string
		for i := 0; i < len(pairs); i += 2 {
			out = append(out, once(text, pairs[i], 1, func(m []string) string {
				words := pairs[i+1]
				for g := 1; g < len(m); g++ {
					words = strings.ReplaceAll(words, "$"+string(rune('0'+g)), m[g])
				}
				return words
			})...)
		}
		return out
	}}
}

// add is an attack that adds a sentence, at the end of the first line or as a last one.
func add(kind string, dev, held []string) anAttack {
	return anAttack{kind, func(text string, d Draft) []string {
		all := dev
		if d.Set != Development {
			all = held
		}
		var out []string
		for n, words := range all {
			first, rest, _ := strings.Cut(text, "\n")
			if n%2 == 0 {
				out = append(out, text+" "+words)
			} else {
				out = append(out, first+" "+words+"\n"+rest)
			}
		}
		return out
	}}
}
