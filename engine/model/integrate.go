package model

import "math"

// Steps of the integrator, in days. With its tolerances, see step.go, every pool
// keeps within 0.5 % of its peak of a tight reference; see TestAgreesWithLSODA.
const (
	stepMax   = 1
	stepMin   = 1e-4
	stepFirst = 0.15 // from the start
	stepStart = 0.12 // after the first jump
	slack     = 2.6  // by how much Coarse loosens the tolerances
)

// integrate advances the state to a day with adaptive steps.
func (r *Run) integrate(day float64) {
	if r.lane != nil {
		r.lane.take(r, day, false, nil)
		return
	}
	if r.Day >= day {
		return
	}
	k := &r.k
	r.setOut()
	var states [2]State
	var paces [2]pace
	s, next, now, then := &states[0], &states[1], &paces[0], &paces[1]
	*s, *now = r.State, r.now
	for x := r.stride(day); x.at < day; {
		r.choose(&x, s.Cl)
		if r.judge(&x, k.step(s, now, x.h, next, then), next.TAN) {
			r.passed.look(x.from, x.at, s.TAN, s.NO2, next.TAN, next.NO2)
			s, next, now, then = next, s, then, now
		}
		if x.at >= day {
			r.arrive(&x)
		}
	}
	r.State, r.now = *s, *now
	r.at = s.steeped()
}

// setOut brings the run's pace up to date.
func (r *Run) setOut() {
	if k := &r.k; !k.paced || r.State.steeped() != r.at {
		k.paceOf(&r.State, &r.now)
		k.paced = true
	}
}

// stride is how far an integration has come.
type stride struct {
	at, to float64
	next   float64 // the step that the last one suggests
	h      float64 // the step being made
	from   float64 // where the last one that was accepted began
}

func (r *Run) stride(day float64) stride { return stride{at: r.Day, to: day, next: r.h} }

// choose sets the length of the next step.
func (r *Run) choose(x *stride, chlorine float64) {
	k := &r.k
	h := x.next
	if h > k.longest {
		h = k.longest
	}
	if chlorine > 0 {
		h = min(h, 1.5/(chlorine*k.clKill*k.p.Chlorine+k.loss))
	}
	if left := x.to - x.at; left < 1.1*h+stepMin { // spares a short last step
		h = left
	} else if left < 2*h { // as are two of a kind
		h = left / 2
	}
	if k.rise > 0 {
		grown := min(1+k.rise*(x.at+h/2), k.sated)
		k.fedTAN, k.fedOrg = k.firstTAN*grown, k.firstOrg*grown
	}
	x.h = h
}

// judge says whether a step with such an error, after which there was so much ammonia, is
// good enough, and if so counts it; it sets what the next one should be.
func (r *Run) judge(x *stride, err, tan float64) bool {
	if err < refused {
		err *= r.ease
	}
	h := x.h
	if !(err <= 1.6) && h > stepMin { // also when it is not a number
		x.next = max(0.6*h, stepMin)
		if err < refused {
			x.next = max(x.next, 0.9*h/math.Cbrt(err))
		}
		return false
	}
	r.Steps++
	r.Ledger.In += h * (r.k.fedTAN + r.k.fedOrg)
	better := h * (0.58 + 0.4/(err+0.16)) // about err^-1/3, at most threefold
	if r.jumped {
		r.first, r.jumped = min(better, 0.3), false
		if h < 0.06 {
			better *= 2.6 // what oxygen and nitrite do at once is over
		}
	}
	if err < 0.2 && tan < 0.003 {
		better = 6 * h // no ammonia left that could surprise
	}
	if h == x.next || err > 0.5 {
		if x.next = better; better > stepMax {
			x.next = stepMax
		} else if better < stepMin {
			x.next = stepMin
		}
	}
	x.from = x.at
	if h == x.to-x.at {
		x.at = x.to
	} else {
		x.at += h
	}
	return true
}

// arrive ends an integration.
func (r *Run) arrive(x *stride) { r.Day, r.h = x.to, x.next }
