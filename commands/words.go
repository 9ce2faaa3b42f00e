package commands

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// number prints x with at most so many decimals and no zeros behind.
func number(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// rounded returns x to so many decimals, as it is printed.
func rounded(x float64, decimals int) float64 {
	k := math.Pow10(decimals)
	return math.Round(x*k) / k
}

// unitText is how a unit follows a number.
func unitText(u string) string {
	switch u {
	case "", "pH":
		return ""
	case "C", "F":
		return " °" + u
	case "ppm":
		return " ppm as CaCO3"
	case "meq":
		return " meq/L"
	}
	return " " + u
}

// quote shows what a member typed, cut short if it is long.
func quote(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) > most {
		s = string([]rune(s)[:most]) + "..."
	}
	return "\"" + s + "\""
}

// list joins words as in "a, b and c".
func list(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + last + " " + words[len(words)-1]
}

// nearest returns the candidates that typed could be a slip of, closest first,
// at most three.
func nearest(typed string, candidates []string) []string {
	typed = strings.ToLower(typed)
	if utf8.RuneCountInString(typed) > maxName {
		return nil
	}
	type match struct {
		name string
		far  int
	}
	var near []match
	for _, c := range candidates {
		name := strings.ToLower(c)
		far := levenshtein.ComputeDistance(typed, name)
		within := max(1, utf8.RuneCountInString(c)/3)
		if len(typed) >= 3 && strings.Contains(name, typed) || letters(typed) == letters(name) {
			far = min(far, within)
		}
		if far <= within {
			near = append(near, match{c, far})
		}
	}
	slices.SortStableFunc(near, func(a, b match) int { return cmp.Compare(a.far, b.far) })
	var names []string
	for _, m := range near[:min(3, len(near))] {
		names = append(names, m.name)
	}
	return names
}

// letters sorts the letters of a word, so that swapped ones do not matter.
func letters(s string) string {
	r := []rune(s)
	slices.Sort(r)
	return string(r)
}

// didYouMean is " (did you mean x or y?)" or nothing.
func didYouMean(typed string, candidates []string) string {
	near := nearest(typed, candidates)
	if len(near) == 0 {
		return ""
	}
	return " (did you mean " + list(near, "or") + "?)"
}

// day prints a date as in "14 March 2026".
func day(t time.Time) string { return t.UTC().Format("2 January 2006") }

// minute prints a moment as it can be typed, as in "2026-03-14 09:00 UTC".
func minute(t time.Time) string { return t.UTC().Format("2006-01-02 15:04 UTC") }

// plural is "1 day" or "3 days".
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
