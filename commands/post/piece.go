package post

// sort is what a piece of the post is.
type sort uint8

const (
	sFiller  sort = iota // a word without meaning here
	sFree                // a word that does not part a name from its amount
	sLabel               // the name of a test
	sAmount              // what may be a reading
	sMeasure             // a number that is no reading: gallons, days
	sLink                // : =
	sComma
	sSlash
	sDash
	sArrow
	sAnd
	sBut
	sOpen
	sClose
	sStop
	sAsk // ?
	sSemi
	sLine
	sPipe
	sMark // a point in time
)

// piece is a part of the post with one meaning.
type piece struct {
	sort     sort
	from, to int    // in the cleaned text
	word     string // words: lower case
	cue      cue
	kind     Kind   // sLabel
	unit     unitOf // sLabel: unit written with the name
	asN      bool   // sLabel
	vague    string // sLabel: why it is unclear which test is meant
	amt      *amount
	mark     *mark
	glued    bool // no blank before it
	wide     bool // two blanks or more before it
}

// parser turns a stretch of the cleaned text into pieces.
type parser struct {
	src   *source
	toks  []token
	known [][]match // phrases by token, once looked up
	out   []piece

	dayLetter bool // the post writes its days as "d5"
	asN       bool // the post says "all as N"
	vessel    bool // the post says "in the 10 gallon"
	item      int  // the number of the last entry of a numbered list
}

func (r *reader) parse(from, to int) []piece {
	p := &parser{src: r.src, toks: tokens(r.src.text, from, to)}
	p.known, p.out = make([][]match, len(p.toks)), make([]piece, 0, len(p.toks))
	for i := 0; i < len(p.toks); {
		i += p.step(i)
	}
	out := joinTops(chartEnds(p.out))
	numberColours(out)
	shareDegrees(out)
	return out
}

func (p *parser) text(i int) string {
	if i < 0 || i >= len(p.toks) {
		return "\n"
	}
	return p.toks[i].text
}

func (p *parser) kindAt(i int) tokenKind {
	if i < 0 || i >= len(p.toks) {
		return sign
	}
	return p.toks[i].kind
}

func (p *parser) glued(i int) bool { return i > 0 && i < len(p.toks) && p.toks[i].gap == 0 }

// add appends a piece made of the tokens [i, i+n).
func (p *parser) add(i, n int, q piece) int {
	q.from, q.to = p.toks[i].from, p.toks[i+n-1].to
	q.glued, q.wide = p.toks[i].gap == 0, p.toks[i].gap > 1
	if q.word == "" {
		q.word = p.toks[i].text
	}
	p.out = append(p.out, q)
	return n
}

// last returns the last piece, a new line if there is none.
func (p *parser) last() *piece {
	if len(p.out) == 0 {
		return &piece{sort: sLine}
	}
	return &p.out[len(p.out)-1]
}

// step reads one piece at token i and returns how many tokens it took.
func (p *parser) step(i int) int {
	if n := p.markAt(i); n > 0 {
		return n
	}
	if n := p.allNitrogen(i); n > 0 {
		return n
	}
	if n := p.shortLabel(i); n > 0 {
		return n
	}
	if n := p.amountAt(i); n > 0 {
		return n
	}
	if n := p.topAt(i); n > 0 {
		return n
	}
	if n := p.chartSteps(i); n > 0 {
		return n
	}
	if n := p.shorthand(i); n > 0 {
		return n
	}
	switch p.toks[i].kind {
	case word:
		return p.wordAt(i)
	case sign:
		return p.signAt(i)
	}
	return p.add(i, 1, piece{sort: sFiller})
}

var signs = map[string]sort{
	":": sLink, "=": sLink, "==": sLink, ",": sComma, "/": sSlash, "\\": sSlash, "-": sDash, "–": sDash, "--": sDash, "---": sDash, "->": sArrow, "-->": sArrow, "--->": sArrow, "=>": sArrow, "==>": sArrow, "→": sArrow, ">>": sArrow, ">>>": sArrow,
	"&": sAnd, "+": sAnd, "(": sOpen, "[": sOpen, "{": sOpen, ")": sClose, "]": sClose, "}": sClose, ".": sStop, "!": sStop, ";": sSemi, "\n": sLine, "//": sLine, "|": sPipe, "\t": sPipe, "~": sFree, "..": sFree, "...": sFree, "@": sFree, `"`: sFree, "'": sFree, "±": sFree,
}

func (p *parser) signAt(i int) int {
	t := p.text(i)
	s, ok := signs[t]
	switch {
	case ok:
	case t[0] == '?':
		s = sAsk
		if l := p.last(); l.sort == sLabel && l.kind == other && p.last2().sort == sOpen && p.text(i+1) == ")" {
			l.sort = sFiller // "ammonia 0.5 (chloramine?)"
		}
		if l := p.last(); l.sort == sLabel && (!p.glued(i) || startsList(p.last2().sort)) || l.sort == sLink && p.labelled() {
			if n := p.text(i + 1); n == "\n" || n == "," || n == ";" || n == "|" || n == "/" || n == ")" || p.text(i-1) == ":" {
				return p.add(i, 1, piece{sort: sAmount, amt: &amount{word: untested}})
			}
		}
	case t == ">" && p.last().sort == sAmount:
		s = sArrow
	case t[0] == '!':
		s = sStop
	case t[0] == '.' || t[0] == '~' || t[0] == '-':
		s = sFree
	case t[0] == '+':
		s = sAnd
	default:
		s = sFiller
	}
	if s == sStop && t == "." && (p.last().sort == sLabel || p.last().word == "approx" || p.last().word == "ca") && p.glued(i) && p.kindAt(i+1) != word && p.text(i+1) != "\n" {
		switch p.toks[i-1].text {
		case "temp", "amm", "alk", "ammo", "nitri", "nitra", "approx", "ca":
			s = sFree // the point of an abbreviation
		}
	}
	if s == sStop && t == "." && p.last().sort == sLabel && p.glued(i) && p.glued(i+1) && p.kindAt(i+1) == number {
		s = sFree // "nitrite.0.5"
	}
	if s == sLine && len(p.out) == 0 {
		return 1
	}
	return p.add(i, 1, piece{sort: s})
}

// startsList reports whether a piece parts the entries of a list.
func startsList(s sort) bool {
	return s == sLine || s == sComma || s == sSlash || s == sSemi || s == sPipe || s == sDash
}

// labelled reports whether the last piece is a name, or a link after one.
func (p *parser) labelled() bool {
	for k := len(p.out) - 1; k >= max(0, len(p.out)-3); k-- {
		switch q := &p.out[k]; {
		case q.sort == sLabel:
			return true
		case q.sort == sLink || q.sort == sDash || q.sort == sFree || q.sort == sPipe:
		default:
			return false
		}
	}
	return false
}
