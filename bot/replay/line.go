package replay

import (
	"fmt"
	"strings"
	"time"
	"unicode"

	"ripen/bot/talk"
)

// line is one line of a script, taken apart: who said what, and when.
type line struct {
	at        time.Time
	member    string
	moderator bool
	text      string // what was said: a command, an !add, or an ordinary post
}

// The years that a script may speak of.
const firstYear, lastYear = 1970, 2199

// parse takes a script line apart:
//
//	TIME @MEMBER[+moderator] TEXT
//
// with TIME as in RFC 3339. On an error it returns what it understood so far.
func parse(s string) (line, error) {
	var l line
	stamp, rest := cut(s)
	at, err := time.Parse(time.RFC3339, stamp)
	if err != nil {
		return l, fmt.Errorf("%s is not a time: start the line with one such as 2026-03-01T09:00:00Z (RFC 3339)", talk.Quote(stamp))
	}
	if y := at.UTC().Year(); y < firstYear || y > lastYear {
		return l, fmt.Errorf("the time %s is outside the years %d to %d: correct the year", stamp, firstYear, lastYear)
	}
	l.at = at

	who, text := cut(rest)
	name, ok := strings.CutPrefix(who, "@")
	if !ok {
		return l, fmt.Errorf("a member was expected after the time, but %s stands there: write @ and a nickname, such as @wren", talk.Quote(who))
	}
	name, right, hasRight := strings.Cut(name, "+")
	if err := talk.CheckName(name); err != nil {
		return l, err
	}
	l.member = name
	if hasRight && right != "moderator" {
		return l, fmt.Errorf("the right %s is not known: write @%s or @%s+moderator", talk.Quote("+"+right), name, name)
	}
	l.moderator = hasRight
	if text == "" {
		return l, fmt.Errorf("nothing is said after @%s: write a command such as /help, or a post", name)
	}
	l.text = text
	return l, nil
}

// cut splits s at its first run of blanks.
func cut(s string) (first, rest string) {
	s = strings.TrimSpace(s)
	i := strings.IndexFunc(s, unicode.IsSpace)
	if i < 0 {
		return s, ""
	}
	return s[:i], strings.TrimSpace(s[i:])
}
