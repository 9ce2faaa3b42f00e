package look

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"codeberg.org/go-fonts/liberation/liberationmonoregular"
	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
)

// faces are the letters that are used.
type faces struct{ text, bold, small, code font.Face }

func newFaces() faces {
	face := func(ttf []byte, size float64) font.Face {
		f, err := opentype.Parse(ttf)
		if err == nil {
			var face font.Face
			if face, err = opentype.NewFace(f, &opentype.FaceOptions{Size: size, DPI: 72}); err == nil {
				return face
			}
		}
		panic("look: an embedded font does not parse: " + err.Error())
	}
	return faces{face(liberationsansregular.TTF, 27), face(liberationsansbold.TTF, 27), face(liberationsansregular.TTF, 22), face(liberationmonoregular.TTF, 22)}
}

// paragraph is a line of a message before it is broken.
type paragraph struct {
	text         string
	code, quoted bool
}

// moment is a time as the platform lets each reader's device write it.
var moment = regexp.MustCompile(`<t:(\d+):(\w)>`)

// paragraphs reads a message's markup: blocks of code, what is escaped, and times,
// which are told from at.
func paragraphs(text string, at time.Time) []paragraph {
	var all []paragraph
	code := false
	for _, l := range strings.Split(text, "\n") {
		if l == "```" {
			code = !code
			continue
		}
		l = strings.ReplaceAll(l, "\u200b", "")
		quoted := false
		if !code {
			l, quoted = strings.CutPrefix(l, "> ")
			l = moment.ReplaceAllStringFunc(l, func(s string) string {
				m := moment.FindStringSubmatch(s)
				unix, _ := strconv.ParseInt(m[1], 10, 64)
				return told(time.Unix(unix, 0).UTC(), m[2], at)
			})
			l = unescaped.ReplaceAllString(l, "$1")
		}
		all = append(all, paragraph{l, code, quoted})
	}
	return all
}

// unescaped is a character behind a backslash.
var unescaped = regexp.MustCompile(`\\(.)`)

// told writes a time as a device does.
func told(t time.Time, how string, at time.Time) string {
	if how != "R" {
		return t.Format("2 January 2006")
	}
	days := int(t.Sub(at).Hours()/24 + 0.5)
	switch {
	case days < 0:
		return strconv.Itoa(-days) + " days ago"
	case days == 1:
		return "in a day"
	}
	return "in " + strconv.Itoa(days) + " days"
}

// words draws words on the present line.
func (s *sheet) words(face font.Face, x float64, words string) {
	s.SetFontFace(face)
	s.DrawString(words, x, s.y+26)
}

func (s *sheet) width(words string) float64 {
	w, _ := s.MeasureString(words)
	return w
}

// paragraph draws a paragraph in as many lines as it takes.
func (s *sheet) paragraph(p paragraph, left, right float64) {
	face, height := s.faces.text, 36.0
	if p.code {
		face, height = s.faces.code, 30
	}
	if p.quoted {
		left += 24
	}
	if strings.TrimSpace(p.text) == "" {
		s.y += height / 2
		return
	}
	s.SetFontFace(face)
	indent := p.text[:len(p.text)-len(strings.TrimLeft(p.text, " "))]
	x := left + s.width(indent)
	for _, l := range broken(strings.TrimSpace(p.text), right-x, s.width) {
		s.SetColor(chalk)
		if p.code {
			s.SetColor(accent)
		}
		s.words(face, x, l)
		if p.quoted {
			s.SetColor(dim)
			s.DrawRectangle(left-20, s.y, 4, height)
			s.Fill()
		}
		s.y += height
	}
}

// broken breaks words into lines that fit.
func broken(text string, room float64, width func(string) float64) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(text) {
		longer := strings.TrimSpace(line + " " + w)
		if line != "" && width(longer) > room {
			lines, longer = append(lines, line), w
		}
		line = longer
	}
	return append(lines, line)
}

// fit shortens words to the room.
func fit(text string, room float64, width func(string) float64) string {
	if width(text) <= room {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 && width(string(runes)+"…") > room {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + "…"
}
