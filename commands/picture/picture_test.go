package picture

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"sync"
	"testing"
)

// example is a tank of twelve days, with a step of each kind.
func example() Picture {
	p := Picture{Title: "Day 12: done around day 24 (day 15 to 40)", Now: 12, Last: 44, Done: Window{new(15.0), new(24.0), new(40.0)}}
	for _, name := range []string{"Ammonia", "Nitrite", "Nitrate"} {
		q := Panel{Name: name, Unit: "mg/L", Read: []Mark{{Day: 3, Value: 2, Low: 1.4, High: 2.8}, {Day: 9, Value: 4, Low: 3, High: 4, Open: true}}}
		for d := 1.0; d <= 44; d++ {
			m := 4 * math.Exp(-d/12)
			q.Course = append(q.Course, Level{d, 0.5 * m, 0.8 * m, m, 1.2 * m, 1.5 * m})
		}
		p.Pools = append(p.Pools, q)
	}
	for i, name := range []string{"pH", "KH", "Temperature"} {
		p.Waters = append(p.Waters, Panel{Name: name, Read: []Mark{{Day: 0, Value: 7 + float64(i)}, {Day: 6, Value: 6.5 + float64(i)}}})
	}
	p.Events = []Event{{0, "dose"}, {5, "water"}}
	return p
}

func drawn(t *testing.T, p Picture) image.Image {
	t.Helper()
	b, err := PNG(p)
	if err != nil {
		t.Fatal(err)
	}
	m, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	if s := m.Bounds().Size(); s.X != sheetWidth || s.Y != sheetHeight {
		t.Fatalf("the picture is %v", s)
	}
	return m
}

// is holds if the pixel has that colour.
func is(m image.Image, x, y float64, c color.RGBA) bool {
	r, g, b, _ := m.At(int(x), int(y)).RGBA()
	return uint8(r>>8) == c.R && uint8(g>>8) == c.G && uint8(b>>8) == c.B
}

func TestMarksStandWhereTheReadingsAre(t *testing.T) {
	p := example()
	m := drawn(t, p)
	for i, f := range p.frames()[:3] {
		day3, day9 := f.x0+3.0/44*(f.x1-f.x0), f.x0+9.0/44*(f.x1-f.x0)
		at := func(v float64) float64 { return f.y1 - v/f.high*(f.y1-f.y0) }
		for _, spot := range []struct {
			what string
			x, y float64
			c    color.RGBA
		}{
			{"the reading of day 3", day3, at(2), ink},
			{"the lower end of its step", day3, at(1.5), ink},
			{"the upper end of its step", day3, at(2.7), ink},
			{"the reading of day 9", day9, at(4), ink},
			{"the arrow of its open top", day9, f.y0 + 8, ink},
			{"the median of day 30", f.x0 + 30.0/44*(f.x1-f.x0), at(4 * math.Exp(-30.0/12)), hues[i][0]},
			{"the half of day 20", f.x0 + 20.0/44*(f.x1-f.x0), at(4 * 1.15 * math.Exp(-20.0/12)), hues[i][1]},
			{"the tenths of day 20", f.x0 + 20.0/44*(f.x1-f.x0), at(4 * 1.4 * math.Exp(-20.0/12)), hues[i][2]},
			{"the done window", f.x0 + 35.0/44*(f.x1-f.x0), f.y0 + 30, doneBand},
			{"before the done window", f.x0 + 14.0/44*(f.x1-f.x0), f.y0 + 30, paper},
			{"after the done window", f.x0 + 42.0/44*(f.x1-f.x0), f.y0 + 30, paper},
			{"today", f.x0 + 12.0/44*(f.x1-f.x0), f.y0 + 8, ink},
		} {
			if !is(m, spot.x, spot.y, spot.c) {
				t.Errorf("panel %d: %s is not at %.0f, %.0f, but %v", i, spot.what, spot.x, spot.y, m.At(int(spot.x), int(spot.y)))
			}
		}
	}
}

