package dosing

import (
	"errors"
	"fmt"
	"math"

	"ripen/engine/safety"
)

// MostAtOnce is the largest share of the water that is replaced in one go.
const MostAtOnce = safety.MostAtOnce

// mostChanges is how many changes in a row are still advice: ten leave a thousandth.
const mostChanges = 10

// NewWater says that no change of water reaches a goal, since the new water holds as
// much, or nearly.
type NewWater struct{ Goal, New float64 }

// Error says what was asked and what the new water holds.
func (e *NewWater) Error() string {
	return fmt.Sprintf("new water with %.3g mg/L cannot bring a tank to %.3g", e.New, e.Goal)
}

// Change is how much water to replace.
type Change struct {
	Share  float64 // of the old water that has to go in all, 0..1
	Times  int     // changes, of the same size
	Single float64 // share of each, up to MostAtOnce
}

// Dilute returns the change of water that brings a level from now to goal with new
// water that holds fresh, all in the same unit, 0 to 1,000.
//
//	share = (now - goal)/(now - fresh) = 1 - (1 - single)^times
//
// The error is ErrNoRise if now is at the goal or below it, a *NewWater, or a
// *RangeError. Several changes are of one size, well mixed, and nothing is made or used
// up between them.
func Dilute(now, goal, fresh float64) (Change, error) {
	if err := errors.Join(within("level", now, 0, maxLevel), within("level", goal, 0, maxLevel), within("level", fresh, 0, maxLevel)); err != nil {
		return Change{}, err
	}
	if now <= goal {
		return Change{}, ErrNoRise
	}
	if fresh >= goal {
		return Change{}, &NewWater{goal, fresh}
	}
	c := Change{Share: (now - goal) / (now - fresh)}
	c.Times = max(1, int(math.Ceil(math.Log(1-c.Share)/math.Log(1-MostAtOnce)-1e-9)))
	if c.Times > mostChanges {
		return Change{}, &NewWater{goal, fresh}
	}
	c.Single = 1 - math.Pow(1-c.Share, 1/float64(c.Times))
	return c, nil
}

// Mix returns a level after a share of the water was replaced by water that holds fresh.
func Mix(now, fresh, share float64) float64 { return now + share*(fresh-now) }
