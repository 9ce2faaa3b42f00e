package commands

import (
	"strings"
	"testing"

	"ripen/commands/post"
)

// TestEventLine holds that what a post tells of can be noted as the line says.
func TestEventLine(t *testing.T) {
	line := eventLine([]post.Event{{What: "water-change", Amount: "50%"}, {What: "dose", Amount: "2ppm"}})
	for _, part := range []string{"a water change and a dose", "/log what:water-change amount:50%", "/log what:dose amount:2ppm", "at:"} {
		if !strings.Contains(line, part) {
			t.Errorf("%q lacks %q", line, part)
		}
	}
	if strings.Contains(line, "\n") {
		t.Errorf("%q is more than a line", line)
	}
}
