package post

import (
	"hash/fnv"
	"strings"
)

// vesselAt reads "tank 2", "Tank B:", and at the start of a line "20g:".
func (p *parser) vesselAt(i int) (m mark, n int) {
	if m, n := p.vesselHead(i); n > 0 {
		return m, n
	}
	t := p.text(i)
	switch {
	case t == "tank":
		j := i + 1
		if p.text(j) == "#" || p.text(j) == "no" {
			j++
		}
		v, ok := p.whole(j)
		if ok && v >= 1 && v < 20 {
			if _, u := p.unitAt(j + 1); u == 0 {
				return mark{class: markVessel, key: float64(v)}, j + 1 - i
			}
		}
		if s := p.text(j); len(s) == 1 && s[0] >= 'a' && s[0] <= 'e' && (p.text(j+1) == ":" || p.text(j+1) == "-" || p.text(j+1) == "\n") {
			return mark{class: markVessel, key: float64(s[0])}, j + 1 - i
		}
		if s := p.text(j); s == "one" || s == "two" || s == "three" {
			return mark{class: markVessel, key: numerals[s]}, j + 1 - i
		}
	case t == "in" && (p.text(i+1) == "the" || p.text(i+1) == "my" || p.text(i+1) == "our") && p.kindAt(i+2) == number:
		return p.inVessel(i)
	case p.kindAt(i) == number && p.opens(i) && !ordinal[p.text(i+1)]:
		j := i + 1
		if p.text(j) == "-" {
			j++
		}
		u, k := p.unitAt(j)
		if u != measure || k == 0 {
			return m, 0
		}
		j += k
		for p.text(j) == "tank" || p.text(j) == "long" || p.text(j) == "cube" {
			j++
		}
		v, odd := readNumber(p.text(i))
		if odd == "" && (p.text(j) == ":" || p.text(j) == "\n" && p.text(j-1) == "tank" && p.opens(i)) {
			return mark{class: markVessel, key: 100000 + v}, j - i
		}
	}
	return m, 0
}

// vesselHead reads words that head a line or a sentence and name a tank:
// "Betta tank:", "New 30 gal:". Other people's tanks and waters are told
// elsewhere by their words.
func (p *parser) vesselHead(i int) (m mark, n int) {
	if before := p.text(i - 1); !p.opens(i) && before != "." && before != "!" && before != ";" {
		return m, 0
	}
	name := []string{}
	for j := i; j < i+6; j++ {
		last := ""
		if u, k := p.unitAt(j); u == measure && p.kindAt(j-1) == number && j > i && !ordinal[p.text(j)] {
			last = p.text(j)
			j += k - 1
		}
		switch t := p.text(j); {
		case t == "tank" || t == "aquarium" || t == "cube" || t == "bowl" || t == "nano" || t == "tub":
			last = t
		case last == "" && p.kindAt(j) == sign:
			return m, 0
		}
		name = append(name, p.text(j))
		if last == "" {
			continue
		}
		end := p.text(j + 1)
		if j == i || end != ":" && !(end == "-" && !p.glued(j+1)) && !(end == "\n" && p.opens(i)) {
			continue
		}
		whole := strings.Join(name, " ")
		for _, w := range append(name, whole) {
			switch c := words[w].cue; c {
			case cueTap, cuePerson, cueTheir, cueWant, cueDose:
				return m, 0
			}
		}
		h := fnv.New32a()
		h.Write([]byte(whole))
		return mark{class: markVessel, key: float64(h.Sum32())}, j + 1 - i
	}
	return m, 0
}

// inVessel reads "in the 10 gallon", and after one such "in the 20".
func (p *parser) inVessel(i int) (m mark, n int) {
	v, odd := readNumber(p.text(i + 2))
	u, k := p.unitAt(i + 3)
	if odd != "" || u != noUnit && u != measure || p.text(i+3) == "%" {
		return m, 0
	}
	if u == noUnit {
		switch p.text(i + 3) {
		case ".", ",", "\n", "!", ";", "and", "but":
		default:
			return m, 0
		}
		if !p.vessel {
			return m, 0
		}
	}
	p.vessel = true
	return mark{class: markVessel, key: 100000 + v}, 3 + k
}

// ordinal are the ends of "1st", "2nd", "3rd", "4th".
var ordinal = wordSet(`st, nd, rd, th`)
