package main

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"ripen/engine/unit"
)

// outlooked is what the tests here want of an outlook's data.
type outlooked struct {
	Scale string `json:"scale"`
	Next  struct {
		Nitrate struct {
			P50 *float64 `json:"p50"`
		} `json:"nitrate"`
	} `json:"next_reading"`
	DoneDay struct {
		P10 *float64 `json:"p10"`
		P50 *float64 `json:"p50"`
		P90 *float64 `json:"p90"`
	} `json:"done_day"`
}

// TestNitrogenUnits tells one tank on the ion scale and the same tank in nitrogen, by
// scale:n and by /units scale:n. The readings mean the same, so the outlook is the
// same but for what rounding to three figures moves, and is told on the member's scale.
func TestNitrogenUnits(t *testing.T) {
	const tank = "2026-03-01T09:00:00Z @tern /tank new name:a volume:60L ph:7.4 kh:6dKH temp:25C media:sponge media-volume:1L flow:normal source:chlorine conditioner:yes\n" +
		"2026-03-01T10:00:00Z @tern /log what:dose amount:2ppm\n" // bare of a scale: the ion
	readings := []string{
		"2026-03-04T09:00:00Z ammonia:2 nitrite:0.25 nitrate:5", "2026-03-07T09:00:00Z ammonia:1 nitrite:1 nitrate:5",
		"2026-03-10T09:00:00Z ammonia:0.25 nitrite:5+ nitrate:10",
	}
	ask := "2026-03-10T10:00:00Z @tern /outlook\n"
	told := func(n bool, suffix string) string {
		var b strings.Builder
		for _, r := range readings {
			at, options, _ := strings.Cut(r, " ")
			if n {
				options = inNitrogen(options)
			}
			fmt.Fprintf(&b, "%s @tern /reading %s%s\n", at, options, suffix)
		}
		return b.String()
	}
	ion := outlookOf(t, tank+told(false, "")+ask)
	scripts := map[string]string{
		"scale:n on each reading": tank + told(true, " scale:n") + ask,
		"/units scale:n":          tank + "2026-03-01T11:00:00Z @tern /units scale:n\n" + told(true, "") + ask,
		"units changed at last":   tank + told(false, "") + "2026-03-10T09:30:00Z @tern /units scale:n\n" + ask,
	}
	for name, script := range scripts {
		n := outlookOf(t, script)
		for q, x := range map[string][2]*float64{"p10": {ion.DoneDay.P10, n.DoneDay.P10}, "p50": {ion.DoneDay.P50, n.DoneDay.P50}} {
			if x[0] == nil || x[1] == nil || math.Abs(*x[0]-*x[1]) > 1.5 {
				t.Errorf("%s: %s of the done day differs from that of the same readings as ions: %v, %v", name, q, show(x[0]), show(x[1]))
			}
		}
		want := 1.0
		if strings.Contains(script, "/units") {
			want = 1 / unit.Nitrate.IonPerN()
		}
		if got := *n.Next.Nitrate.P50 / *ion.Next.Nitrate.P50; math.Abs(got/want-1) > 0.25 {
			t.Errorf("%s: the next nitrate is told %.2f times as large, want %.2f", name, got, want)
		}
	}
}

func show(x *float64) string {
	if x == nil {
		return "none"
	}
	return strconv.FormatFloat(*x, 'g', 4, 64)
}

// inNitrogen converts the readings of a line, by the atomic masses of IUPAC (2021).
func inNitrogen(options string) string {
	perN := map[string]float64{"ammonia": 18.039 / 14.007, "nitrite": 46.005 / 14.007, "nitrate": 62.004 / 14.007}
	return regexp.MustCompile(`(\w+):([\d.]+)`).ReplaceAllStringFunc(options, func(o string) string {
		name, value, _ := strings.Cut(o, ":")
		v, _ := strconv.ParseFloat(value, 64)
		return name + ":" + strconv.FormatFloat(v/perN[name], 'g', 3, 64)
	})
}

// outlookOf is the last answer of a script.
func outlookOf(t *testing.T, script string) (o outlooked) {
	t.Helper()
	for _, a := range replayed(t, script) {
		if !a.OK {
			t.Fatalf("%s refused: %s", a.Command, a.Text)
		}
		if a.Command == "outlook" {
			if err := json.Unmarshal(a.Data, &o); err != nil {
				t.Fatal(err)
			}
		}
	}
	return o
}
