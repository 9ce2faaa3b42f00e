package model

// pace is what rates depend on beside the concentrations of what is taken up;
// it changes slowly. In names, A is AOB, O is AOA, C is comammox with ammonia and
// M with nitrite, N is NOB, P is plants.
type pace struct {
	a, o, c, n         float64 // capacity per biomass, 1/d
	aK, oK, cK, nK     float64 // by how much it grows with alkalinity, 1/d per meq/L
	yA, yO, yC, yM, yN float64 // N assimilated per N oxidised
	kA, kO, kC         float64 // half-saturations with TAN, mg N/L
	rA, rO             float64 // self-inhibition by NH3, L/mg N
	leak               float64 // share of comammox's ammonia that stops at nitrite
}

// pace works out the pace in given water: alkalinity, acid as in State, oxygen,
// TAN and nitrite, with so much biomass.
func (k *kin) pace(alk, acid, o2, tan, no2, bA, bO, bC, bN float64, v *pace) {
	w := k.acidity.last()
	if !w.holds(alk, acid) {
		w = k.at(alk, acid)
	}
	k.paceIn(w, alk, o2, tan, no2, bA, bO, bC, bN, v)
}

// paceIn is pace within a stretch of alkalinity that holds it.
func (k *kin) paceIn(w *acidity, alk, o2, tan, no2, bA, bO, bC, bN float64, v *pace) {
	d := alk - w.mid
	share, scale := w.term[phiTerm].at(d), w.term[kTerm].at(d)
	nh3, hno2 := tan*share, no2*w.term[hno2Term].at(d)
	ga, go_, gc, gn := &Defaults[AOB], &Defaults[AOA], &Defaults[CMX], &Defaults[NOB]
	pA, pO, pC, pN := &w.term[growTerm+AOB], &w.term[growTerm+AOA], &w.term[growTerm+CMX], &w.term[growTerm+NOB]
	o2 *= k.film
	fA := k.vmax[AOB] * o2 / ((ga.KO2 + o2) * (1 + hno2*acids[AOB]))
	fO := k.vmax[AOA] * o2 / ((go_.KO2 + o2) * (1 + hno2*acids[AOA]))
	fC := k.vmax[CMX] * o2 / ((gc.KO2 + o2) * (1 + hno2*acids[CMX]))
	fN := k.vmax[NOB] * o2 / ((gn.KO2 + o2) * (1 + hno2*acids[NOB]))
	free := 1 / ((k.kiC + nh3) * (k.kiN + nh3))
	fC *= 0.3 + notBelow0(k.kiC*(k.kiN+nh3)*free-0.3)
	v.a, v.o, v.c, v.n = fA*notBelow0(pA.at(d)), fO*notBelow0(pO.at(d)), fC*notBelow0(pC.at(d)), fN*notBelow0(pN.at(d))
	v.aK, v.oK, v.cK, v.nK = fA*pA.slope(d), fO*pO.slope(d), fC*pC.slope(d), fN*pN.slope(d)

	// A film grows freely until it is nearly full, so room falls with the square.
	loadC := k.full[CMX] * bC
	fullA := (k.full[AOB]*bA + k.full[AOA]*bO + loadC) * k.perCap
	fullN := (k.full[NOB]*bN + loadC) * k.perCap
	roomA, roomN := notBelow0(1-fullA*fullA), notBelow0(1-fullN*fullN)
	v.yA, v.yO, v.yC = yieldN[AOB]*roomA, yieldN[AOA]*roomA, 0.5*yieldN[CMX]*roomA
	v.yM = 0.5 * yieldN[CMX] * roomN
	v.yN = yieldN[NOB] * roomN * k.kiN * (k.kiC + nh3) * free // growth alone: respiration loses little (Vadivelu et al. 2007)

	v.kA, v.kO, v.kC = ga.KTAN*scale*k.halfA, go_.KTAN*scale*k.halfA, gc.KTAN*scale
	v.rA, v.rO = share*k.rhoA, share*k.rhoO
	v.leak = tan / (tan + 10*v.kC)
}

// paceOf is the pace of a state.
func (k *kin) paceOf(s *State, v *pace) {
	k.pace(s.Alk, s.acid, s.O2, s.TAN, s.NO2, s.B[AOB], s.B[AOA], s.B[CMX], s.B[NOB], v)
}

// steeped is what of a state its pace depends on.
type steeped struct {
	alk, acid, o2, tan, no2 float64
	b                       [Guilds]float64
}

func (s *State) steeped() steeped { return steeped{s.Alk, s.acid, s.O2, s.TAN, s.NO2, s.B} }

// saturation returns s = x/(K + x + ρx²), its chord s/x and its slope.
func saturation(x, k, rho float64) (s, chord, slope float64) {
	q := rho * x * x
	c := 1 / (k + x + q)
	return x * c, c, (k - q) * c * c
}

// saturation0 is saturation without ρ.
func saturation0(x, k float64) (s, chord, slope float64) {
	c := 1 / (k + x)
	return x * c, c, k * c * c
}

// secant returns a saturation's chord at x1, its secant's slope from x0, where
// its chord is c0, to x1, and its bend: between them the saturation lies above
// its secant by bend·(x-x0)·(x1-x), up to terms of ρ² and with the mean of the
// bend at both ends.
func secant(x0, c0, x1, k, rho float64) (c1, slope, bend float64) {
	d1 := k + x1*(1+rho*x1)
	sum := k + x0*(1+rho*x0) + d1
	e := 1 / (d1 * sum)
	c1 = sum * e
	return c1, (k - rho*x0*x1) * (c0 * c1), 2 * k * (1 + 1.5*rho*(x0+x1)) * (c0 * e)
}

// secant0 is secant without ρ.
func secant0(x0, c0, x1, k float64) (c1, slope, bend float64) {
	d1 := k + x1
	sum := k + x0 + d1
	e := 1 / (d1 * sum)
	c1 = sum * e
	k *= c0
	return c1, k * c1, 2 * k * e
}

// notBelow0 is max(x, 0), but compiles to one comparison.
func notBelow0(x float64) float64 {
	if x < 0 {
		return 0
	}
	return x
}
