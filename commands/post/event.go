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

// topAt reads "kit only goes to", "chart stops at", after which the top of a scale
// stands that is no reading.
func (p *parser) topAt(i int) int {
	if !scaleNoun[p.text(i)] {
		return 0
	}
	j := i + 1
	for p.text(j) == "only" || p.text(j) == "just" || p.text(j) == "i" || p.text(j) == "have" {
		j++
	}
	switch p.text(j) {
	case "goes", "go", "stops", "stop", "ends", "end", "tops", "maxes", "runs", "measures":
		j++
	default:
		return 0
	}
	for p.text(j) == "out" || p.text(j) == "up" || p.text(j) == "only" {
		j++
	}
	if b := p.text(j - 1); (b == "goes" || b == "go") && p.kindAt(j) == number && (p.text(j+1) == "," || isList(p.text(j))) { // "my kit goes 0, 0.25, 0.5"
		return p.add(i, j-i, piece{sort: sFiller, cue: cueWant, word: "chart goes to"})
	}
	if t := p.text(j); t != "to" && t != "at" {
		return 0
	}
	return p.add(i, j+1-i, piece{sort: sFiller, cue: cueWant, word: "chart goes to"})
}

var scaleNoun = wordSet(`kit, chart, card, test, scale, strip, strips, tests, meter`)

// eventNoun are things done to a tank that part a before from an after.
var eventNoun = wordSet(`change, changes, wc, pwc, swap, water, dose, dosing, feeding, vacuuming, vacuum, clean, cleaning, treatment`)

// eventWord are words that stand before them.
var eventWord = wordSet(`the, a, my, our, this, that, todays, tonights, first, second, last, big, large, small, huge, emergency, partial, daily, weekly, usual, massive, percent, half, morning, mornings, evening, evenings`)
