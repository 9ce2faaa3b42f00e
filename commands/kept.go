package commands

import (
	"context"
	"encoding/json"
	"errors"
	"strings"

	"ripen/store"
)

// assessForm counts the changes of what is kept of a tank; what has an older form is worked
// out anew.
const assessForm = 3

// keepVerdict keeps an assessment of the log as s has it: two lines of JSON, its rank and
// all of it, since a list of a big club reads the second of few tanks. That the tank went
// meanwhile is no error.
func (b *Book) keepVerdict(ctx context.Context, s store.Standing, a assessment) error {
	a.Form = assessForm
	head, err := json.Marshal(a.rank)
	if err != nil {
		return err
	}
	all, err := json.Marshal(a)
	if err != nil {
		return err
	}
	err = b.store.SetVerdict(ctx, store.Verdict{Tank: s.ID, Revision: s.Revision, At: a.at, Data: string(head) + "\n" + string(all)})
	if errors.Is(err, store.ErrNotFound) {
		return nil
	}
	return err
}

// ranked reads the rank that is kept of a tank; false if there is none of today's form.
func ranked(s store.Standing) (r rank, ok bool) {
	head, _, _ := strings.Cut(s.Verdict.Data, "\n")
	return r, json.Unmarshal([]byte(head), &r) == nil && r.Form == assessForm
}

// decoded reads the assessment that is kept of a tank.
func decoded(s store.Standing) (a assessment, ok bool) {
	_, all, _ := strings.Cut(s.Verdict.Data, "\n")
	if json.Unmarshal([]byte(all), &a) != nil || a.Form != assessForm {
		return assessment{}, false
	}
	a.at = s.Verdict.At
	for i := range a.Scores {
		a.Scores[i].done = *a.DoneOn
	}
	return a, true
}
