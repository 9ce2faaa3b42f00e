package picture

import (
	"bytes"
	"cmp"
	"image"
	"image/color"
	"image/png"
	"slices"
)

// encode makes a PNG of few colours, which is a fraction of the size of one of all:
// the 256 that most pixels have, and for the others, which soften edges, the nearest
// of these. The format holds no time unless it is given one.
func encode(m *image.RGBA) ([]byte, error) {
	size := m.Bounds()
	count := map[[3]uint8]int{}
	eachRun(m, func(c [3]uint8, from, to int) { count[c] += to - from })
	all := make([][3]uint8, 0, len(count))
	for c := range count {
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b [3]uint8) int {
		return cmp.Or(cmp.Compare(count[b], count[a]), slices.Compare(a[:], b[:]))
	})
	kept := all[:min(len(all), 256)]
	index := map[[3]uint8]uint8{}
	var palette color.Palette
	for i, c := range kept {
		index[c] = uint8(i)
		palette = append(palette, color.RGBA{c[0], c[1], c[2], 0xff})
	}
	for _, c := range all[len(kept):] {
		index[c] = nearest(kept, c)
	}
	out := image.NewPaletted(size, palette)
	eachRun(m, func(c [3]uint8, from, to int) {
		i := index[c]
		for k := from; k < to; k++ {
			out.Pix[k] = i
		}
	})
	var b bytes.Buffer
	err := (&png.Encoder{CompressionLevel: png.DefaultCompression}).Encode(&b, out)
	return b.Bytes(), err
}

// eachRun goes through the pixels, as many of one colour at once as stand in a row.
func eachRun(m *image.RGBA, do func(c [3]uint8, from, to int)) {
	n := len(m.Pix) / 4
	at := func(i int) [3]uint8 { return [3]uint8(m.Pix[4*i : 4*i+3]) }
	for from := 0; from < n; {
		c, to := at(from), from+1
		for to < n && at(to) == c {
			to++
		}
		do(c, from, to)
		from = to
	}
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
