package commands

import "testing"

// TestAnimalsLeft: a tank whose animals all died holds none any more; where it is not
// known how many there were, it does.
func TestAnimalsLeft(t *testing.T) {
	for _, tt := range []struct {
		tank string
		logs []string
		want string
	}{
		{"method:fish-in stock:10g", []string{"what:losses amount:10g"}, "no"},
		{"method:fish-in stock:10g", []string{"what:losses amount:4g"}, "yes"},
		{"method:fish-in stock:10g", []string{"what:losses"}, "yes"},
		{"method:fish-in", []string{"what:losses amount:10g"}, "yes"},
		{"method:fish-in stock:10g", []string{"what:losses amount:10g", "what:stock amount:5g"}, "yes"},
		{"", []string{"what:stock amount:5g", "what:losses amount:5g"}, "no"},
		{"", nil, "no"},
	} {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7.5 "+tt.tank)
		for _, l := range tt.logs {
			must(t, b, "2026-03-03T09:00:00Z", "/log "+l)
		}
		must(t, b, "2026-03-04T09:00:00Z", "/reading ammonia:0 nitrite:0")
		if s := must(t, b, "2026-03-04T09:01:00Z", "/safe").Data.(Safe); s.Animals != tt.want {
			t.Errorf("%s, %v: animals %s, want %s", tt.tank, tt.logs, s.Animals, tt.want)
		}
	}
}
