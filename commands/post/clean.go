package post

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// source is a post with markup and quotes out. at[i] is the position in raw of
// byte i of text, so that snippets can be quoted as written.
type source struct {
	raw, text string
	at        []int
	open      int // position in raw of a quote that is never closed, -1 if none
}

// quote returns the raw text behind text[from:to], on one line and not long.
func (s *source) quote(from, to int) string {
	if from >= to || from >= len(s.text) {
		return ""
	}
	a, b := s.at[from], len(s.raw)
	if to < len(s.at) {
		b = s.at[to-1]
		_, n := utf8.DecodeRuneInString(s.raw[b:])
		b += n
	}
	q := strings.Map(func(r rune) rune {
		if unicode.In(r, unicode.Cc, unicode.Cf) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s.raw[a:b], " "))
	q = strings.Join(strings.Fields(q), " ")
	if r := []rune(q); len(r) > 80 {
		q = string(r[:77]) + "..."
	}
	return q
}

// cleaner walks over the raw text once.
type cleaner struct {
	raw   string
	out   strings.Builder
	at    []int
	depth int // of [quote] or <blockquote>
	open  int
}

func (c *cleaner) emit(s string, pos int) {
	if c.depth > 0 {
		return
	}
	c.out.WriteString(s)
	for range len(s) {
		c.at = append(c.at, pos)
	}
}

// clean drops what other people said, markup, links and invisible characters,
// and folds compatible characters ("NO₃", "０", "½") to plain ones.
func clean(raw string) *source {
	c := &cleaner{raw: raw, open: -1}
	lastQuoted := lastQuotedLine(raw)
	for i := 0; i < len(raw); {
		if i == 0 || raw[i-1] == '\n' {
			if j, to := c.quotedLine(i, lastQuoted); j {
				i = to
				continue
			}
			if signed(lineAt(raw, i)) {
				break
			}
			if n := lineHead(raw[i:]); n > 0 {
				i += n
				continue
			}
		}
		if n := c.theirWords(i); n > 0 {
			i += n
			continue
		}
		if n := c.markup(i); n > 0 {
			i += n
			continue
		}
		i += c.char(i)
	}
	s := &source{raw: raw, text: c.out.String(), at: c.at, open: -1}
	if c.depth > 0 {
		s.open = c.open
	}
	return s
}

// lineHead returns the length of heading signs and blanks at a line's start.
func lineHead(s string) int {
	n := 0
	for n < len(s) && n < 8 && s[n] == '#' {
		n++
	}
	if n < len(s) && n > 0 && s[n] == ' ' {
		return n
	}
	return 0
}

// lastQuotedLine returns the start of the last line that begins with ">".
func lastQuotedLine(raw string) int {
	last, from := -1, 0
	for from <= len(raw) {
		end := strings.IndexByte(raw[from:], '\n')
		line := raw[from:]
		if end >= 0 {
			line = raw[from : from+end]
		}
		if strings.HasPrefix(strings.TrimLeft(line, " \t"), ">") {
			last = from
		}
		if end < 0 {
			break
		}
		from += end + 1
	}
	return last
}

// quotedLine reports whether the line at i quotes somebody, and where to go on.
// A line such as ">5" is an amount when the line before names a test, or when it
// stands glued and alone.
func (c *cleaner) quotedLine(i, lastQuoted int) (bool, int) {
	end := strings.IndexByte(c.raw[i:], '\n')
	next := len(c.raw)
	if end >= 0 {
		next = i + end + 1
	}
	line := strings.TrimLeft(c.raw[i:next], " \t")
	marker := strings.HasPrefix(line, ">") || strings.HasPrefix(line, "&gt;")
	if !marker {
		return false, 0
	}
	if strings.HasPrefix(line, ">>> ") && i == lastQuoted {
		return true, len(c.raw)
	}
	rest := strings.TrimLeft(strings.TrimPrefix(strings.TrimPrefix(line, ">"), "&gt;"), "= ")
	if rest != "" && (isDigit(rest[0]) || rest[0] == '.') && (c.afterName() || line[1] != ' ' && line[1] != '>' && c.alone(i, next)) {
		return false, 0
	}
	if name := asked(rest); name != "" && next < len(c.raw) && !strings.HasPrefix(strings.TrimLeft(c.raw[next:], " "), ">") {
		c.emit("\n"+name+": ", max(i-1, 0))
		return true, next
	}
	c.emit("\n", max(i-1, 0))
	return true, next
}

// alone reports whether the lines around raw[from:to] quote nobody.
func (c *cleaner) alone(from, to int) bool {
	before := strings.TrimSuffix(c.raw[max(0, from-tagReach):from], "\n")
	before = before[strings.LastIndexByte(before, '\n')+1:]
	return !strings.HasPrefix(strings.TrimLeft(before, " "), ">") && !strings.HasPrefix(strings.TrimLeft(c.raw[to:min(len(c.raw), to+20)], " "), ">")
}

// afterName reports whether the text so far ends in a line without any digit
// but with letters, as "Nitrite" above ">5".
func (c *cleaner) afterName() bool {
	s := c.out.String()
	s = strings.TrimRight(s[max(0, len(s)-60):], " \t\r\n")
	s = s[strings.LastIndexByte(s, '\n')+1:]
	s = strings.ToLower(strings.Trim(s, " \t:=-"))
	if k, ok := labels[s]; ok {
		return k != other
	}
	return false
}

// char emits the character at i and returns its length in raw.
func (c *cleaner) char(i int) int {
	r, n := utf8.DecodeRuneInString(c.raw[i:])
	switch {
	case r == utf8.RuneError && n <= 1:
		c.emit(" ", i)
	case r < 128:
		if r == '\r' || r < 32 && r != '\n' && r != '\t' || r == 127 {
			r = ' '
		}
		c.emit(string(r), i)
	case r == '·' && i > 0 && isDigit(c.raw[i-1]) && i+n < len(c.raw) && isDigit(c.raw[i+n]):
		c.emit(".", i)
	default:
		c.emit(fold(r), i)
	}
	return n
}
