package commands

import "ripen/store"

// optShare is a member's consent, which stands in the tank's log as any other edit.
func optShare() Option {
	return optYesNo("share", "whether it may stand in the club's lists and summaries; if unsaid, the club's setting counts")
}

// consent is what the member said last of sharing the tank: "yes", "no", or "" when
// nothing. What was told last counts, whatever day it was told for.
func consent(entries []store.Entry) string {
	said, last := "", int64(-1)
	for _, e := range entries {
		if v := e.Value("share"); v != "" && e.ID > last {
			said, last = v, e.ID
		}
	}
	return said
}

// mayShow holds if a tank may stand in lists and summaries of its club, by what its
// member said.
func mayShow(said string, s store.Settings) bool {
	return said == "yes" || said == "" && s.Share
}

// consentWords says what a member's consent means; "" if none was said.
func consentWords(said string) string {
	switch said {
	case "yes":
		return "Moderators may see it in /club slow, and it may stand in the club's summaries; share:no ends that."
	case "no":
		return "It stands in no list or summary of the club."
	}
	return ""
}
