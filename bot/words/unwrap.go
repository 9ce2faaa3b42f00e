package words

import (
	"regexp"
	"strings"
)

// What models put around an answer although they were asked for the text alone. All of it
// can go, since it is what is left that the guard looks at and people see.
var (
	thought = regexp.MustCompile(`(?s)^<think(?:ing)?>.*?</think(?:ing)?>`)
	opening = regexp.MustCompile(`(?i)^(?:here|sure|certainly|of course|okay|ok)\b[^\n\d]{0,80}:[ \t]*\n`)
	fence   = regexp.MustCompile("(?s)^```[a-z]*\n(.*)\n```$")
)

// quotes are pairs that an answer may stand in.
var quotes = []string{`""`, "“”", "''"}

// unwrap takes off an answer what stands around it: thoughts before it, "Here it is:", a
// fence, quotation marks, and marks of bold type.
func unwrap(said string) string {
	said = strings.TrimSpace(said)
	said = strings.TrimSpace(thought.ReplaceAllString(said, ""))
	said = strings.TrimSpace(opening.ReplaceAllString(said, ""))
	if m := fence.FindStringSubmatch(said); m != nil {
		said = strings.TrimSpace(m[1])
	}
	if inner, ok := strings.CutPrefix(said, "<<<"); ok {
		said = strings.TrimSpace(strings.TrimSuffix(inner, ">>>"))
	}
	for _, q := range quotes {
		pair := []rune(q)
		inner, opens := strings.CutPrefix(said, string(pair[0]))
		inner, closes := strings.CutSuffix(inner, string(pair[1]))
		if opens && closes && !strings.ContainsAny(inner, q) {
			said = strings.TrimSpace(inner)
		}
	}
	return strings.ReplaceAll(said, "**", "")
}
