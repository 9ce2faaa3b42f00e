package commands

import (
	"strings"

	"ripen/commands/post"
)

// eventLine tells in one line how to note what a post tells of beside its tests.
func eventLine(events []post.Event) string {
	var what, how []string
	for _, e := range events {
		name := "a " + strings.ReplaceAll(e.What, "-", " ")
		if len(what) == 0 || what[len(what)-1] != name {
			what = append(what, name)
		}
		how = append(how, "/log what:"+e.What+" amount:"+e.Amount)
	}
	it := "it, so that I count it"
	if len(how) > 1 {
		it = "them, so that I count them"
	}
	return "The post tells of " + strings.Join(what, " and ") + ". Note " + it + ", with at: if it was earlier: " + strings.Join(how, " and ")
}
