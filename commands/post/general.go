package post

import "strings"

// general reports whether the word at k begins what is always so, hoped for or
// still to come: "bacteria like", "I hope nitrite", "I'll bring the pH".
func general(ps []piece, k int) bool {
	before, next := piece{sort: sLine}, piece{sort: sLine}
	if k > 0 {
		before = ps[k-1]
	}
	if k+1 < len(ps) {
		next = ps[k+1]
	}
	switch ps[k].word {
	case "like": // after a plural, not in "reads like 1"
		return before.sort == sFiller && before.cue == noCue && (strings.HasSuffix(before.word, "s") || before.word == "bacteria" || before.word == "fish" || before.word == "shrimp" || before.word == "most")
	case "likes", "enjoy", "enjoys":
		return true
	case "hope", "hopes", "hoping", "hoped", "pray", "praying", "wishing":
		for j := k + 1; j < len(ps) && j < k+4; j++ {
			switch ps[j].sort {
			case sLabel, sAmount:
				return true
			case sFree, sFiller:
			default:
				return false
			}
		}
	case "ill", "gonna", "going to", "about to", "well":
		return (before.cue == cueMe || ps[k].word == "ill" || ps[k].word == "gonna") && (next.sort == sFree || next.sort == sFiller) && next.word != "at"
	}
	return false
}
