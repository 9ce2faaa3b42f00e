package commands

import (
	"context"
	"fmt"
	"testing"

	"ripen/engine/diagnose"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// milderAdviser takes a closer look at fateAdviser's stalled tanks: one of every three
// litres is stalled, the next slow, and the third on track.
type milderAdviser struct{ fateAdviser }

func (a milderAdviser) Why(c model.Case, now unit.Days) (diagnose.Diagnosis, outlook.Outlook, error) {
	d, o, err := a.fateAdviser.Why(c, now)
	d.Verdict = []string{"on-track", "slow", "stalled"}[int(c.Setup.Volume)%3]
	return d, o, err
}

// clubOf registers 24 tanks of 30 to 53 litres that look stalled.
func clubOf(t *testing.T, b *Book) {
	t.Helper()
	for i := range 24 {
		r, _ := said(clock("2026-03-01T09:00:00Z"), fmt.Sprintf("m%02d", i), fmt.Sprintf("/tank new name:a volume:%dL ph:6.2 share:yes", 30+i))
		if reply := b.Do(t.Context(), r); !reply.OK {
			t.Fatal(reply.Text)
		}
	}
}

// What a closer look finds on one page moves no tank to another: pages do not overlap, and
// what needs somebody stands on one of them, however often they are asked for.
func TestClubSlowPagesStand(t *testing.T) {
	b := New(newStore(t), WithAdviser(milderAdviser{}))
	clubOf(t, b)
	for range 2 {
		shown := map[string]string{}
		for page := 1; page <= 3; page++ {
			r := moderate(t, b, "2026-03-09T08:00:00Z", fmt.Sprintf("/club slow page:%d", page)).Data.(ClubSlow)
			if r.Pages != 3 || r.Behind+r.Well != 24 {
				t.Errorf("page %d of %d: %d behind and %d well of 24", page, r.Pages, r.Behind, r.Well)
			}
			for i, row := range r.Rows {
				if shown[row.Member] != "" {
					t.Errorf("%s stands on page %d again", row.Member, page)
				}
				if shown[row.Member] = row.Verdict; i > 0 && row.Verdict == "stalled" && r.Rows[i-1].Verdict == "slow" {
					t.Errorf("page %d: %s is stalled, behind a slow one", page, row.Member)
				}
			}
		}
		if len(shown) != 16 {
			t.Errorf("%d tanks shown, want the 16 that are slow or stalled: %v", len(shown), shown)
		}
	}
	if r := moderate(t, b, "2026-03-09T08:00:00Z", "/club slow").Data.(ClubSlow); r.Behind != 16 || r.Well != 8 {
		t.Errorf("with all pages seen: %d behind, %d well", r.Behind, r.Well)
	}
}

// With a watch all tanks are looked at before, so all pages stand by what was found.
func TestClubSlowPagesWatched(t *testing.T) {
	w := NewWatch(milderAdviser{}, func(tank int64, err error) { t.Errorf("tank %d: %v", tank, err) })
	b := New(newStore(t), WithAdviser(milderAdviser{}), WithWatch(w))
	clubOf(t, b)
	if err := w.Sweep(context.Background(), clock("2026-03-09T07:00:00Z")); err != nil {
		t.Fatal(err)
	}
	var verdicts []string
	for page := 1; page <= 2; page++ {
		r := moderate(t, b, "2026-03-09T08:00:00Z", fmt.Sprintf("/club slow page:%d", page)).Data.(ClubSlow)
		if r.Pages != 2 || r.Behind != 16 || r.Well != 8 {
			t.Errorf("page %d of %d: %d behind and %d well", page, r.Pages, r.Behind, r.Well)
		}
		for _, row := range r.Rows {
			verdicts = append(verdicts, row.Verdict)
		}
	}
	for i, v := range verdicts {
		if want := map[bool]string{true: "stalled", false: "slow"}[i < 8]; v != want {
			t.Errorf("tank %d of the list is %s, want %s", i+1, v, want)
		}
	}
	if len(verdicts) != 16 {
		t.Errorf("%d tanks, want 16", len(verdicts))
	}
}
