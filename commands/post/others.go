package post

import (
	"regexp"
	"strings"
)

// lineAt returns the line that begins at i.
func lineAt(raw string, i int) string {
	line, _, _ := strings.Cut(raw[i:], "\n")
	return line
}

// signed reports whether a line begins a signature: the "-- " of mail (RFC 3676, 4.3), or the
// word among signs.
func signed(line string) bool {
	if line == "-- " {
		return true
	}
	return len(line) < tagReach && strings.EqualFold(strings.Trim(line, "*~-_=+<>[]()#| \t\r"), "signature")
}

// asked returns the name of the test that a quoted line asks for and nothing else, "> ammonia?", which
// the next line answers; "" if it does not.
func asked(line string) string {
	name := strings.ToLower(strings.Trim(line, " \t\r\n?:"))
	for _, lead := range []string{"and ", "what is ", "what's ", "whats ", "what about ", "how about ", "your ", "the "} {
		name = strings.TrimPrefix(name, lead)
	}
	if k, ok := labels[name]; ok && k != other {
		return name
	}
	return ""
}

// theirWords returns the length of what somebody else wrote, between quotation marks: Someone
// wrote: "Mine was 0".
func (c *cleaner) theirWords(i int) int {
	if c.raw[i] != '"' {
		return 0
	}
	before := strings.ToLower(strings.TrimRight(c.raw[max(0, i-60):i], " \t\r\n"))
	for _, verb := range []string{" wrote:", " said:", " says:", " posted:", " replied:"} {
		who, ok := strings.CutSuffix(before, verb)
		if !ok || strings.HasSuffix(who, " i") || who == "i" {
			continue
		}
		if end := within(c.raw[i+1:], `"`); end >= 0 {
			c.emit("\n", i)
			return end + 2
		}
	}
	return 0
}

// allGoals finds "These are only the targets", of all that a post lists.
var allGoals = regexp.MustCompile(`(?i)\b(?:these|those|they)(?:'re| are)(?: only| just)(?: the| my| our)? (?:targets?|goals?|aims?|limits|ideals?|target values)\b`)

// goals leaves out everything as goals.
func goals(r Result) Result {
	for _, f := range r.Found {
		r.Left = append(r.Left, Doubt{f.Kind.plain() + " " + f.Typed, leftWant})
	}
	r.Found, r.Doubtful, r.Day, r.Date = nil, nil, nil, nil
	return r
}

// allPPM finds "All in ppm", which holds for hardness too.
var allPPM = regexp.MustCompile(`(?i)\b(?:all|everything)(?: (?:is|are|readings|values|numbers))? in (?:ppm|mg/l)\b`)
