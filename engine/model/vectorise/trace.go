//go:build generate

package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"log"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// source is the type-checked package.
type source struct {
	fset  *token.FileSet
	info  *types.Info
	pkg   *types.Package
	funcs map[types.Object]*ast.FuncDecl
	root  *ast.FuncDecl // stepOn
}

// load reads the package in a directory, without its tests and what is generated.
func load(dir string) *source {
	s := &source{fset: token.NewFileSet(), funcs: map[types.Object]*ast.FuncDecl{},
		info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}}}
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		log.Fatal(err)
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") || strings.HasPrefix(filepath.Base(name), "lanes") {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			log.Fatal(err)
		}
		f, err := parser.ParseFile(s.fset, name, text, parser.SkipObjectResolution)
		if err != nil {
			log.Fatal(err)
		}
		files = append(files, f)
	}
	conf := types.Config{Importer: importer.ForCompiler(s.fset, "source", nil), Error: func(error) {}}
	s.pkg, _ = conf.Check("ripen/engine/model", s.fset, files, s.info) // lanes.go is missing to it, which is of no matter
	for _, file := range files {
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok {
				s.funcs[s.info.Defs[f.Name]] = f
				if f.Name.Name == "stepOn" {
					s.root = f
				}
			}
		}
	}
	return s
}

// node is one operation on four numbers.
type node struct {
	op   string // of ops, "in" for what is read from memory, "const"
	args []*node
	path string  // of "in"
	val  float64 // of "const"
	id   int
}

// variant is stepOn under the assumption that some inputs are nil in all lanes.
type variant struct {
	name string
	zero []string
}

// program is stepOn, traced. What lies before the pace at the step's end is worked out, which
// needs the stretch of alkalinity to be looked up first, is its first stage.
type program struct {
	variant
	nodes  []*node
	first  []output // of the first stage
	held   *node    // which lanes' stretch holds their alkalinity; the first stage returns it
	second []output
	goesOn *node // which lanes are not there yet, and crossed nothing; the second stage returns it
	known  map[string]*node
}

// output is a value and where it goes.
type output struct {
	path string
	node *node
}

// value is what an expression stands for: a number, or the path of what can be selected from.
type value struct {
	node *node
	ref  string
}

// frame is one function being traced.
type frame struct {
	*source
	p    *program
	vars map[types.Object]value
	mem  map[string]*node // what was assigned, by path
	done []value          // returned
	exit []exit           // returned early
}

type exit struct {
	cond   *node
	values []value
}

// trace runs stepOn on symbols.
func (s *source) trace(v variant) *program {
	p := &program{variant: v, known: map[string]*node{}}
	f := &frame{source: s, p: p, vars: map[types.Object]value{}, mem: map[string]*node{}}
	root := s.root
	f.bind(root.Recv.List[0].Names[0], value{ref: "k"})
	for _, field := range root.Type.Params.List {
		for _, name := range field.Names {
			f.bind(name, value{ref: name.Name})
		}
	}
	f.results(root)
	f.block(root.Body.List)
	for _, path := range slices.Sorted(maps.Keys(f.mem)) {
		p.second = append(p.second, output{path, f.mem[path]})
	}
	took, crossed := f.done[0].node, f.done[1].node
	p.second = append(p.second, output{"took", took}, output{"crossed", crossed})
	p.goesOn = p.op("&&", p.op("!", crossed), p.op("<", f.mem["x.at"], p.in("x.to")))
	return p
}

// results binds what a function returns by name, nil at first.
func (f *frame) results(decl *ast.FuncDecl) {
	if decl.Type.Results == nil {
		return
	}
	for _, field := range decl.Type.Results.List {
		for _, name := range field.Names {
			f.bind(name, value{node: f.p.constant(0)})
		}
	}
}

func (f *frame) bind(name *ast.Ident, v value) {
	if name.Name != "_" {
		f.vars[f.info.Defs[name]] = v
	}
}

func (f *frame) fail(n ast.Node, why string) {
	log.Fatalf("%v: %s", f.fset.Position(n.Pos()), why)
}

// block traces statements.
func (f *frame) block(list []ast.Stmt) {
	for _, s := range list {
		f.statement(s)
	}
}

func (f *frame) statement(s ast.Stmt) {
	switch s := s.(type) {
	case *ast.DeclStmt:
		d := s.Decl.(*ast.GenDecl)
		if d.Tok != token.VAR {
			return // constants are known to the type checker
		}
		for _, spec := range d.Specs {
			for _, name := range spec.(*ast.ValueSpec).Names {
				f.bind(name, value{node: f.p.constant(0)})
			}
		}
	case *ast.AssignStmt:
		f.assign(s)
	case *ast.ReturnStmt:
		for _, r := range s.Results {
			f.done = append(f.done, f.expr(r))
		}
		for _, e := range slices.Backward(f.exit) {
			for i := range f.done {
				f.done[i].node = f.p.choose(e.cond, e.values[i].node, f.done[i].node)
			}
		}
	case *ast.IfStmt:
		f.branch(s)
	case *ast.ExprStmt:
		f.call(s.X.(*ast.CallExpr))
	default:
		f.fail(s, "statement not understood")
	}
}

