package guard

import (
	"strings"
	"testing"

	"ripen/bot/words/guard/guardtest"
)

// Texts that came through at some time, or nearly: each is a draft with some words put in
// the place of others.
func TestCheck_holes(t *testing.T) {
	drafts := map[string]guardtest.Draft{}
	for _, set := range guardtest.Sets {
		for _, d := range guardtest.Drafts(set) {
			drafts[d.ID] = d
		}
	}
	for _, tt := range []struct{ draft, old, new, reason string }{
		{"jo-why-1", "came from pH 6.2 into pH 7.6", "came into pH 6.2 from pH 7.6", "which way"},
		{"kit-why-1", "warm it to 27 C, that is by 5 C", "warm it by 27 C, that is to 5 C", "to what, and by how much"},
		{"ada-why-1", "Bring KH to about 5 dKH", "Bring KH by about 5 dKH", "to what, and by how much"},
		{"finn-why-1", "This is worth a look:", "It is slow. This is worth a look:", "a verdict before the causes"},
		{"ada-why-1", "1. Cold", "It is slow and may hold up, behind.\n1. Cold", "a verdict before the causes"},
		{"ada-why-1", "TANK is slow at day 21", "TANK is slow at day 21, as it should be", "praise of words that say nothing"},
		{"ada-why-1", "TANK is slow at day 21", "It is as it should be. TANK is slow at day 21", "praise of words that say nothing"},
		{"ada-why-1", "\n\n1. Cold", "\nYou can do so at once.\n\n1. Cold", "a sentence of words that say nothing"},
		{"ben-why-1", "TANK is slow at day 14, about 21 days behind the same tank without a fault.", "TANK is without a fault at day 14, about 21 days behind the same slow tank.", "the same words in another order"},
		{"ben-why-1", "TANK is slow at day 14", "TANK is slow from day 14", "since when"},
		{"ben-outlook-1", "Most likely done around", "TANK which is done is most likely done around", "done twice"},
		{"ben-outlook-1", "(one chance in ten: before day 19; nine", "(done; one chance in ten: before day 19; nine", "done by itself"},
		{"ben-outlook-1", "7 days: 17 %, 14 days: 43 %, 30 days: 72 %, 60 days: 89 %", "17 %, 7 days 43 %, 14 days 72 %, 30 days 89 %, 60 days", "a list that is read with the wrong neighbours"},
		{"ben-outlook-1", "ammonia 0.66 (0.02 to 1.6), nitrite 1 (0.12 to 3.4)", "ammonia 0.66 (0.02 to 1.60), nitrite 1 (0.12 to 3.4)", "more exact than it was printed"},
		{"ben-outlook-1", "nitrite 1 (0.12", "nitrite 1 mg/L (0.12", "a unit in the middle of a list, so that the first has none"},
		{"ben-outlook-1", "2 mg/L ammonia", "2 to 2 mg/L ammonia", "a range of one"},
		{"ben-outlook-1", "0.66", "00.66", "a zero in front"},
		{"finn-why-1", "bacteria without it do not grow", "bacteria with it do not grow", "without"},
		{"dov-why-1", "Do not dose or change water", "Do not dose and change water", "or"},
		{"dov-why-1", "Do not rinse", "Do not stop. Rinse", "a negation that ends with its sentence"},
		{"dov-why-1", "Do not rinse", "Do not. Rinse", "a negation that ends with its sentence"},
		{"dov-why-1", "Treat all", "You treated all", "what was done is no advice"},
		{"dov-why-1", "To be sure: A chlorine", "To be sure: No chlorine", "a negation more"},
		{"cleo-why-1", "Animals are in", "If animals are in", "a condition more"},
		{"nell-why-1", "until it falls", "when it falls", "until"},
		{"quin-why-1", "is stalled", "is not stalled", "a negation more"},
		{"oz-why-1", "is ready", "is ready for more fish", "more than is ready"},
		{"oz-why-1", "Nothing is wrong: TANK is ready.", "Is nothing wrong? TANK is ready.", "a question"},
		{"jo-outlook-1", "about 1 day sooner", "made it about 1 day later", "which way"},
		{"jo-outlook-1", "within a day", "within an hour", "a day is no hour"},
		{"dov-outlook-1", "Most likely done around", "The best estimate for TANK which is done is around", "done as something that it is"},
		{"ben-outlook-1", "will likely show", "will show", "a guess made a promise"},
		{"kit-outlook-1", "ammonia clears around day 42; nitrite", "nitrite clears around day 42; ammonia", "another's day"},
		{"ben-outlook-1", "nitrite is highest around day 20 (day 14 to 30); nitrite clears around day 24 (day 17 to 42)", "nitrite clears around day 20 (day 14 to 30) and is highest around day 24 (day 17 to 42)", "another's day, with one subject"},
		{"ben-outlook-1", "14 days: 43 %, 30 days: 72 %", "30 days: 72 %, 14 days: 43 %", "parts that lean on the one before"},
		{"ada-why-1", "To be sure: KH before", "To be sure: pH before", "another reading"},
		{"ivo-why-1", "   - medicine logged on day 11", "   - it was logged", "a day left out after it"},
		{"gus-why-1", "water at 33 C", "water at 33 C (92 F)", "a conversion that is wrong"},
		{"gus-why-1", "each 1 mg/L of nitrogen", "each 1 mg/L (10 ppm) of nitrogen", "said again, but otherwise"},
		{"jo-why-1", "1. Seed", "The cause is seed", "what is likely, as certain"},
		{"finn-why-1", "Plants take most of the ammonia, so this cycle may show no nitrite at all. That is not a stall.", "That is not a stall. Plants take most of the ammonia, so this cycle may show no nitrite at all.", "what points back, in front"},
	} {
		d := drafts[tt.draft]
		text := strings.Replace(d.Text(), tt.old, tt.new, 1)
		if text == d.Text() {
			t.Errorf("%s does not have %q", tt.draft, tt.old)
		}
		if Check(draftOf(d), text) == nil {
			t.Errorf("%s passes with %q for %q: %s", tt.draft, tt.new, tt.old, tt.reason)
		}
	}
}
