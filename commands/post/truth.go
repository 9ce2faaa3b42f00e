package post

// elsewhere are words behind a temperature that is not the tank's.
var elsewhere = wordSet(`preset, outside, ambient, the room, room, in the house, the house, outdoors, indoors`)

// truth reports whether the amount at k does what such amounts always do: "0.5
// ppm nitrite kills fish".
func truth(ps []piece, k int) bool {
	if a := ps[k].amt; (a.under || a.over) && (a.unit == celsius || a.unit == fahrenheit) && (k == 0 || ps[k-1].sort == sStop || ps[k-1].sort == sLine) && !ends(ps, k+1) {
		return true // "Above 30 C the bacteria slow down"
	}
	if k > 1 && ps[k-1].sort == sLabel && ps[k-2].word == "at" && (k == 2 || ps[k-3].sort == sStop || ps[k-3].sort == sLine) && !ends(ps, k+1) {
		return true // "At pH 6 ammonia is harmless"
	}
	if hearsay(ps, k) {
		return true
	}
	if a := ps[k].amt; (a.under || a.over) && k+2 < len(ps) && (ps[k+1].word == "is" || ps[k+1].word == "are") {
		for j := k + 2; j < len(ps) && j < k+5; j++ { // "nitrite under 1 is harmless"
			if ps[j].cue == cueJudge || ps[j].word == "harmless" {
				return true
			}
			if ps[j].sort != sFree {
				break
			}
		}
	}
	for j := k + 1; j < len(ps) && j < k+4; j++ {
		switch ps[j].word {
		case "kills", "harms", "hurts", "stalls", "stops", "slows", "inhibits", "stresses", "damages":
			return true
		}
		if ps[j].sort != sLabel && ps[j].sort != sFree || ps[j].cue == cueIs {
			return false
		}
	}
	return false
}

// hearsay reports whether somebody told of the amount at k what to think of such:
// "the shop told me 0.5 ammonia is normal".
func hearsay(ps []piece, k int) bool {
	told := false
	for j := k - 1; j >= max(0, k-6) && !told; j-- {
		switch q := &ps[j]; {
		case q.word == "told" || q.word == "tells" || q.word == "claims" || q.word == "reckons":
			told = true
		case q.word == "my" || q.word == "mine" || q.sort == sStop || q.sort == sLine:
			return false
		}
	}
	for j := k + 1; told && j < len(ps) && j < k+6 && ps[j].sort != sStop && ps[j].sort != sLine; j++ {
		if ps[j].cue == cueJudge || ps[j].word == "normal" || ps[j].word == "harmless" {
			return true
		}
	}
	return false
}

// step reports whether the amount at k is a step of a chart told with its colour:
// "0.25 is light green".
func step(ps []piece, k int) bool {
	if k == 0 || ps[k-1].sort == sLabel || k+2 >= len(ps) || ps[k+1].word != "is" {
		return false
	}
	for j := k + 2; j < len(ps) && j < k+5; j++ {
		if colours[ps[j].word] {
			return true
		}
		if ps[j].sort != sFree {
			return false
		}
	}
	return false
}

var colours = wordSet(`yellow, green, blue, purple, orange, red, pink, violet, magenta, brown`)

// dialled reports whether the amount at k is told of a device: "78F on the heater".
func dialled(ps []piece, k int) bool {
	for j := k + 1; j < len(ps) && j < k+3; j++ {
		if u := ps[k].amt.unit; (u == celsius || u == fahrenheit) && elsewhere[ps[j].word] {
			return true
		}
	}
	if k+2 >= len(ps) || ps[k+1].word != "on" {
		return false
	}
	w := ps[k+2].word
	if w == "the" || w == "my" {
		w = ps[min(k+3, len(ps)-1)].word
	}
	return w == "heater" || w == "thermostat" || w == "dial" || w == "controller"
}
