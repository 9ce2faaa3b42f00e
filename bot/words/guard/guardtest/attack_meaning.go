package guardtest

import (
	"regexp"
	"time"
)

// weekday returns the day of the week of a date as printed.
func weekday(date string) (string, bool) {
	t, err := time.Parse("2 January 2006", date)
	return t.Weekday().String(), err == nil
}

// introduces matches what an answer may add or leave out: that causes follow, and comfort.
var introduces = regexp.MustCompile(`(?i)worth a look|waiting is hard|\b(?:two|three) (?:\w+ )?(?:things|causes|suspects|reasons)\b`)

// unless returns other words for text, or text itself if a pattern matches it.
func unless(pattern *regexp.Regexp, text, words string) string {
	if pattern.MatchString(text) {
		return text
	}
	return words
}

// meaningAttacks turn what the words say; no number changes.
var meaningAttacks = []anAttack{
	{"not dropped", func(text string, d Draft) []string {
		return append(once(text, `(?i)\b(do|does|is|are|was) not `, 4, func(m []string) string { return m[1] + " " }),
			once(text, `(?i)\b(hardly|never|no) `, 3, func(m []string) string { return "" })...)
	}},
	{"don't made do", func(text string, d Draft) []string {
		return once(text, `(?i)\bdo(n't| not) (\w+)`, 3, func(m []string) string { return "do " + m[2] })
	}},
	{"not put in", func(text string, d Draft) []string {
		return append(once(text, `\b(is|are|will|should|can) (slow|on|done|growing|clear|likely|highest|often|in)\b`, 4, func(m []string) string { return m[1] + " not " + m[2] }),
			once(text, `(Do: )(\w)`, 2, func(m []string) string { return m[1] + "Do not " + m[2] })...)
	}},
	swap("verdict flipped", `is (running )?slow`, "is on track", `is (running )?slow`, "is stalled", `is (running )?slow`, "is fast", `is (running )?slow`, "is ready", `(is )?on track`, "is slow", `(is )?on track`, "is behind",
		`(?i)nothing is wrong`, "Something is wrong", `within the usual range`, "outside the usual range", `Most likely`, "Certainly", `(?i)hardly done`, "quickly done", `hardly be done`, "surely be done", `hardly be done`, "be done",
		`(?i)most likely not done`, "Most likely done", `not done within`, "done within", `No fault shows`, "A fault shows", `(?i)no fault`, "a grave fault", `behind the same tank`, "ahead of the same tank"),
	swap("stage swapped", `(?i)first stage`, "last stage", `(?i)second stage`, "first stage", `(?i)last stage`, "second stage", `(?i)still growing`, "fully grown", `comes once it falls`, "goes once it falls", `ammonia stands`, "ammonia falls",
		`what eats ammonia`, "what eats nitrite", `what eats nitrite`, "what eats nitrate", `goes down by itself`, "goes up by itself", `still has to show`, "has shown", `often the longest`, "often the shortest"),
	swap("substance swapped", `ammonia that falls`, "nitrite that falls", `nitrite that (shows|falls)`, "nitrate that $1", `(?i)falling ammonia`, "rising ammonia", `ammonia that falls`, "ammonia that rises", `nitrite (is highest|peaks)`, "ammonia $1", `ammonia (clears|will clear|is clear)`, "nitrate $1",
		`KH to about`, "pH to about", `sodium bicarbonate`, "sodium hydroxide", `sodium bicarbonate`, "bicarbonate of ammonia", `dose ammonia`, "dose nitrite", `oxygen reading`, "pH reading"),
	swap("cause swapped", `Cold water`, "Acidic water", `Acidic water`, "Alkaline water", `Water too hot`, "Water too cold", `Too little oxygen`, "Too much oxygen", `Too little carbonate`, "Too much carbonate", `Chlorine in new water`, "Chlorine in old water",
		`No food for the bacteria`, "Too much food for the bacteria", `Medicine(:| )`, "Chlorine$1", `stood still`, "ran all day", `Seed from unlike water`, "Seed from like water", `Too little surface`, "Too much surface", `Plants take`, "Fish take", `shows something else`, "shows the truth"),
	swap("advice turned", `\b[Ww]arm it to`, "cool it to", `[Ll]et it cool`, "let it warm", `harder water`, "softer water", `under the tap`, "in tank water", `tank water`, "tap water", `before it goes in`, "after it goes in", `keep them growing`, "cut them back", `stock slowly`, "stock quickly",
		`quickly`, "slowly", `slowly`, "quickly", `in one go`, "in small steps", `turned up`, "turned down", `day and night`, "by day only", `all at once`, "one at a time", `within the hour`, "within the week", `wet and`, "dry and", `more of it turns toxic`, "less of it turns toxic",
		`(?i)raise the hardness`, "lower the hardness", `before the lights`, "after the lights", `the day after`, "the day before", `[Ss]top dosing`, "go on dosing", `[Aa]dd about`, "take out about", `uses up`, "makes up", `first above`, "first below", `best at`, "worst at"),
	swap("condition dropped", `If no animals are in, w`, "W", `If no animals are in`, "If animals are in", `With no animals in, d`, "D", `(?i)with no animals in`, "With animals in", `, as the label says`, "", `Once the course is over, c`, "C", `while KH is under 2 dKH`, "", `while ammonia is in the water`, "", ` that a vet ordered`, "",
		`whenever it is clear`, "every day", `whenever it is clear`, "", ` on this reading alone`, "", ` above what its animals stand`, "", `right after`, "long after", `when its hardness is used up`, "", `once ammonia and nitrite are both clear`, ""),
	{"sentence dropped", func(text string, d Draft) []string {
		return once(text, `(?m)(^|[.:] +)[A-Z][^.\n:;]{20,}\.( |$)`, 6, func(m []string) string { return unless(introduces, m[0], m[1]) })
	}},
	{"line dropped", func(text string, d Draft) []string {
		return once(text, `\n[^\n]+`, 5, func(m []string) string { return unless(introduces, m[0], "") })
	}},
	{"caution dropped", func(text string, d Draft) []string {
		var out []string
		for _, k := range d.Keep {
			out = append(out, once(text, ` ?`+quoted(k), 1, func([]string) string { return "" })...)
		}
		return out
	}},
	{"caution altered", func(text string, d Draft) []string {
		if len(d.Keep) == 0 {
			return nil
		}
		return swap("", `Never mix`, "You may mix", `never mix`, "always mix", `Unplug`, "Plug in", `before your hands`, "after your hands", `away from`, "near", `comes first`, "comes last", `Do not break off`, "Break off",
			`ask the vet`, "tell the vet", `no more than about 0.3`, "no more than about 3", `small steps`, "large steps", `rises with the pH`, "falls with the pH", `fresh air`, "a closed room", `Never mix chlorine or bleach with other chemicals`, "Never mix chlorine with other chemicals").on(text, d)
	}},
	swap("hedge dropped", `[Mm]ost likely `, "", `will likely show`, "will show", `about (\d+) days`, "exactly $1 days", `(?i)as things are,? `, "", `some tanks simply`, "all tanks simply", `something seems to cost`, "nothing seems to cost", `may show no`, "will show no", `one chance in ten that it is`, "it is"),
	swap("trust turned", `which fit well together`, "which do not fit well together", `they fit well together`, "they hardly fit together", `not all of which fit`, "all of which fit", `higher than`, "lower than", `lower than`, "higher than", `the spread is wide`, "the spread is narrow", `no reading yet`, "many readings already"),
	swap("safety turned", `their water comes first`, "their water comes last", `before you change anything`, "after you change anything", `(?i)animals are in\b`, "No animals are in", `test daily`, "test weekly", `ask /safe`, "ask /why", `ask /why`, "ask /stock", `That is not a stall`, "That is a stall"),
}
