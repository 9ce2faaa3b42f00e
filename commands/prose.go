package commands

import (
	"context"
	"strings"
)

// NamePlace stands for the tank's name in a Draft, so that what members write
// never leaves with it.
const NamePlace = "TANK"

// Draft is the part of a reply that may be said in other words. Charts and what
// members wrote are no part of it.
type Draft struct {
	Kind string   // "outlook" or "why"
	Body string   // sentences; NamePlace stands for the tank's name
	Keep []string // warnings that stay word by word, in this order

	whole func(said string) string
}

// Said returns the whole reply with other words for Body and Keep, names and chart
// back in their places.
func (d Draft) Said(body string) string { return d.whole(body) }

// Text returns the draft as one text, the warnings at its end.
func (d Draft) Text() string {
	if len(d.Keep) == 0 {
		return d.Body
	}
	return d.Body + "\n\n" + strings.Join(d.Keep, " ")
}

// drafted is a result that has a Draft; bare leaves a drawing in letters out of it, where
// a picture shows the same.
type drafted interface{ Draft(bare bool) Draft }

// WithWords makes replies carry their Draft, and /method say that a language model of that
// name may phrase them.
func WithWords(model string) Setting { return func(b *Book) { b.model = model } }

// draft returns what of a result may be said in other words; nil where nothing may, no
// model is there to say it, or the club wants none.
func (b *Book) draft(ctx context.Context, club string, result Result, bare bool) *Draft {
	r, ok := result.(drafted)
	if !ok || b.model == "" {
		return nil
	}
	if s, err := b.store.Settings(ctx, club); err != nil || s.Plain {
		return nil
	}
	return new(r.Draft(bare))
}

// Draft returns the outlook's sentences; the chart goes below them.
func (r Outlook) Draft(bare bool) Draft {
	name, chart := r.Tank, r.Chart.Text()
	if bare {
		chart = ""
	}
	r.Tank = NamePlace
	return Draft{Kind: "outlook", Body: r.words(), whole: func(said string) string {
		said = strings.ReplaceAll(said, NamePlace, name)
		if chart != "" {
			said += "\n\n" + chart
		}
		return said
	}}
}

// Draft returns the diagnosis without its warnings.
func (r Why) Draft(bool) Draft {
	name, keep := r.Tank, r.Cautions
	r.Tank, r.Cautions = NamePlace, nil
	return Draft{Kind: "why", Body: r.Text(), Keep: keep, whole: func(said string) string {
		return strings.ReplaceAll(said, NamePlace, name)
	}}
}

// Draft returns the answer that is ready to post; the page around it stays.
func (r ClubCase) Draft(bool) Draft {
	d := r.Why.Draft(false)
	d.whole = func(said string) string {
		r.Answer = sentence(strings.ReplaceAll(said, NamePlace, "your tank"))
		return r.Text()
	}
	return d
}
