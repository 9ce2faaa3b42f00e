package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// files parses the non-test files of a package.
func files(t *testing.T, p pkg) (*token.FileSet, []*ast.File) {
	t.Helper()
	set := token.NewFileSet()
	var all []*ast.File
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(set, filepath.Join(p.Dir, name), nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, f)
	}
	return set, all
}

// Each package says what it is, once.
func TestPackageComments(t *testing.T) {
	for _, p := range listed(t, "./...") {
		set, all := files(t, p)
		var at []string
		for _, f := range all {
			if f.Doc != nil {
				at = append(at, filepath.Base(set.Position(f.Pos()).Filename))
			}
		}
		if len(all) > 0 && len(at) != 1 {
			t.Errorf("%s has %d package comments %v, want one", p.ImportPath, len(at), at)
		}
	}
}

// The wall clock is read in one file, and chance that can't be repeated in none.
func TestClockAndChance(t *testing.T) {
	clock := []string{"Now", "Since", "Until"}
	seeded := []string{"New", "NewSource", "NewPCG", "NewChaCha8", "NewZipf", "Rand", "Source", "PCG", "ChaCha8", "Zipf"}
	for _, p := range listed(t, "./...") {
		if testOnly(p.ImportPath) {
			continue
		}
		set, all := files(t, p)
		for _, f := range all {
			file := filepath.Base(set.Position(f.Pos()).Filename)
			ast.Inspect(f, func(n ast.Node) bool {
				s, ok := n.(*ast.SelectorExpr)
				if !ok {
					return true
				}
				x, ok := s.X.(*ast.Ident)
				if !ok {
					return true
				}
				switch from := importedAs(f, x.Name); {
				case from == "time" && slices.Contains(clock, s.Sel.Name) && (p.ImportPath != "ripen/bot" || file != "main.go"):
					t.Errorf("%s reads the wall clock (time.%s): take the time as an argument", set.Position(n.Pos()), s.Sel.Name)
				case strings.HasPrefix(from, "math/rand") && !slices.Contains(seeded, s.Sel.Name):
					t.Errorf("%s draws from the global source (rand.%s): take a seeded source as an argument", set.Position(n.Pos()), s.Sel.Name)
				}
				return true
			})
		}
	}
}

// importedAs returns the import path that f knows as name, "" if none.
func importedAs(f *ast.File, name string) string {
	for _, i := range f.Imports {
		path, _ := strconv.Unquote(i.Path.Value)
		as := strings.TrimSuffix(path, "/v2")
		as = as[strings.LastIndex(as, "/")+1:]
		if i.Name != nil {
			as = i.Name.Name
		}
		if as == name {
			return path
		}
	}
	return ""
}

// No file speaks of the machine that it was written on.
func TestNoMachinePaths(t *testing.T) {
	banned := []string{"/" + "work/", "/" + "root/", "shared" + "/", "proxy.golang" + ".org", "registry.npmjs" + ".org", "deb.debian" + ".org"}
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if d.Name() == ".git" {
				return fs.SkipDir
			}
			return nil
		}
		if !d.Type().IsRegular() || filepath.Base(path) == "go.sum" {
			return nil
		}
		b, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if strings.Contains(string(b), "\x00") {
			return nil // a built program or a picture
		}
		for _, word := range banned {
			if i := strings.Index(string(b), word); i >= 0 {
				t.Errorf("%s, line %d holds %q", path, 1+strings.Count(string(b[:i]), "\n"), word)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
