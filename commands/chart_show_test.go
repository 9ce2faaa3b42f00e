package commands

import (
	"bytes"
	"context"
	"flag"
	"image/png"
	"os"
	"strings"
	"testing"

	"ripen/engine/advise"
)

var pictureFile = flag.String("picture", "", "write the picture that the README shows into this `file`")

// mossBowl is a book with a dosed tank of eleven days.
func mossBowl(t *testing.T) *Book {
	t.Helper()
	b := New(newStore(t), WithAdviser(advise.New(8)))
	for _, l := range []string{
		"2026-03-01T09:00:00Z /tank new name:\"moss bowl\" volume:60L ph:7.6 kh:6dKH temp:26C media:sponge", "2026-03-01T09:00:00Z /log what:dose amount:2ppm",
		"2026-03-03T09:00:00Z /reading ammonia:2 nitrite:0 nitrate:5 ph:7.6 kh:6dKH", "2026-03-05T09:00:00Z /reading ammonia:2 nitrite:0.25",
		"2026-03-08T09:00:00Z /reading ammonia:1 nitrite:1 nitrate:5-10 ph:7.4 temp:25.5C", "2026-03-09T09:00:00Z /log what:dose amount:1ppm",
		"2026-03-10T09:00:00Z /log what:water-change amount:30%", "2026-03-12T09:00:00Z /reading ammonia:0.25 nitrite:5+ nitrate:20 ph:7.3 kh:4dKH",
	} {
		at, line, _ := strings.Cut(l, " ")
		must(t, b, at, line)
	}
	return b
}

func TestChart(t *testing.T) {
	b := mossBowl(t)
	reply := must(t, b, "2026-03-12T10:00:00Z", "/chart")
	if len(reply.Files) != 1 || reply.Files[0].Name != "chart-day-11.png" {
		t.Fatalf("got %d files", len(reply.Files))
	}
	f := reply.Files[0]
	if _, err := png.Decode(bytes.NewReader(f.Data)); err != nil {
		t.Fatal(err)
	}
	for _, says := range []string{"moss bowl", "day 11", "ammonia 0.25 mg/L", "nitrite 5 mg/L or more", "done around day"} {
		if !strings.Contains(f.Alt, says) {
			t.Errorf("the alt text lacks %q: %s", says, f.Alt)
		}
	}
	if missing := unfounded(f.Alt, reply.Data); missing != nil {
		t.Errorf("the alt text has numbers that the data lacks: %v in %s", missing, f.Alt)
	}
	p := reply.Data.(ChartShown).Picture
	if got := p.Pools[1].Read[3]; !got.Open || got.Value != 5 || got.Low >= 5 || got.Low < 2 {
		t.Errorf("5+ is drawn as %+v", got)
	}
	if got := p.Pools[2].Read[1]; got.Low >= 5 || got.High <= 10 || got.Value != 7.5 {
		t.Errorf("5-10 is drawn as %+v", got)
	}
	if again := must(t, b, "2026-03-12T10:00:00Z", "/chart"); !bytes.Equal(again.Files[0].Data, f.Data) {
		t.Error("the same chart has other bytes")
	}
	if few := must(t, b, "2026-03-12T10:00:00Z", "/chart days:5").Data.(ChartShown); few.Picture.First < 6 || few.Picture.First > 6.1 {
		t.Errorf("days:5 begins on day %v", few.Picture.First)
	}
	if *pictureFile != "" {
		if err := os.WriteFile(*pictureFile, f.Data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func TestChart_units(t *testing.T) {
	b := mossBowl(t)
	must(t, b, "2026-03-12T10:00:00Z", "/units temp:F kh:ppm scale:n")
	p := must(t, b, "2026-03-12T10:00:00Z", "/chart").Data.(ChartShown).Picture
	if u := p.Pools[0].Unit + ", " + p.Waters[1].Unit + ", " + p.Waters[2].Unit; u != "mg/L as N, ppm, °F" {
		t.Errorf("the units are %s", u)
	}
	if v := p.Waters[2].Read[0].Value; v != 78.8 {
		t.Errorf("26 C is drawn as %v F", v)
	}
	// 2 mg/L of NH4 are 2 * 14.007 / 18.039 = 1.55 as N.
	if v := p.Pools[0].Read[0].Value; v != 1.55 {
		t.Errorf("2 mg/L of ammonia are drawn as %v as N", v)
	}
}

// TestPlain: a front end that shows no pictures has none of /outlook, but one of /chart.
func TestPlain(t *testing.T) {
	b := mossBowl(t)
	for line, want := range map[string][2]int{"/outlook": {1, 0}, "/chart": {1, 1}, "/safe": {0, 0}} {
		for i, plain := range []bool{false, true} {
			r, _ := said(clock("2026-03-12T10:00:00Z"), "wren", line)
			r.Plain = plain
			reply := b.Do(context.Background(), r)
			if !reply.OK || len(reply.Files) != want[i] {
				t.Errorf("%s, plain %t: %d files, want %d (%s)", line, plain, len(reply.Files), want[i], reply.Text)
			}
			for _, f := range reply.Files {
				if missing := unfounded(f.Alt, reply.Data); missing != nil {
					t.Errorf("%s: the alt text has numbers that the data lacks: %v", line, missing)
				}
			}
		}
	}
}

func TestChart_member(t *testing.T) {
	b := mossBowl(t)
	r, _ := said(clock("2026-03-12T10:00:00Z"), "tern", "/chart member:wren")
	if reply := b.Do(context.Background(), r); reply.OK {
		t.Error("a member saw the chart of another")
	}
	r.Moderator = true
	if reply := b.Do(context.Background(), r); !reply.OK || len(reply.Files) != 1 {
		t.Errorf("a moderator got no chart: %s", reply.Text)
	}
}
