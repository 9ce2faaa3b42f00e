package model

import "math"

// Error that one step may make by its own reckoning, in units of the tolerance.
const (
	tanShare = 0.01  // of TAN, beside atol
	no2Share = 0.001 // of nitrite, beside atol
	leastB   = 1e-6  // mg N/L of biomass, beside rtol
	small    = 0.02  // mg N/L that may go along the chord
	refused  = 30    // the error of a step that cannot be used
)

// step takes s, where the pace is v0, over dt days to next, leaves the pace at
// the end in v and returns the error in units of the tolerance.
//
// TAN and nitrite follow x' = m - Σ u·s(x) with saturations s = x/(K+x+ρx²). The
// step is first made along the slopes of s at the start, at the pace there; then
// at the mean of the paces at both ends, with what the slopes missed at the end,
// the bends, taken as growing with the square of time. That is the exponential
// Rosenbrock scheme exprb32 (Hochbruck, Ostermann & Schweitzer 2009, SIAM J.
// Numer. Anal. 47:786-803) for x, and the trapezoidal rule for all else; biomass
// is taken as growing exponentially. The difference of the two is the error.
//
// What leaves one pool is counted once and put into another, so nitrogen
// balances whatever dt. Where x would fall below nil it decays along the chord
// of s instead, which is right when little is left; a step is refused when more
// is, or when anything else gets below nil.
func (k *kin) step(s *State, v0 *pace, dt, rtol, atol float64, next *State, v *pace) float64 {
	const (
		third  = 1. / 3
		perMeq = 1 / 14.007 // meq per mg N
	)
	ok := true
	tan, no2 := s.TAN, s.NO2
	bA, bO, bC, bN := s.B[AOB], s.B[AOA], s.B[CMX], s.B[NOB]

	// Saturations at the start: value, chord, slope.
	sA, cA, dA := saturation(tan, v0.kA, v0.rA)
	sO, cO, dO := saturation(tan, v0.kO, v0.rO)
	sC, cC, dC := saturation(tan, v0.kC, 0)
	sN, cN, dN := saturation(no2, k.halfN, 0)
	sM, cM, dM := saturation(no2, k.halfM, 0)
	var kP, sP, cP, dP float64
	uP := dt * k.plant
	if k.plant > 0 { // ammonium first: 3 to 1 over nitrate; half-saturation 0.1 mg N/L
		kP = 0.1 + s.NO3*third
		sP, cP, dP = saturation(tan, kP, 0)
	}
	cl, poison := s.Cl, 0.0
	if cl > 0 {
		end, mean := chord(cl, 0, dt*k.kCl)
		cl, poison = end, dt*mean*k.clKill*k.p.Chlorine
	}
	poisonO := 0.15 * poison // archaea stand about 2 mg/L; common practice, no source

	// First, all rates as they are. Amounts are for the step, not the day.
	a, o, c, n := dt*v0.a, dt*v0.o, dt*v0.c, dt*v0.n
	zA := a*sA*v0.yA - dt*(k.rest[AOB]+k.live[AOB]*sA) - poison // growth less death
	zO := o*sO*v0.yO - dt*(k.rest[AOA]+k.live[AOA]*sO) - poisonO
	zC := c*(sC*v0.yC+sM*v0.yM) - dt*(k.rest[CMX]+k.live[CMX]*sC) - poison
	zN := n*sN*v0.yN - dt*(k.rest[NOB]+k.live[NOB]*sN) - poison
	eA, eO, eC, eN := bA*growth(zA), bO*growth(zO), bC*growth(zC), bN*growth(zN) // mean biomass
	wA, wO, wC, wN := a*eA, o*eO, c*eC, n*eN                                     // most they oxidise
	uA, uO, uC := wA*(1+v0.yA), wO*(1+v0.yO), wC*(1+v0.yC)                       // most they take up
	in0 := dt * (k.fedTAN + k.kOrg*s.Org + k.kSoil*s.Soil)
	in := in0 + 0.5*dt*dt*(k.kOrg*(k.fedOrg-k.kOrg*s.Org)-k.kSoil*k.kSoil*s.Soil)
	p2, p3, _ := phi234(notBelow0((uA*dA + uO*dO) + (uC*dC + uP*dP)))
	m := p2*(in0-(uA*sA+uO*sO)-(uC*sC+uP*sP)) + 2*p3*(in-in0) // mean of TAN less its start
	mA, mO, mC, mP := sA+dA*m, sO+dO*m, sC+dC*m, sP+dP*m      // mean saturations
	tan1 := tan + in - (uA*mA + uO*mO) - (uC*mC + uP*mP)
	if tan1 < 0 {
		ok = tan+in < small
		tan1, m = chord(tan, in, (uA*cA+uO*cO)+(uC*cC+uP*cP))
		mA, mO, mC = cA*m, cO*m, cC*m
	}
	all0, ox0 := c*bC*sC, n*bN*sN+c*bC*sM // ammonia oxidised by comammox; nitrite oxidised; at the start's rate
	made0 := a*bA*sA + o*bO*sO + all0*v0.leak
	made := wA*mA + wO*mO + wC*mC*v0.leak // nitrite
	uN, uM := wN*(1+v0.yN), wC*(1+v0.yM)
	p2, p3, _ = phi234(uN*dN + uM*dM)
	m = p2*(made0-uN*sN-uM*sM) + 2*p3*(made-made0)
	mN, mM := sN+dN*m, sM+dM*m
	no21 := no2 + made - uN*mN - uM*mM
	if no21 < 0 {
		ok = ok && no2+made < small
		no21, m = chord(no2, made, uN*cN+uM*cM)
		mN, mM = cN*m, cM*m
	}
	through := wC * mC * (1 - v0.leak) // from ammonia to nitrate
	use0 := 3.43*made0 + 4.57*all0*(1-v0.leak) + 1.14*ox0 + dt*s.demand
	use := 3.43*made + 4.57*through + 1.14*(wN*mN+wC*mM) + dt*s.demand
	h := 1 / (s.O2 + 0.05)
	have := s.O2 * h // without oxygen none is used
	o2 := dt*k.kla*(k.satO2-s.O2) - use0*have
	w1, w2, w3 := phi123(dt*k.kla + use0*0.05*h*h)
	pA, pO, pC, pN := bA+zA*eA, bO+zO*eO, bC+zC*eC, bN+zN*eN
	gone := s.NO3 * (uP*third*cP + dt*k.p.Loss) // nitrate taken up and lost
	k.pace(s.Alk+perMeq*(tan1-tan-made-through+gone), s.acid,
		notBelow0(s.O2+w1*o2-2*w2*(use-use0)*have), tan1, no21, pA, pO, pC, pN, v)

	// Then with mean paces and bends.
	s1A, c1A, _ := saturation(tan1, v.kA, v.rA)
	s1O, c1O, _ := saturation(tan1, v.kO, v.rO)
	s1C, c1C, _ := saturation(tan1, v.kC, 0)
	s1N, _, _ := saturation(no21, k.halfN, 0)
	s1M, _, _ := saturation(no21, k.halfM, 0)
	dT, dX := tan1-tan, no21-no2
	tan2 := tan1 * tan1 // what the saturations lost as the half-saturations moved
	jA, jO, jC := s1A*c1A*(v.kA-v0.kA+tan2*(v.rA-v0.rA)), s1O*c1O*(v.kO-v0.kO+tan2*(v.rO-v0.rO)), s1C*c1C*(v.kC-v0.kC)
	qA, qO, qC := s1A+jA-sA-dA*dT, s1O+jO-sO-dO*dT, s1C+jC-sC-dC*dT
	qN, qM, qP := s1N-sN-dN*dX, s1M-sM-dM*dX, 0.0
	rA, rO, rC, rN, rM := third*qA-0.5*jA, third*qO-0.5*jO, third*qC-0.5*jC, third*qN, third*qM // of the means
	mA, mO, mC, mN, mM = mA+rA, mO+rO, mC+rC, mN+rN, mM+rM
	a1, o1, c1, n1 := dt*v.a, dt*v.o, dt*v.c, dt*v.n
	all1 := c1 * pC * s1C
	made1 := a1*pA*s1A + o1*pO*s1O + all1*v.leak
	use1 := 3.43*made1 + 4.57*all1*(1-v.leak) + 1.14*(n1*pN*s1N+c1*pC*s1M) + dt*s.demand
	a, o, c, n = 0.5*(a+a1), 0.5*(o+o1), 0.5*(c+c1), 0.5*(n+n1)
	yA, yO, yC, yM, yN := 0.5*(v0.yA+v.yA), 0.5*(v0.yO+v.yO), 0.5*(v0.yC+v.yC), 0.5*(v0.yM+v.yM), 0.5*(v0.yN+v.yN)
	leak := 0.5 * (v0.leak + v.leak)
	xA := dt*(k.rest[AOB]+k.live[AOB]*mA) + poison // death
	xO := dt*(k.rest[AOA]+k.live[AOA]*mO) + poisonO
	xC := dt*(k.rest[CMX]+k.live[CMX]*mC) + poison
	xN := dt*(k.rest[NOB]+k.live[NOB]*mN) + poison
	eA *= 1 + 0.5*(a*mA*yA-xA-zA)
	eO *= 1 + 0.5*(o*mO*yO-xO-zO)
	eC *= 1 + 0.5*(c*(mC*yC+mM*yM)-xC-zC)
	eN *= 1 + 0.5*(n*mN*yN-xN-zN)
	xA, xO, xC, xN = xA*eA, xO*eO, xC*eC, xN*eN
	wA, wO, wC, wN = a*eA, o*eO, c*eC, n*eN

	// What rots and leaches.
	e, p1, _ := decay(dt * k.kOrg)
	rotten := dt*k.fedOrg + ((xA + xO) + (xC + xN))
	next.Org = s.Org*e + rotten*p1
	in = dt*k.fedTAN + (s.Org + rotten - next.Org)
	next.Soil = s.Soil
	if s.Soil > 0 {
		next.Soil, _ = chord(s.Soil, 0, dt*k.kSoil)
		in += s.Soil - next.Soil
	}

	// TAN.
	uA, uO, uC = wA*(1+yA), wO*(1+yO), wC*(1+yC)
	if k.plant > 0 { // the half-saturation in the middle of the step
		kP = 0.1 + third*notBelow0(s.NO3+0.5*(wN*mN+wC*mM+through-gone))
		sP, cP, dP = saturation(tan, kP, 0)
		s1P, _, _ := saturation(tan1, kP, 0)
		qP = s1P - sP - dP*dT
	}
	p2, p3, p4 := phi234(notBelow0((uA*dA + uO*dO) + (uC*dC + uP*dP)))
	m = p2*(in0-(uA*sA+uO*sO)-(uC*sC+uP*sP)) + p3*(2*(in-in0)+uA*jA+uO*jO+uC*jC) - 2*p4*((uA*qA+uO*qO)+(uC*qC+uP*qP))
	want := kP + notBelow0(tan+m) // what plants divide between ammonium and nitrate
	mA, mO, mC, mP = sA+dA*m+rA, sO+dO*m+rO, sC+dC*m+rC, sP+dP*m+third*qP
	tan = tan + in - (uA*mA + uO*mO) - (uC*mC + uP*mP)
	if tan < 0 {
		ok = s.TAN+in < small
		tan, m = chord(s.TAN, in, (uA*cA+uO*cO)+(uC*cC+uP*cP))
		mA, mO, mC, mP = cA*m, cO*m, cC*m, cP*m
	}
	oxA, oxO, oxC, upT := wA*mA, wO*mO, wC*mC, uP*mP
	made, through = oxA+oxO+oxC*leak, oxC*(1-leak)

	// Nitrite, made at a rate that is a parabola in time.
	b := 3*(made1+made0) - 6*made
	uN, uM = wN*(1+yN), wC*(1+yM)
	p2, p3, p4 = phi234(uN*dN + uM*dM)
	m = p2*(made0-uN*sN-uM*sM) + p3*(made1-made0-b) + 2*p4*(b-uN*qN-uM*qM)
	mN, mM = sN+dN*m+rN, sM+dM*m+rM
	no2 = no2 + made - uN*mN - uM*mM
	if no2 < 0 {
		ok = ok && s.NO2+made < small
		no2, m = chord(s.NO2, made, uN*cN+uM*cM)
		mN, mM = cN*m, cM*m
	}
	oxN, oxM := wN*mN, wC*mM
	bA, bO, bC, bN = bA+yA*oxA-xA, bO+yO*oxO-xO, bC+yC*oxC+yM*oxM-xC, bN+yN*oxN-xN

	// Nitrate.
	in3 := oxN + oxM + through
	up := 0.0
	if lost := dt * k.p.Loss; k.plant > 0 || lost > 0.1 {
		if k.plant > 0 {
			up = uP * third / want
		}
		end, _ := chord(s.NO3, in3, lost+up)
		gone = s.NO3 + in3 - end
		if up > 0 {
			up *= gone / (lost + up)
		}
	} else {
		gone = (s.NO3 + 0.5*in3) * lost * (1 - 0.5*lost)
	}

	// Oxygen, used at a rate that is a parabola in time.
	use = 3.43*made + 4.57*through + 1.14*(oxN+oxM) + dt*s.demand
	b = 3*(use1+use0) - 6*use
	o2 = s.O2 + w1*o2 - (w2*(use1-use0-b)+2*w3*b)*have
	if o2 < 0 {
		o2, _ = chord(s.O2, dt*k.kla*k.satO2, dt*k.kla+use*h)
	}

	next.TAN, next.NO2, next.NO3 = tan, no2, s.NO3+in3-gone
	next.Plant, next.Gone = s.Plant+upT+up, s.Gone+gone-up
	next.B = [Guilds]float64{bA, bO, bC, bN}
	next.Alk = s.Alk + perMeq*(tan-s.TAN-made-through+gone) // charge for charge
	next.O2, next.Cl = o2, cl
	next.acid, next.demand = s.acid, s.demand

	if !ok || mA < 0 || mO < 0 || mC < 0 || mP < 0 || mN < 0 || mM < 0 || bA < 0 || bO < 0 || bC < 0 || bN < 0 {
		return refused
	}
	return max(max(math.Abs(tan1-tan)/(tanShare*tan+atol), math.Abs(no21-no2)/(no2Share*no2+atol)),
		max(max(math.Abs(pA-bA)/(rtol*bA+leastB), math.Abs(pO-bO)/(rtol*bO+leastB)),
			max(math.Abs(pC-bC)/(rtol*bC+leastB), math.Abs(pN-bN)/(rtol*bN+leastB))))
}
