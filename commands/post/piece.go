package post

import "strings"

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
}

func (r *reader) parse(from, to int) []piece {
	p := &parser{src: r.src, toks: tokens(r.src.text, from, to)}
	p.known, p.out = make([][]match, len(p.toks)), make([]piece, 0, len(p.toks))
	for i := 0; i < len(p.toks); {
		i += p.step(i)
	}
	return joinTops(p.out)
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
	if n := p.shortLabel(i); n > 0 {
		return n
	}
	if n := p.amountAt(i); n > 0 {
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
	"&": sAnd, "+": sAnd, "(": sOpen, "[": sOpen, "{": sOpen, ")": sClose, "]": sClose, "}": sClose, ".": sStop, "!": sStop, ";": sSemi, "\n": sLine, "|": sPipe, "\t": sPipe, "~": sFree, "..": sFree, "...": sFree, "@": sFree, `"`: sFree, "'": sFree, "±": sFree,
}

func (p *parser) signAt(i int) int {
	t := p.text(i)
	s, ok := signs[t]
	switch {
	case ok:
	case t[0] == '?':
		s = sAsk
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

// wordAt reads the longest phrase at token i: a name, an amount in words, or a
// word with a meaning; else it tries a typo.
func (p *parser) wordAt(i int) int {
	if n := p.none(i); n > 0 {
		return n
	}
	if t := p.text(i); t == "n" && (p.text(i+1) == "/" || p.text(i+1) == ".") && p.text(i+2) == "a" && p.text(i+3) != "/" {
		n := 3
		if p.text(i+3) == "." && p.text(i+1) == "." {
			n = 4
		}
		return p.add(i, n, piece{sort: sAmount, amt: &amount{word: untested}})
	}
	if p.text(i) == "n" && p.text(i+1) == "-" {
		if k, ok := labels[p.text(i+2)]; ok && k <= Nitrate {
			return p.label(i, 3, k, true)
		}
	}
	best, n := piece{sort: sFiller}, 1
	for _, m := range p.phrases(i) {
		if k, ok := labels[m.key]; ok {
			best, n = piece{sort: sLabel, kind: k}, m.n
		} else if a, ok := amounts[m.key]; ok {
			best, n = piece{sort: sAmount, amt: &amount{word: a}}, m.n
		} else if s, ok := words[m.key]; ok {
			best, n = piece{sort: sFiller, cue: s.cue, word: m.key}, m.n
			if s.free {
				best.sort = sFree
			}
		}
	}
	switch best.sort {
	case sLabel:
		return p.label(i, n, best.kind, strings.HasSuffix(p.text(i+n-1), "nitrogen") && best.kind != other || strings.HasSuffix(p.text(i+n-1), "n") && len(p.text(i+n-1)) == 4 && p.text(i+n-1) != "iron")
	case sAmount:
		return p.amountWord(i, n, best)
	case sFree:
		return p.add(i, n, best)
	}
	if best.cue == noCue {
		if s, ok := joiners[p.text(i)]; ok {
			return p.add(i, 1, piece{sort: s})
		}
		if k, ok, rival := misspelt(p.text(i)); ok {
			n := p.label(i, 1, k, false)
			if rival {
				p.last().vague = "it is one letter from the names of two tests; write nitrite or nitrate"
				if k == Chlorine || k == other {
					p.last().vague = "it is one letter from the names of two tests; write the name in full"
				}
			}
			return n
		}
	}
	return p.add(i, n, best)
}

var joiners = map[string]sort{"and": sAnd, "or": sAnd, "und": sAnd, "y": sAnd, "et": sAnd, "plus": sAnd, "with": sFree, "nor": sAnd, "then": sBut, "but": sBut, "while": sBut, "whereas": sBut, "though": sBut, "although": sBut, "however": sBut, "yet": sFree}

type match struct {
	key string
	n   int
}

// phrases lists the runs of one to eight words at token i, hyphens and
// apostrophes taken as blanks, shortest first.
func (p *parser) phrases(i int) []match {
	if i < 0 || i >= len(p.toks) || p.toks[i].kind != word {
		return nil
	}
	if p.known[i] != nil {
		return p.known[i]
	}
	out := make([]match, 0, 8)
	key, words := "", 0
	for j := i; j < len(p.toks) && words < 8; j++ {
		t := p.toks[j]
		if t.kind == sign && t.text == "-" && j > i && p.glued(j) && p.glued(j+1) && p.kindAt(j+1) == word {
			continue
		}
		if t.kind != word {
			break
		}
		if key != "" {
			key += " "
		}
		key += t.text
		words++
		out = append(out, match{key, j - i + 1})
	}
	p.known[i] = out
	return out
}
