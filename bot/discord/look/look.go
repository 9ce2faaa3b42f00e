// Package look draws messages as a member sees them on a phone: bubbles with their
// text, cards, picture and buttons, plainly and in the dark. The README's pictures of
// the chat are made with it, from real messages.
package look

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"time"

	"git.sr.ht/~sbinet/gg"
	"golang.org/x/image/draw"

	"ripen/commands/picture"
)

// Bubble is one message.
type Bubble struct {
	Who     string
	At      time.Time // when it was sent; times in it are told from there
	Right   bool      // the reader's own
	Note    string    // small words beside the name, as who can see it
	Text    string    // with the platform's markup
	Cards   []string  // embeds
	Picture []byte    // a PNG, nil for none
	Rows    [][]Button
}

// Button is a button or menu under a message.
type Button struct {
	Label string
	Tone  Tone
}

// Tone is how a button stands out.
type Tone int

// The tones of buttons.
const (
	Quiet Tone = iota
	Main
	Good
	Danger
	Menu // opens a choice
)

// The sheet, in pixels, and how wide it is made in the end.
const (
	wide    = 720
	shown   = 420
	tallest = 6000
	margin  = 20
	inset   = 22 // of a bubble's content
	corner  = 24
)

var (
	night  = color.RGBA{0x17, 0x1b, 0x1f, 0xff}
	theirs = color.RGBA{0x25, 0x2c, 0x31, 0xff}
	own    = color.RGBA{0x1f, 0x4a, 0x4a, 0xff}
	deeper = color.RGBA{0x1a, 0x1f, 0x23, 0xff} // code and cards
	chalk  = color.RGBA{0xe9, 0xe7, 0xe1, 0xff}
	dim    = color.RGBA{0x9d, 0xa5, 0xa8, 0xff}
	accent = color.RGBA{0x7f, 0xc4, 0xb8, 0xff}
)

var tones = map[Tone]color.RGBA{
	Quiet: {0x3d, 0x47, 0x4d, 0xff}, Main: {0x2b, 0x6e, 0x8c, 0xff}, Good: {0x2f, 0x7a, 0x4b, 0xff},
	Danger: {0x93, 0x3c, 0x36, 0xff}, Menu: {0x1a, 0x1f, 0x23, 0xff},
}

// sheet is what is drawn on, from the top down to y.
type sheet struct {
	*gg.Context
	image *image.RGBA
	y     float64
	faces faces
}

// PNG draws bubbles one below the other. The same bubbles give the same bytes.
func PNG(bubbles []Bubble) ([]byte, error) {
	pixels := image.NewRGBA(image.Rect(0, 0, wide, tallest))
	s := &sheet{Context: gg.NewContextForRGBA(pixels), image: pixels, y: margin, faces: newFaces()}
	s.SetColor(night)
	s.Clear()
	for _, b := range bubbles {
		if err := s.bubble(b); err != nil {
			return nil, err
		}
		if s.y > tallest-margin {
			return nil, fmt.Errorf("the messages are taller than %d pixels", tallest)
		}
	}
	whole := image.NewRGBA(image.Rect(0, 0, shown, int(s.y)*shown/wide))
	draw.CatmullRom.Scale(whole, whole.Bounds(), pixels, image.Rect(0, 0, wide, int(s.y)), draw.Src, nil)
	rough(whole)
	return picture.Encode(whole, png.BestCompression)
}

// rough rounds the colours at the edges of letters and lines, which nobody tells
// apart, so that there are few: the file is a third of the size. Those of whole areas
// stay.
func rough(m *image.RGBA) {
	const steps = 6
	for i := 0; i+7 < len(m.Pix); i += 4 {
		if area := i >= 4 && (bytes.Equal(m.Pix[i:i+4], m.Pix[i+4:i+8]) || bytes.Equal(m.Pix[i:i+4], m.Pix[i-4:i])); area {
			continue
		}
		for k := range 3 {
			m.Pix[i+k] = uint8((int(m.Pix[i+k])*steps + 127) / 255 * (255 / steps))
		}
	}
}

