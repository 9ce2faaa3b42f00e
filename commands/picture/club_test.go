package picture

import (
	"bytes"
	"flag"
	"image/png"
	"os"
	"path/filepath"
	"testing"
)

var show = flag.String("show", "", "folder to write the pictures of the club into")

func exampleRecord() Record {
	should := [3]float64{0.5, 0.8, 0.95}
	return Record{Title: "Of 41 outlooks at half way, 33 held", Stages: []RecordStage{
		{"At the start", 44, [3]float64{0.45, 0.75, 0.93}, should}, {"At half way", 41, [3]float64{0.5, 0.8, 1}, should}, {"Near the end", 12, [3]float64{0, 0.4, 0.9}, should},
	}}
}

func exampleTimelines() Timelines {
	return Timelines{Title: "Week 10: three tanks on their way", First: -30, Last: 60, Ticks: []Tick{{-28, "1 Feb"}, {0, "today"}, {28, "29 Mar"}, {56, "26 Apr"}}, Rows: []Timeline{
		{"wren, nano", "on track", -12, Window{new(3.0), new(12.0), new(28.0)}, false},
		{"siskin, the long slow tub of the hall", "stalled", -50, Window{new(30.0), nil, nil}, false},
		{"ruff, bowl", "ready", -20, Window{new(-3.0), new(-2.0), new(-1.0)}, true},
		{"dunlin, box", "slow", -1, Window{}, false},
	}}
}

// The pictures of a club are the same bytes each time, and their marks stand where the
// numbers are.
func TestClubPictures(t *testing.T) {
	for name, draw := range map[string]func() ([]byte, error){
		"record.png": func() ([]byte, error) { return RecordPNG(exampleRecord()) },
		"week.png":   func() ([]byte, error) { return TimelinesPNG(exampleTimelines()) },
		"empty.png":  func() ([]byte, error) { return TimelinesPNG(Timelines{}) },
	} {
		a, err := draw()
		if err != nil {
			t.Fatal(err)
		}
		if b, _ := draw(); !bytes.Equal(a, b) {
			t.Errorf("%s differs from itself", name)
		}
		if *show != "" {
			if err := os.WriteFile(filepath.Join(*show, name), a, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if m, err := png.Decode(bytes.NewReader(a)); err != nil || m.Bounds().Dx() != sheetWidth {
			t.Errorf("%s: %v", name, err)
		}
	}
	m := exampleTimelines().sheet().image
	x := func(day float64) float64 {
		return timelineLeft + (day+30)/90*(right-timelineNote-timelineLeft)
	}
	y := func(row float64) float64 { return timelineTop + timelineStep*row + timelineStep/2 - 20 }
	for _, at := range []struct {
		day, row float64
		band     bool
	}{{8, 0, true}, {24, 0, true}, {34, 0, false}, {1.5, 0, false}, {45, 1, true}, {10, 1, false}, {20, 3, false}} {
		if got := is(m, x(at.day), y(at.row), doneBand); got != at.band {
			t.Errorf("row %g, day %g: band %v, want %v", at.row, at.day, got, at.band)
		}
	}
	if !is(m, x(12), y(0), doneInk) {
		t.Error("the middle of the first tank is not marked")
	}
}
