package chem

import (
	"fmt"
	"io/fs"
	"math"
	"strings"
	"testing"

	"ripen/testdata"
)

// slack forgives binary rounding of a printed bound, nothing else.
const slack = 1e-9

// near reports got against a row's value unless they agree within tol.
func near(t *testing.T, file string, row testdata.Row, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol+slack*math.Abs(want)) {
		t.Errorf("%s:%d: %s = %.6g, published %.6g, allowed ±%.2g (source %s)",
			file, row.Line(), what, got, want, tol, row.Text("source"))
	}
}

// twoFigures rounds to two significant figures, halves away from zero, as limits are
// printed.
func twoFigures(v float64) float64 {
	scale := math.Pow(10, 1-math.Floor(math.Log10(v)))
	return math.Round(v*scale) / scale
}

// atLeast fails a table test that compared fewer rows than it claims to.
func atLeast(t *testing.T, compared, want int, what string) {
	t.Helper()
	if compared < want {
		t.Errorf("compared %d %s, want at least %d: has the table lost rows?", compared, what, want)
	}
}

// at names a water in failures.
func at(ph, temp float64) string { return fmt.Sprintf("pH %.2f, %g C", ph, temp) }

// Every published file must say where it comes from and be readable; ids are unique,
// and the days of a time course rise.
func TestPublishedTables_WellFormed(t *testing.T) {
	names, err := fs.Glob(testdata.Published, "published/*.csv")
	if err != nil {
		t.Fatal(err)
	}
	courses, err := fs.Glob(testdata.Published, "published/timecourses/*.csv")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range append(names, courses...) {
		text, err := fs.ReadFile(testdata.Published, path)
		if err != nil {
			t.Fatal(err)
		}
		if head, _, _ := strings.Cut(string(text), "\n"); !strings.HasPrefix(head, "#") {
			t.Errorf("%s: begins with %q, want a header that names its source", path, head)
		}
		seen := map[string]int{}
		before := math.Inf(-1)
		for _, row := range testdata.Table(t, strings.TrimPrefix(path, "published/")) {
			if strings.Contains(path, "/timecourses/") {
				if day := row.Number("day"); day <= before {
					t.Errorf("%s:%d: day %g after day %g", path, row.Line(), day, before)
				} else {
					before = day
				}
			} else if row.Has("id") {
				id := row.Text("id")
				if first, ok := seen[id]; ok {
					t.Errorf("%s:%d: id %q again, first at line %d", path, row.Line(), id, first)
				}
				seen[id] = row.Line()
			}
		}
	}
}
