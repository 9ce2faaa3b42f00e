package picture

import (
	"image"
	"image/color"
	xdraw "image/draw"
	"image/png"
	"math"
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"git.sr.ht/~sbinet/gg"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// point is a place in pixels from the left and the top.
type point struct{ x, y float64 }

// pen draws on a sheet. One unit of gonum is one pixel; only here is y turned round.
type pen struct {
	draw.Canvas
	image  *image.RGBA
	height float64
	pixels *[]uint8
}

// sheets are pixels to be used again: to make them takes as long as to draw on
// them.
var sheets sync.Pool

// newPen draws on a fresh sheet of paper.
func newPen(width, height int, paper color.Color) *pen {
	size := 4 * width * height
	pixels, _ := sheets.Get().(*[]uint8)
	if pixels == nil || len(*pixels) < size {
		pixels = new(make([]uint8, size))
	}
	sheet := &image.RGBA{Pix: (*pixels)[:size], Stride: 4 * width, Rect: image.Rect(0, 0, width, height)}
	on := gg.NewContextForRGBA(sheet)
	on.SetLineCapButt()
	on.InvertY()
	c := vgimg.NewWith(vgimg.UseImageWithContext(sheet, on), vgimg.UseDPI(72))
	xdraw.Draw(sheet, sheet.Bounds(), image.NewUniform(paper), image.Point{}, xdraw.Src)
	return &pen{draw.New(c), sheet, float64(height), pixels}
}

// encode makes a PNG of what was drawn, and gives the sheet back.
func (p *pen) encode() ([]byte, error) {
	defer sheets.Put(p.pixels)
	return Encode(p.image, png.BestSpeed)
}

func (p *pen) at(q point) vg.Point {
	return vg.Point{X: vg.Length(q.x), Y: vg.Length(p.height - q.y)}
}

func (p *pen) path(qs []point) []vg.Point {
	out := make([]vg.Point, len(qs))
	for i, q := range qs {
		out[i] = p.at(q)
	}
	return out
}

// line strokes a run of points; dash is nil for a solid one.
func (p *pen) line(c color.Color, width float64, dash []vg.Length, qs ...point) {
	p.StrokeLines(draw.LineStyle{Color: c, Width: vg.Length(width), Dashes: dash}, p.path(qs))
}

func (p *pen) area(c color.Color, qs ...point) { p.FillPolygon(c, p.path(qs)) }

func (p *pen) box(c color.Color, x0, y0, x1, y1 float64) {
	p.area(c, point{x0, y0}, point{x1, y0}, point{x1, y1}, point{x0, y1})
}

func (p *pen) disc(c color.Color, q point, radius float64) {
	const corners = 20
	var qs []point
	for i := range corners {
		s, k := math.Sincos(2 * math.Pi * float64(i) / corners)
		qs = append(qs, point{q.x + radius*k, q.y + radius*s})
	}
	p.area(c, qs...)
}

// fonts parses the two faces once.
var fonts = sync.OnceValue(func() text.Handler {
	var all font.Collection
	for _, f := range []struct {
		ttf    []byte
		weight xfont.Weight
	}{{liberationsansregular.TTF, xfont.WeightNormal}, {liberationsansbold.TTF, xfont.WeightBold}} {
		face, err := opentype.Parse(f.ttf)
		if err != nil {
			panic("picture: an embedded font does not parse: " + err.Error())
		}
		all = append(all, font.Face{Font: font.Font{Typeface: "Liberation", Variant: "Sans", Weight: f.weight}, Face: face})
	}
	return text.Plain{Fonts: font.NewCache(all)}
})

// style is how words are set: left, centred or right of a place, on a line there.
func style(c color.Color, size float64, bold bool, align text.XAlignment) draw.TextStyle {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: vg.Length(size)}
	if bold {
		f.Weight = xfont.WeightBold
	}
	return draw.TextStyle{Color: c, Font: f, XAlign: align, YAlign: text.YCenter, Handler: fonts()}
}

func (p *pen) write(s draw.TextStyle, q point, words string) { p.FillText(s, p.at(q), words) }

// width is how wide words will stand.
func width(s draw.TextStyle, words string) float64 { return float64(s.Width(words)) }
