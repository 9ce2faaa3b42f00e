package commands

import (
	"slices"
	"strings"
	"testing"

	"ripen/engine/diagnose"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// chlorinated is an adviser that finds chlorine, medicine and a step in front of animals
// behind every slow tank, with the cautions that the engine names for them.
type chlorinated struct{ fakeAdviser }

func (chlorinated) Why(c model.Case, now unit.Days) (diagnose.Diagnosis, outlook.Outlook, error) {
	o, err := fakeAdviser{}.Outlook(c, now)
	cause := func(name, caution string) diagnose.Cause {
		return diagnose.Cause{Name: name, Chance: 0.5, DaysCost: 9, Fix: diagnose.Fix{Do: "wait", Cautions: []string{caution, diagnose.CautionLabel}}}
	}
	return diagnose.Diagnosis{Verdict: "slow", Delay: fakeSpread(9, 2), Causes: []diagnose.Cause{cause("chlorine", diagnose.CautionChlorine), cause("medication", diagnose.CautionMedicine)}}, o, err
}

// risky are replies that need cautions: their names in the table, the cautions that they
// are to carry, and what is typed to get there, the last line being the reply. What each
// needs is told here once more, so that a row taken out of the table shows.
var risky = []struct {
	replies  []string
	cautions string
	lines    []string
}{
	{[]string{"tank new dosed"}, "ammonia", nil},
	{[]string{"tank new fish-in"}, "welfare", []string{"/tank new name:b volume:60L method:fish-in"}},
	{[]string{"amount ammonia"}, "ammonia label", []string{"/amount what:ammonia to:2ppm product:10%"}},
	{[]string{"amount ammonia"}, "ammonia label", []string{"/amount what:ammonia to:6ppm product:ammonium-chloride volume:40L"}},
	{[]string{"amount animals"}, "welfare", []string{"/log what:stock amount:4g", "/amount what:ammonia to:2ppm product:10%"}},
	{[]string{"amount buffer"}, "mix label", []string{"/amount what:buffer to:8dKH"}},
	{[]string{"amount buffer"}, "mix label", []string{"/amount what:buffer to:8dKH product:coral"}},
	{[]string{"amount buffer", "raise pH with animals"}, "mix raise-ph label", []string{"/amount what:buffer to:20dKH animals:yes"}},
	{[]string{"amount conditioner"}, "mix label water-report", []string{"/amount what:conditioner new-chlorine:1"}},
	{[]string{"amount conditioner"}, "mix label water-report", []string{"/amount what:conditioner product:\"some bottle\""}},
	{[]string{"amount water-change"}, "electricity water-report", []string{"/amount what:water-change of:nitrite from:5 to:1"}},
	{[]string{"amount water-change without tap"}, "electricity", []string{"/amount what:water-change of:nitrite from:5 to:1 source:ro"}},
	{[]string{"amount water-change", "raise pH with animals"}, "electricity raise-ph water-report", []string{"/amount what:water-change of:nitrite from:5 to:1 new-kh:30dKH animals:yes"}},
	{[]string{"log large dose"}, "ammonia", []string{"/log what:dose amount:5ppm"}},
	{[]string{"log large dose"}, "ammonia", []string{"/log what:stock amount:4g", "/log what:dose amount:1ppm"}},
	{[]string{"log buffer"}, "label", []string{"/log what:buffer amount:2g"}},
	{[]string{"log buffer", "raise pH with animals"}, "raise-ph label", []string{"/log what:stock amount:4g", "/log what:buffer amount:60g"}},
	{[]string{"log medicine"}, "medicine vet local-rules label", []string{"/log what:medicine hours:12"}},
	{[]string{"log losses"}, "vet", []string{"/log what:losses"}},
	{[]string{"raise pH with animals"}, "raise-ph", []string{"/log what:stock amount:4g", "/tank edit ph:8.4"}},
	{[]string{"raise pH with animals"}, "raise-ph", []string{"/log what:stock amount:4g", "/reading ph:8.4"}},
	{[]string{"tryout dose"}, "ammonia", []string{"/tryout dose:2ppm"}},
	{[]string{"tryout equipment"}, "electricity", []string{"/tryout temp:27C"}},
	{[]string{"tryout equipment", "tryout buffer", "tryout dose"}, "ammonia mix electricity label", []string{"/tryout temp:27C kh:8dKH dose:2ppm"}},
	{[]string{"tryout buffer"}, "mix label", []string{"/tryout kh:8dKH"}},
	{[]string{"tryout buffer", "tryout lower pH"}, "mix acids label", []string{"/tryout ph:6.8"}},
	{[]string{"tryout buffer", "tryout harm", "raise pH with animals"}, "welfare mix raise-ph label", []string{"/tank close tank:a", "/tank new name:b volume:60L ph:7.5 kh:6dKH method:fish-in", "/tryout ph:8.5"}},
	{[]string{"stock"}, "welfare test-before-animals species", []string{"/stock grams:5g"}},
	{[]string{"next-test done"}, "test-before-animals", []string{"/reading nitrate:40", "/next-test"}},
	{[]string{"why chlorine"}, "chlorine medicine label", []string{"/why"}},
	{[]string{"safe danger"}, "vet", []string{"/safe ammonia:4 ph:8.5"}},
	{[]string{"safe danger", "raise pH with animals"}, "raise-ph vet", []string{"/log what:stock amount:4g", "/reading ammonia:4 ph:8.4"}},
}

// harmless are replies that need none.
var harmless = []string{
	"/help", "/help amount", "/method", "/units", "/tank list", "/tank show", "/tank edit temp:26C", "/tank edit ph:7.2", "/outlook", "/chart", "/next-test", "/share",
	"/reading ammonia:1 nitrite:2", "/reading ph:8.4", "!add ammonia 1 nitrite 2", "/log what:dose amount:2ppm", "/log what:feed amount:0.1g", "/log what:water-change amount:30% conditioned:yes",
	"/log what:note detail:\"moved it\"", "/log what:outage hours:2", "/safe ammonia:0 nitrite:0 ph:7", "/undo", "/tryout plants:few-fast",
}

// carried are the cautions that a text carries, and how often; a word that begins a
// sentence or not is the same.
func carried(text string) map[string]int {
	found := map[string]int{}
	for _, c := range cautionTable {
		if n := strings.Count(strings.ToLower(text), strings.ToLower(strings.TrimSuffix(c.words, "."))); n > 0 {
			found[c.name] = n
		}
	}
	return found
}

func cautionBook(t *testing.T) *Book {
	return New(newStore(t), WithAdviser(chlorinated{}))
}

// asks says whether a line stores nothing.
func asks(line string) bool {
	command, _, _ := strings.Cut(line, " ")
	return slices.Contains([]string{"/amount", "/tryout", "/stock", "/why", "/safe"}, command)
}

const cautionTank = "/tank new name:a volume:60L ph:7.5 kh:4dKH source:chlorine"

// TestCautions: a risky reply carries the cautions that the table says it needs, each
// once, and no others.
func TestCautions(t *testing.T) {
	met := map[string]bool{}
	only := cautionBook(t) // for what stores nothing
	must(t, only, "2026-03-01T09:00:00Z", cautionTank)
	for _, x := range risky {
		b, reply := only, Reply{}
		if len(x.lines) != 1 || !asks(x.lines[0]) {
			b = cautionBook(t)
			reply = must(t, b, "2026-03-01T09:00:00Z", cautionTank)
		}
		for i, line := range x.lines {
			at := "2026-03-05T09:00:00Z"
			if i < len(x.lines)-1 {
				at = "2026-03-04T09:00:00Z"
			}
			reply = must(t, b, at, line)
		}
		what := strings.Join(append([]string{cautionTank}, x.lines...), "; ")
		checkReply(t, what, reply)
		got := carried(reply.Text)
		for _, c := range cautionTable {
			want := 0
			if slices.Contains(strings.Fields(x.cautions), c.name) {
				want = 1
			}
			if got[c.name] != want {
				t.Errorf("%s carries %q %d times, want %d:\n%s", what, c.name, got[c.name], want, reply.Text)
			}
			if needs := slices.ContainsFunc(x.replies, func(r string) bool { return slices.Contains(c.needs, r) }); needs != (want == 1) {
				t.Errorf("%s: by the table %v needs %q: %v, here it is %d", what, x.replies, c.name, needs, want)
			}
		}
		if len(got) == 0 {
			t.Errorf("%s is said to be risky and needs nothing", what)
		}
		for _, r := range x.replies {
			met[r] = true
		}
	}
	for _, c := range cautionTable {
		if len(c.needs) == 0 {
			t.Errorf("no reply needs %q", c.name)
		}
		for _, r := range c.needs {
			if !met[r] {
				t.Errorf("%q is needed by %q, which nothing here runs", c.name, r)
			}
		}
	}
}

func TestHarmlessCarryNone(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", cautionTank)
	must(t, b, "2026-03-02T09:00:00Z", "/reading ammonia:1 nitrite:0.5")
	for _, line := range harmless {
		r := tell(t, b, "2026-03-05T09:00:00Z", line)
		if !r.OK && r.Err.Code != CodeUnknownCommand {
			t.Errorf("%s: %s", line, r.Text)
		}
		if got := carried(r.Text); len(got) > 0 {
			t.Errorf("%s is harmless and carries %v:\n%s", line, got, r.Text)
		}
	}
}

// Whatever caution the engine names has its words, and cautions are short.
func TestCautionsKnown(t *testing.T) {
	for _, name := range []string{diagnose.CautionAmmonia, diagnose.CautionChlorine, diagnose.CautionElectric, diagnose.CautionRaisePH, diagnose.CautionLabel, diagnose.CautionMedicine, diagnose.CautionMix, diagnose.CautionTestBefore} {
		if caution(name) == name {
			t.Errorf("the engine names %q, which has no words", name)
		}
	}
	names := map[string]bool{}
	for _, c := range cautionTable {
		if names[c.name] || len(c.words) > 150 || !strings.HasSuffix(c.words, ".") {
			t.Errorf("%q stands twice, is longer than 150 letters or is no sentence", c.name)
		}
		names[c.name] = true
	}
}
