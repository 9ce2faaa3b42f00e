package chem

import (
	"fmt"
	"math"
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
