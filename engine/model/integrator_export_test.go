package model

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the scenarios in testdata/solvers")

const solversDir = "../../testdata/solvers"

// poolNames are the state's variables as the solvers' files name them.
var poolNames = [...]string{"TAN", "NO2", "NO3", "Org", "Soil", "Plant", "Gone", "AOB", "AOA", "CMX", "NOB", "Alk", "O2", "Cl"}

// pools are the state's variables in the order of poolNames.
func (s *State) pools() [len(poolNames)]*float64 {
	return [...]*float64{&s.TAN, &s.NO2, &s.NO3, &s.Org, &s.Soil, &s.Plant, &s.Gone,
		&s.B[AOB], &s.B[AOA], &s.B[CMX], &s.B[NOB], &s.Alk, &s.O2, &s.Cl}
}

// problem is a scenario in numbers: all that another solver needs. The solvers
// know the equations, this holds every constant in them.
type problem struct {
	Name, Reason string
	Guilds       [Guilds]Guild
	NPerCOD      float64
	Params       Params
	Initial      map[string]float64 // pools that are not nil
	Sated        float64            // the ration in the end over the first
	Acid         float64            // K1·[CO2], (mol/L)²
	Demand       float64            // of oxygen by all else, mg/L/d
	Segments     []segment
	Jumps        []jump
	Days         []float64 // when to report
}

// segment holds the surroundings from a day on; see Env.
type segment struct {
	Day                                 float64
	Mu, Decay                           [Guilds]float64
	KaNH3, KaHNO2, Kw, SatO2, Kla, Film float64
	KOrg, KSoil, Cap, FedTAN, FedOrg    float64
	Plant, KCl, ClKill, Kill, Inhib     float64
	Rising                              bool
}

// jump is a sudden change. Each pool named in Of becomes the sum of its factors
// times the old pools; then Add is added. Other pools stay.
type jump struct {
	Day float64
	Of  map[string]map[string]float64
	Add map[string]float64
}

// sampleDays are 60 moments, one in each day and at all hours.
func sampleDays() (days []float64) {
	for k := range scenarioDays {
		_, f := math.Modf(float64(k) * (math.Sqrt(5) - 1) / 2)
		days = append(days, float64(k)+math.Round(1000*(0.037+0.95*f))/1000)
	}
	return days
}

// export turns a scenario into numbers.
func (x *scenario) export() problem {
	plan, par := x.build()
	r := plan.Start(par)
	out := problem{Name: x.name, Reason: x.reason, Guilds: Defaults, NPerCOD: nPerCOD, Params: *par,
		Initial: map[string]float64{}, Sated: r.k.sated, Acid: r.State.acid, Demand: r.State.demand, Days: sampleDays()}
	for i, v := range r.State.pools() {
		if *v != 0 {
			out.Initial[poolNames[i]] = *v
		}
	}
	unseen := par.Unseen.Kill > 0
	for _, st := range append(plan.stops, stop{day: scenarioDays, kind: -1}) {
		if unseen && par.Unseen.Day <= st.day {
			out.Jumps = append(out.Jumps, jumpOf(r, par.Unseen.Day, func(r *Run) { r.lose(par.Unseen.Kill) }))
			unseen = false
		}
		switch st.kind {
		case stopSegment:
			e := &plan.envs[st.i]
			r.seg = st.i
			out.Segments = append(out.Segments, segment{st.day, e.mu, e.decay, e.kaNH3, e.kaHNO2, e.kw, e.satO2, e.kla, e.film,
				e.kOrg, e.kSoil, e.cap, e.fedTAN, e.fedOrg, e.plant, e.kCl, e.clKill, e.kill, e.inhib, e.rising})
		case stopEvent:
			e := &plan.Case.Events[st.i]
			if j := jumpOf(r, st.day, func(r *Run) { r.event(e) }); len(j.Add)+len(j.Of) > 0 {
				out.Jumps = append(out.Jumps, j)
			}
		}
	}
	return out
}

// jumpOf finds what an event does by trying it: all events are affine in the
// pools, as long as gifts of bacteria come to water above pH 7.
func jumpOf(r *Run, day float64, act func(*Run)) jump {
	type vec [len(poolNames)]float64
	alk := r.State.Alk
	after := func(unit int) (v vec) {
		x := *r
		x.State = State{acid: x.State.acid, Alk: alk}
		if unit >= 0 {
			*x.State.pools()[unit]++
		}
		act(&x)
		for i, p := range x.State.pools() {
			v[i] = *p
		}
		return v
	}
	tidy := func(v float64) float64 { return math.Round(v*1e12) / 1e12 }
	out := jump{Day: day, Of: map[string]map[string]float64{}, Add: map[string]float64{}}
	base := after(-1)
	add := base
	for j, from := range poolNames {
		col := after(j)
		for i, to := range poolNames {
			a, same := tidy(col[i]-base[i]), 0.0
			if i == j {
				same = 1
			}
			if from == "Alk" {
				add[i] -= a * alk
			}
			if a != same {
				if out.Of[to] == nil {
					out.Of[to] = map[string]float64{}
				}
				out.Of[to][from] = a
			}
		}
	}
	for to, row := range out.Of { // what stays of the pool itself must be said too
		if _, ok := row[to]; !ok {
			row[to] = 1
		}
	}
	for i, v := range add {
		if v = tidy(v); v != 0 {
			out.Add[poolNames[i]] = v
		}
	}
	return out
}

// TestScenariosAreThisModel fails when the model's constants have moved away
// from what the reference solutions were made with.
func TestScenariosAreThisModel(t *testing.T) {
	for i := range scenarios {
		x := &scenarios[i]
		got := x.export().json(t)
		path := filepath.Join(solversDir, "scenarios", x.name+".json")
		if *update {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !sameNumbers(t, got, want) {
			t.Errorf("%s: the model differs from the scenario that its reference was made with; run testdata/solvers/make", x.name)
		}
	}
}

// json writes a line for each field, segment and jump.
func (p problem) json(t *testing.T) []byte {
	t.Helper()
	all, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []string{`"Reason":`, `"Guilds":`, `"NPerCOD":`, `"Params":`, `"Initial":`, `"Sated":`, `"Segments":`, `"Jumps":`, `"Days":`} {
		all = bytes.Replace(all, []byte(at), []byte("\n"+at), 1)
	}
	for _, at := range []string{`{"Name":"`, `{"Day":`} {
		all = bytes.ReplaceAll(all, []byte(at), []byte("\n "+at))
	}
	return append(bytes.TrimSpace(all), '\n')
}

// sameNumbers compares two JSON values, numbers within 1e-9.
func sameNumbers(t *testing.T, a, b []byte) bool {
	t.Helper()
	var x, y any
	for _, e := range []error{json.Unmarshal(a, &x), json.Unmarshal(b, &y)} {
		if e != nil {
			t.Fatal(e)
		}
	}
	var same func(x, y any) bool
	same = func(x, y any) bool {
		switch x := x.(type) {
		case map[string]any:
			y, ok := y.(map[string]any)
			if !ok || len(x) != len(y) {
				return false
			}
			for k := range x {
				if !same(x[k], y[k]) {
					return false
				}
			}
			return true
		case []any:
			y, ok := y.([]any)
			if !ok || len(x) != len(y) {
				return false
			}
			for i := range x {
				if !same(x[i], y[i]) {
					return false
				}
			}
			return true
		case float64:
			y, ok := y.(float64)
			return ok && math.Abs(x-y) <= 1e-9*math.Abs(x)
		}
		return x == y
	}
	return bytes.Equal(a, b) || same(x, y)
}
