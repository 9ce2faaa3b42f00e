package guard

import (
	"regexp"
	"strconv"
	"strings"
	"time"
)

// unit is the kind of a quantity and how many of it one is.
type unit struct {
	kind string
	of   float64
}

// units are the units of quantities.
var units = map[string]unit{
	"mg/l": {"mg/l", 1}, "ppm": {"mg/l", 1}, "%": {"%", 1}, "c": {"c", 1}, "celsius": {"c", 1}, "f": {"f", 1}, "fahrenheit": {"f", 1}, "dkh": {"dkh", 1}, "g": {"g", 1}, "gram": {"g", 1}, "grams": {"g", 1},
	"mg": {"mg", 1}, "kg": {"kg", 1}, "l": {"l", 1}, "litre": {"l", 1}, "litres": {"l", 1}, "liter": {"l", 1}, "liters": {"l", 1}, "ml": {"ml", 1}, "g/kg": {"g/kg", 1}, "meq/l": {"meq/l", 1},
	"day": {"days", 1}, "days": {"days", 1}, "week": {"days", 7}, "weeks": {"days", 7}, "fortnight": {"days", 14}, "month": {"months", 1}, "months": {"months", 1},
	"h": {"hours", 1}, "hour": {"hours", 1}, "hours": {"hours", 1}, "minute": {"minutes", 1}, "minutes": {"minutes", 1},
	"gal": {"gal", 1}, "gallon": {"gal", 1}, "gallons": {"gal", 1}, "ppt": {"g/kg", 1}, "degrees": {"c", 1}, "oz": {"oz", 1}, "ounce": {"oz", 1}, "ounces": {"oz", 1}, "mg-calcium": {"caco3", 1},
}

var numberWords = map[string]float64{
	"zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
	"thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30,
	"forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100,
}

// number reads a number in digits or words at the head of raw: how many tokens it takes,
// its value and its decimals.
func number(raw []string) (n int, value float64, decimals int, ok bool) {
	if len(raw) == 0 {
		return 0, 0, 0, false
	}
	w := raw[0]
	if w[0] >= '0' && w[0] <= '9' {
		whole, part, _ := strings.Cut(w, ".")
		if i := strings.LastIndexByte(w, ','); i >= 0 {
			if len(w)-i-1 == 3 && w[0] != '0' { // thousands
				w = strings.ReplaceAll(w, ",", "")
				whole, part, _ = strings.Cut(w, ".")
			} else { // a decimal comma
				whole, part = w[:i], w[i+1:]
			}
		}
		if len(whole) > 1 && whole[0] == '0' {
			return 0, 0, 0, false
		}
		v, err := strconv.ParseFloat(strings.TrimSuffix(whole+"."+part, "."), 64)
		return 1, v, len(part), err == nil
	}
	tens, ones, two := strings.Cut(w, "-")
	v, known := numberWords[tens]
	switch {
	case !known:
		return 0, 0, 0, false
	case two:
		o, known := numberWords[ones]
		return 1, v + o, 0, known && v >= 20 && v < 100 && o >= 1 && o <= 9
	case v >= 20 && v < 100 && len(raw) > 1 && numberWords[raw[1]] >= 1 && numberWords[raw[1]] <= 9:
		return 2, v + numberWords[raw[1]], 0, true
	case len(raw) > 1 && raw[1] == "hundred" && v >= 1 && v <= 9:
		return 2, 100 * v, 0, true
	}
	return 1, v, 0, true
}

func at(raw []string, i int) string {
	if i < len(raw) {
		return raw[i]
	}
	return ""
}