// branch traces both sides of an if and chooses between what they leave.
func (f *frame) branch(s *ast.IfStmt) {
	if s.Init != nil {
		f.statement(s.Init)
	}
	cond := f.expr(s.Cond).node
	if ret, ok := s.Body.List[0].(*ast.ReturnStmt); ok {
		e := exit{cond: cond}
		for _, r := range ret.Results {
			e.values = append(e.values, f.expr(r))
		}
		f.exit = append(f.exit, e)
		return
	}
	vars, mem := f.vars, f.mem
	side := func(list []ast.Stmt) (map[types.Object]value, map[string]*node) {
		f.vars, f.mem = maps.Clone(vars), maps.Clone(mem)
		f.block(list)
		return f.vars, f.mem
	}
	var other []ast.Stmt
	if s.Else != nil {
		other = s.Else.(*ast.BlockStmt).List
	}
	if cond.op == "const" {
		if cond.val != 0 {
			f.block(s.Body.List)
		} else {
			f.block(other)
		}
		return
	}
	yesVars, yesMem := side(s.Body.List)
	noVars, noMem := side(other)
	f.vars, f.mem = vars, mem
	var objs []types.Object
	for o := range vars {
		objs = append(objs, o)
	}
	slices.SortFunc(objs, func(a, b types.Object) int { return int(a.Pos() - b.Pos()) })
	for _, o := range objs {
		if y, n := yesVars[o], noVars[o]; y.node != n.node {
			vars[o] = value{node: f.p.choose(cond, y.node, n.node)}
		}
	}
	written := maps.Clone(noMem)
	maps.Copy(written, yesMem)
	for _, path := range slices.Sorted(maps.Keys(written)) {
		var side [2]*node // what lies there after either
		for i, m := range [2]map[string]*node{yesMem, noMem} {
			if side[i] = m[path]; side[i] == nil {
				side[i] = f.p.in(path)
			}
		}
		if side[0] != side[1] {
			mem[path] = f.p.choose(cond, side[0], side[1])
		}
	}
}

func (f *frame) assign(s *ast.AssignStmt) {
	var right []value
	if call, ok := s.Rhs[0].(*ast.CallExpr); ok && len(s.Lhs) > 1 && len(s.Rhs) == 1 {
		right = f.call(call)
	} else {
		for _, r := range s.Rhs {
			right = append(right, f.expr(r))
		}
	}
	if op, ok := map[token.Token]string{token.ADD_ASSIGN: "+", token.SUB_ASSIGN: "-", token.MUL_ASSIGN: "*", token.QUO_ASSIGN: "/"}[s.Tok]; ok {
		right[0] = value{node: f.p.op(op, f.expr(s.Lhs[0]).node, right[0].node)}
	}
	for i, l := range s.Lhs {
		if id, ok := l.(*ast.Ident); ok {
			o := f.info.Defs[id]
			if o == nil {
				o = f.info.Uses[id]
			}
			if id.Name != "_" {
				f.vars[o] = right[i]
			}
			continue
		}
		f.mem[f.path(l)] = right[i].node
	}
}

// path is where an expression that can be assigned to lies.
func (f *frame) path(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		if v, ok := f.vars[f.info.Uses[e]]; ok && v.ref != "" {
			return v.ref
		}
		return e.Name // of the package
	case *ast.SelectorExpr:
		return f.path(e.X) + "." + e.Sel.Name
	case *ast.IndexExpr:
		i, ok := constant.Int64Val(constant.ToInt(f.info.Types[e.Index].Value))
		if !ok {
			f.fail(e, "index is not constant")
		}
		return fmt.Sprintf("%s[%d]", f.path(e.X), i)
	}
	f.fail(e, "not a place")
	return ""
}

