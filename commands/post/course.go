package post

// course reads several values of one test told in their order, "went 0, 1, 5" or
// "0, then 1, then 5", of which the last is the newest; a is the first, of the
// tokens [i, j).
func (p *parser) course(i, j int, a amount) int {
	if a.unit != noUnit && a.unit != ppm || !p.clauseBack(func(q *piece) bool { return q.cue == cueChange }) {
		return 0
	}
	type value struct {
		a        amount
		from, to int
	}
	row := []value{{a, i, j}}
	for p.text(j) == "," && len(row) < maxList {
		k := j + 1
		for p.text(k) == "and" || p.text(k) == "then" || p.text(k) == "now" {
			k++
		}
		b, n := p.core(k, true)
		if n == 0 || !agree(a, b) || p.namesNext(k+n) || p.inCount(k+n) {
			break
		}
		row = append(row, value{b, k, k + n})
		j = k + n
	}
	if len(row) < 3 {
		return 0
	}
	for n := range row {
		v := &row[n]
		v.a.change = -1
		if n == len(row)-1 {
			v.a.change = 1
		}
		p.putAmount(v.from, v.to, v.a)
		if n < len(row)-1 {
			p.add(v.to, 1, piece{sort: sFree, cue: cueTo})
		}
	}
	return j - i
}

// inCount reports whether the number before token i counts something: "0, 1, 5 days".
func (p *parser) inCount(i int) bool {
	u, n := p.unitAt(i)
	return n > 0 && u != ppm
}
