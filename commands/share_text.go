package commands

import (
	"fmt"
	"strings"
)

// Text is the post itself, to be copied as it is.
func (r Share) Text() string {
	m := markupOf(r.As)
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s.", m.bold(fmt.Sprintf("A new tank at day %s", number(r.Day, 0))), m.plain(strings.Join(r.Setup.Facts, ", ")))
	if len(r.Setup.Assumed) > 0 {
		fmt.Fprintf(&b, "\nNot known, so the usual stands for: %s.", m.plain(strings.Join(r.Setup.Assumed, ", ")))
	}
	fmt.Fprintf(&b, "\n\n%s", m.bold(m.plain(r.readingsHead())))
	if len(r.Readings) > 0 {
		if m.pipe {
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "\n%s", m.table(r.table()))
	}
	if len(r.Events) > 0 {
		fmt.Fprintf(&b, "\n\n%s%s", m.bold("What was done"), m.list(r.events()))
	}
	fmt.Fprintf(&b, "\n\n%s%s", m.bold("Outlook"), m.list(r.Outlook))
	fmt.Fprintf(&b, "\n\n%s\n%s%s", m.bold("Verdict"), m.plain(r.Verdict), m.list(r.Causes))
	return b.String()
}

func (r Share) readingsHead() string {
	if len(r.Readings) == 0 {
		return "No readings yet"
	}
	if r.Scale == "n" {
		return "Readings, mg/L as nitrogen"
	}
	return "Readings, mg/L as NH4, NO2 and NO3"
}

// table is the readings by day, with the columns that hold anything.
func (r Share) table() (head []string, rows [][]string) {
	columns := []struct {
		head string
		of   func(ShareReading) string
	}{
		{"day", func(x ShareReading) string { return number(x.Day, 0) }},
		{"ammonia", func(x ShareReading) string { return x.Ammonia }},
		{"nitrite", func(x ShareReading) string { return x.Nitrite }},
		{"nitrate", func(x ShareReading) string { return x.Nitrate }},
		{"pH", func(x ShareReading) string { return x.PH }},
		{"KH", func(x ShareReading) string { return x.KH }},
		{"temp", func(x ShareReading) string { return x.Temp }},
		{"chlorine", func(x ShareReading) string { return x.Chlorine }},
		{"oxygen", func(x ShareReading) string { return x.Oxygen }},
	}
	rows = make([][]string, len(r.Readings))
	for _, c := range columns {
		any := false
		for _, x := range r.Readings {
			any = any || c.of(x) != ""
		}
		if !any {
			continue
		}
		head = append(head, c.head)
		for i, x := range r.Readings {
			rows[i] = append(rows[i], c.of(x))
		}
	}
	if r.LeftOut > 0 {
		gap := []string{fmt.Sprintf("(%s left out)", plural(r.LeftOut, "reading", "readings"))}
		rows = append(rows[:firstTold:firstTold], append([][]string{gap}, rows[firstTold:]...)...)
	}
	return head, rows
}

// events is what was done, a line each.
func (r Share) events() []string {
	var lines []string
	for i, e := range r.Events {
		if i == firstTold && r.EventsOut > 0 {
			lines = append(lines, fmt.Sprintf("(%s left out)", plural(r.EventsOut, "entry", "entries")))
		}
		lines = append(lines, fmt.Sprintf("day %s: %s", number(e.Day, 0), e.Words))
	}
	return lines
}
