package post

// notAmount are words after an amount in words that take its sense: "none of
// my fish", "nothing has died".
var notAmount = map[string]map[string]bool{
	"none":      wordSet(`of, the`),
	"nothing":   wordSet(`else, has, seems, to, happening, changed, i, is, was, happens, happened, wrong, new, special, but, works, worked, helps, helped, in, died, dies, we, about, much, really`),
	"nil":       wordSet(`stock`),
	"purple":    wordSet(`and, moss, plants`),
	"green":     wordSet(`water, algae, hair, spot, dust, and`),
	"red":       wordSet(`root, cherry, plants, algae, and`),
	"yellow":    wordSet(`leaves, water, tint, and, shrimp`),
	"orange":    wordSet(`and, shrimp`),
	"pink":      wordSet(`and`),
	"skipped":   wordSet(`a, the, water, feeding`),
	"forgot":    wordSet(`to, that, i`),
	"unknown":   wordSet(`to`),
	"a trace":   wordSet(`element, elements, mineral, minerals`),
	"trace":     wordSet(`element, elements, mineral, minerals, metals`),
	"traces":    wordSet(`elements`),
	"no idea":   wordSet(`what, why, how, if, where`),
	"dont know": wordSet(`what, why, how, if, where, whether, when`),
	"hint":      wordSet(`please`),
	"a hint":    wordSet(`please`),
	"pending":   wordSet(`order`),
	"no test":   wordSet(`is`),
}

// amountWord adds an amount in words made of the tokens [i, i+n), or a filler
// when the next word takes its sense.
func (p *parser) amountWord(i, n int, q piece) int {
	key := ""
	for j := i; j < i+n; j++ {
		if p.kindAt(j) != word {
			continue
		}
		if key != "" {
			key += " "
		}
		key += p.text(j)
	}
	next := p.text(i + n)
	switch {
	case notAmount[key][next]:
		return p.add(i, n, piece{sort: sFiller, word: key})
	case q.amt.word == colourWord && !p.colourOfTest():
		return p.add(i, n, piece{sort: sFiller, word: key})
	case q.amt.word == goneWord && key == "gone" && (next == "up" || next == "down" || next == "from" || next == "to" || next == "back" || next == "through" || next == "off"):
		return p.add(i, n, piece{sort: sFree, cue: cueChange, word: key})
	}
	q.word = key
	if q.amt.word == ditto {
		if q.amt = p.amountBefore(); q.amt == nil {
			return p.add(i, n, piece{sort: sFiller, word: key})
		}
	}
	return p.add(i, n, q)
}

// amountBefore returns the last amount of the sentence, nil if there is none.
func (p *parser) amountBefore() *amount {
	for j := len(p.out) - 1; j >= max(0, len(p.out)-8); j-- {
		switch p.out[j].sort {
		case sAmount:
			return p.out[j].amt
		case sLine, sAsk, sSemi:
			return nil
		}
	}
	return nil
}

// colourOfTest reports whether the clause so far names a test and little else.
func (p *parser) colourOfTest() bool {
	fillers := 0
	return p.clauseBack(func(q *piece) bool {
		if q.sort == sFiller {
			fillers++
		}
		return q.sort == sLabel && q.kind <= Nitrate && fillers < 2
	})
}
