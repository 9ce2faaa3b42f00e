// Package testdata embeds the published figures that tests compare with. Each file
// names its sources, units, rounding and known misprints in its header; README.md
// says what each is for.
package testdata

import (
	"embed"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
)

// Published holds the files below published/ (tables) and published/timecourses/
// (measured start-ups), under those paths.
//
//go:embed published/*.csv published/timecourses/*.csv
var Published embed.FS

// Row is one line of a published table.
type Row struct {
	tb    testing.TB
	line  int
	cells map[string]string
}

// Table returns the rows of published/<name>, for example "carbonate.csv" or
// "timecourses/day2021_aquaponics_tank1.csv". Lines that start with # are skipped and
// the first other line names the columns. A file that cannot be read, or that holds
// no row, fails the test.
func Table(tb testing.TB, name string) []Row {
	tb.Helper()
	f, err := Published.Open("published/" + name)
	if err != nil {
		tb.Fatalf("published table: %v", err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	records, lines := [][]string{}, []int{}
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			tb.Fatalf("published table %s: %v", name, err)
		}
		line, _ := r.FieldPos(0)
		records, lines = append(records, record), append(lines, line)
	}
	if len(records) < 2 {
		tb.Fatalf("published table %s: no rows", name)
	}
	rows := make([]Row, 0, len(records)-1)
	for i, record := range records[1:] {
		cells := make(map[string]string, len(record))
		for j, column := range records[0] {
			cells[column] = record[j]
		}
		rows = append(rows, Row{tb: tb, line: lines[i+1], cells: cells})
	}
	return rows
}

// Line returns the row's line in its file, to be named in a failure.
func (r Row) Line() int { return r.line }

// Has reports whether the table has a column.
func (r Row) Has(column string) bool {
	_, ok := r.cells[column]
	return ok
}

// Text returns a cell. An unknown column fails the test.
func (r Row) Text(column string) string {
	r.tb.Helper()
	s, ok := r.cells[column]
	if !ok {
		r.tb.Fatalf("line %d: no column %q", r.line, column)
	}
	return s
}

// Number returns a cell that holds a number. Anything else fails the test.
func (r Row) Number(column string) float64 {
	r.tb.Helper()
	v, err := strconv.ParseFloat(r.Text(column), 64)
	if err != nil {
		r.tb.Fatalf("line %d, column %q: %v", r.line, column, err)
	}
	return v
}

// HalfUnit returns half a unit in the last place printed in a cell, which is the
// rounding a printed number carries: 0.005 for "1.10", 0.5 for "33", 5e-6 for "2.0e-4".
func (r Row) HalfUnit(column string) float64 {
	r.tb.Helper()
	r.Number(column)
	mantissa, exponent, _ := strings.Cut(strings.ToLower(r.Text(column)), "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	power, _ := strconv.Atoi(exponent)
	return 0.5 * math.Pow(10, float64(power-len(decimals)))
}
