package pool

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"math"
	"slices"
)

// Normal is the distribution of a score.
type Normal struct {
	Mean float64 `json:"mean"`
	SD   float64 `json:"sd"`
}

// Levels of what was learnt.
const (
	None   = ""     // the general prior holds
	Club   = "club" // one distribution for all tanks of the club
	ByBand = "band" // one for each band of pH and source, drawn to the club's
)

// Prior is what a club's tanks taught.
type Prior struct {
	Version string      `json:"version"` // "" if nothing is used
	Level   string      `json:"level"`   // one of the levels above
	Tanks   int         `json:"tanks"`   // that were learnt from
	Done    int         `json:"done"`    // of them, those that are done
	Gain    float64     `json:"gain"`    // nats a tank by which it foretells better, one left out at a time
	Club    [2]Normal   `json:"club"`
	Bands   []BandPrior `json:"bands,omitempty"` // of Level ByBand
}

// BandPrior is the part of one band.
type BandPrior struct {
	Band
	Tanks  int       `json:"tanks"`
	Scores [2]Normal `json:"scores"`
}

// Least is how many tanks have to be done before anything is learnt.
const Least = 8

// sure is by how many of its standard errors a gain has to be above nothing. With one, a
// club like any other was taken for a special one in one case of four.
const sure = 2

// Learn pools the tanks of a club. The same tanks give the same prior, whatever their
// order. It is used only where, with one tank left out at a time, it scores better than the
// general prior by more than twice the standard error of that.
func Learn(tanks []Tank) Prior {
	p := Prior{Tanks: len(tanks)}
	for _, t := range tanks {
		if t.Done {
			p.Done++
		}
	}
	if p.Done < Least {
		return p
	}
	tanks = slices.Clone(tanks)
	slices.SortFunc(tanks, func(a, b Tank) int {
		return cmp.Or(cmp.Compare(a.Band.PH, b.Band.PH), cmp.Compare(a.Band.Source, b.Band.Source), slices.Compare(a.Mean[:], b.Mean[:]), slices.Compare(a.Var[:], b.Var[:]))
	})
	for k := range p.Club {
		p.Club[k] = club(tanks, k)
	}
	levels := []string{Club}
	if len(split(tanks)) > 1 {
		levels = append(levels, ByBand)
	}
	for _, level := range levels {
		if gain, plain := leaveOneOut(tanks, level); plain && gain > p.Gain {
			p.Level, p.Gain = level, gain
		}
	}
	if p.Level == ByBand {
		p.Bands = bands(tanks, p.Club)
	}
	if p.Level != None {
		p.Version = p.version()
	}
	return p
}

// version names what was learnt, so that an outlook can say what it rested on.
func (p Prior) version() string {
	h := fnv.New32a()
	fmt.Fprintf(h, "%s %.3f", p.Level, p.Club)
	for _, b := range p.Bands {
		fmt.Fprintf(h, " %s %s %.3f", b.PH, b.Source, b.Scores)
	}
	return fmt.Sprintf("%s-%d-%08x", p.Level, p.Tanks, h.Sum32())
}

// leaveOneOut is by how many nats a tank the others of the club foretell its readings
// better than the general prior does, and whether that is plainly more than nothing.
func leaveOneOut(tanks []Tank, level string) (gain float64, plain bool) {
	n := float64(len(tanks))
	by := make([]float64, len(tanks))
	parts := split(tanks)
	for k := range 2 {
		all, apart := gather(tanks, k), gatherBands(parts, k)
		j := 0
		for b, part := range parts {
			for _, t := range part {
				own := t.alone(k)
				without := func(s []sums) []sums {
					rest := slices.Clone(s)
					for i := range rest {
						rest[i].add(own, spreads[i], -1)
					}
					return rest
				}
				rest := without(all)
				d := alike(func(i int) sums { return rest[i] })
				if level == ByBand {
					whole := apart[b]
					apart[b] = without(whole)
					d = within(apart, b, d)
					apart[b] = whole
				}
				by[j] += logNormal(own.y, d.Mean, d.SD*d.SD+own.e2) - logNormal(own.y, 0, 1+own.e2)
				j++
			}
		}
	}
	for _, x := range by {
		gain += x / n
	}
	v := 0.0
	for _, x := range by {
		v += (x - gain) * (x - gain) / (n - 1)
	}
	return gain, gain > sure*math.Sqrt(v/n)
}
