package main

import (
	"go/ast"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Whatever package of the engine exports says what it is: in a comment of its own, or
// in that of its group. A function's comment begins with its name.
func TestEngineDocumented(t *testing.T) {
	for _, p := range listed(t, "./engine/...") {
		set, all := files(t, p)
		missing := func(at token.Pos, name string) {
			t.Errorf("%s: %s has no comment that says what it is, its unit and its range", set.Position(at), name)
		}
		for _, f := range all {
			for _, d := range f.Decls {
				switch d := d.(type) {
				case *ast.FuncDecl:
					if d.Name.IsExported() && received(d) && !strings.HasPrefix(d.Doc.Text(), d.Name.Name+" ") {
						missing(d.Pos(), d.Name.Name)
					}
				case *ast.GenDecl:
					for _, s := range d.Specs {
						undocumented(d, s, missing)
					}
				}
			}
		}
	}
}

// received says whether a function has no receiver or an exported one.
func received(d *ast.FuncDecl) bool {
	if d.Recv == nil {
		return true
	}
	x := d.Recv.List[0].Type
	if star, ok := x.(*ast.StarExpr); ok {
		x = star.X
	}
	if generic, ok := x.(*ast.IndexExpr); ok {
		x = generic.X
	}
	name, ok := x.(*ast.Ident)
	return ok && name.IsExported()
}

// undocumented reports the exported names of a declaration that say nothing.
func undocumented(d *ast.GenDecl, s ast.Spec, missing func(token.Pos, string)) {
	switch s := s.(type) {
	case *ast.TypeSpec:
		if s.Name.IsExported() && d.Doc.Text()+s.Doc.Text() == "" {
			missing(s.Pos(), s.Name.Name)
		}
	case *ast.ValueSpec:
		for _, n := range s.Names {
			if n.IsExported() && d.Doc.Text()+s.Doc.Text()+s.Comment.Text() == "" {
				missing(n.Pos(), n.Name)
			}
		}
	}
}

// row is a line of the table in the engine's package comment.
var row = regexp.MustCompile(`^\t(\S.*?) {2,}(\S.*?) {2,}(\S+\.go) +((\w+)\.)?(Test\w+)$`)

// The engine's table of topic, source, place and check is true: the place is there,
// and the check is a test of its package, or of the one that is named with it.
func TestEngineTable(t *testing.T) {
	listing := listed(t, "./engine")
	_, all := files(t, listing[0])
	_, table, ok := strings.Cut(all[0].Doc.Text(), "# Topic, source, place, check\n")
	if !ok {
		t.Fatal("engine/doc.go has no table of topic, source, place, check")
	}
	table, _, _ = strings.Cut(table, "\n# ")
	rows := 0
	for l := range strings.Lines(table) {
		l = strings.TrimRight(l, "\n")
		if !strings.HasPrefix(l, "\t") || strings.HasPrefix(l, "\ttopic ") {
			continue
		}
		m := row.FindStringSubmatch(l)
		if m == nil {
			t.Errorf("not a row of four columns: %q", l)
			continue
		}
		rows++
		place := filepath.Join("../engine", m[3])
		if _, err := os.Stat(place); err != nil {
			t.Errorf("%s: %s is not there", m[1], m[3])
			continue
		}
		dir := filepath.Dir(m[3])
		if m[5] != "" {
			dir = m[5]
		}
		if !tested(t, filepath.Join("../engine", dir), m[6]) {
			t.Errorf("%s: %s is no test of %s", m[1], m[6], dir)
		}
	}
	if rows < 25 {
		t.Errorf("the table has %d rows, want one a topic", rows)
	}
}

// The engine's chapters are its packages.
func TestEngineChapters(t *testing.T) {
	packages := listed(t, "./engine/...")
	_, all := files(t, packages[0])
	_, chapters, _ := strings.Cut(all[0].Doc.Text(), "# Chapters\n")
	chapters, _, _ = strings.Cut(chapters, "\n# ")
	for _, p := range packages[1:] {
		name := strings.TrimPrefix(p.ImportPath, "ripen/engine/")
		if !regexp.MustCompile(`(?m)^\t *\d+  ` + name + ` `).MatchString(chapters) {
			t.Errorf("engine/doc.go has no chapter %s", name)
		}
	}
	if n := strings.Count(chapters, "\n\t"); n != len(packages)-1 {
		t.Errorf("engine/doc.go has %d chapters for %d packages", n, len(packages)-1)
	}
}

// tested says whether a folder has a test of that name.
func tested(t *testing.T, dir, name string) bool {
	t.Helper()
	tests, err := filepath.Glob(filepath.Join(dir, "*_test.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range tests {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(b), "\nfunc "+name+"(") {
			return true
		}
	}
	return false
}
