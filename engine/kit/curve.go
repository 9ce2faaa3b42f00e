package kit

import "math"

// Curve is the log-probability of one reading over the true value, laid in cells so that
// it takes no logarithm: a fit asks for it a million times.
type Curve struct {
	floor float64
	from  int          // the first cell's index, by bits of the view
	cells [][4]float64 // cubics in the share of the cell that is passed
}

// perOctave is how many cells a doubling of the view has, as a power of two. The cubics have
// the function's values and slopes at both ends, so that for a Sigma of 0.3 or more
// and a share of slips of 0.03 they are right to about 1e-5.
const perOctave = 5

// Curve lays out the logarithm of Prob, for all values from nothing up, in hands that err: of their
// readings a share are slips, above 0 and below 1, and of these any bin comes up with a probability of chance.
func (b *Bin) Curve(slips, chance float64) *Curve {
	index := func(view float64) int { return int(math.Float64bits(view) >> (52 - perOctave)) }
	view := func(i int) float64 { return math.Float64frombits(uint64(i) << (52 - perOctave)) }
	top := b.lo
	if !math.IsInf(b.hi, 1) {
		top = b.hi
	}
	c := &Curve{floor: b.floor, from: index(b.floor)}
	last := max(index(math.Exp(top+tail*b.sigma)), c.from)
	at := func(i int) (log, slope float64) {
		x := view(i)
		hi, lo := (b.hi-math.Log(x))*b.inv, (b.lo-math.Log(x))*b.inv
		p := (1-slips)*max(phi(hi)-phi(lo), 0) + slips*chance
		return math.Log(p), (1 - slips) * (density(lo) - density(hi)) * b.inv / x / p
	}
	p0, s0 := at(c.from)
	for i := c.from; i <= last; i++ {
		p1, s1 := at(i + 1)
		h := view(i+1) - view(i)
		d0, d1, rise := h*s0, h*s1, p1-p0
		c.cells = append(c.cells, [4]float64{p0, d0, 3*rise - 2*d0 - d1, d0 + d1 - 2*rise})
		p0, s0 = p1, s1
	}
	c.cells = append(c.cells, [4]float64{p0}) // and ever after
	return c
}

// Log returns the log-probability that a true value of v mg/L is read as this
// bin, with the kit's bias, above 0, as a factor. A negative v counts as none.
func (c *Curve) Log(v, bias float64) float64 {
	const rest = 1<<(52-perOctave) - 1
	bits := math.Float64bits(max(v, 0)*bias + c.floor)
	i := min(uint(int(bits>>(52-perOctave))-c.from), uint(len(c.cells)-1))
	q, u := &c.cells[i], float64(bits&rest)*(1./(rest+1))
	return q[0] + u*(q[1]+u*(q[2]+u*q[3]))
}