// bubble draws a message below all before: its content first, to know how tall it
// is, then all again on the bubble.
func (s *sheet) bubble(b Bubble) error {
	left, right := float64(margin), float64(wide-3*margin)
	back := theirs
	if b.Right {
		left, right, back = 4*margin, wide-margin, own
	}
	top := s.y
	if err := s.content(b, left+inset, right-inset); err != nil {
		return err
	}
	bottom := s.y
	s.SetColor(back)
	s.DrawRoundedRectangle(left, top, right-left, bottom-top, corner)
	s.Fill()
	s.y = top
	if err := s.content(b, left+inset, right-inset); err != nil {
		return err
	}
	s.y = bottom + margin
	return nil
}

func (s *sheet) content(b Bubble, left, right float64) error {
	s.y += inset - 4
	s.SetColor(accent)
	s.words(s.faces.bold, left, b.Who)
	who, _ := s.MeasureString(b.Who)
	s.SetColor(dim)
	s.words(s.faces.small, left+who+14, b.Note)
	s.y += 42
	for _, p := range paragraphs(b.Text, b.At) {
		s.paragraph(p, left, right)
	}
	for _, c := range b.Cards {
		s.card(c, b.At, left, right)
	}
	if b.Picture != nil {
		if err := s.picture(b.Picture, left, right); err != nil {
			return err
		}
	}
	for _, r := range b.Rows {
		s.row(r, left, right)
	}
	s.y += inset - 6
	return nil
}

// card draws an embed.
func (s *sheet) card(text string, at time.Time, left, right float64) {
	s.y += 10
	top := s.y
	draw := func() {
		s.y = top + 12
		for _, p := range paragraphs(text, at) {
			s.paragraph(p, left+20, right-14)
		}
		s.y += 12
	}
	draw()
	bottom := s.y
	s.SetColor(deeper)
	s.DrawRoundedRectangle(left, top, right-left, bottom-top, 8)
	s.Fill()
	s.SetColor(accent)
	s.DrawRectangle(left, top, 5, bottom-top)
	s.Fill()
	draw()
}

func (s *sheet) picture(raw []byte, left, right float64) error {
	m, err := png.Decode(bytes.NewReader(raw))
	if err != nil {
		return err
	}
	s.y += 12
	w := right - left
	h := w * float64(m.Bounds().Dy()) / float64(m.Bounds().Dx())
	draw.CatmullRom.Scale(s.image, image.Rect(int(left), int(s.y), int(right), int(s.y+h)), m, m.Bounds(), draw.Over, nil)
	s.y += h + 4
	return nil
}

// row draws buttons beside each other, and below where there is no room.
func (s *sheet) row(all []Button, left, right float64) {
	const height, gap = 58.0, 12.0
	s.y += gap
	x := left
	s.SetFontFace(s.faces.bold)
	for _, b := range all {
		label := b.Label
		w, _ := s.MeasureString(label)
		w += 44
		if b.Tone == Menu {
			w = right - left
		}
		if x > left && x+w > right {
			x, s.y = left, s.y+height+gap
		}
		s.SetColor(tones[b.Tone])
		s.DrawRoundedRectangle(x, s.y, w, height, 12)
		s.Fill()
		s.SetColor(chalk)
		if b.Tone == Menu {
			s.SetColor(dim)
			s.DrawString(fit(label, w-70, s.width), x+20, s.y+38)
			s.MoveTo(x+w-40, s.y+24)
			s.LineTo(x+w-20, s.y+24)
			s.LineTo(x+w-30, s.y+36)
			s.ClosePath()
			s.Fill()
		} else {
			s.DrawString(label, x+22, s.y+38)
		}
		x += w + gap
	}
	s.y += height
}
