package post

import (
	"fmt"
	"testing"
)

func TestEvents(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Did a 50% water change yesterday and dosed 2 ppm of ammonia this morning. Ammonia 1.5.", "[{water-change 50%} {dose 2ppm}]"},
		{"I changed 40%. nitrite 2", "[{water-change 40%}]"},
		{"I will change 40% tomorrow. nitrite 2", "[]"},
		{"Should I do a 50% water change? nitrite 2", "[]"},
		{"I want to do a 30% water change", "[]"},
		{"if it rises I did say 50% change", "[]"},
		{"nitrite 2, humidity 50%", "[]"},
		{"My friend changed 80%. nitrite 2", "[]"},
		{"Changed 20% Monday, 30% Tuesday, 40% Wednesday. nitrite 2", "[]"}, // a diary
	} {
		if got := fmt.Sprint(Read(c.text, Options{}).Events); got != c.want {
			t.Errorf("%s: got %s, want %s", c.text, got, c.want)
		}
	}
}