func printed(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// quantity reads a quantity at the head of raw: how many tokens it takes, and what it is.
func quantity(raw []string) (n int, t token, ok bool) {
	if n, t, ok = date(raw); ok {
		return n, t, true
	}
	if n, t, ok = dayNumber(raw); ok {
		return n, t, true
	}
	if n, t, ok = inTen(raw); ok {
		return n, t, true
	}
	if raw[0] == "a" || raw[0] == "an" {
		if at(raw, 1) == "couple" && at(raw, 2) == "of" {
			if u, ok := units[at(raw, 3)]; ok {
				return 4, measured(2, 2, false, [2]int{}, u), true
			}
		}
		if u, ok := units[at(raw, 1)]; ok && len(at(raw, 1)) > 1 && u.kind != "%" {
			return 2, measured(1, 1, false, [2]int{}, u), true
		}
		return 0, t, false
	}
	n, low, printedWith, ok := number(raw)
	if !ok {
		return 0, t, false
	}
	decimals := [2]int{printedWith}
	if raw[0] == "one" && strengthOf(at(raw, 1)) > wordy { // "a slow one."
		return 0, t, false
	}
	high, isRange := low, false
	if to := at(raw, n); to == "to" || to == "-" {
		if more, h, d, ok := number(raw[n+1:]); ok {
			n, high, decimals[1], isRange = n+1+more, h, d, true
		}
	}
	if u, ok := units[at(raw, n)]; ok {
		return n + 1, measured(low, high, isRange, decimals, u), true
	}
	if u, ok := units[at(raw, n+1)]; ok && at(raw, n) == ")" && isRange && u.kind == "mg/l" { // (2.5 to 26) mg/L
		return n + 2, measured(low, high, isRange, decimals, u), true
	}
	return n, measured(low, high, isRange, decimals, unit{of: 1}), true
}

func isNumber(raw []string) bool { _, _, _, ok := number(raw); return ok }

func measured(low, high float64, isRange bool, decimals [2]int, u unit) token {
	if u.kind == "hours" && low == 24 && !isRange {
		low, high, u = 1, 1, unit{"days", 1}
	}
	name := u.kind
	if name == "" {
		name = "number"
	}
	key := name + ":" + printed(low*u.of)
	if isRange {
		key += ".." + printed(high*u.of)
	}
	return token{key: key, kind: u.kind, value: [2]float64{low, high}, of: u.of, ranged: isRange, decimals: decimals}
}

// dayNumber reads "day 14" or "day 14 to 26".
func dayNumber(raw []string) (n int, t token, ok bool) {
	if raw[0] != "day" {
		return 0, t, false
	}
	one, low, printedWith, ok := number(raw[1:])
	if !ok || units[at(raw, 1+one)].kind == "%" {
		return 0, t, false
	}
	n = 1 + one
	decimals := [2]int{printedWith}
	key := "day:" + printed(low)
	if at(raw, n) == "to" || at(raw, n) == "-" && isNumber(raw[n+1:]) {
		skip := n + 1
		if at(raw, skip) == "day" {
			skip++
		}
		if more, high, d, ok := number(raw[min(skip, len(raw)):]); ok {
			decimals[1] = d
			return skip + more, token{key: key + ".." + printed(high), kind: "day", decimals: decimals}, true
		}
	}
	return n, token{key: key, kind: "day", decimals: decimals}, true
}

// inTen reads "one chance in ten", "nine in ten", "1 in 10", "nine cases out of ten".
func inTen(raw []string) (n int, t token, ok bool) {
	n, part, d, ok := number(raw)
	if !ok || d > 0 {
		return 0, t, false
	}
	switch at(raw, n) {
	case "chance", "chances", "time", "times", "case", "cases":
		n++
	}
	if at(raw, n) == "out" && at(raw, n+1) == "of" {
		n += 2
	} else if at(raw, n) == "in" {
		n++
	} else {
		return 0, t, false
	}
	more, whole, _, ok := number(raw[min(n, len(raw)):])
	if !ok || whole != 10 && whole != 100 || part > whole {
		return 0, t, false
	}
	if _, unit := units[at(raw, n+more)]; unit {
		return 0, t, false
	}
	return n + more, token{key: "%:" + printed(100*part/whole), kind: "%"}, true
}

var months = map[string]int{
	"january": 1, "february": 2, "march": 3, "april": 4, "may": 5, "june": 6, "july": 7, "august": 8, "september": 9, "october": 10, "november": 11, "december": 12,
	"jan": 1, "feb": 2, "mar": 3, "apr": 4, "jun": 6, "jul": 7, "aug": 8, "sep": 9, "oct": 10, "nov": 11, "dec": 12,
}

var weekdays = map[string]time.Weekday{
	"sunday": 0, "monday": 1, "tuesday": 2, "wednesday": 3, "thursday": 4, "friday": 5, "saturday": 6,
}

var wholeNumber = regexp.MustCompile(`^\d{1,4}$`)

// date reads "31 March 2026", "31 March", "March 31, 2026", and weekdays.
func date(raw []string) (n int, t token, ok bool) {
	if day, ok := weekdays[raw[0]]; ok {
		return 1, token{key: "weekday:" + day.String(), kind: "weekday"}, true
	}
	var day, month int
	switch {
	case wholeNumber.MatchString(raw[0]) && months[ordinal(raw, 1)] > 0:
		day, _ = strconv.Atoi(raw[0])
		for n = 1; months[raw[n]] == 0; n++ { // 31 st of March
		}
		month = months[raw[n]]
		n++
	case months[raw[0]] > 0 && wholeNumber.MatchString(at(raw, 1)):
		day, _ = strconv.Atoi(raw[1])
		n, month = 2, months[raw[0]]
		switch at(raw, n) {
		case "st", "nd", "rd", "th":
			n++
		}
	default:
		return 0, t, false
	}
	if day < 1 || day > 31 {
		return 0, t, false
	}
	year := ""
	next := n
	if at(raw, next) == "," {
		next++
	}
	if len(at(raw, next)) == 4 && wholeNumber.MatchString(at(raw, next)) {
		year, n = at(raw, next), next+1
	}
	t = token{key: "date:" + strconv.Itoa(month) + "-" + strconv.Itoa(day) + "-" + year, kind: "date"}
	return n, t, true
}

// ordinal returns the token at i, past what makes an ordinal of a number before it.
func ordinal(raw []string, i int) string {
	switch at(raw, i) {
	case "st", "nd", "rd", "th", "of":
		return ordinal(raw, i+1)
	}
	return at(raw, i)
}
