package post

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
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
			if n := lineHead(raw[i:]); n > 0 {
				i += n
				continue
			}
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

// folded are characters that a fold to compatible ones does not bring home.
var folded = map[rune]string{
	'’': "'", '‘': "'", '´': "'", '“': `"`, '”': `"`, 'º': "°", '˚': "°",
	'½': ".5", '¼': ".25", '¾': ".75", '⅛': ".125", '⅓': ".33",
	'‐': "-", '‑': "-", '−': "-", '–': "–", '—': "–", '―': "–", '‒': "–",
	'≈': "~", '∼': "~", '≃': "~", '≅': "~", '˜': "~", '⁓': "~",
	'→': "→", '⇒': "→", '➜': "→", '➔': "→", '⟶': "→", '➡': "→", '⮕': "→", '➝': "→", '►': "→", '▶': "→",
	'↑': " up ", '↓': " down ", '⬆': " up ", '⬇': " down ", '↗': " up ", '↘': " down ",
	'•': ";", '●': ";", '▪': ";", '‣': ";", '◦': ";", '·': ";", '∙': ";",
	'⁄': "/", '≤': "≤", '≥': "≥", '⩽': "≤", '⩾': "≥", '°': "°", '±': "±", '×': "×",
	'µ': "u", 'μ': "u", '٫': ".", '、': ",", '，': ",", '。': ". ",
	// Letters that look Latin; a zero made of one stays a letter, and doubtful.
	'а': "a", 'е': "e", 'о': "o", 'р': "p", 'с': "c", 'х': "x", 'і': "i", 'у': "y", 'к': "k", 'м': "m", 'т': "t", 'н': "h",
	'А': "A", 'В': "B", 'Е': "E", 'К': "K", 'М': "M", 'Н': "H", 'О': "O", 'Р': "P", 'С': "C", 'Т': "T", 'Х': "X", 'І': "I",
	'ο': "o", 'Ο': "O", 'Ν': "N", 'Η': "H", 'Ρ': "P", 'Κ': "K", 'Τ': "T", 'ı': "i",
}

// fold returns plain characters for r: compatible forms, plain digits, letters
// without accents; a blank for symbols, nothing for what cannot be seen.
func fold(r rune) string {
	if s, ok := folded[r]; ok {
		return s
	}
	if unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Mn, r) || unicode.Is(unicode.Me, r) || r == '\u115f' || r == '\u3164' {
		return ""
	}
	if s, ok := plainDigit(r); ok {
		return s
	}
	if unicode.IsSpace(r) {
		return " "
	}
	var b strings.Builder
	for _, q := range norm.NFKD.String(string(r)) {
		s, ok := folded[q]
		switch {
		case ok:
			b.WriteString(s)
		case unicode.Is(unicode.Mn, q):
		case q < 128 || unicode.IsLetter(q):
			b.WriteRune(q)
		default:
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// plainDigit turns a decimal digit of any script to 0-9. Digits of a script
// stand in blocks of ten from zero.
func plainDigit(r rune) (string, bool) {
	if !unicode.IsDigit(r) {
		return "", false
	}
	for _, t := range unicode.Nd.R16 {
		if rune(t.Lo) <= r && r <= rune(t.Hi) {
			return string('0' + (r-rune(t.Lo))%10), true
		}
	}
	for _, t := range unicode.Nd.R32 {
		if rune(t.Lo) <= r && r <= rune(t.Hi) {
			return string('0' + (r-rune(t.Lo))%10), true
		}
	}
	return "", false
}
