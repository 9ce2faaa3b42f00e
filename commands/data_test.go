package commands

import (
	"encoding/json"
	"testing"
)

// TestDataNames holds the names that the command book fixes, since clubs keep
// scripts that read them.
func TestDataNames(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:6 kh:1dKH")
	must(t, b, "2026-03-03T09:00:00Z", "/reading ammonia:0.5 nitrite:5+ nitrate:20-40")
	quantiles := []string{"p10", "p50", "p90"}
	tests := []struct {
		line  string
		path  []string
		names []string
	}{
		{"/outlook", nil, []string{"tank", "day", "stage", "done_day", "done_date", "chance_by", "chance_not_within_horizon", "milestones", "next_reading", "readings", "fit"}},
		{"/outlook", []string{"done_day"}, quantiles},
		{"/outlook", []string{"done_date"}, quantiles},
		{"/outlook", []string{"chance_by"}, []string{"7", "14", "30", "60"}},
		{"/outlook", []string{"milestones", "0"}, []string{"name", "day"}},
		{"/outlook", []string{"milestones", "0", "day"}, quantiles},
		{"/outlook", []string{"next_reading"}, []string{"day", "ammonia", "nitrite", "nitrate"}},
		{"/outlook", []string{"next_reading", "nitrate"}, quantiles},
		{"/why", nil, []string{"verdict", "delay_days", "causes"}},
		{"/why", []string{"delay_days"}, quantiles},
		{"/why", []string{"causes", "0"}, []string{"cause", "chance", "days_cost", "evidence", "fix"}},
		{"/safe", nil, []string{"free_ammonia_mgl", "free_ammonia_n_mgl", "fraction", "acute_limit_tan_mgl", "chronic_limit_tan_mgl", "nitrite_limit_mgl", "chlorine_limit_mgl", "verdict", "reasons", "do"}},
		{"!add nothing", nil, []string{"understood", "doubtful", "stored"}},
	}
	for _, tt := range tests {
		raw, err := json.Marshal(must(t, b, "2026-03-04T09:00:00Z", tt.line).Data)
		if err != nil {
			t.Fatal(err)
		}
		var data any
		if err := json.Unmarshal(raw, &data); err != nil {
			t.Fatal(err)
		}
		for _, step := range tt.path {
			switch d := data.(type) {
			case []any:
				data = d[0]
			case map[string]any:
				data = d[step]
			}
		}
		object, ok := data.(map[string]any)
		if !ok {
			t.Errorf("%s %v is no object: %s", tt.line, tt.path, raw)
			continue
		}
		for _, name := range tt.names {
			if _, ok := object[name]; !ok {
				t.Errorf("%s %v lacks %s: %s", tt.line, tt.path, name, raw)
			}
		}
	}
}

func TestValueJSON(t *testing.T) {
	for _, tt := range []struct {
		v    Value
		want string
	}{
		{Value{Low: 0.5, High: 0.5}, "0.5"}, {Value{Low: 5, High: 5, Over: true}, `"5+"`}, {Value{Low: 20, High: 40}, "[20,40]"}, {Value{}, "0"},
	} {
		raw, err := json.Marshal(tt.v)
		if err != nil || string(raw) != tt.want {
			t.Errorf("%+v marshals to %s, %v, want %s", tt.v, raw, err, tt.want)
		}
	}
}

// TestDone holds the answers at the ends: done, hardly ever, and past the
// horizon.
func TestDone(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:6 kh:1dKH")
	raw, err := json.Marshal(must(t, b, "2026-03-04T09:00:00Z", "/outlook").Data)
	if err != nil {
		t.Fatal(err)
	}
	var data struct {
		DoneDay  map[string]*float64 `json:"done_day"`
		DoneDate map[string]*string  `json:"done_date"`
	}
	if err := json.Unmarshal(raw, &data); err != nil {
		t.Fatal(err)
	}
	if data.DoneDay["p10"] == nil || data.DoneDay["p50"] != nil || data.DoneDate["p90"] != nil {
		t.Errorf("a quantile past the horizon is not null: %s", raw)
	}
	if *data.DoneDate["p10"] != "2026-07-30" {
		t.Errorf("day 151 of 1 March is %s, want 2026-07-30", *data.DoneDate["p10"])
	}
}
