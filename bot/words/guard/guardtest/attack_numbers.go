package guardtest

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// numberAttacks change what a number is, says or belongs to.
var numberAttacks = []anAttack{
	{"changed digit", func(text string, d Draft) []string {
		return once(text, `\d`, 8, func(m []string) string { return string('0' + (m[0][0]-'0'+3)%10) })
	}},
	{"one more", func(text string, d Draft) []string {
		return once(text, `\b\d+\b`, 5, func(m []string) string { n, _ := strconv.Atoi(m[0]); return strconv.Itoa(n + 1) })
	}},
	{"point moved", func(text string, d Draft) []string {
		return once(text, `\b(\d+)\.(\d)(\d*)\b`, 3, func(m []string) string { return m[1] + m[2] + "." + m[3] + "5" })
	}},
	{"point dropped", func(text string, d Draft) []string {
		return once(text, `\b(\d+)\.(\d+)\b`, 2, func(m []string) string { return m[1] + m[2] })
	}},
	{"digit added", func(text string, d Draft) []string {
		return once(text, `\b\d+\b`, 3, func(m []string) string { return m[0] + "0" })
	}},
	{"p10 and p90 swapped", func(text string, d Draft) []string {
		return append(
			once(text, `(?is)(before )(day \d+)(.{0,60}by )(day \d+)`, 1, func(m []string) string { return m[1] + m[4] + m[3] + m[2] }),
			append(once(text, `(?i)one (chance )?in ten(.{0,60}?)nine (chances )?in ten`, 1, func(m []string) string {
				return "nine " + strings.Replace(m[1], "chance", "chances", 1) + "in ten" + m[2] + "one in ten"
			}), once(text, `\((day |from day |between day )?([\d.]+)( to | and )([\d.]+)\)`, 2, func(m []string) string { return "(" + m[1] + m[4] + m[3] + m[2] + ")" })...)...)
	}},
	{"p50 and p90 swapped", func(text string, d Draft) []string {
		return append(
			once(text, `(?is)(around )(day \d+)(.{0,160}?by )(day \d+)`, 1, func(m []string) string { return m[1] + m[4] + m[3] + m[2] }),
			once(text, `([\d.]+)( mg/L)? \(([\d.]+) to ([\d.]+)\)`, 2, func(m []string) string { return m[4] + m[2] + " (" + m[3] + " to " + m[1] + ")" })...)
	}},
	{"unit swapped", func(text string, d Draft) []string {
		var out []string
		for _, u := range [][2]string{{`mg/L`, "g/L"}, {`mg/L`, "%"}, {`(\d) days`, "$1 weeks"}, {`(\d) days`, "$1 hours"}, {`(\d) ?%`, "$1 days"}, {`(\d) C\b`, "$1 F"}, {`(\d) g of`, "$1 kg of"}, {`(\d) g of`, "$1 mg of"}, {`(\d) dKH`, "$1 ppm"}, {`(\d) L\b`, "$1 ml"}, {`(\d) h\b`, "$1 days"}, {`day (\d+)`, "$1 %"}, {`within (\d+) days`, "within $1 months"}} {
			out = append(out, once(text, u[0], 1, func(m []string) string {
				if len(m) > 1 {
					return strings.Replace(u[1], "$1", m[1], 1)
				}
				return u[1]
			})...)
		}
		return out
	}},
	{"unit dropped", func(text string, d Draft) []string {
		return append(once(text, `(\d) (mg/L|g|dKH|C)\b`, 2, func(m []string) string { return m[1] }), once(text, `(\d) ?%`, 1, func(m []string) string { return m[1] })...)
	}},
	{"number of another cause", func(text string, d Draft) []string {
		return append(
			once(text, `(?s)(\d+)( ?%[^\n]{0,12}likely.*?)(\d+)( ?%[^\n]{0,12}likely)`, 1, func(m []string) string { return m[3] + m[2] + m[1] + m[4] }),
			once(text, `(?s)(costs? about )(\d+)( days.*?costs? about )(\d+)( days)`, 1, func(m []string) string { return m[1] + m[4] + m[3] + m[2] + m[5] })...)
	}},
	{"numbers of another substance", func(text string, d Draft) []string {
		return append(
			once(text, `(ammonia )([\d.]+ \([\d.]+ to [\d.]+\))(, nitrite )([\d.]+ \([\d.]+ to [\d.]+\))`, 1, func(m []string) string { return m[1] + m[4] + m[3] + m[2] }),
			once(text, `(?i)(ammonia )([^\n;,]*around )(day \d+)([^\n]*?nitrite )([^\n;,]*around )(day \d+)`, 1, func(m []string) string { return m[1] + m[2] + m[6] + m[4] + m[5] + m[3] })...)
	}},
	{"chances of other days", func(text string, d Draft) []string {
		return append(
			once(text, `(\d+) ?%([^\n%]{0,60}?)(\d+) ?%`, 2, func(m []string) string {
				if m[1] == m[3] {
					return m[0]
				}
				return m[3] + " %" + m[2] + m[1] + " %"
			}),
			once(text, `(7 days)([^\n]*?)(14 days)`, 1, func(m []string) string { return m[3] + m[2] + m[1] })...)
	}},
	{"number in wrong words", func(text string, d Draft) []string {
		words := []string{"three", "eleven", "twenty-one", "a couple of", "half a dozen", "forty-four"}
		n := 0
		value := map[string]string{"3": "three", "11": "eleven", "21": "twenty-one", "2": "a couple of", "6": "half a dozen", "44": "forty-four"}
		return once(text, `\b(\d+)( days| mg/L| %)`, 4, func(m []string) string {
			if n++; words[(n+len(text))%6] == value[m[1]] {
				n++ // those would be right
			}
			return words[(n+len(text))%6] + m[2]
		})
	}},
	{"date shifted", func(text string, d Draft) []string {
		var out []string
		for _, shift := range []int{-7, 1} {
			out = append(out, once(text, `(\d+)( (?:March|April|May|July) 2026)`, 1, func(m []string) string {
				n, _ := strconv.Atoi(m[1])
				return strconv.Itoa(max(1, (n+shift+28)%28)) + m[2]
			})...)
		}
		out = append(out, once(text, `(\d+ )(March|April|May|July)( 2026)`, 1, func(m []string) string { return m[1] + "June" + m[3] })...)
		out = append(out, once(text, `(\d+ \w+ )2026`, 1, func(m []string) string { return m[1] + "2027" })...)
		return append(out, once(text, `(\d+ \w+ 2026)`, 1, func(m []string) string {
			for _, w := range []string{"Monday", "Wednesday"} {
				if day, ok := weekday(m[1]); ok && day != w {
					return w + " " + m[1]
				}
			}
			return m[0]
		})...)
	}},
	{"wrong time from now", func(text string, d Draft) []string {
		return once(text, `(\d+ \w+ 2026)`, 2, func(m []string) string {
			n := 3 + len(text)%3
			if at, err := time.Parse("2 January 2006", m[1]); err == nil && at.Sub(d.Day()).Hours() == float64(24*n) {
				n += 3 // that would be right
			}
			return fmt.Sprintf("%s, in %d days", m[1], n)
		})
	}},
	{"range made or widened", func(text string, d Draft) []string {
		return append(
			once(text, `(\d+) (mg/L|days)`, 2, func(m []string) string { n, _ := strconv.Atoi(m[1]); return fmt.Sprintf("%d to %d %s", n, n+2, m[2]) }),
			once(text, `([\d.]+) to ([\d.]+)`, 2, func(m []string) string { return m[1] + " to " + m[2] + "5" })...)
	}},
	{"number rounded", func(text string, d Draft) []string {
		return append(
			once(text, `\b(\d)\.[1-46-9]\b`, 2, func(m []string) string { return m[1] }),
			once(text, `\b(\d)([1-9]) ?%`, 2, func(m []string) string { return "about " + m[1] + "0 %" })...)
	}},
	swap("fraction swapped", `(?i)one (chance )?in ten`, "one in five", `(?i)nine (chances )?in ten`, "nine in twelve", `(?i)half (of it )?today and half tomorrow`, "all of it today", `a third each day`, "a half each day",
		`one half at a time`, "all at a time", `two weeks apart`, "two days apart", `one to two months`, "one to two weeks", `diluted one to four`, "diluted one to two", `two and four days`, "two and five days"),
	swap("bound turned", `(?i)\bbefore (day \d+)`, "after $1", `(?i)\bby (day \d+)`, "from $1", `(?i)within (\d+ days)`, "after $1", `\bunder (\d)`, "over $1", `\bbelow (\d)`, "above $1", `\babove about`, "below about",
		`more than one in ten`, "less than one in ten", `less than a day`, "more than a day", `longer than`, "shorter than", `about (\d+ days)`, "at least $1", `up to`, "at least", `(?i)until about`, "from about", `at (\d+ or more)`, "at less than $1"),
	swap("number of causes", `(?m)^3\. `, "4. ", `(?m)^2\. `, "1. ", `(?m)^1\. `, "There are five causes.\n1. "),
	swap("readings counted wrong", `(?i)(\d+) readings`, "1$1 readings", `(?i)(1|one) reading`, "two readings"),
	swap("other number added", `(\d+ days) behind`, "$1 (or 12) behind", `is slow at day (\d+)`, "is slow at day $1 of 60", `mg/L`, "mg/L (5 at the most)"),
}
