package commands

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"ripen/store"
)

// ClubCase is one page about a member's tank, for who answers the member.
type ClubCase struct {
	Head
	Member    string       `json:"member"`
	Setup     ShareSetup   `json:"setup"`
	Story     []ShareEvent `json:"story"` // of a long log the first and last; no words that the member typed
	StoryIn   int          `json:"story_in_all"`
	StoryOut  int          `json:"story_left_out"` // after the first of Story
	Scale     string       `json:"scale"`
	Outlook   []string     `json:"outlook"` // sentences
	Chart     Chart        `json:"chart"`
	Why       Why          `json:"why"`
	Answered  []Answered   `json:"answered"` // what the log shows of each cause's fix
	Questions []string     `json:"questions"`
	Answer    string       `json:"answer"` // to be posted as it is
}

// Answered is whether the log shows something done about a cause. What a keeper did and
// did not log nobody knows.
type Answered struct {
	Cause string   `json:"cause"`
	By    []string `json:"by"`   // what would be logged
	What  string   `json:"what"` // what was, last; "" if nothing
	Day   *float64 `json:"day"`
}

// fixedBy names what a keeper would log who puts a cause right.
var fixedBy = map[string][]string{
	"acidic-water": {"buffer", "water-change"}, "low-alkalinity": {"buffer", "water-change"}, "chlorine": {"conditioner"},
	"ammonia-overdose": {"water-change"}, "nitrite-backlog": {"water-change"}, "no-ammonia-source": {"dose", "feed"},
	"little-surface": {"media"}, "mismatched-seed": {"seed", "culture"},
}

// clubCase gathers what is known of the tank of a member that a moderator names, as
// /outlook and /why with member: do.
func clubCase(c *call) (Result, error) {
	t, cs, now, err := c.theCase()
	if err != nil {
		return nil, err
	}
	told, err := shareStory(c)
	if err != nil {
		return nil, err
	}
	because, err := why(c)
	if err != nil {
		return nil, err
	}
	o, err := c.adviser.Outlook(cs, now)
	if err != nil {
		return nil, engineError(err)
	}
	entries, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return nil, storeError(err, t.Name)
	}
	s, w := told.(Share), because.(Why)
	r := ClubCase{Head: w.Head, Member: t.Member, Setup: s.Setup, Scale: s.Scale, Outlook: s.Outlook, Why: w,
		Chart: outlookResult(t, cs, o, c.At, c.units.Scale).Chart, Answered: answered(t, entries, w.told())}
	for _, x := range cs.Readings {
		day := dayNumber(t.Started, dateOf(t.Started, float64(x.Day)).Round(time.Minute))
		r.Story = append(r.Story, ShareEvent{day, readingWords(shareReading(x, day, c.units))})
	}
	for _, e := range entries {
		words, err := eventWords(e, cs.Setup.Volume, c.units)
		if err != nil {
			return nil, err
		}
		if words != "" {
			r.Story = append(r.Story, ShareEvent{dayNumber(t.Started, e.At), words})
		}
	}
	slices.SortStableFunc(r.Story, func(a, b ShareEvent) int { return cmp.Compare(a.Day, b.Day) })
	r.StoryIn = len(r.Story)
	r.Story, r.StoryOut = shortened(r.Story)
	r.Questions = questions(s, w, len(cs.Readings))
	r.Answer = answer(w)
	return r, nil
}

// readingWords is a test in words.
func readingWords(x ShareReading) string {
	var seen []string
	for _, v := range [][2]string{{"ammonia", x.Ammonia}, {"nitrite", x.Nitrite}, {"nitrate", x.Nitrate}, {"pH", x.PH}, {"KH", x.KH},
		{"temperature", x.Temp}, {"chlorine", x.Chlorine}, {"oxygen", x.Oxygen}} {
		if v[1] != "" {
			seen = append(seen, v[0]+" "+v[1])
		}
	}
	return "read " + strings.Join(seen, ", ")
}

// answered looks in the log for what puts each cause right.
func answered(t store.Tank, entries []store.Entry, causes []Cause) []Answered {
	all := []Answered{}
	for _, x := range causes {
		by, ok := fixedBy[x.Cause]
		if !ok {
			continue
		}
		a := Answered{Cause: x.Cause, By: by}
		for _, e := range entries {
			if what := e.Value("what"); e.Kind == store.KindLog && slices.Contains(by, what) {
				a.What, a.Day = what, new(dayNumber(t.Started, e.At))
			}
		}
		all = append(all, a)
	}
	return all
}

// questions are what nobody told and what would settle a cause, each once.
func questions(s Share, w Why, readings int) []string {
	list := []string{}
	add := func(q string) {
		if !slices.Contains(list, q) {
			list = append(list, q)
		}
	}
	if readings == 0 {
		add("What do ammonia and nitrite read?")
	}
	for _, x := range w.told() {
		if x.Settle != "" {
			add("To be sure of " + lowerFirst(causeWords(x.Cause)) + ": " + sentence(x.Settle))
		}
	}
	if len(s.Setup.Assumed) > 0 {
		add("What are " + strings.Join(s.Setup.Assumed, ", ") + "? Usual values stand for them.")
	}
	return list
}

// answer is the reply of /why as it can be posted: without the tank's name.
func answer(w Why) string {
	w.Tank = "your tank"
	text := w.Text()
	return strings.ToUpper(text[:1]) + text[1:]
}
