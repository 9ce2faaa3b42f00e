package model

import "math"

// Error that one step may make by its own reckoning, which is that of the first
// stage and about ten times what is true of the second.
const (
	atolTAN = 0.023  // mg N/L
	rtolTAN = 0.048  // beside it
	atolNO2 = 0.0085 // mg N/L
	rtolNO2 = 0.0024 // beside it
	rtolA   = 0.022  // of biomass: AOB, which take long to satisfy, err less than they reckon,
	rtolN   = 0.039  // NOB less still,
	rtolB   = 0.0156 // and all others
	small   = 0.015  // mg N/L that may go along the chord
	refused = 30     // the error of a step that cannot be used, in units of the tolerance
)

// step takes s, where the pace is v0, over dt days to next, leaves the pace at
// the end in v and returns the error in units of the tolerance.
//
// TAN and nitrite follow x' = m - Σ u·s(x) with saturations s = x/(K+x+ρx²). The
// step is first made along the slopes of s at the start, at the pace there; then
// at the mean of the paces at both ends, along the secants of s between start and
// first end, with the bends of s between them. That is an exponential scheme of
// two stages, as exprb32 (Hochbruck, Ostermann & Schweitzer 2009, SIAM J. Numer.
// Anal. 47:786-803), for x, and the trapezoidal rule for all else; biomass is
// taken as growing exponentially. The difference of the two is the error.
//
// What leaves one pool is counted once and put into another, so nitrogen
// balances whatever dt. Where x would fall below nil it decays along the chord
// of s instead, which is right when little is left; a step is refused when more
// is, or when anything else gets below nil.
func (k *kin) step(s *State, v0 *pace, dt float64, next *State, v *pace) float64 {
	const (
		third  = 1. / 3
		sixth  = 1. / 6
		perMeq = 1 / 14.007 // meq per mg N
	)
	tan, no2 := s.TAN, s.NO2
	bA, bO, bC, bN := s.B[AOB], s.B[AOA], s.B[CMX], s.B[NOB]

	// Saturations at the start: value, chord, slope.
	sA, cA, dA := saturation(tan, v0.kA, v0.rA)
	sO, cO, dO := saturation(tan, v0.kO, v0.rO)
	sC, cC, dC := saturation0(tan, v0.kC)
	sN, cN, dN := saturation0(no2, k.halfN)
	sM, cM, dM := saturation0(no2, k.halfM)
	var kP, sP, cP, dP float64
	uP := dt * k.plant
	if k.plant > 0 { // ammonium first: 3 to 1 over nitrate; half-saturation 0.1 mg N/L
		kP = 0.1 + s.NO3*third
		sP, cP, dP = saturation0(tan, kP)
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
	z, us := (uA*dA+uO*dO)+(uC*dC+uP*dP), (uA*sA+uO*sO)+(uC*sC+uP*sP)
	p2, p3, _ := phi234(notBelow0(z))
	m := p2*(in0-us) + 2*p3*(in-in0)        // mean of TAN less its start
	mA, mO, mC := sA+dA*m, sO+dO*m, sC+dC*m // mean saturations
	tan1 := tan + (in - us) - z*m
	if tan1 < 0 {
		tan1, m = chord(tan, in, (uA*cA+uO*cO)+(uC*cC+uP*cP))
		mA, mO, mC = cA*m, cO*m, cC*m
		m -= tan
	}
	all0, ox0 := c*bC*sC, n*bN*sN+c*bC*sM // ammonia oxidised by comammox; nitrite oxidised; at the start's rate
	made0 := a*bA*sA + o*bO*sO + all0*v0.leak
	made := wA*mA + wO*mO + wC*mC*v0.leak // nitrite
	uN, uM := wN*(1+v0.yN), wC*(1+v0.yM)
	z, us = uN*dN+uM*dM, uN*sN+uM*sM
	p2, p3, _ = phi234(z)
	mX := p2*(made0-us) + 2*p3*(made-made0)
	mN, mM := sN+dN*mX, sM+dM*mX
	no21 := no2 + (made - us) - z*mX
	if no21 < 0 {
		no21, mX = chord(no2, made, uN*cN+uM*cM)
		mN, mM = cN*mX, cM*mX
		mX -= no2
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

	// Where alkalinity runs out the pace falls with it, nearly as e^(-2·rate): the
	// first stage uses too much of it, and the mean pace lies nearer to the end's.
	rate := perMeq * dt * (v0.aK*eA*mA + v0.oK*eO*mO + v0.cK*eC*mC)
	over := perMeq * dt / (1 + 2*third*notBelow0(rate))
	h1 := 0.5 + min(sixth*notBelow0(rate), 0.2)

	k.pace(s.Alk+perMeq*(tan1-tan-made-through+gone), s.acid,
		notBelow0(s.O2+w1*o2-2*w2*(use-use0)*have), tan1, no21, pA, pO, pC, pN, v)

	over *= (v.a-v0.a)*eA*mA + (v.o-v0.o)*eO*mO + (v.c-v0.c)*eC*mC
	v.a, v.o = notBelow0(v.a-v.aK*over), notBelow0(v.o-v.oK*over)
	v.c, v.n = notBelow0(v.c-v.cK*over), notBelow0(v.n-v.nK*over)

	// Then with mean paces, secants and bends. What saturations lose as the
	// half-saturations move is j.
	dT, dX := tan1-tan, no21-no2
	c1A, fA, qA := secant(tan, cA, tan1, v0.kA, v0.rA)
	c1O, fO, qO := secant(tan, cO, tan1, v0.kO, v0.rO)
	c1C, fC, qC := secant0(tan, cC, tan1, v0.kC)
	c1N, fN, qN := secant0(no2, cN, no21, k.halfN)
	c1M, fM, qM := secant0(no2, cM, no21, k.halfM)
	qA, qO, qC, qN, qM = dT*dT*qA, dT*dT*qO, dT*dT*qC, dX*dX*qN, dX*dX*qM
	fP, qP := 0.0, 0.0
	jA := tan1 * c1A * c1A * (v.kA - v0.kA + tan1*tan1*(v.rA-v0.rA))
	jO := tan1 * c1O * c1O * (v.kO - v0.kO + tan1*tan1*(v.rO-v0.rO))
	jC := tan1 * c1C * c1C * (v.kC - v0.kC)
	s1A, s1O, s1C, s1N, s1M := tan1*c1A-jA, tan1*c1O-jO, tan1*c1C-jC, no21*c1N, no21*c1M
	rA, rO, rC, rN, rM := sixth*qA-0.5*jA, sixth*qO-0.5*jO, sixth*qC-0.5*jC, sixth*qN, sixth*qM // of the means
	mA, mO, mC, mN, mM = sA+fA*m+rA, sO+fO*m+rO, sC+fC*m+rC, sN+fN*mX+rN, sM+fM*mX+rM
	a1, o1, c1, n1 := dt*v.a, dt*v.o, dt*v.c, dt*v.n
	all1 := c1 * pC * s1C
	made1 := a1*pA*s1A + o1*pO*s1O + all1*v.leak
	use1 := 3.43*made1 + 4.57*all1*(1-v.leak) + 1.14*(n1*pN*s1N+c1*pC*s1M) + dt*s.demand
	dA, dO, dC, dN = a1*pA-a*bA, o1*pO-o*bO, c1*pC-c*bC, n1*pN-n*bN // how capacities change
	h0 := 1 - h1
	a, o, c, n = h0*a+h1*a1, h0*o+h1*o1, h0*c+h1*c1, h0*n+h1*n1
	yA, yO, yC, yM, yN := 0.5*(v0.yA+v.yA), 0.5*(v0.yO+v.yO), 0.5*(v0.yC+v.yC), 0.5*(v0.yM+v.yM), 0.5*(v0.yN+v.yN)
	leak := 0.5 * (v0.leak + v.leak)
	upT, upX := (dA*mA*(1+yA)+dO*mO*(1+yO))+dC*mC*(1+yC), dN*mN*(1+yN)+dC*mM*(1+yM) // and with them, uptake
	xA := dt*(k.rest[AOB]+k.live[AOB]*mA) + poison                                  // death
	xO := dt*(k.rest[AOA]+k.live[AOA]*mO) + poisonO
	xC := dt*(k.rest[CMX]+k.live[CMX]*mC) + poison
	xN := dt*(k.rest[NOB]+k.live[NOB]*mN) + poison
	zA, zO, zC, zN = a*mA*yA-xA-zA, o*mO*yO-xO-zO, c*(mC*yC+mM*yM)-xC-zC, n*mN*yN-xN-zN // what was missed
	eA, eO, eC, eN = eA*(1+0.5*zA), eO*(1+0.5*zO), eC*(1+0.5*zC), eN*(1+0.5*zN)
	xA, xO, xC, xN = xA*eA, xO*eO, xC*eC, xN*eN
	wA, wO, wC, wN = a*eA, o*eO, c*eC, n*eN

	offT, offX := rtolTAN*tan1+atolTAN, rtolNO2*no21+atolNO2
	off := 1 / (offT * offX)

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
		sP, cP, _ = saturation0(tan, kP)
		_, fP, qP = secant0(tan, cP, tan1, kP)
		qP *= dT * dT
	}
	z, us = (uA*fA+uO*fO)+(uC*fC+uP*fP), (uA*sA+uO*sO)+(uC*sC+uP*sP)
	q, j := (uA*qA+uO*qO)+(uC*qC+uP*qP), uA*jA+uO*jO+uC*jC
	p2, p3, p4 := phi234(notBelow0(z))
	m = p2*(in0-us+0.5*upT) + p3*(2*(in-in0)+(j-q)-upT) + 2*p4*q
	want := kP + notBelow0(tan+m) // what plants divide between ammonium and nitrate
	mA, mO, mC = sA+fA*m+rA, sO+fO*m+rO, sC+fC*m+rC
	mP := sP + fP*m + sixth*qP
	tan = tan + (in - us - (sixth*q - 0.5*j)) - z*m
	ok := tan >= 0 || s.TAN+in < small
	if tan < 0 {
		tan, m = chord(s.TAN, in, (uA*cA+uO*cO)+(uC*cC+uP*cP))
		mA, mO, mC, mP = cA*m, cO*m, cC*m, cP*m
	}
	oxA, oxO, oxC, taken := wA*mA, wO*mO, wC*mC, uP*mP
	made, through = oxA+oxO+oxC*leak, oxC*(1-leak)

	// Nitrite, made at a rate that is a parabola in time.
	b := 3 * (made1 + made0) // the parabola's bend is b - 6·made
	uN, uM = wN*(1+yN), wC*(1+yM)
	z, us, q = uN*fN+uM*fM, uN*sN+uM*sM, uN*qN+uM*qM
	p2, p3, p4 = phi234(z)
	p4 *= 2
	m, p3 = p2*(made0-us+0.5*upX)+p3*(made1-made0-(b+q)-upX)+p4*(b+q), 6*(p4-p3)
	no2 = (no2 - us - sixth*q - z*m) + made*(1+z*p3)
	m -= made * p3
	mN, mM = sN+fN*m+rN, sM+fM*m+rM
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
	next.Plant, next.Gone = s.Plant+taken+up, s.Gone+gone-up
	next.B[AOB], next.B[AOA], next.B[CMX], next.B[NOB] = bA, bO, bC, bN
	next.Alk = s.Alk + perMeq*(tan-s.TAN-made-through+gone) // charge for charge
	next.O2, next.Cl = o2, cl
	next.acid, next.demand = s.acid, s.demand

	if !ok || mA < 0 || mO < 0 || mC < 0 || mP < 0 || mN < 0 || mM < 0 || bA < 0 || bO < 0 || bC < 0 || bN < 0 {
		return refused
	}
	return (math.Abs(tan-tan1)*offX+math.Abs(no2-no21)*offT)*off +
		math.Abs(zA)*(1/rtolA) + (math.Abs(zO)+math.Abs(zC))*(1/rtolB) + math.Abs(zN)*(1/rtolN)
}
