package model

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
	x := r.stride(day)
	for x.at < day {
		took, crossed := k.stepOn(&x, &r.passed, s, now, next, then)
		if crossed {
			r.passed.cross(x.from, x.at, s.TAN, s.NO2, next.TAN, next.NO2)
		}
		if took {
			s, next, now, then = next, s, then, now
		}
	}
	r.arrive(&x)
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

// stride is how far an integration has come, in numbers only, since lanes keep them side by side.
type stride struct {
	at, to float64
	from   float64 // where the last step that was taken began
	next   float64 // the step that the last one suggests
	h      float64 // the step being made
	err    float64 // its error, in units of the run's tolerance
	ease   float64 // of the run, as are the next four
	first  float64
	jumped float64 // 1 for true
	in     float64
	steps  float64
}

func (r *Run) stride(day float64) (x stride) {
	x = stride{at: r.Day, to: day, next: r.h, ease: r.ease, first: r.first, in: r.Ledger.In, steps: float64(r.Steps)}
	if r.jumped {
		x.jumped = 1
	}
	return x
}

// arrive ends an integration.
func (r *Run) arrive(x *stride) {
	r.Day, r.h, r.first, r.jumped, r.Ledger.In, r.Steps = x.to, x.next, x.first, x.jumped > 0, x.in, int(x.steps)
}

// stepOn makes a step from s, where the pace is v0, to next and v. It says whether the step is
// good enough to be taken and whether a milestone was crossed that has to be looked at; see cross.
// Lanes do the same, from what vectorise makes of this function and all that it calls.
func (k *kin) stepOn(x *stride, m *passed, s *State, v0 *pace, next *State, v *pace) (took, crossed bool) {
	k.choose(x, s.Cl)
	x.err = k.step(s, v0, x.h, next, v)
	took = k.judge(x, next.TAN)
	if took {
		crossed = m.look(x.at, s.TAN, next.TAN, next.NO2)
	}
	return took, crossed
}

// choose sets the length of the next step.
func (k *kin) choose(x *stride, chlorine float64) {
	h := x.next
	if h > k.longest {
		h = k.longest
	}
	if chlorine > 0 {
		most := 1.5 / (chlorine*k.clKill*k.p.Chlorine + k.loss)
		if most < h {
			h = most
		}
	}
	left := x.to - x.at
	if left < 1.1*h+stepMin { // spares a short last step
		h = left
	} else {
		if left < 2*h { // as are two of a kind
			h = left / 2
		}
	}
	if k.rise > 0 {
		grown := 1 + k.rise*(x.at+h/2)
		if grown > k.sated {
			grown = k.sated
		}
		k.fedTAN, k.fedOrg = k.firstTAN*grown, k.firstOrg*grown
	}
	x.h = h
}

// judge says whether a step after which there was so much ammonia is good enough, and if so
// counts it; it sets how long the next one should be.
func (k *kin) judge(x *stride, tan float64) bool {
	err, h := x.err, x.h
	if err < refused {
		err *= x.ease
	}
	x.err = err
	better := h * (0.58 + 0.4/(err+0.16)) // about err^-1/3, at most threefold
	good := err <= 1.6 || h <= stepMin    // the first is false of what is not a number
	if good {
		x.steps += 1
		x.in += h * (k.fedTAN + k.fedOrg)
		if x.jumped > 0 {
			x.first, x.jumped = min(better, 0.3), 0
			if h < 0.06 {
				better *= 2.6 // what oxygen and nitrite do at once is over
			}
		}
		if err < 0.2 && tan < 0.003 {
			better = 6 * h // no ammonia left that could surprise
		}
		if h == x.next || err > 0.5 {
			if better > stepMax {
				better = stepMax
			}
			if better < stepMin {
				better = stepMin
			}
			x.next = better
		}
		x.from = x.at
		if h == x.to-x.at {
			x.at = x.to
		} else {
			x.at += h
		}
	} else {
		x.next = 0.6 * h
		if 0.9*better > x.next {
			x.next = 0.9 * better
		}
		if x.next < stepMin {
			x.next = stepMin
		}
	}
	return good
}
