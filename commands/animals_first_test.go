package commands

import (
	"strings"
	"testing"
)

// TestWhyPutsAnimalsFirst: with animals in, nothing is said of the cycle before
// their water, however well the cycle goes.
func TestWhyPutsAnimalsFirst(t *testing.T) {
	for _, verdict := range []string{"on-track", "slow", "stalled"} {
		text := Why{Verdict: verdict, Animals: true}.Text()
		if !strings.HasPrefix(text, "Animals are in: their water comes first. Ask /safe") {
			t.Errorf("%s: /why begins with %q", verdict, strings.SplitN(text, "\n", 2)[0])
		}
		if text := (Why{Verdict: verdict}).Text(); strings.Contains(text, "Animals are in") {
			t.Errorf("%s: /why tells of animals in a tank that has none: %q", verdict, text)
		}
	}
}
