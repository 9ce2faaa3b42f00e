package guardtest

import (
	"regexp"
	"strings"
)

// opposites are words that say something else in each other's place, wherever they stand.
var opposites = [][2]string{
	{"ammonia", "nitrite"}, {"nitrite", "nitrate"}, {"before", "after"}, {"above", "below"}, {"under", "over"}, {"falls", "rises"}, {"fall", "rise"},
	{"drops", "climbs"}, {"more", "less"}, {"warm", "cool"}, {"cold", "hot"}, {"first", "second"}, {"second", "last"}, {"wet", "dry"}, {"slowly", "quickly"},
	{"add", "remove"}, {"with", "without"}, {"tap", "tank"}, {"days", "weeks"}, {"likely", "unlikely"}, {"pH", "KH"}, {"best", "worst"}, {"longest", "shortest"},
	{"highest", "lowest"}, {"higher", "lower"}, {"peaks", "clears"}, {"peak", "clear"}, {"still", "no longer"}, {"until", "since"}, {"whenever", "until"},
	{"little", "much"}, {"few", "many"}, {"sooner", "later"}, {"within", "after"}, {"every", "no"}, {"grow", "die"}, {"growing", "dying"}, {"slow", "fast"},
	{"is", "is not"}, {"will", "will never"}, {"can", "cannot"}, {"won't", "will"}, {"isn't", "is"}, {"don't", "do"}, {"doesn't", "does"}, {"can't", "can"},
	{"half", "all"}, {"today", "tomorrow"}, {"all", "none"}, {"both", "neither"}, {"nothing", "everything"}, {"no", "some"}, {"most", "least"}, {"dose", "feed"},
	{"rinse", "replace"}, {"stop", "start"}, {"keep", "stop"}, {"wait", "act"}, {"halve", "double"}, {"fit", "clash"}, {"lost", "gained"},
	{"daily", "weekly"}, {"one", "two"}, {"ten", "five"}, {"nine", "eight"},
}

// telling are words without which something else is said. "Most", "about" and "within" are
// none, as a second word often says the same, nor is "while" as a contrast.
var telling = []string{"not", "no", "hardly", "before", "until", "without", "less", "under", "unlikely", "nothing", "never", "don't", "won't", "isn't", "can't", "whenever"}

// intruders are words that change what is said, wherever they come in.
var intruders = []string{"not", "never", "twice", "double", "without", "nearly", "unless", "safe", "fish", "three", "5 g", "no", "salt", "hardly", "tomorrow", "weekly", "again", "surely"}

// wordAttacks put a word out, in, or in the place of another, anywhere.
var wordAttacks = []anAttack{
	{"opposite", func(text string, d Draft) []string {
		var out []string
		for _, pair := range opposites {
			for _, p := range [][2]string{pair, {pair[1], pair[0]}} {
				out = append(out, within(text, d, `\b`+quoted(p[0])+`\b`, 2, func([]string) string { return p[1] })...)
			}
		}
		return out
	}},
	{"telling word left out", func(text string, d Draft) []string {
		var out []string
		for _, w := range telling {
			out = append(out, within(text, d, `\b`+quoted(w)+` `, 3, func([]string) string { return "" })...)
		}
		return out
	}},
	{"word put in", func(text string, d Draft) []string {
		n := len(text)
		return within(text, d, ` `, 24, func([]string) string { n++; return " " + intruders[n%len(intruders)] + " " })
	}},
	{"sentences of causes swapped", func(text string, d Draft) []string {
		parts := strings.Split(text, "\n\n")
		var causes []int
		for i, p := range parts {
			if regexp.MustCompile(`^\d\. `).MatchString(p) {
				causes = append(causes, i)
			}
		}
		var out []string
		for k := 0; k+1 < len(causes); k++ {
			between, from := ". ", 2 // sentences, after the number and the head
			if strings.Contains(parts[causes[k]], "\n   ") {
				between, from = "\n   ", 1 // lines, after the head
			}
			one, two := strings.Split(parts[causes[k]], between), strings.Split(parts[causes[k+1]], between)
			for n := from; n < min(len(one), len(two))-1; n++ {
				a, b := append([]string{}, one...), append([]string{}, two...)
				a[n], b[n] = b[n], a[n]
				if a[n] == b[n] {
					continue
				}
				all := append([]string{}, parts...)
				all[causes[k]], all[causes[k+1]] = strings.Join(a, between), strings.Join(b, between)
				out = append(out, strings.Join(all, "\n\n"))
			}
		}
		return out
	}},
}

// within is once for the part of a text that is not the draft's warnings, which have
// attacks of their own.
func within(text string, d Draft, pattern string, most int, to func(m []string) string) []string {
	body, warnings := text, ""
	if i := strings.LastIndex(text, strings.Join(d.Keep, " ")); len(d.Keep) > 0 && i > 0 {
		body, warnings = text[:i], text[i:]
	}
	var out []string
	for _, b := range once(body, pattern, most, to) {
		out = append(out, b+warnings)
	}
	return out
}
