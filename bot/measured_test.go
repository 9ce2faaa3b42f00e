package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"ripen/testdata"
)

// measured is a start-up that somebody measured and published.
type measured struct {
	table string
	setup string   // options of /tank new that the file's header supports
	logs  []string // "DAY OPTIONS" of /log
	done  float64  // day of completion, by reading the series (header of the file)
}

// Tanks 1 and 4 of Day et al. (2021), PLoS ONE 16(2): e0247534: greenhouse
// aquaponics with fish from day 0. The file has neither the water volume nor
// grams of feed; the volume below is invented and the feed is left out. Done is
// the first day from which ammonia and nitrite both stay at zero.
var startUps = []measured{
	{table: "timecourses/day2021_aquaponics_tank1.csv", done: 58,
		setup: "method:fish-in volume:200L ph:7.7 temp:21C media:moving-bed source:chlorine conditioner:yes plants:none started:2017-06-28T00:00:00Z",
		logs:  []string{"0 what:culture", "26 what:plants detail:few-fast", `26 what:note detail:"power cut"`}},
	{table: "timecourses/day2021_aquaponics_tank4.csv", done: 30,
		setup: "method:fish-in volume:200L ph:7.7 temp:21C media:moving-bed source:chlorine conditioner:yes plants:none started:2017-06-28T00:00:00Z",
		logs:  []string{"0 what:seed", "26 what:plants detail:few-fast"}},
}

// script writes the start-up as a keeper would have told it, with an outlook
// after each reading.
func (m measured) script(t *testing.T) string {
	start := time.Date(2017, 6, 28, 0, 0, 0, 0, time.UTC)
	var b strings.Builder
	line := func(day, hour float64, text string) {
		at := start.Add(time.Duration((day*24 + hour) * float64(time.Hour)))
		fmt.Fprintf(&b, "%s @grower %s\n", at.Format(time.RFC3339), text)
	}
	line(0, 1, "/tank new name:raft "+m.setup)
	logs := m.logs
	for _, row := range testdata.Table(t, m.table) {
		day := row.Number("day")
		for len(logs) > 0 {
			at, what, _ := strings.Cut(logs[0], " ")
			var d float64
			fmt.Sscan(at, &d)
			if d > day {
				break
			}
			line(d, 2, "/log "+what)
			logs = logs[1:]
		}
		reading := "/reading kit:strip"
		for _, o := range [][2]string{{"ammonia", "tan_mgN_L"}, {"nitrite", "nitrite_mgN_L"}, {"nitrate", "nitrate_mgN_L"}, {"ph", "ph"}, {"temp", "temp_c"}} {
			if v := row.Text(o[1]); v != "" {
				reading += " " + o[0] + ":" + v
			}
		}
		line(day, 9, reading)
		line(day, 10, "/outlook")
	}
	return b.String()
}

// TestMeasuredStartUps feeds the measured start-ups day by day through replay:
// at about one third and two thirds of the way the 80 % interval for "done"
// holds the measured day. DEVELOPERS.md shows the whole table, which -update writes.
func TestMeasuredStartUps(t *testing.T) {
	table := measuredTable{held: make([]int, len(startUps))}
	for tank, m := range startUps {
		t.Run(m.table, func(t *testing.T) {
			checked := 0
			last := 0.0
			for _, a := range replayed(t, m.script(t)) {
				if !a.OK {
					t.Fatalf("%s at %s refused: %s", a.Command, a.At, a.Text)
				}
				if a.Command != "outlook" {
					continue
				}
				var o struct {
					Day      float64
					Stage    string
					Fit      string
					DoneDay  struct{ P10, P50, P90 *float64 } `json:"done_day"`
					Readings int
				}
				if err := json.Unmarshal(a.Data, &o); err != nil {
					t.Fatal(err)
				}
				p10, p90 := orLate(o.DoneDay.P10), orLate(o.DoneDay.P90)
				holds := p10 <= m.done && m.done <= p90
				t.Logf("day %2.0f  p10 %5.0f  p50 %5.0f  p90 %5.0f  %-8s fit %-8s holds day %.0f: %v", math.Floor(o.Day), p10, orLate(o.DoneDay.P50), p90, o.Stage, o.Fit, m.done, holds)
				table.add(tank, math.Floor(o.Day), fmt.Sprintf("%s / %s / %s | %s", orDash(o.DoneDay.P10), orDash(o.DoneDay.P50), orDash(o.DoneDay.P90), o.Stage), holds)
				for _, part := range []float64{1. / 3, 2. / 3} {
					if at := part * m.done; last < at && o.Day >= at {
						checked++
						if !holds {
							t.Errorf("day %.0f, %.0f %% of the way: the interval %.0f to %.0f misses day %.0f", o.Day, 100*part, p10, p90, m.done)
						}
					}
				}
				last = o.Day
			}
			if checked != 2 {
				t.Errorf("checked %d outlooks, want 2", checked)
			}
		})
	}
	table.compare(t)
}

// measuredTable is the table of DEVELOPERS.md.
type measuredTable struct {
	days []float64
	rows map[float64]string
	held []int // how many intervals hold the measured day, by tank
}

// add takes in one outlook; the tanks were read on the same days.
func (m *measuredTable) add(tank int, day float64, cells string, holds bool) {
	if tank == 0 {
		m.days = append(m.days, day)
	}
	if m.rows == nil {
		m.rows = map[float64]string{}
	}
	m.rows[day] += " " + cells + " |"
	if holds {
		m.held[tank]++
	}
}

// compare holds the table against DEVELOPERS.md, or writes it there.
func (m *measuredTable) compare(t *testing.T) {
	const file, begin, end = "../DEVELOPERS.md", "<!-- measured: go test ./bot -update -->\n", "<!-- /measured -->"
	var b strings.Builder
	fmt.Fprintf(&b, "Of %d outlooks each, %d on tank 1 and %d on tank 4 hold the measured day between p10 and p90.\n\n", len(m.days), m.held[0], m.held[1])
	b.WriteString("| day | tank 1 (day 58) | stage | tank 4 (day 30) | stage |\n| --- | --- | --- | --- | --- |\n")
	for _, d := range m.days {
		fmt.Fprintf(&b, "| %.0f |%s\n", d, m.rows[d])
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(text), begin)
	shown, after, ok2 := strings.Cut(rest, end)
	if !ok || !ok2 {
		t.Fatalf("DEVELOPERS.md has no place for the table: %s ... %s", begin, end)
	}
	if *update {
		if err := os.WriteFile(file, []byte(before+begin+b.String()+end+after), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if shown != b.String() {
		t.Errorf("DEVELOPERS.md shows another table than\n%s\nrun go test ./bot -update and read the difference", b.String())
	}
}

// orDash prints a day, or a dash for one past the horizon.
func orDash(d *float64) string {
	if d == nil {
		return "—"
	}
	return fmt.Sprintf("%.0f", *d)
}

// orLate puts infinity for a quantile past the horizon.
func orLate(d *float64) float64 {
	if d == nil {
		return math.Inf(1)
	}
	return *d
}
