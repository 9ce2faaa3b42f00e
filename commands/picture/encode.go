package picture

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"slices"
)

// Encode makes a PNG of few colours, which is a fraction of the size of one of all:
// the 256 that most pixels have, and for the others, which soften edges, the nearest
// of these. The format holds no time unless it is given one.
func Encode(m *image.RGBA, level png.CompressionLevel) ([]byte, error) {
	runs, colours := runsOf(m)
	order := make([]int, len(colours))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(colours[b].pixels, colours[a].pixels), slices.Compare(colours[a].rgb[:], colours[b].rgb[:]))
	})
	index := make([]uint8, len(colours))
	var palette color.Palette
	var kept [][3]uint8
	for i, k := range order {
		c := colours[k].rgb
		if i >= 256 {
			index[k] = nearest(kept, c)
			continue
		}
		index[k] = uint8(i)
		kept, palette = append(kept, c), append(palette, color.RGBA{c[0], c[1], c[2], 0xff})
	}
	out := image.NewPaletted(m.Bounds(), palette)
	from := 0
	for _, r := range runs {
		for k := from; k < r.to; k++ {
			out.Pix[k] = index[r.colour]
		}
		from = r.to
	}
	var b bytes.Buffer
	err := (&png.Encoder{CompressionLevel: level}).Encode(&b, out)
	return b.Bytes(), err
}

// run is pixels of one colour in a row, up to one. Its colour is a number.
type run struct{ colour, to int }

// counted is a colour and how many pixels have it.
type counted struct {
	rgb    [3]uint8
	pixels int
}

// runsOf takes an opaque picture apart.
func runsOf(m *image.RGBA) ([]run, []counted) {
	n := len(m.Pix) / 4
	runs := make([]run, 0, n/16)
	var colours []counted
	number := map[uint32]int{}
	for from := 0; from < n; {
		c, to := binary.NativeEndian.Uint32(m.Pix[4*from:]), from+1
		for to < n && binary.NativeEndian.Uint32(m.Pix[4*to:]) == c {
			to++
		}
		k, ok := number[c]
		if !ok {
			k = len(colours)
			number[c] = k
			colours = append(colours, counted{rgb: [3]uint8(m.Pix[4*from : 4*from+3])})
		}
		colours[k].pixels += to - from
		runs = append(runs, run{k, to})
		from = to
	}
	return runs, colours
}

// nearest is the index of the colour closest to c; the first of several.
func nearest(kept [][3]uint8, c [3]uint8) uint8 {
	best, least := 0, 1<<30
	for i, k := range kept {
		far := 0
		for j := range c {
			d := int(c[j]) - int(k[j])
			far += d * d
		}
		if far < least {
			best, least = i, far
		}
	}
	return uint8(best)
}
