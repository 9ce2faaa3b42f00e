package commands

import (
	"maps"
	"slices"
)

// Scales is the scale of each nitrogen test of a reading, "ion" or "n".
type Scales map[string]string

// mixedScale is the scale of a reading whose nitrogen tests are on both.
const mixedScale = "mixed"

// scaleOfReading tells on which scale the nitrogen tests of a reading are: one for all, the
// member's if there are none, or mixedScale with the scale of each.
func scaleOfReading(c *call) (string, Scales) {
	each := Scales{}
	for _, name := range [...]string{"ammonia", "nitrite", "nitrate"} {
		if a, ok := c.args[name]; ok {
			each[name] = a.bare
		}
	}
	switch used := slices.Compact(slices.Sorted(maps.Values(each))); len(used) {
	case 0:
		return scaleOf(c), nil
	case 1:
		return used[0], nil
	}
	return mixedScale, each
}
