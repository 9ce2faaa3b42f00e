package commands

import (
	"encoding/json"
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/stocking"
	"ripen/engine/unit"
)

// TestStockNames holds the names that the command book fixes.
func TestStockNames(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	raw, err := json.Marshal(must(t, b, "2026-03-02T09:00:00Z", "/stock grams:20g").Data)
	if err != nil {
		t.Fatal(err)
	}
	var data map[string]any
	if err := json.Unmarshal(raw, &data); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"capacity_mgn_per_day", "feed_g_per_day"} {
		q, _ := data[name].(map[string]any)
		for _, p := range []string{"p10", "p50", "p90"} {
			if _, ok := q[p].(float64); !ok {
				t.Errorf("%s has no %s: %s", name, p, raw)
			}
		}
	}
	if data["now"] != "wait" || data["steps"] == nil {
		t.Errorf("now and steps of a tank without readings: %s", raw)
	}
}

// TestStockCautions: every answer carries its cautions, and animals are said to be
// tested for first.
func TestStockCautions(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	for _, line := range []string{"/stock", "/reading ammonia:0 nitrite:0", "/stock"} {
		r := must(t, b, "2026-03-09T09:00:00Z", line)
		if _, ok := r.Data.(Stock); !ok {
			continue
		}
		for _, c := range []string{"test-before-animals", "species", "welfare"} {
			if strings.Count(r.Text, caution(c)) != 1 {
				t.Errorf("%s lacks the caution %s, or says it twice:\n%s", line, c, r.Text)
			}
		}
	}
}

// TestStockWithAnimalsIn: where the filter is too small for what is in, nothing is
// said of waiting for the first, and the water is looked after.
func TestStockWithAnimalsIn(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L method:fish-in stock:10g")
	s := must(t, b, "2026-03-02T09:00:00Z", "/stock grams:5g").Data.(Stock)
	s.Present = StockLoad{10, 0.15}
	if text := s.Text(); !strings.HasPrefix(text, "Add nothing to a") || !strings.Contains(text, "/safe") || strings.Contains(text, "stop dosing") {
		t.Errorf("with animals in:\n%s", text)
	}
}

// TestPlanned: what is planned with the tank is asked about, less what is in.
func TestPlanned(t *testing.T) {
	day := model.Case{Setup: model.Setup{Stock: 80, Feed: 1.2}}
	put := func(c model.Case, grams unit.Grams) model.Case {
		c.Events = append(c.Events, model.Event{Day: 1, Kind: model.Stocked, Mass: grams})
		return c
	}
	fish := day
	fish.Setup.Method = model.FishIn
	for _, tt := range []struct {
		c    model.Case
		want stocking.Wish
		why  string
	}{
		{day, stocking.Wish{Animals: 80, Feed: 1.2}, "nothing is in yet"},
		{put(day, 20), stocking.Wish{Animals: 60, Feed: 0.9}, "a quarter is in, which eats 1.5 % of its weight"},
		{put(day, 100), stocking.Wish{}, "all are in, and more"},
		{fish, stocking.Wish{}, "they are in from the start"},
		{model.Case{}, stocking.Wish{}, "nothing was planned"},
	} {
		if got := planned(tt.c, 2); abs(got.Animals-tt.want.Animals)+abs(got.Feed-tt.want.Feed) > 1e-9 {
			t.Errorf("planned %v, want %v: %s", got, tt.want, tt.why)
		}
	}
}

func abs(g unit.Grams) unit.Grams { return max(g, -g) }

// TestStockWords: the chloride that was told reaches the engine, the guard is said to be
// that of water without only where none was, and a plan with far too much food is warned of.
func TestStockWords(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	must(t, b, "2026-03-08T09:00:00Z", "/reading ammonia:0 nitrite:0")
	for _, tt := range []struct {
		line, has string
		want      bool
		reason    string
	}{
		{"/stock grams:20g", "in water without chloride", true, "none was told"},
		{"/stock grams:20g chloride:30", "in water without chloride", false, "it was told"},
		{"/stock grams:20g", "no licence for any number of animals", true, "a cleared dose is no licence"},
		{"/stock", "at once: ammonia would reach", true, "what too fast does is said without a plan, too"},
		{"/stock grams:20g feed:0.3g", "is a lot", false, "an ordinary ration"},
	} {
		if text := must(t, b, "2026-03-09T09:00:00Z", tt.line).Text; strings.Contains(text, tt.has) != tt.want {
			t.Errorf("%s: %q said %v, want %v: %s\n%s", tt.line, tt.has, !tt.want, tt.want, tt.reason, text)
		}
	}
	much := must(t, b, "2026-03-09T09:00:00Z", "/stock grams:20g").Data.(Stock)
	if much.Wanted = (StockLoad{20, 5}); !strings.Contains(much.Text(), "is a lot") {
		t.Errorf("a quarter of their weight a day:\n%s", much.Text())
	}
	for _, line := range []string{"/stock grams:0g", "/stock grams:-5g", "/stock feed:-1g", "/stock grams:7kg", "/stock chloride:-4"} {
		if r := tell(t, b, "2026-03-09T09:00:00Z", line); r.OK || r.Err.Code != CodeRange || !strings.Contains(r.Text, "check") && !strings.Contains(r.Text, "Check") {
			t.Errorf("%s: %s", line, r.Text)
		}
	}
}
