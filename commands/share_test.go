package commands

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"
	"unicode"

	"ripen/engine/diagnose"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// hostile is text that means harm in one markup or another.
var hostile = []string{
	"@everyone", "www.x.test", "<@1234>", "<#99>", "<@&7>", "[/code][url=http://x.test]free[/url]", "| a | b |", "**bold** _it_ ~~s~~", "```sh\nrm\n```",
	"[link](http://x.test)", "<script>alert(1)</script>", "# head", "\u202egnp", "||spoiler||", `\*not\*`, "&lt;b&gt;", "line\nbreak", "`code`", "::name::",
}

// TestMarkupHolds: in no markup can a text mention, link, begin or end anything.
func TestMarkupHolds(t *testing.T) {
	for _, m := range markups {
		for _, h := range hostile {
			got := m.plain(h)
			for _, bad := range []string{"@everyone", "@1", "@&", "<#", "<@", "://", "www.x", "\n", "\u202e"} {
				if strings.Contains(got, bad) && !(m.name == "markdown" && strings.HasPrefix(bad, "<") && strings.Contains(got, `\`+bad)) {
					t.Errorf("%s: %q becomes %q, which holds %q", m.name, h, got, bad)
				}
			}
			for i, r := range got {
				loose := m.name == "bbcode" && (r == '[' || r == ']') || m.name == "markdown" && strings.ContainsRune("*_~|[]<>`#", r) && !escaped(got, i)
				if loose || !unicode.IsPrint(r) && string(r) != apart {
					t.Errorf("%s: %q becomes %q, where %q is loose", m.name, h, got, r)
				}
			}
		}
	}
}

// escaped says whether an odd number of backslashes stands before a place.
func escaped(s string, i int) bool {
	n := 0
	for n < i && s[i-1-n] == '\\' {
		n++
	}
	return n%2 == 1
}

// evilAdviser puts harm where words of the engine stand.
type evilAdviser struct{ fakeAdviser }

func (e evilAdviser) Why(c model.Case, now unit.Days) (diagnose.Diagnosis, outlook.Outlook, error) {
	d, o, err := e.fakeAdviser.Why(c, now)
	for _, h := range hostile {
		d.Causes = append([]diagnose.Cause{{Name: h, Chance: 0.9, DaysCost: 3, Evidence: []string{h}}}, d.Causes...)
	}
	o.Stage = hostile[0]
	return d, o, err
}

// TestShareIsPrivate: neither the member, nor the tank's name, nor any word that was
// typed gets into the post or its data.
func TestShareIsPrivate(t *testing.T) {
	for _, a := range []Adviser{fakeAdviser{}, evilAdviser{}} {
		b := New(newStore(t), WithAdviser(a))
		must(t, b, "2026-03-01T09:00:00Z", `/tank new name:"@everyone [/code] secret" volume:60L ph:6 altitude:1234m`)
		at := clock("2026-03-02T09:00:00Z")
		for _, h := range append(hostile, "secret medicine") {
			if strings.ContainsAny(h, "\n\u202e") {
				continue
			}
			for _, what := range []string{"note", "medicine", "stock amount:1g", "dose amount:1ppm"} {
				at = at.Add(time.Minute)
				must(t, b, at.Format(time.RFC3339), fmt.Sprintf("/log what:%s detail:%q", what, "secret "+strings.ReplaceAll(h, `\`, "")))
			}
		}
		must(t, b, "2026-03-04T09:00:00Z", `/tank edit name:"secret two" temp:27C`)
		must(t, b, "2026-03-04T09:00:00Z", "/reading ammonia:5+ nitrite:0-0.25")
		for _, as := range markupNames() {
			r := must(t, b, "2026-03-05T09:00:00Z", "/share as:"+as)
			raw, err := json.Marshal(r.Data)
			if err != nil {
				t.Fatal(err)
			}
			for _, private := range []string{"secret", "wren", "1234"} {
				if strings.Contains(r.Text, private) || strings.Contains(string(raw), private) && a == (fakeAdviser{}) {
					t.Errorf("as %s the post tells %q:\n%s", as, private, r.Text)
				}
			}
			for _, bad := range []string{"@everyone", "http://", "[/code][", "[url", "<script", "note"} {
				if strings.Contains(strings.ReplaceAll(r.Text, `\<`, ""), bad) {
					t.Errorf("as %s the post holds %q:\n%s", as, bad, r.Text)
				}
			}
			if as == "bbcode" && (strings.Count(r.Text, "[code]") != 1 || strings.Count(r.Text, "[/code]") != 1 || strings.Count(r.Text, "[b]") != strings.Count(r.Text, "[/b]")) {
				t.Errorf("bbcode is not balanced:\n%s", r.Text)
			}
			if missing := unfounded(r.Text, r.Data); a == (fakeAdviser{}) && len(missing) > 0 {
				t.Errorf("as %s the text has %v, the data has not", as, missing)
			}
		}
	}
}

// TestShareUnits: readings stand in the member's units whatever they were typed in.
func TestShareUnits(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7.4")
	must(t, b, "2026-03-02T09:00:00Z", "/reading ammonia:1 nitrite:1 scale:n temp:77F kh:6dKH")
	must(t, b, "2026-03-03T09:00:00Z", "/reading ammonia:1 nitrite:5+ nitrate:20-40")
	must(t, b, "2026-03-03T10:00:00Z", "/log what:dose amount:2ppm")
	got := must(t, b, "2026-03-04T09:00:00Z", "/share").Data.(Share)
	want := []ShareReading{
		{Day: 1, Ammonia: "1.29", Nitrite: "3.28", Temp: "25 °C", KH: "6 dKH"}, // 18.039/14.007, 46.005/14.007
		{Day: 2, Ammonia: "1", Nitrite: "5+", Nitrate: "20-40"},
	}
	for i := range want {
		if got.Readings[i] != want[i] {
			t.Errorf("reading %d: %+v, want %+v", i, got.Readings[i], want[i])
		}
	}
	must(t, b, "2026-03-04T09:00:00Z", "/units scale:n temp:F kh:ppm volume:gal")
	got = must(t, b, "2026-03-04T09:00:00Z", "/share").Data.(Share)
	want = []ShareReading{
		{Day: 1, Ammonia: "1", Nitrite: "1", Temp: "77 °F", KH: "107 ppm as CaCO3"},
		{Day: 2, Ammonia: "0.776", Nitrite: "1.52+", Nitrate: "4.52-9.04"},
	}
	for i := range want {
		if got.Readings[i] != want[i] {
			t.Errorf("in other units, reading %d: %+v, want %+v", i, got.Readings[i], want[i])
		}
	}
	if e := got.Events[0].Words; e != "dose 1.6 mg/L as nitrogen" { // 2 mg/L as NH4
		t.Errorf("the dose is %q, want 1.6 mg/L as nitrogen", e)
	}
}

// TestShareLongLog: a long log is shortened in the middle, and the post says by how
// much.
func TestShareLongLog(t *testing.T) {
	for _, n := range []int{0, 1, firstTold + lastTold + 1, firstTold + lastTold + 2, 60} {
		b := New(newStore(t), WithAdviser(fakeAdviser{}))
		must(t, b, "2026-01-01T09:00:00Z", "/tank new name:a volume:60L ph:7.4")
		for i := range n {
			at := clock("2026-01-02T09:00:00Z").AddDate(0, 0, i).Format(time.RFC3339)
			must(t, b, at, fmt.Sprintf("/reading ammonia:%d", i%5))
			must(t, b, at, "/log what:dose amount:2ppm")
		}
		r := must(t, b, "2026-03-15T09:00:00Z", "/share")
		s := r.Data.(Share)
		if s.ReadingsIn != n || len(s.Readings)+s.LeftOut != n || len(s.Events)+s.EventsOut != n || len(s.Readings) > firstTold+lastTold+1 {
			t.Errorf("%d readings: %d shown, %d left out of %d", n, len(s.Readings), s.LeftOut, s.ReadingsIn)
		}
		said := strings.Contains(r.Text, fmt.Sprintf("(%d readings left out)", s.LeftOut)) && strings.Contains(r.Text, fmt.Sprintf("(%d entries left out)", s.EventsOut))
		if said != (s.LeftOut > 0) {
			t.Errorf("%d readings, %d left out, said %v:\n%s", n, s.LeftOut, said, r.Text)
		}
		if n > 0 && (s.Readings[0].Day != 1 || s.Readings[len(s.Readings)-1].Day != float64(n)) {
			t.Errorf("%d readings: from day %g to %g", n, s.Readings[0].Day, s.Readings[len(s.Readings)-1].Day)
		}
		if missing := unfounded(r.Text, r.Data); len(missing) > 0 {
			t.Errorf("the text has %v, the data has not", missing)
		}
	}
}
