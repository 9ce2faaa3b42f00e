package post

// eventAt reads "before the 40% change", "after today's water change", "after it":
// a point in time within today, told by what was done to the tank.
func (p *parser) eventAt(i int) (m mark, n int) {
	switch p.text(i) {
	case "before", "prior", "pre":
		m = mark{class: markNow, key: -0.5}
	case "after", "following", "post":
		m = mark{class: markNow, key: 0.2}
	default:
		return m, 0
	}
	j := i + 1
	if p.text(j) == "to" {
		j++
	}
	if t := p.text(j); m.key > 0 && (t == "it" || t == "that" || t == "this") && p.beforeSaid() {
		return m, j + 1 - i
	}
	for ; j < i+8; j++ {
		switch t := p.text(j); {
		case eventNoun[t]:
			if n := p.text(j + 1); t == "water" && n != "change" && n != "changes" {
				return m, 0
			} else if t == "water" {
				j++
			}
			return m, j + 1 - i
		case p.kindAt(j) == number, t == "%", t == "-", eventWord[t]:
		default:
			return m, 0
		}
	}
	return m, 0
}

// eventNoun are things done to a tank that part a before from an after.
var eventNoun = wordSet(`change, changes, wc, pwc, swap, water, dose, dosing, feeding, vacuuming, vacuum, clean, cleaning, treatment`)

// eventWord are words that stand before them.
var eventWord = wordSet(`the, a, my, our, this, that, todays, tonights, first, second, last, big, large, small, huge, emergency, partial, daily, weekly, usual, massive, percent, half, morning, mornings, evening, evenings`)
