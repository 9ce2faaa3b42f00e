package commands

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"ripen/commands/picture"
	"ripen/store"
)

// ClubRecord is how earlier outlooks of the club turned out.
type ClubRecord struct {
	Outlooks  int           `json:"outlooks"`  // that were given
	Finished  int           `json:"finished"`  // tanks that are done, with an outlook before
	NotDone   int           `json:"not_done"`  // tanks with an outlook that were closed without being done
	Open      int           `json:"open"`      // tanks with an outlook that are still on their way
	Least     int           `json:"least"`     // tanks that have to be done before shares are told
	Enough    bool          `json:"enough"`    // they are
	All       RecordStage   `json:"all"`       // every stage together
	Stages    []RecordStage `json:"stages"`    // by how far along the tank was
	Intervals [3]float64    `json:"intervals"` // 50, 80 and 95, percent
	Priors    []RecordPrior `json:"priors"`    // by what the engine believed beforehand
	Learned   Learned       `json:"learned"`
}

// Learned is what the club's own tanks taught the outlooks.
type Learned struct {
	Tanks   int    `json:"tanks"`   // that were learnt from
	Done    int    `json:"done"`    // of them, those that are done
	Least   int    `json:"least"`   // of these, before it begins
	Used    bool   `json:"used"`    // it foretells better than what is known in general
	Version string `json:"version"` // "" if not used
}

// RecordStage is how outlooks did that were given while tanks were so far along. Of
// each tank the first one in the stage counts.
type RecordStage struct {
	Name     string     `json:"name"`
	From     float64    `json:"from_percent"` // of the way to the day it was done
	To       float64    `json:"to_percent"`
	Outlooks int        `json:"outlooks"`
	Held     [3]int     `json:"held"`         // how many of them, for each interval
	Percent  [3]float64 `json:"held_percent"` // the same
	Early    int        `json:"done_before"`  // done before the 80 % interval
	Late     int        `json:"done_after"`
	Error    *float64   `json:"median_error_days"`    // of the middle day; nil past the horizon
	OfWay    *float64   `json:"median_error_percent"` // of the whole way
}

// RecordPrior is how outlooks did that rest on the same sort of belief.
type RecordPrior struct {
	Prior string `json:"prior"` // "general" or "club"
	RecordStage
}

// leastFinished is how many tanks have to be done before shares mean something.
const leastFinished = 5

// RecordStages are the stages of a record, in percent of the way.
var RecordStages = []RecordStage{
	{Name: "at the start", To: 20}, {Name: "early on", From: 20, To: 40}, {Name: "at half way", From: 40, To: 60},
	{Name: "past half way", From: 60, To: 80}, {Name: "near the end", From: 80, To: 100},
}

// StageOf says in which of RecordStages a day lies of a tank that is done on another.
func StageOf(day, done float64) (at int) {
	for i, stage := range RecordStages {
		if 100*day >= stage.From*done {
			at = i
		}
	}
	return at
}

func clubRecord(c *call) (Result, error) {
	r := ClubRecord{Least: leastFinished, Intervals: [3]float64{50, 80, 95}, Stages: []RecordStage{}, Priors: []RecordPrior{}}
	r.Learned = LearnedOf(c.prior)
	all, err := c.scores(&r)
	if err != nil {
		return nil, err
	}
	r.Enough = r.Finished >= leastFinished
	if !r.Enough {
		return r, nil
	}
	byStage, byPrior := map[int][]scored{}, map[string][]scored{}
	for _, x := range all {
		byStage[x.Stage], byPrior[x.Prior] = append(byStage[x.Stage], x), append(byPrior[x.Prior], x)
	}
	for i, stage := range RecordStages {
		if in := byStage[i]; len(in) > 0 {
			r.Stages = append(r.Stages, tally(stage, in))
		}
	}
	r.All = tally(RecordStage{Name: "in all", To: 100}, all)
	for prior, xs := range byPrior {
		r.Priors = append(r.Priors, RecordPrior{prior, tally(RecordStage{Name: "in all", To: 100}, xs)})
	}
	slices.SortFunc(r.Priors, func(a, b RecordPrior) int { return cmp.Compare(a.Prior, b.Prior) })
	return r, nil
}

// scores are those of the club's tanks that are done; the tanks are counted.
func (c *call) scores(r *ClubRecord) ([]scored, error) {
	asked, err := c.book.store.CountOutlooks(c.ctx, c.Club, "outlook")
	if err != nil {
		return nil, err
	}
	var all []scored
	for _, closed := range []bool{false, true} {
		tanks, err := c.book.store.Standings(c.ctx, c.Club, closed)
		if err != nil {
			return nil, err
		}
		for _, t := range tanks {
			if asked[t.ID] == 0 {
				continue
			}
			known, err := c.book.read(c.ctx, t, c.At)
			if errors.Is(err, store.ErrNotFound) { // taken back meanwhile
				continue
			}
			if err != nil {
				return nil, err
			}
			r.Outlooks += asked[t.ID]
			switch {
			case len(known.Scores) > 0:
				r.Finished++
			case known.DoneOn != nil: // asked after it was done only
			case closed:
				r.NotDone++
			default:
				r.Open++
			}
			all = append(all, known.Scores...)
		}
	}
	return all, nil
}

// tally counts how outlooks did.
func tally(r RecordStage, in []scored) RecordStage {
	r.Outlooks = len(in)
	var days, way []float64
	for _, x := range in {
		for i, held := range x.held() {
			if held {
				r.Held[i]++
			}
		}
		if x.done < x.Done[1] {
			r.Early++
		}
		if x.done > x.Done[5] {
			r.Late++
		}
		days, way = append(days, x.off()), append(way, 100*x.off()/x.done)
	}
	for i, n := range r.Held {
		r.Percent[i] = math.Round(100 * float64(n) / float64(max(r.Outlooks, 1)))
	}
	r.Error, r.OfWay = middle(days, 1), middle(way, 0)
	return r
}

// middle is the median, rounded; nil if it is endless or of nothing.
func middle(xs []float64, decimals int) *float64 {
	slices.Sort(xs)
	n := len(xs)
	if n == 0 || math.IsInf(xs[n/2], 1) {
		return nil
	}
	return new(rounded((xs[(n-1)/2]+xs[n/2])/2, decimals))
}

// sheets draws the stages.
func (r ClubRecord) sheets() ([]File, error) {
	if !r.Enough {
		return nil, nil
	}
	p := picture.Record{Title: r.sentence()}
	for _, s := range r.Stages {
		b := picture.RecordStage{Name: capital(s.Name), Outlooks: s.Outlooks}
		for i := range b.Held {
			b.Held[i], b.Should[i] = s.Percent[i]/100, r.Intervals[i]/100
		}
		p.Stages = append(p.Stages, b)
	}
	data, err := picture.RecordPNG(p)
	return []File{{Name: "record.png", Alt: "Bars: how often the 50, 80 and 95 % ranges of outlooks held, by stage. " + r.sentence() + ".", Data: data}}, err
}
