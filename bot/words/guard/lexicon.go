package guard

import (
	"strings"
)

func set(words string) map[string]bool {
	m := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		m[w] = true
	}
	return m
}

// fillers carry no meaning that could go wrong: they may come and go.
var fillers = set(`
	one ones sits a an the this that these those it its itself it's that's they them their there here i i'm me my we us our you you're
	you'll your yours is are was were be been being am has have had having do does did doing will would shall should can
	of for with at on in to from as so and but then than too also just simply really quite rather please yet
	however though although because since now already which who whose where what i'd i'll it'll let's either anywhere
	somewhere meanwhile own indeed therefore thus hence overall currently such get gets getting go goes going came via
	right well per whatever now afterwards anyway altogether namely eventually
	actually basically essentially naturally luckily thankfully fortunately happily besides plus additionally furthermore
	moreover finally lastly towards upon nicely even fairly pretty somewhat`)

// synonyms are words with one meaning here, by the concept they stand for.
var synonyms = byWord(map[string]string{
	"not":     "not no never nothing none nor neither",
	"around":  "around about roughly approximately circa",
	"likely":  "likely probably",
	"chance":  "chance chances probability odds likelihood possibility",
	"done":    "done finished finish finishes completed cycled",
	"fall":    "fall falls falling fell drop drops dropping",
	"rise":    "rise rises rising rose climb climbs climbing",
	"show":    "show shows showing shown appear appears appearing see sees seeing",
	"grow":    "grow grows growing growth",
	"begin":   "begin begins beginning start starts starting",
	"highest": "highest peak peaks peaking",
	"clear":   "clear clears clearing",
	"look":    "look looks looking watch watches watching",
	"wait":    "wait waiting",
	"tell":    "tell tells told telling",
	"read":    "read reads reading readings",
	"test":    "test tests testing",
	"take":    "take takes taking",
	"keep":    "keep keeps keeping",
	"say":     "say says said saying",
	"come":    "come comes coming",
	"cause":   "cause causes reason reasons suspect suspects culprit",
	"hold":    "hold holds holding",
	"may":     "may might could",
	"every":   "each every",
	"animal":  "animal animals",
	"hardly":  "hardly barely scarcely",
	"assume":  "assume assumes assuming assumed",
	"log":     "log logs logged logging",
	"dose":    "dose doses dosing",
	"feed":    "feed feeds feeding",
	"best":    "best ideally",
	"cost":    "cost costs costing",
	"use":     "use uses using",
	"when":    "when whenever once",
	"fit":     "fit fits fitting",
	"stand":   "stand stands standing stood",
	"rest":    "rest rests resting based",
	"lose":    "lost lose loses losing",
	"kit":     "kit kits",
	"under":   "under below",
	"whole":   "whole entire full",
	"turn":    "turn turns become becomes",
	"often":   "often usually frequently",
	"sure":    "sure certain",
	"large":   "large big",
	"above":   "above beyond",
	"check":   "check checks checking measure measuring",
})

// fixed are words that stay as they are.
const fixed = "while within slow grown ammonia nitrite nitrate oxygen chlorine phosphate before after by until over more less counted same without fault behind"

func byWord(concepts map[string]string) map[string]string {
	m := map[string]string{}
	for w := range strings.FieldsSeq(fixed) {
		m[w] = w
	}
	for concept, words := range concepts {
		for w := range strings.FieldsSeq(words) {
			m[w] = concept
		}
	}
	return m
}

// concept returns what a word stands for, and whether it counts at all.
func concept(w string) (key string, counts bool) {
	for _, short := range []string{"'s", "'ll", "'ve", "'re", "'d", "'m"} {
		w = strings.TrimSuffix(w, short)
	}
	if strings.HasSuffix(w, "n't") {
		return "not", true
	}
	if fillers[w] {
		return "", false
	}
	if c, ok := synonyms[w]; ok {
		return c, true
	}
	if len(w) == 1 && strings.ContainsAny(w, ".,;:?!()'-\n") {
		return "", false
	}
	return stem(w), true
}

// stem takes the endings of English off a word, alike in both texts; what is left need
// not be a word.
func stem(w string) string {
	if len(w) < 4 || w[0] == '/' {
		return w
	}
	for _, end := range []string{"ies", "ing", "es", "s", "e"} { // not -ed: what was done is no advice
		if cut, ok := strings.CutSuffix(w, end); ok && len(cut) >= 3 && !strings.HasSuffix(w, "ss") {
			if n := len(cut); end != "e" && n > 3 && cut[n-1] == cut[n-2] && cut[n-1] != 's' && cut[n-1] != 'l' {
				cut = cut[:n-1]
			}
			return cut
		}
	}
	return w
}

// added are concepts that an answer may have where its draft has not: on their own they
// promise nothing.
var added = set("still some cause tank day use cycl as-i process")

// lent are concepts that an answer may add to a claim that has a certain other one, or a
// quantity of a kind: who eats and grows, what is warmed.
var lent = map[string][]string{
	"bacteria":      {"eat", "grow"},
	"water":         {"c", "kh", "tap", "mg/l", "ammonia"},
	"temperatur":    {"c"},
	"read":          {"mg/l", "ph", "kh", "c", "log"},
	"level":         {"ammonia", "nitrite", "nitrate", "kh", "ph"},
	"concentration": {"mg/l"},
	"result":        {"mg/l", "/reading"},
	"valu":          {"mg/l", "/reading"},
	"number":        {"/reading"},
	"estimat":       {"rest", "assume"},
	"outlook":       {"rest", "assume"},
	"forecast":      {"rest", "assume"},
	"guess":         {"rest", "assume"},
	"prediction":    {"rest", "assume"},
	"dat":           {"day", "date"},
	"tim":           {"day", "date", "days"},
	"mark":          {"day"},
	"may":           {"%"},
	"stand":         {"%"},
	"reach":         {"%"},
	"rise":          {"%"},
	"giv":           {"%"},
	"both":          {"nitrite"},
	"any":           {"not"},
	"log":           {"day", "medicin"},
	"check":         {"sure"},
	"add":           {"g"},
	"rest":          {"alon"},
}

// things are concepts that an answer may name again where a claim has them.
var things = set("water media filter plant animal bacteria kit label")

// hedges are concepts that an answer may say again.
var hedges = set("likely around chance behind")

// dropped are concepts that an answer may leave out.
var dropped = set("sure")

// shared are concepts that claims of one sentence have in common, said once in the draft.
var shared = set("done chance likely within test show begin")

// ordered are concepts that keep their order within a claim, besides quantities and
// substances: swapped they say something else.
var ordered = map[string]string{
	"fall": "course", "rise": "course", "show": "course", "stand": "course", "come": "course", "clear": "course", "highest": "course", "grow": "course",
	"before": "bound", "after": "bound", "by": "bound", "until": "bound", "under": "bound", "above": "bound", "over": "bound",
	"more": "bound", "less": "bound", "from": "bound", "into": "bound", "to": "bound", "since": "bound",
	"bacteria": "state", "same": "state", "without": "state", "fault": "state",
}
