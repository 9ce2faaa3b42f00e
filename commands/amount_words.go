package commands

import (
	"regexp"
	"slices"
	"strings"
)

// What people write around a number: "about 25", "20 to 40", "5 or more", "half".

var (
	aboutHead  = regexp.MustCompile(`^(?:~|≈|about|around|approx\.?|approximately|roughly|ca\.?|circa)\s*`)
	toRange    = regexp.MustCompile(`^([0-9.,]+)\s*([^0-9\s~-]*)\s*(?:-|to|~)\s*([0-9.,]+)\s*(.*)$`)
	betweenTwo = regexp.MustCompile(`^between\s+(\S+.*?)\s+and\s+`)
	orMore     = regexp.MustCompile(`\s*(?:or|and) (?:more|higher|above|over|up)$`)
	below      = regexp.MustCompile(`^(?:<=?|≤|less than|lower than|under|below|at most|no more than)\s*`)
	orLess     = regexp.MustCompile(`\s*(?:or|and) (?:less|lower|below|under)$`)
)

// noneWords are zero on a chart.
var noneWords = []string{"zero", "none", "nil", "undetectable", "not detectable", "none detected", "nd", "n.d."}

// shareWords are parts of a whole, in percent.
var shareWords = map[string]string{
	"half": "50", "a half": "50", "1/2": "50", "quarter": "25", "a quarter": "25", "1/4": "25", "three quarters": "75", "3/4": "75",
	"third": "33.333", "a third": "33.333", "one third": "33.333", "1/3": "33.333", "two thirds": "66.667", "2/3": "66.667", "all": "100",
}

// plainly writes a typed amount as a number with its unit, as far as the family
// has such words; what it does not know stays.
func plainly(s string, f family) string {
	low := strings.ToLower(s)
	if head := aboutHead.FindString(low); head != "" {
		s, low = s[len(head):], low[len(head):]
	}
	switch f.measures[0].dim {
	case dimConc:
		if slices.Contains(noneWords, low) {
			return "0"
		}
	case dimShare:
		if share, ok := shareWords[strings.ReplaceAll(low, "⁄", "/")]; ok {
			return share + "%"
		}
	case dimPlain:
		if f.find("ph") != nil && strings.HasPrefix(low, "ph") {
			return strings.TrimLeft(s[2:], " :=")
		}
	}
	low = betweenTwo.ReplaceAllString(low, "$1-")
	if f.measures[0].dim == dimConc {
		low = strings.Replace(low, "..", "-", 1)
	}
	if m := toRange.FindStringSubmatch(low); m != nil && (m[2] == "" || m[2] == m[4]) {
		return m[1] + "-" + m[3] + " " + m[4]
	}
	if tail := orMore.FindString(low); tail != "" {
		return s[:len(s)-len(tail)] + "+"
	}
	return s
}

// belowOf cuts the words that set no more than an upper bound off a concentration.
func belowOf(s string, f family) (rest string, under bool) {
	if f.measures[0].dim != dimConc {
		return s, false
	}
	low := strings.ToLower(s)
	if head := below.FindString(low); head != "" {
		return s[len(head):], true
	}
	if tail := orLess.FindString(low); tail != "" {
		return s[:len(s)-len(tail)], true
	}
	return s, false
}

// firstSteps are the highest values that usual charts have as their first step above
// zero, as in posts: a test that shows less shows none. Common practice, no source.
var firstSteps = map[string]float64{"ammonia": 0.5, "nitrite": 0.5, "nitrate": 12.5}
