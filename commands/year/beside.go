package year

import (
	"ripen/commands"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/pool"
	"ripen/engine/unit"
	"ripen/store"
)

// Taught is an outlook that rested on what was learnt, and what would have been said
// without, held against the truth.
type Taught struct {
	Member   string
	Day      float64       // on which it was given
	Readings int           // that it knew
	Done     [2][7]float64 // at store.Quantiles: untaught, taught; +Inf past the horizon
	Truth    float64       // day that the tank was truly done, 180 if it was not by then
}

// beside is an adviser that, once taught, works each outlook out untaught as well. So the
// two differ in nothing but what was learnt.
type beside struct {
	commands.Learner
	both func(untaught, taught outlook.Outlook)
}

// Learned returns the adviser that was taught, with the untaught one beside.
func (b beside) Learned(p pool.Prior) commands.Adviser {
	return pair{b.Learner.Learned(p), b}
}

type pair struct {
	commands.Adviser
	untaught beside
}

// Outlook is that of the adviser that was taught.
func (p pair) Outlook(c model.Case, now unit.Days) (outlook.Outlook, error) {
	taught, err := p.Adviser.Outlook(c, now)
	if err != nil {
		return taught, err
	}
	untaught, err := p.untaught.Outlook(c, now)
	p.untaught.both(untaught, taught)
	return taught, err
}

// both keeps the two outlooks that the member who types right now could have been given.
func (y *Year) both(untaught, taught outlook.Outlook) {
	t := Taught{Member: y.who, Day: taught.Day, Readings: taught.Readings, Truth: y.truth[y.who]}
	for i, o := range []outlook.Outlook{untaught, taught} {
		for k, q := range store.Quantiles {
			t.Done[i][k] = o.DoneBy(q)
		}
	}
	y.Taught = append(y.Taught, t)
}
