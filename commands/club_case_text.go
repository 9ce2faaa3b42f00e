package commands

import (
	"fmt"
	"strings"
)

// Text is the page, with the answer at its end.
func (r ClubCase) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s of %s, day %s, %s stage.\nSet-up: %s.", r.Tank, quote(r.Member), number(r.Day, 0), r.Why.Stage, strings.Join(r.Setup.Facts, ", "))
	if len(r.Story) == 0 {
		b.WriteString("\n\nNothing was told yet.")
	} else {
		b.WriteString("\n\nStory:")
	}
	for i, e := range r.Story {
		if i == firstTold && r.StoryOut > 0 {
			fmt.Fprintf(&b, "\n  (%s left out)", plural(r.StoryOut, "entry", "entries"))
		}
		fmt.Fprintf(&b, "\n  day %s: %s", number(e.Day, 0), e.Words)
	}
	fmt.Fprintf(&b, "\n\nOutlook: %s", strings.Join(r.Outlook, " "))
	if chart := r.Chart.Text(); chart != "" {
		fmt.Fprintf(&b, "\n\n%s", chart)
	}
	if len(r.Answered) > 0 {
		b.WriteString("\n\nDone about it, as far as the log shows:")
	}
	for _, a := range r.Answered {
		done := "no " + list(a.By, "or") + " was logged"
		if a.Day != nil {
			done = fmt.Sprintf("%s, last on day %s", a.What, number(*a.Day, 0))
		}
		fmt.Fprintf(&b, "\n- %s: %s", causeWords(a.Cause), done)
	}
	if len(r.Questions) > 0 {
		b.WriteString("\n\nOpen questions:")
	}
	for _, q := range r.Questions {
		b.WriteString("\n- " + q)
	}
	fmt.Fprintf(&b, "\n\nAnswer, ready to post:\n%s", r.Answer)
	return b.String()
}
