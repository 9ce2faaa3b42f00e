package commands

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// amount is a number as typed: a value, or the lower and upper step that a
// colour stood between, or an open top.
type amount struct {
	low, high float64 // in the base unit of its measure; equal but for ranges
	open      bool    // "5+": at least low
	under     bool    // "<0.25": from nothing to high
	measure   measure
}

// A typed amount, after normalising: number, maybe a second one, maybe a plus,
// a unit.
var amountForm = regexp.MustCompile(`^([+-]?[0-9.,]+)\s*(?:-\s*([0-9.,]+))?\s*(\+?)\s*(.*)$`)

// dashes are the minus signs and dashes that phones and word processors type.
var dashes = strings.NewReplacer("−", "-", "–", "-", "—", "-")

// readAmount reads a typed amount, whose unit must be one of f; a bare number
// is in the unit bare, nil if it needs one. Numbers are written with a point or
// a decimal comma; a comma that could group thousands is asked about.
func readAmount(option, typed string, f family, bare *measure) (amount, *Error) {
	s := plainly(strings.TrimSpace(dashes.Replace(norm.NFKC.String(typed))), f)
	s, under := belowOf(s, f)
	m := amountForm.FindStringSubmatch(s)
	if m == nil || strings.HasPrefix(m[4], "/") || strings.HasPrefix(m[4], "⁄") {
		return amount{}, notANumber(option, typed, s, f)
	}
	low, err := readNumber(option, m[1], f)
	if err != nil {
		return amount{}, err
	}
	high := low
	if m[2] != "" {
		if high, err = readNumber(option, m[2], f); err != nil {
			return amount{}, err
		}
		if high < low {
			return amount{}, refuse(CodeNumber, option, "%s %s runs backwards; write the lower step first", option, quote(typed))
		}
	}
	unitTyped, open := m[4], m[3] == "+"
	if u, plus := strings.CutSuffix(unitTyped, "+"); plus && !open {
		unitTyped, open = strings.TrimSpace(u), true // "5 ppm+"
	}
	if open && m[2] != "" {
		return amount{}, refuse(CodeNumber, option, "%s %s is a range and open at once; write 20-40 or 40+", option, quote(typed))
	}
	u := bare
	if unitTyped != "" && !isDegree(unitTyped, f) {
		u = f.find(unitTyped)
	} else if bare == nil {
		return amount{}, refuse(CodeUnit, option, "%s %s needs a unit; write it as %s", option, quote(typed), f.example)
	}
	if u == nil && f.measures[0].dim == dimConc && nitrogenUnit.MatchString(unitTyped) {
		return amount{}, refuse(CodeUnit, option, "%s %s is on the nitrogen scale; write the number alone and add scale:n", option, quote(typed))
	}
	if u == nil {
		return amount{}, refuse(CodeUnit, option, "%s %s has a unit that does not fit; write it as %s", option, quote(typed), f.example)
	}
	a := amount{low: u.to(low), high: u.to(high), open: open, under: under, measure: *u}
	if under {
		if open || m[2] != "" {
			return amount{}, refuse(CodeNumber, option, "%s %s has more than one bound; write <0.25, 20-40 or 5+", option, quote(typed))
		}
		a.low = min(0, a.high)
	}
	return a, nil
}

// nitrogenUnit is a unit on the nitrogen scale: "as N", "mg/L N", "ppm-N".
var nitrogenUnit = regexp.MustCompile(`(?i)(^|[ /-])(n|nitrogen)$`)

// isDegree says whether a typed unit leaves it to the member's own which degrees
// are meant.
func isDegree(unit string, f family) bool {
	switch strings.ToLower(unit) {
	case "°":
		return true
	case "degrees", "degree", "deg", "degs":
		return f.measures[0].dim == dimTemp
	}
	return false
}

func notANumber(option, typed, s string, f family) *Error {
	hint := ""
	switch {
	case slices.Contains([]string{"n/a", "na", "n.a.", "?", "-", "not tested", "unknown"}, strings.ToLower(s)):
		hint = "; if it was not tested, leave it out"
	case s == "":
		return refuse(CodeNumber, option, "%s has no value; write it as %s", option, f.example)
	case strings.HasPrefix(strings.ToLower(s), "off the"), strings.HasPrefix(s, ">"):
		hint = "; a chart that tops out is written with a plus, as in 5+"
	case strings.ContainsAny(s, "/⁄"):
		hint = "; a fraction is written as a decimal, as in 0.5"
	}
	return refuse(CodeNumber, option, "%s %s is not a number that can be read; write it as %s%s", option, quote(typed), f.example, hint)
}

// thousands is a comma that could group thousands: 1,250 or 12,500,000.
var thousands = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2}(,[0-9]{3})+$`)

// readNumber reads digits with a point or a decimal comma.
func readNumber(option, s string, f family) (float64, *Error) {
	if thousands.MatchString(s) {
		plain, decimal := strings.ReplaceAll(s, ",", ""), strings.Replace(s, ",", ".", 1)
		if strings.Count(s, ",") > 1 {
			return 0, refuse(CodeNumber, option, "%s %s has commas; write %s without them", option, quote(s), plain)
		}
		return 0, refuse(CodeNumber, option, "%s %s could be %s or %s; write the one that you mean without a comma", option, quote(s), plain, decimal)
	}
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(s, 64)
	if strings.Contains(s, ",") || math.IsNaN(v) || (err != nil && !math.IsInf(v, 0)) {
		return 0, refuse(CodeNumber, option, "%s %s is not a number that can be read; write it as %s", option, quote(s), f.example)
	}
	return v, nil
}
