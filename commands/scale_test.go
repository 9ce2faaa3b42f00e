package commands

import (
	"reflect"
	"strings"
	"testing"
)

// TestScaleKept holds that a reading's data tell the scale of its nitrogen tests, and that
// what is shown of it later does, while tests without a scale get none.
func TestScaleKept(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:w volume:60L")
	for _, c := range []struct {
		line, scale string
		each        Scales
	}{
		{"!add NO2-N 3.3, pH 7.4", "n", nil},
		{"!add nitrite 3.3 mg/L NO2-N, ammonia 1", "mixed", Scales{"ammonia": "ion", "nitrite": "n"}},
		{"!add nitrite 3.3, ammonia 1", "ion", nil},
		{"!add pH 7.4", "ion", nil},
	} {
		r := must(t, b, "2026-03-02T09:00:00Z", c.line).Data.(Added)
		if r.Scale != c.scale || !reflect.DeepEqual(r.Scales, c.each) || r.Reading.Scale != c.scale || !reflect.DeepEqual(r.Reading.Scales, c.each) {
			t.Errorf("%s: scale %s %v, noted %s %v, want %s %v", c.line, r.Scale, r.Scales, r.Reading.Scale, r.Reading.Scales, c.scale, c.each)
		}
	}
	must(t, b, "2026-03-03T09:00:00Z", "/reading nitrite:0.3 ph:7 scale:n")
	must(t, b, "2026-03-03T10:00:00Z", "/log what:dose amount:2")
	if text := must(t, b, "2026-03-03T11:00:00Z", "/reading nitrite:10 scale:n").Text; !strings.Contains(text, "nitrite was 0.3 mg/L as nitrogen,") {
		t.Errorf("the reading before is told without its scale: %s", text)
	}
	must(t, b, "2026-03-03T12:00:00Z", "/units scale:n")
	must(t, b, "2026-03-03T13:00:00Z", "/log what:dose amount:1ppm")
	must(t, b, "2026-03-03T13:30:00Z", "/log what:feed amount:1")
	if text := must(t, b, "2026-03-03T14:00:00Z", "/tank edit target:1").Text; !strings.Contains(text, "target 1 mg/L as nitrogen") {
		t.Errorf("the target is told without its scale: %s", text)
	}
	text := must(t, b, "2026-03-03T15:00:00Z", "/tank show").Text
	for _, want := range []string{"target 1 mg/L as nitrogen,", ": nitrite 0.3 as nitrogen, pH 7\n", "dose: 2 mg/L\n", "dose: 1ppm as nitrogen\n", "feed: 1 g\n", "edit: target 1 as nitrogen"} {
		if !strings.Contains(text, want) {
			t.Errorf("/tank show lacks %q:\n%s", want, text)
		}
	}
	text = must(t, b, "2026-03-03T16:00:00Z", "/share").Text
	for _, want := range []string{"target 1 mg/L as nitrogen,", "dose 1 mg/L as nitrogen\n", "feed 1 g\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("/share lacks %q:\n%s", want, text)
		}
	}
	if text := must(t, b, "2026-03-03T17:00:00Z", "/undo").Text; !strings.Contains(text, "target 1 as nitrogen") {
		t.Errorf("/undo tells the target without its scale: %s", text)
	}
}
