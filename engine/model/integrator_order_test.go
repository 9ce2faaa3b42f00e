package model

import (
	"math"
	"testing"
)

// fixed makes n equal steps from a run's state to a day, whatever their error.
func fixed(r Run, day float64, n int) State {
	k := &r.k
	k.acidity, k.stretch = acidities{}, 1e-4 // so narrow as to be exact
	var v pace
	k.paceOf(&r.State, &v)
	s, dt := r.State, (day-r.Day)/float64(n)
	for i := range n {
		if k.rise > 0 {
			grown := 1 + k.rise*(r.Day+dt*(float64(i)+0.5))
			k.fedTAN, k.fedOrg = k.firstTAN*grown, k.firstOrg*grown
		}
		var next State
		var then pace
		k.step(&s, &v, dt, &next, &then)
		s, v = next, then
	}
	return s
}

// TestOrder measures the order of convergence on stretches without jumps: from
// steps of 6 to 11 minutes on, the error must fall with the square of the step. (In
// coarser steps errors of different origin may pass through nil.)
func TestOrder(t *testing.T) {
	for _, x := range []struct {
		name, reason string
		from, to     float64
		perDay       float64
	}{
		{"dosed", "bacteria grow on ample ammonia", 2, 6, 128},
		{"high", "nitrite rises, ammonia inhibits", 4, 8, 128},
		{"fish", "the ration rises, ammonia follows", 2, 5, 256},
		{"planted", "plants and bacteria share what leaches", 3, 6, 192},
		{"cold", "slow growth, ammonia half used up", 20, 25, 128},
		{"hot", "little oxygen, ammonia self-inhibits", 3, 7, 128},
		{"starving", "a grown film decays", 30, 40, 128},
	} {
		var r *Run
		for i := range scenarios {
			if scenarios[i].name == x.name {
				plan, par := scenarios[i].build()
				r = plan.Start(par)
			}
		}
		r.To(x.from, nil)
		n := int(x.perDay * (x.to - x.from))
		const halvings = 3
		exact := fixed(*r, x.to, n<<(halvings+4))
		coarse, fine := fixed(*r, x.to, n), fixed(*r, x.to, n<<halvings)
		least, which, seen := math.Inf(1), "", 0
		for i, want := range exact.pools() {
			e, f := math.Abs(*coarse.pools()[i]-*want), math.Abs(*fine.pools()[i]-*want)
			if f < 1e-11*math.Abs(*want) || f < 1e-14 {
				continue // as good as exact: there is no order to be seen
			}
			seen++
			if order := math.Log2(e/f) / halvings; order < least {
				least, which = order, poolNames[i]
			}
		}
		tan := math.Log2(math.Abs(coarse.TAN-exact.TAN)/math.Abs(fine.TAN-exact.TAN)) / halvings
		t.Logf("%-8s TAN %.2f, least %.2f (%s of %d pools)", x.name, tan, least, which, seen)
		if least < 1.9 || seen < 5 {
			t.Errorf("%s (%s): %s converges with order %.2f, want 2", x.name, x.reason, which, least)
		}
	}
}
