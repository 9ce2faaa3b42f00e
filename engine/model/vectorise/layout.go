//go:build generate

package main

import (
	"fmt"
	"go/types"
	"io"
	"log"
	"maps"
	"slices"
	"strings"
)

// wide is the size of one number of each lane.
const wide = lanes * 8

const lanes = 8

// layout is where everything lies in lanes.
type layout struct {
	stride, passed, state, pace []string // fields, such as "B[1]"
	kin, cell                   []string // paths of what is read of kin and of acidity
	fixed                       []string // and of the package
	hold                        int      // how many fours are put aside at most
}

// fields lists the numbers of a struct.
func (s *source) fields(name string) (out []string) {
	st := s.pkg.Scope().Lookup(name).Type().Underlying().(*types.Struct)
	for f := range st.Fields() {
		if a, ok := f.Type().Underlying().(*types.Array); ok {
			for i := range a.Len() {
				out = append(out, fmt.Sprintf("%s[%d]", f.Name(), i))
			}
			continue
		}
		out = append(out, f.Name())
	}
	return out
}

// layOut collects what the programs read.
func layOut(s *source, all []*program) *layout {
	l := &layout{stride: s.fields("stride"), passed: s.fields("passed"), state: s.fields("State"), pace: s.fields("pace")}
	kin, cell, fixed := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, p := range all {
		for _, n := range p.nodes {
			if n.op != "in" {
				continue
			}
			switch root, _, _ := strings.Cut(n.path, "."); root {
			case "x", "m", "s", "v0", "next", "v":
			case "w":
				cell[n.path] = true
			case "k":
				kin[n.path] = true
			default:
				fixed[n.path] = true
			}
		}
	}
	l.kin, l.cell, l.fixed = slices.Sorted(maps.Keys(kin)), slices.Sorted(maps.Keys(cell)), slices.Sorted(maps.Keys(fixed))
	return l
}

// offset is where a path lies, in bytes.
func (l *layout) offset(path string) int {
	at := 0
	find := func(list []string, name string) int {
		i := slices.Index(list, name)
		if i < 0 {
			log.Fatalf("no place for %s", path)
		}
		return (at + i) * wide
	}
	root, name, _ := strings.Cut(path, ".")
	if i := slices.Index([]string{"alk", "took", "crossed"}, path); i >= 0 {
		return i * wide
	}
	at = 3
	for _, part := range []struct {
		root string
		list []string
	}{{"x", l.stride}, {"m", l.passed}} {
		if root == part.root {
			return find(part.list, name)
		}
		at += len(part.list)
	}
	for _, part := range []string{"s", "next"} {
		if root == part {
			return find(l.state, name)
		}
		at += len(l.state)
	}
	for _, part := range []string{"v0", "v"} {
		if root == part {
			return find(l.pace, name)
		}
		at += len(l.pace)
	}
	if root == "k" {
		return find(l.kin, path)
	}
	at += len(l.kin)
	if root == "w" {
		return find(l.cell, path)
	}
	at += len(l.cell)
	if root == "hold" {
		var i int
		fmt.Sscan(name, &i)
		return (at + len(l.fixed) + i) * wide
	}
	return find(l.fixed, path)
}

// emitCommit writes the function that takes over the ends of accepted steps.
func (l *layout) emitCommit(w io.Writer, s *set) {
	s.begin(w, "commit", false)
	fmt.Fprintf(w, "\tVMOVUPD %d(AX), %s0\n", l.offset("took"), s.reg)
	if s.mask {
		fmt.Fprint(w, "\tVPMOVQ2M Z0, K1\n")
	}
	n := 1
	move := func(to, from string) {
		if s.mask {
			fmt.Fprintf(w, "\tVMOVUPD %d(AX), Z%d\n\tVMOVUPD Z%d, K1, %d(AX)\n", l.offset(from), n, n, l.offset(to))
		} else {
			fmt.Fprintf(w, "\tVMOVUPD %d(AX), Y%d\n\tVBLENDVPD Y0, %d(AX), Y%d, Y%d\n\tVMOVUPD Y%d, %d(AX)\n", l.offset(to), n, l.offset(from), n, n, n, l.offset(to))
		}
		n = n%(s.regs-1) + 1
	}
	for _, f := range l.state {
		if f != "acid" && f != "demand" { // which no step changes
			move("s."+f, "next."+f)
		}
	}
	for _, f := range l.pace {
		move("v0."+f, "v."+f)
	}
	fmt.Fprint(w, "\tVZEROUPPER\n\tRET\n")
}

// glue is the Go file beside the assembly.
func (l *layout) glue() []byte {
	var b strings.Builder
	fmt.Fprintf(&b, `%spackage model

// lanes are the numbers of eight runs side by side. s and v0 are where a step
// starts, next and v where it ends, w is the stretch of alkalinity there.
type lanes struct {
	alk each
	took, crossed [%d]uint64 // all bits set where that is true; see stepOn
	x [%d]each
	m [%d]each
	s, next [%d]each
	v0, v [%d]each
	k [%d]each
	w [%d]each
	fixed [%d]each // constants of the guilds
	hold [%d]each
}

type each [%d]float64

`, header, lanes, len(l.stride), len(l.passed), len(l.state), len(l.pace), len(l.kin), len(l.cell), len(l.fixed), l.hold, lanes)
	copies := func(name, args, each string, list []string, column, path string) {
		fmt.Fprintf(&b, "func (l *lanes) %s(i int, %s) {\n\ti &= %d\n", name, args, lanes-1)
		for i, f := range list {
			fmt.Fprintf(&b, "\t"+each+"\n", fmt.Sprintf("l.%s[%d][i]", column, i), path+f)
		}
		fmt.Fprint(&b, "}\n\n")
	}
	copies("putStride", "x *stride", "%s = %s", l.stride, "x", "x.")
	copies("getStride", "x *stride", "%[2]s = %[1]s", l.stride, "x", "x.")
	copies("putPassed", "m *passed", "%s = %s", l.passed, "m", "m.")
	copies("getPassed", "m *passed", "%[2]s = %[1]s", l.passed, "m", "m.")
	copies("putState", "s *State", "%s = %s", l.state, "s", "s.")
	copies("getState", "s *State", "%[2]s = %[1]s", l.state, "s", "s.")
	copies("putPace", "v *pace", "%s = %s", l.pace, "v0", "v.")
	copies("getPace", "v *pace", "%[2]s = %[1]s", l.pace, "v0", "v.")
	copies("putKin", "k *kin", "%s = %s", l.kin, "k", "")
	copies("putCell", "w *acidity", "%s = %s", l.cell, "w", "")
	fmt.Fprint(&b, "func (l *lanes) putFixed() {\n\tfor i := range l.alk {\n")
	for i, f := range l.fixed {
		fmt.Fprintf(&b, "\t\tl.fixed[%d][i] = %s\n", i, f)
	}
	fmt.Fprint(&b, "\t}\n}\n\n")
	fmt.Fprint(&b, "// Columns that are looked at one by one.\nconst (\n")
	for _, f := range []string{"at", "to"} {
		fmt.Fprintf(&b, "\tlane%s = %d\n", strings.ToUpper(f[:1])+f[1:], slices.Index(l.stride, f))
	}
	for _, f := range []string{"TAN", "NO2", "acid"} {
		fmt.Fprintf(&b, "\tlane%s = %d\n", strings.ToUpper(f[:1])+f[1:], slices.Index(l.state, f))
	}
	fmt.Fprint(&b, ")\n")
	return []byte(b.String())
}