func (f *frame) expr(e ast.Expr) value {
	t := f.info.Types[e]
	if t.Value != nil {
		if t.Value.Kind() == constant.Bool {
			f.fail(e, "constant condition")
		}
		x, _ := constant.Float64Val(constant.ToFloat(t.Value))
		return value{node: f.p.constant(x)}
	}
	switch e := e.(type) {
	case *ast.ParenExpr:
		return f.expr(e.X)
	case *ast.Ident:
		v, ok := f.vars[f.info.Uses[e]]
		if !ok {
			f.fail(e, "unknown "+e.Name)
		}
		return v
	case *ast.SelectorExpr, *ast.IndexExpr:
		path := f.path(e)
		if n, ok := f.mem[path]; ok {
			return value{node: n}
		}
		return value{node: f.p.in(path)}
	case *ast.UnaryExpr:
		switch e.Op {
		case token.AND:
			return value{ref: f.path(e.X)}
		case token.NOT:
			return value{node: f.p.op("!", f.expr(e.X).node)}
		case token.SUB:
			return value{node: f.p.op("neg", f.expr(e.X).node)}
		}
	case *ast.BinaryExpr:
		return value{node: f.p.op(e.Op.String(), f.expr(e.X).node, f.expr(e.Y).node)}
	case *ast.CallExpr:
		return f.call(e)[0]
	}
	f.fail(e, "expression not understood")
	return value{}
}

// call traces what is called in place.
func (f *frame) call(e *ast.CallExpr) []value {
	var name *ast.Ident
	var recv ast.Expr
	switch fun := e.Fun.(type) {
	case *ast.Ident:
		name = fun
	case *ast.SelectorExpr:
		name, recv = fun.Sel, fun.X
	}
	var args []value
	for _, a := range e.Args {
		args = append(args, f.expr(a))
	}
	switch name.Name {
	case "NaN":
		return []value{{node: f.p.constant(math.NaN())}}
	case "IsNaN":
		return []value{{node: f.p.op("!=", args[0].node, args[0].node)}}
	case "min", "notBelow0", "Abs":
		op := map[string]string{"min": "min", "notBelow0": "max0", "Abs": "abs"}[name.Name]
		var nodes []*node
		for _, a := range args {
			nodes = append(nodes, a.node)
		}
		return []value{{node: f.p.op(op, nodes...)}}
	}
	decl, ok := f.funcs[f.info.Uses[name]]
	if !ok {
		f.fail(e, "unknown function "+name.Name)
	}
	if name.Name == "pace" { // here the first stage ends; the stretch is found by then
		f.p.first = append(f.p.first, output{"alk", args[0].node})
		alk := args[0].node
		f.p.held = f.p.op("&&", f.p.op("&&", f.p.op(">=", alk, f.p.in("w.lo")), f.p.op("<=", alk, f.p.in("w.hi"))),
			f.p.op("==", f.p.in("s.acid"), f.p.in("w.acid"))) // as acidity.holds
		body := decl.Body.List
		in := body[len(body)-1].(*ast.ExprStmt).X.(*ast.CallExpr).Fun.(*ast.SelectorExpr).Sel
		decl, args = f.funcs[f.info.Uses[in]], slices.Concat([]value{{ref: "w"}}, args[:1], args[2:])
	}
	g := &frame{source: f.source, p: f.p, vars: map[types.Object]value{}, mem: f.mem}
	if recv != nil {
		g.bind(decl.Recv.List[0].Names[0], value{ref: f.path(recv)})
	}
	i := 0
	for _, field := range decl.Type.Params.List {
		for _, n := range field.Names {
			g.bind(n, args[i])
			i++
		}
	}
	g.results(decl)
	g.block(decl.Body.List)
	return g.done
}

// in is what is read from memory.
func (p *program) in(path string) *node {
	if slices.Contains(p.zero, path) {
		return p.constant(0)
	}
	return p.make(&node{op: "in", path: path})
}

func (p *program) constant(x float64) *node { return p.make(&node{op: "const", val: x}) }

func (p *program) choose(cond, yes, no *node) *node {
	if yes == no {
		return yes
	}
	return p.op("choose", cond, yes, no)
}

// op is an operation on nodes. What is the same whatever the operands are is not worked out.
func (p *program) op(op string, args ...*node) *node {
	is := func(i int, x float64) bool { return args[i].op == "const" && args[i].val == x }
	switch {
	case op == "*" && (is(0, 0) || is(1, 0)):
		return p.constant(0)
	case op == "+" && is(0, 0):
		return args[1]
	case (op == "+" || op == "-") && is(1, 0):
		return args[0]
	case op == ">" && is(0, 0) && is(1, 0):
		return p.constant(0)
	case op == "||" && is(0, 0):
		return args[1]
	case op == "<" && is(0, 0) && is(1, 0):
		return p.constant(0)
	}
	return p.make(&node{op: op, args: args})
}

// make returns the node, or the one like it that is there already.
func (p *program) make(n *node) *node {
	key := fmt.Sprint(n.op, n.path, n.val)
	for _, a := range n.args {
		key += fmt.Sprint(" ", a.id)
	}
	if old := p.known[key]; old != nil {
		return old
	}
	n.id = len(p.nodes)
	p.nodes = append(p.nodes, n)
	p.known[key] = n
	return n
}
