package commands

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"ripen/store"
)

// optNote is whether a member wants a private note about the tank each week. It stands in
// the tank's log, as share does, and is off until it is asked for.
func optNote() Option {
	return Option{Name: "note", Type: TypeChoice, Choices: []string{"weekly", "off"}, Help: "weekly: a private note to you about the tank each week; default off"}
}

// noteSince is when the member last asked for notes; nil if not, or if that was taken back.
func noteSince(entries []store.Entry) (since *time.Time) {
	last := int64(-1)
	for _, e := range entries {
		if v := e.Value("note"); e.Kind == store.KindEdit && v != "" && e.ID > last {
			if since, last = nil, e.ID; v == "weekly" {
				since = new(e.Recorded)
			}
		}
	}
	return since
}

// noteWords says what was chosen; "" if nothing.
func noteWords(said string) string {
	switch said {
	case "weekly":
		return "You get a private note about it each week, on the day of the club's summary; note:off ends that."
	case "off":
		return "You get no notes about it."
	}
	return ""
}

// WeekNote is the weekly note to a member about the tanks that want one.
type WeekNote struct {
	Tanks []NotedTank `json:"tanks"`
}

// NotedTank is one of them.
type NotedTank struct {
	WeekNear
	Stage      string       `json:"stage"`
	Verdict    string       `json:"verdict"`
	Cause      string       `json:"cause,omitempty"`
	SilentDays float64      `json:"silent_days"`
	Last       *LastReading `json:"last_reading"`
}

// MemberNote is a note and who gets it.
type MemberNote struct {
	Member string
	Reply  Reply
}

// WeekNotes returns the notes of a club's members who asked for them before the week's
// due time, by member. ErrPending if a tank is not worked out yet.
func (b *Book) WeekNotes(ctx context.Context, club string, due, now time.Time) (all []MemberNote, err error) {
	settings, err := b.store.Settings(ctx, club)
	if err != nil {
		return nil, err
	}
	zone, err := time.LoadLocation(settingsView(settings).Zone)
	if err != nil {
		return nil, err
	}
	by, _, err := b.advisers.of(ctx, b.store, club)
	if err != nil {
		return nil, err
	}
	tanks, err := b.store.Standings(ctx, club, false) // by member
	if err != nil {
		return nil, err
	}
	notes := map[string]*WeekNote{}
	for _, t := range tanks {
		if known, ok := ranked(t); ok && known.Noted == nil && t.Verdict.Revision == t.Revision {
			continue // most tanks; they need not be worked out for this
		}
		known, err := b.assessed(ctx, by, t, now, false)
		if errors.Is(err, store.ErrNotFound) {
			continue
		}
		if err != nil {
			return nil, err
		}
		if known.Noted == nil || known.Noted.After(due) {
			continue
		}
		m, err := b.store.Member(ctx, club, t.Member)
		if err != nil {
			return nil, err
		}
		if notes[t.Member] == nil {
			notes[t.Member] = &WeekNote{}
		}
		notes[t.Member].Tanks = append(notes[t.Member].Tanks, notedTank(seen{t, known}, now, zone, m.Units.Scale))
	}
	for member, n := range notes {
		all = append(all, MemberNote{member, Reply{OK: true, Private: true, Text: n.Text(), Data: *n}})
	}
	slices.SortFunc(all, func(a, b MemberNote) int { return strings.Compare(a.Member, b.Member) })
	return all, nil
}

func notedTank(t seen, now time.Time, zone *time.Location, scale string) NotedTank {
	n := NotedTank{Stage: t.Stage, Verdict: t.assessment.Verdict, Cause: t.Cause, Last: t.Last[scale],
		SilentDays: max(0, float64(int(now.Sub(t.Told).Hours()/24)))}
	n.WeekTank = WeekTank{t.Member, t.Name, dayNumber(t.Started, now)}
	date := func(d *float64) *string {
		if d == nil {
			return nil
		}
		return new(dateIn(dateOf(t.Started, *d), zone))
	}
	if n.Early, n.Late = date(t.Done.P10), date(t.Done.P90); t.Done.P50 != nil {
		n.Date = *date(t.Done.P50)
	}
	return n
}

// Text is the note.
func (n WeekNote) Text() string {
	var b strings.Builder
	b.WriteString("Your weekly note:")
	for _, t := range n.Tanks {
		fmt.Fprintf(&b, "\n- %s, day %s: ", t.Tank, number(t.Day, 0))
		switch {
		case t.Stage == "ready":
			b.WriteString("ready.")
		case t.Date == "":
			fmt.Fprintf(&b, "%s stage, %s; when it will be done is not foretold yet.", t.Stage, strings.ReplaceAll(t.Verdict, "-", " "))
		default:
			fmt.Fprintf(&b, "%s stage, %s, likely done around %s", t.Stage, strings.ReplaceAll(t.Verdict, "-", " "), shortDate(t.Date))
			if t.Early != nil && t.Late != nil {
				fmt.Fprintf(&b, " (%s to %s)", shortDate(*t.Early), shortDate(*t.Late))
			}
			b.WriteString(".")
		}
		if t.Cause != "" {
			fmt.Fprintf(&b, " %s is likely; /why tells what to do.", causeWords(t.Cause))
		}
		switch {
		case t.Last == nil:
			b.WriteString(" No test yet: /reading takes yours.")
		case t.SilentDays >= 7:
			fmt.Fprintf(&b, " Nothing was told for %s days; a test now would narrow it.", number(t.SilentDays, 0))
		}
	}
	b.WriteString("\n/outlook shows more; /tank edit note:off ends these notes.")
	return b.String()
}
