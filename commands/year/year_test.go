package year

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"ripen/commands"
	"ripen/engine/study"
	"ripen/store/sqlite"
)

// lived is a year of a small club.
func lived(t testing.TB, members int, of commands.Adviser) *Year {
	t.Helper()
	db, err := sqlite.OpenTemp(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	y := &Year{Members: members, Seed: 3, Of: study.Club{Seed: 3, Own: true, Spread: 1}, Store: db, Adviser: of, Version: "test",
		Now: func() time.Time { return newYear }}
	if err := y.Live(t.Context()); err != nil {
		t.Fatal(err)
	}
	return y
}

// A year of a club: a summary each week that the bot was there, each as it was typed;
// nothing is refused; outlooks are scored; and the same year is the same again.
func TestYear(t *testing.T) {
	const members = 24
	y := lived(t, members, Month{})
	if len(y.Posts) != 48 || len(y.Wrong) != 0 || len(y.Refused) != 0 {
		t.Errorf("%d summaries, wrong in %v; %v lines were refused, the first %s", len(y.Posts), y.Wrong, y.Refused, y.First)
	}
	told := map[string]int{}
	for _, p := range y.Posts {
		for _, f := range p.Finished {
			told[f.Member]++
		}
	}
	if len(told) < members/4 || y.Record.Outlooks < members {
		t.Errorf("summaries name %v, %d outlooks were given", told, y.Record.Outlooks)
	}
	if again := lived(t, members, Month{}); again.Recorded != y.Recorded || !reflect.DeepEqual(again.Posts, y.Posts) {
		t.Error("the same year differs from itself")
	}
}

// The check of summaries finds what is missing, what is too much, what is listed twice and
// who did not agree, of new tanks and of those that are done.
func TestCheck(t *testing.T) {
	db, err := sqlite.OpenTemp(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	book := commands.New(db)
	monday := lookAt(0)
	typed := []said{{monday.AddDate(0, 0, -9), "a", "/tank new name:x volume:60L"}, {monday.AddDate(0, 0, -9), "b", "/tank new name:x volume:60L"},
		{monday.AddDate(0, 0, -2), "c", "/tank new name:x volume:60L"}, {monday.AddDate(0, 0, -2), "d", "/tank new name:x volume:60L"},
		{monday.AddDate(0, 0, -1), "b", "/tank close reason:done"}, {monday.AddDate(0, 0, -1), "d", "/tank close reason:done"}}
	shown := map[string]bool{"a": true, "b": true, "c": true}
	y := Year{Store: db, Refused: map[string]int{}}
	for _, s := range typed {
		if err := y.say(t.Context(), book, s, false); err != nil || len(y.Refused) > 0 {
			t.Fatal(err, y.First)
		}
	}
	week := func(isNew, isDone string) (w commands.ClubWeek) {
		w.To = "2026-01-05"
		for _, m := range strings.Fields(isNew) {
			w.New = append(w.New, commands.WeekTank{Member: m})
		}
		for _, m := range strings.Fields(isDone) {
			w.Finished = append(w.Finished, commands.WeekDone{WeekTank: commands.WeekTank{Member: m}})
		}
		return w
	}
	for _, tt := range []struct {
		post commands.ClubWeek
		want string
	}{
		{week("c", "b"), ""}, {week("", "b"), "lacks new c"}, {week("a c", "b"), "has new a"}, {week("c d", "b"), "has new d"}, {commands.ClubWeek{To: "2025-12-29"}, "no summary"},
		{week("c", ""), "lacks done b"}, {week("c", "a b"), "has done a"}, {week("c", "b d"), "has done d"}, {week("c", "b b"), "has done b"},
	} {
		y.Posts, y.Wrong, y.done = []commands.ClubWeek{tt.post}, nil, map[string]bool{}
		if err := y.check(t.Context(), book, 0, typed, shown); err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(y.Wrong, "; "); tt.want == "" && got != "" || !strings.Contains(got, tt.want) {
			t.Errorf("of %+v it says %q, want %q", tt.post, got, tt.want)
		}
	}
}
