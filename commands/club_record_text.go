package commands

import (
	"fmt"
	"slices"
	"strings"

	"ripen/engine/pool"
)

// sentence is the record in a few words: of the outlooks at half way, or of those
// nearest to it.
func (r ClubRecord) sentence() string {
	s := r.All
	if i := slices.IndexFunc(r.Stages, func(s RecordStage) bool { return s.Name == "at half way" }); i >= 0 {
		s = r.Stages[i]
	}
	return fmt.Sprintf("Of %s %s, %d held", plural(s.Outlooks, "outlook", "outlooks"), s.Name, s.Held[1])
}

// Text tells the record, or why there is none yet.
func (r ClubRecord) Text() string {
	var b strings.Builder
	if !r.Enough {
		switch {
		case r.Outlooks == 0:
			b.WriteString("No outlook was given in this club yet, so there is nothing to look back on. Members ask with /outlook.")
		default:
			fmt.Fprintf(&b, "Too early to say: %s given, and %s since. The record begins with %d.",
				plural(r.Outlooks, "outlook was", "outlooks were"), plural(r.Finished, "of the tanks is done", "of the tanks are done"), r.Least)
		}
		b.WriteString("\nA tank counts as done when its log shows two doses in a row cleared within a day, or when its member says so: /tank close reason:done")
		return b.String()
	}
	fmt.Fprintf(&b, "%s: the tank was done between the days that were named (the 80 %% range).", r.sentence())
	for _, s := range r.Stages {
		fmt.Fprintf(&b, "\n- %s (%s to %s %% of the way): %s; held 50 %% range %d, 80 %% range %d, 95 %% range %d. %s",
			s.Name, number(s.From, 0), number(s.To, 0), plural(s.Outlooks, "outlook", "outlooks"), s.Held[0], s.Held[1], s.Held[2], s.off())
	}
	if s := r.All; s.Early+s.Late > 0 {
		fmt.Fprintf(&b, "\nOf the %d in all, %d were done before their 80 %% range and %d after it.", s.Outlooks, s.Early, s.Late)
	}
	if len(r.Priors) > 1 {
		for _, p := range r.Priors {
			fmt.Fprintf(&b, "\n%s: held %d of %d. %s", capital(priorWords(p.Prior)), p.Held[1], p.Outlooks, p.off())
		}
	}
	fmt.Fprintf(&b, "\n%s done", plural(r.Finished, "tank is", "tanks are"))
	if r.NotDone > 0 {
		fmt.Fprintf(&b, ", %d closed before, which nobody can score", r.NotDone)
	}
	if r.Open > 0 {
		fmt.Fprintf(&b, ", %d on their way", r.Open)
	}
	b.WriteString(". Of each tank the first outlook of a stage counts.\n" + r.Learned.String())
	return b.String()
}

// off says how far the middle day was off.
func (s RecordStage) off() string {
	switch {
	case s.Outlooks == 0:
		return ""
	case s.Error == nil:
		return "The middle day lay past what is foretold in half of them."
	case s.OfWay == nil:
		return fmt.Sprintf("The middle day was %s days off, in the middle case.", number(*s.Error, 1))
	}
	return fmt.Sprintf("The likeliest day was off by %s days in the middle case (%s %% of the way).", number(*s.Error, 1), number(*s.OfWay, 0))
}

// clubPrior stands for all that a club's tanks taught, whatever the version.
const clubPrior = "club"

func priorKind(prior string) string {
	if prior == generalPrior {
		return generalPrior
	}
	return clubPrior
}

// priorWords says what an outlook rested on.
func priorWords(kind string) string {
	if kind == generalPrior {
		return "outlooks from what is known of tanks in general"
	}
	return "outlooks that rest on the club's own tanks as well"
}

// LearnedOf says what a prior rests on.
func LearnedOf(p pool.Prior) Learned {
	return Learned{Tanks: p.Tanks, Done: p.Done, Least: pool.Least, Used: p.Level != pool.None, Version: p.Version}
}

// String says what was learnt.
func (l Learned) String() string {
	switch {
	case l.Used:
		return fmt.Sprintf("Outlooks now rest on the logs of %d tanks of the club as well, %d of them done, since that foretells better.", l.Tanks, l.Done)
	case l.Done >= l.Least:
		return fmt.Sprintf("The logs of %d tanks of the club, %d of them done, teach nothing that foretells plainly better than what is known in general.", l.Tanks, l.Done)
	}
	return fmt.Sprintf("The outlooks learn from the club's own tanks once %d of them are done.", l.Least)
}
