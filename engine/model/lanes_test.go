package model

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestAbreast compares runs that go side by side with the same runs alone, to the
// last bit: the solvers' tanks, among which are plants, soil, chlorine and cold, and
// tanks drawn at random, as far as a forecast goes.
func TestAbreast(t *testing.T) {
	type tank struct {
		plan *Plan
		par  *Params
	}
	var tanks []tank
	for i := range scenarios {
		plan, par := scenarios[i].build()
		tanks = append(tanks, tank{plan, par})
	}
	rng := rand.New(rand.NewPCG(21, 22))
	for range 60 {
		c, par := ordinaryCase(rng)
		if rng.IntN(3) == 0 {
			par.Unseen = Unseen{Day: 30 * rng.Float64(), Kill: rng.Float64()}
		}
		tanks = append(tanks, tank{NewPlan(c, 20), &par})
	}
	type end struct {
		State  State
		Ledger Ledger
		Steps  int
		passed passed
		course Course
	}
	run := func(r *Run, i int) (e end) {
		r.Reset(tanks[i].plan, tanks[i].par)
		if i%2 == 0 {
			r.Coarse()
		}
		e.course = r.Finish(50, nil)
		e.State, e.Ledger, e.Steps, e.passed = r.State, r.Ledger, r.Steps, r.passed
		return e
	}
	want := make([]end, len(tanks))
	for i := range tanks {
		want[i] = run(new(Run), i)
	}
	widest := wide
	defer func() { wide = widest }()
	for _, wide = range available() {
		got := make([]end, len(tanks))
		Each(len(tanks), func(on *Lane) func(int) {
			r := on.Run()
			return func(i int) { got[i] = run(r, i) }
		})
		for i := range tanks {
			if fmt.Sprint(got[i]) != fmt.Sprint(want[i]) { // where what is not a number is equal
				t.Errorf("%d lanes, tank %d: %+v, alone %+v", wide.lanes, i, got[i], want[i])
			}
		}
	}
}

// TestLanesAreOfTheStep writes the step of four anew and compares.
func TestLanesAreOfTheStep(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles")
	}
	dir := t.TempDir()
	if out, err := exec.Command("go", "run", "-tags", "generate", "./vectorise", dir).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, name := range []string{"lanes_amd64.s", "lanes_layout.go"} {
		want, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s is not what stepOn gives; run go generate in engine/model", name)
		}
	}
}
