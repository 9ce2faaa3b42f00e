package post

import "strings"

// tagReach bounds the search for the end of a tag, so that hostile text stays
// linear.
const tagReach = 300

// markup handles the markup at i: it returns the length to skip, 0 if there is
// none. What the markup means for the text (a new line, a cell) is emitted.
func (c *cleaner) markup(i int) int {
	s := c.raw[i:]
	switch s[0] {
	case '[':
		return c.bracket(i, s)
	case '<':
		return c.angle(i, s)
	case '&':
		return c.entity(i, s)
	case '`':
		return c.fence(s)
	case '*':
		return c.star(i, s)
	case '_':
		return c.underscore(i, s)
	case '~':
		if strings.HasPrefix(s, "~~") {
			if end := within(s[2:], "~~"); end > 0 && !strings.Contains(s[2:2+end], "\n") {
				return end + 4 // struck out: taken back by its writer
			}
			return 2
		}
	case '|':
		if strings.HasPrefix(s, "||") && c.spoiler(i) {
			return 2
		}
	case '\\':
		if len(s) > 1 && strings.IndexByte("*_~|>#-+.[]()`", s[1]) >= 0 {
			return 1
		}
	case 'h', 'w', 'H', 'W':
		return c.link(i, s)
	case ':':
		return c.emojiName(i, s)
	}
	return 0
}

// within finds sub near the start of s, -1 if it is not there.
func within(s, sub string) int {
	return strings.Index(s[:min(len(s), tagReach)], sub)
}

var entities = []struct{ name, text string }{
	{"&lt;", "<"}, {"&gt;", ">"}, {"&amp;", "&"}, {"&nbsp;", " "}, {"&deg;", "°"}, {"&frac12;", ".5"}, {"&frac14;", ".25"}, {"&ndash;", "–"}, {"&mdash;", "–"}, {"&quot;", `"`}, {"&#39;", "'"},
}

func (c *cleaner) entity(i int, s string) int {
	for _, e := range entities {
		if strings.HasPrefix(s, e.name) {
			c.emit(e.text, i)
			return len(e.name)
		}
	}
	return 0
}

// fence drops the signs of code, not what is in it: tables stand there.
func (c *cleaner) fence(s string) int {
	if !strings.HasPrefix(s, "```") {
		return 1
	}
	n := 3
	for n < len(s) && n < 20 && isLetter(s[n]) {
		n++
	}
	if n < len(s) && s[n] != '\n' && s[n] != '\r' {
		return 3
	}
	return n
}

// star drops emphasis; between digits it is a sign.
func (c *cleaner) star(i int, s string) int {
	if i > 0 && len(s) > 1 && isDigit(c.raw[i-1]) && isDigit(s[1]) {
		c.emit("×", i)
	}
	if c.corrects(i, s) {
		c.emit("edit ", i)
	}
	return 1
}

// corrects reports whether the star at i begins a line that puts right the one
// before, as people do in chats: "*nitrate 20".
func (c *cleaner) corrects(i int, s string) bool {
	if i == 0 || c.raw[i-1] != '\n' || len(s) < 2 || !isLetter(s[1]) {
		return false
	}
	line, _, _ := strings.Cut(s[1:min(len(s), tagReach)], "\n")
	before := c.raw[max(0, i-1-tagReach) : i-1]
	before = before[strings.LastIndexByte(before, '\n')+1:]
	return !strings.Contains(line, "*") && strings.TrimSpace(before) != "" && !strings.HasPrefix(strings.TrimSpace(before), "*")
}

func (c *cleaner) underscore(i int, s string) int {
	n := 1
	for n < len(s) && s[n] == '_' {
		n++
	}
	before := i > 0 && (isLetter(c.raw[i-1]) || isDigit(c.raw[i-1]))
	after := n < len(s) && (isLetter(s[n]) || isDigit(s[n]))
	if before && after {
		c.emit(" ", i)
	}
	return n
}

// spoiler reports whether the || at i hides text, as in chats, rather than
// stands for an empty cell.
func (c *cleaner) spoiler(i int) bool {
	from := strings.LastIndexByte(c.raw[max(0, i-tagReach):i], '\n') + 1 + max(0, i-tagReach)
	to := within(c.raw[i:], "\n")
	if to < 0 {
		to = min(len(c.raw)-i, tagReach)
	}
	line := c.raw[from : i+to]
	n := strings.Count(line, "||")
	return n%2 == 0 && strings.Count(line, "|") == 2*n
}

func (c *cleaner) link(i int, s string) int {
	if i > 0 && isLetter(c.raw[i-1]) {
		return 0
	}
	low := strings.ToLower(s[:min(len(s), 8)])
	if !strings.HasPrefix(low, "http://") && !strings.HasPrefix(low, "https://") && !strings.HasPrefix(low, "www.") {
		return 0
	}
	n := strings.IndexAny(s, " \n\t)]<>|")
	if n < 0 {
		n = len(s)
	}
	return n
}

// emojiName drops ":fish:".
func (c *cleaner) emojiName(i int, s string) int {
	if i > 0 && strings.IndexByte(" \n\t", c.raw[i-1]) < 0 {
		return 0
	}
	n := 1
	for n < len(s) && n < 40 && (isLetter(s[n]) || s[n] == '_' || isDigit(s[n]) || s[n] == '-') {
		n++
	}
	if n > 3 && n < len(s) && s[n] == ':' {
		return n + 1
	}
	return 0
}

func isLetter(b byte) bool { return 'a' <= b|0x20 && b|0x20 <= 'z' }
func isDigit(b byte) bool  { return '0' <= b && b <= '9' }