// TestNothingRunsOffTheSheet holds the edge inside the border to bare paper, so
// that neither words nor marks are cut off, also of what no tank shows.
func TestNothingRunsOffTheSheet(t *testing.T) {
	wild := example()
	wild.Title = strings.Repeat("Day 12: done ", 9)
	wild.First, wild.Now, wild.Last = -1e12, math.NaN(), math.Inf(1)
	wild.Done = Window{new(-5.0), new(1e8), new(math.Inf(1))}
	for i := range wild.Pools {
		wild.Pools[i].Read = []Mark{{Day: 1, Value: 1e6, Low: 9e5, High: 2e6}, {Day: 2, Value: math.NaN()}, {Day: 9e9, Value: 1}, {Day: 3, Value: -4, Low: -5, High: -3}}
		wild.Pools[i].Course = append(wild.Pools[i].Course, Level{2, -1, math.Inf(-1), 3, 1e300, math.NaN()})
	}
	for d := range 400 {
		wild.Events = append(wild.Events, Event{float64(d) / 50, "water"})
	}
	long := example()
	long.Last, long.Now = 4000, 3990
	long.Pools[0].Read = append(long.Pools[0].Read, Mark{Day: 4000, Value: 8, Low: 8, High: 8, Open: true})
	long.Events = append(long.Events, Event{4000, "conditioner"})
	for name, p := range map[string]Picture{"usual": example(), "wild": wild, "long": long, "nothing": {}, "one empty panel": {Pools: []Panel{{}}, Waters: []Panel{{}}}} {
		m := drawn(t, p)
		for x := 6.0; x < sheetWidth-6; x++ {
			for _, y := range []float64{8, 16, sheetHeight - 16, sheetHeight - 8} {
				if !is(m, x, y, paper) {
					t.Fatalf("%s: something stands at %.0f, %.0f", name, x, y)
				}
			}
		}
		for y := 6.0; y < sheetHeight-6; y++ {
			for _, x := range []float64{8, 12, sheetWidth - 12, sheetWidth - 8} {
				if !is(m, x, y, paper) {
					t.Fatalf("%s: something stands at %.0f, %.0f", name, x, y)
				}
			}
		}
	}
}

func TestSameBytes(t *testing.T) {
	first, err := PNG(example())
	if err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			if b, err := PNG(example()); err != nil || !bytes.Equal(b, first) {
				t.Errorf("the same picture gave other bytes (%v)", err)
			}
		})
	}
	all.Wait()
	if bytes.Contains(first, []byte("tIME")) {
		t.Error("the picture holds a time")
	}
}

// TestLettersAreLegible: at a third of the size, which is how wide a phone is, the
// smallest letters are eight pixels and more, and words stand out from the paper.
func TestLettersAreLegible(t *testing.T) {
	if small-4 < 3*8 {
		t.Errorf("letters of %v are too small at a third", small-4)
	}
	for name, c := range map[string]color.RGBA{"ink": ink, "faint": faint, "ammonia": hues[0][0], "nitrite": hues[1][0], "nitrate": hues[2][0]} {
		if r := contrast(c, paper); r < 4.5 {
			t.Errorf("%s stands out from the paper by %.1f, want 4.5 (WCAG 2.2, 1.4.3)", name, r)
		}
	}
	for _, page := range []color.RGBA{{0, 0, 0, 255}, {255, 255, 255, 255}} {
		if r := contrast(border, page); r < 3 {
			t.Errorf("the border stands out from %v by %.1f, want 3 (WCAG 2.2, 1.4.11)", page, r)
		}
	}
}

// contrast is the ratio of WCAG 2.2.
func contrast(a, b color.RGBA) float64 {
	light := func(c color.RGBA) float64 {
		lin := func(v uint8) float64 {
			x := float64(v) / 255
			if x <= 0.04045 {
				return x / 12.92
			}
			return math.Pow((x+0.055)/1.055, 2.4)
		}
		return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
	}
	x, y := light(a), light(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func BenchmarkPNG(b *testing.B) {
	p := example()
	for b.Loop() {
		if _, err := PNG(p); err != nil {
			b.Fatal(err)
		}
	}
}
