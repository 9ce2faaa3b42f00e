package main

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// TestToldInAnyOrder: members fill in their logs late and in any order. What
// happened at which time decides, so the outlook is the same to the last byte.
func TestToldInAnyOrder(t *testing.T) {
	told := []string{
		"/log what:dose amount:2ppm at:2026-03-01T10:00:00Z",
		"/reading ammonia:2 nitrite:0 nitrate:5 at:2026-03-03T09:00:00Z",
		"/reading ammonia:1 nitrite:0.5 at:2026-03-05T09:00:00Z",
		"/log what:water-change amount:30% at:2026-03-05T12:00:00Z",
		"/reading ammonia:0.25 nitrite:2 nitrate:10 at:2026-03-07T09:00:00Z",
		"/log what:dose amount:2ppm at:2026-03-07T10:00:00Z",
		"/reading ammonia:0.5 nitrite:5 at:2026-03-09T09:00:00Z",
	}
	outlook := func(order []int) string {
		var b strings.Builder
		b.WriteString("2026-03-01T09:00:00Z @tern /tank new name:a volume:60L ph:7.4 kh:6dKH temp:25C\n")
		for i, k := range order {
			fmt.Fprintf(&b, "2026-03-10T09:%02d:00Z @tern %s\n", i, told[k])
		}
		b.WriteString("2026-03-10T10:00:00Z @tern /outlook\n")
		all := replayed(t, b.String())
		for _, a := range all {
			if !a.OK {
				t.Fatalf("%s refused: %s", a.Command, a.Text)
			}
		}
		return string(all[len(all)-1].Data)
	}
	order := make([]int, len(told))
	for i := range order {
		order[i] = i
	}
	want := outlook(order)
	if !strings.Contains(want, `"readings":4`) {
		t.Fatalf("not all four readings count: %s", want)
	}
	slices.Reverse(order)
	rng := rand.New(rand.NewPCG(1, 1))
	for range 3 {
		if got := outlook(order); got != want {
			t.Errorf("told in the order %v: %s\nwant %s", order, got, want)
		}
		rng.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
	}
	if got := outlook(order[1:]); got == want { // one entry short
		t.Error("an entry more or less makes no difference")
	}
}
