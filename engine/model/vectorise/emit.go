//go:build generate

package main

import (
	"fmt"
	"io"
	"log"
	"math"
	"slices"
	"strings"
)

// constants are kept once a lane.
type constants struct{ bits []uint64 }

func (c *constants) at(bits uint64) string {
	i := slices.Index(c.bits, bits)
	if i < 0 {
		i = len(c.bits)
		c.bits = append(c.bits, bits)
	}
	return fmt.Sprintf("pool<>+%d(SB)", i*wide)
}

func (c *constants) emit(w io.Writer) {
	fmt.Fprintln(w)
	for i, b := range c.bits {
		for j := range lanes {
			fmt.Fprintf(w, "DATA pool<>+%d(SB)/8, $%#016x\n", i*wide+8*j, b)
		}
	}
	fmt.Fprintf(w, "GLOBL pool<>(SB), RODATA|NOPTR, $%d\n", len(c.bits)*wide)
}

const (
	signBit = 1 << 63
	allBits = math.MaxUint64
)

// set is a set of instructions.
type set struct {
	name string
	reg  string // what its registers are called
	regs int
	mask bool // comparisons give masks of a kind of their own
}

var sets = [...]set{
	{name: "4", reg: "Y", regs: 16},
	{name: "8", reg: "Z", regs: 32, mask: true},
}

// begin writes a function's head, which puts the address of lanes into AX.
func (s *set) begin(w io.Writer, name string, returns bool) {
	result, size := "", 8
	if returns {
		result, size = " uint64", 16
	}
	fmt.Fprintf(w, "\n// func %[1]s%[2]s(l *lanes)%[3]s\nTEXT ·%[1]s%[2]s(SB), NOSPLIT, $0-%[4]d\n\tMOVQ l+0(FP), AX\n", name, s.name, result, size)
}

// emit writes both stages.
func (p *program) emit(w io.Writer, s *set, l *layout, pool *constants) {
	before := reached(p.first, nil)
	a := &allocator{set: s, w: w, l: l, pool: pool, home: map[*node]string{}}
	a.stage("first"+p.name, p.first, nil, keepers(before, append(slices.Clone(p.second), output{node: p.goesOn})), p.held)
	a.stage("second"+p.name, p.second, before, nil, p.goesOn)
	l.hold = max(l.hold, a.slots)
}

// reached returns what has to be worked out for some outputs, beyond what is known.
func reached(out []output, known map[*node]bool) map[*node]bool {
	set := map[*node]bool{}
	var visit func(n *node)
	visit = func(n *node) {
		if set[n] || known[n] || n.leaf() {
			return
		}
		set[n] = true
		for _, a := range n.args {
			visit(a)
		}
	}
	for _, o := range out {
		visit(o.node)
	}
	return set
}

// keepers returns what of the first stage the second needs.
func keepers(before map[*node]bool, second []output) map[*node]bool {
	keep := map[*node]bool{}
	for _, o := range second {
		if before[o.node] {
			keep[o.node] = true
		}
	}
	for n := range reached(second, before) {
		for _, a := range n.args {
			if before[a] {
				keep[a] = true
			}
		}
	}
	return keep
}

func (n *node) leaf() bool { return n.op == "in" || n.op == "const" }

// allocator writes straight-line code and gives values registers. Of values that do not
// fit, it puts away the one that is needed last.
type allocator struct {
	*set
	w     io.Writer
	l     *layout
	pool  *constants
	home  map[*node]string // where a value lies in memory
	slots int              // of hold in use at most
	free  []int            // slots that may be used again

	held []*node         // by register
	at   map[*node]int   // register of a value
	uses map[*node][]int // when a value will be needed yet, by number of the instruction
	now  int
	kept map[*node]bool
	hold map[*node]int // slots of this stage
}

// stage writes one function, which returns the mask held, a bit a lane. What it writes over what it
// reads, it writes at its end.
func (a *allocator) stage(name string, out []output, known, keep map[*node]bool, held *node) {
	a.begin(a.w, name, true)
	a.held, a.at, a.uses, a.now, a.kept, a.hold = make([]*node, a.regs), map[*node]int{}, map[*node][]int{}, 0, keep, map[*node]int{}
	order := schedule(append(slices.Clone(out), output{node: held}), known)
	for i, n := range order {
		for _, x := range n.args {
			a.uses[x] = append(a.uses[x], i)
		}
	}
	stores := map[*node][]output{}
	var last []output
	for _, o := range out {
		root, _, _ := strings.Cut(o.path, ".")
		switch {
		case root == "x" || root == "m" || root == "k":
			if o.node.op == "in" {
				log.Fatalf("%s goes to %s, which may be written over", o.node.path, o.path)
			}
			a.uses[o.node] = append(a.uses[o.node], len(order))
			last = append(last, o)
		case o.node.leaf() || known[o.node]: // only passed on
			last = append(last, o)
		default:
			stores[o.node] = append(stores[o.node], o)
		}
	}
	for i, n := range order {
		a.now = i
		a.operate(n)
		for _, o := range stores[n] {
			a.code("VMOVUPD %s%d, %d(AX)", a.reg, a.at[n], a.l.offset(o.path))
			a.home[n] = fmt.Sprintf("%d(AX)", a.l.offset(o.path))
		}
		if keep[n] && a.home[n] == "" {
			a.putAway(n)
		}
		if n == held {
			if a.mask {
				a.code("VPMOVQ2M Z%d, K1", a.at[n])
				a.code("KMOVB K1, BX")
			} else {
				a.code("VMOVMSKPD Y%d, BX", a.at[n])
			}
			a.code("MOVQ BX, ret+8(FP)")
		}
		if len(a.uses[n]) == 0 {
			a.drop(n)
		}
	}
	for _, o := range last {
		r := a.load(o.node)
		a.code("VMOVUPD %s%d, %d(AX)", a.reg, r, a.l.offset(o.path))
	}
	for _, o := range last {
		a.drop(o.node)
	}
	fmt.Fprint(a.w, "\tVZEROUPPER\n\tRET\n")
}

// schedule lists the operations in the order of the source. Orders by the longest chain
// that waits need more registers and take longer.
func schedule(out []output, known map[*node]bool) (order []*node) {
	set := reached(out, known)
	for n := range set {
		order = append(order, n)
	}
	slices.SortFunc(order, func(a, b *node) int { return a.id - b.id })
	return order
}

func (a *allocator) code(format string, args ...any) {
	fmt.Fprintf(a.w, "\t"+format+"\n", args...)
}

// where is a value's place in memory, "" if it has none.
func (a *allocator) where(n *node) string {
	switch n.op {
	case "in":
		return fmt.Sprintf("%d(AX)", a.l.offset(n.path))
	case "const":
		return a.pool.at(math.Float64bits(n.val))
	}
	return a.home[n]
}

// putAway stores a value that is in a register.
func (a *allocator) putAway(n *node) {
	var slot int
	if k := len(a.free); k > 0 && !a.kept[n] {
		slot, a.free = a.free[k-1], a.free[:k-1]
	} else {
		slot = a.slots
		a.slots++
	}
	if !a.kept[n] {
		a.hold[n] = slot
	}
	a.home[n] = fmt.Sprintf("%d(AX)", a.l.offset(fmt.Sprintf("hold.%d", slot)))
	a.code("VMOVUPD %s%d, %s", a.reg, a.at[n], a.home[n])
}

// leave gives back a value's register.
func (a *allocator) leave(n *node) {
	if r, ok := a.at[n]; ok {
		a.held[r] = nil
		delete(a.at, n)
	}
}

// drop forgets a value.
func (a *allocator) drop(n *node) {
	a.leave(n)
	if slot, ok := a.hold[n]; ok {
		a.free = append(a.free, slot)
		delete(a.hold, n)
	}
}

// take returns a register for n, none of those of busy.
func (a *allocator) take(n *node, busy ...*node) int {
	pick, last := -1, -1
	for r, x := range a.held {
		if x == nil {
			pick = r
			break
		}
		if slices.Contains(busy, x) {
			continue
		}
		next := math.MaxInt
		if u := a.uses[x]; len(u) > 0 {
			next = u[0]
		}
		if next > last {
			pick, last = r, next
		}
	}
	if old := a.held[pick]; old != nil {
		if a.where(old) == "" {
			a.putAway(old)
		}
		delete(a.at, old)
	}
	a.held[pick], a.at[n] = n, pick
	return pick
}

// load brings a value into a register.
func (a *allocator) load(n *node, busy ...*node) int {
	if r, ok := a.at[n]; ok {
		return r
	}
	from := a.where(n)
	if from == "" {
		log.Fatalf("%s %d is nowhere", n.op, n.id)
	}
	r := a.take(n, busy...)
	a.code("VMOVUPD %s, %s%d", from, a.reg, r)
	return r
}

// ops are instructions of two operands; the second may lie in memory.
var ops = map[string]string{
	"+": "VADDPD", "-": "VSUBPD", "*": "VMULPD", "/": "VDIVPD", "&&": "VANDPD", "||": "VORPD",
	"==": "VCMPPD $0,", "!=": "VCMPPD $4,", "<": "VCMPPD $1,", "<=": "VCMPPD $2,", ">=": "VCMPPD $13,", ">": "VCMPPD $14,",
	"min": "VMINPD", "max0": "VMAXPD", "abs": "VANDPD", "neg": "VXORPD", "!": "VXORPD",
}

// operate writes one operation.
func (a *allocator) operate(n *node) {
	var first, second *node // the second may lie in memory
	var third *node
	mem := ""
	switch n.op {
	case "choose": // mask, yes, no
		third, second, first = n.args[0], n.args[1], n.args[2]
	case "abs":
		first, mem = n.args[0], a.pool.at(allBits&^signBit)
	case "neg":
		first, mem = n.args[0], a.pool.at(signBit)
	case "!":
		first, mem = n.args[0], a.pool.at(allBits)
	case "max0": // VMAXPD gives the second when either is not a number or both are nil, as notBelow0 does
		first, second = &node{op: "const", id: -1}, n.args[0]
	case "min": // as VMAXPD
		first, second = n.args[1], n.args[0]
		if first.op != "const" {
			log.Fatal("min of what is not constant")
		}
	default:
		first, second = n.args[0], n.args[1]
		if n.op == "+" || n.op == "*" || n.op == "&&" || n.op == "||" {
			if _, ok := a.at[second]; ok || a.soon(second) && !a.in(first) {
				if !a.in(first) || !ok {
					first, second = second, first
				}
			}
		}
	}
	busy := []*node{first, second, third}
	if third != nil {
		a.load(third, busy...)
	}
	f := a.load(first, busy...)
	from := mem
	if second != nil {
		if a.soon(second) || a.where(second) == "" || a.in(second) {
			from = fmt.Sprintf("%s%d", a.reg, a.load(second, busy...))
		} else {
			from = a.where(second)
		}
	}
	var mask int
	if third != nil {
		mask = a.at[third]
	}
	for _, x := range slices.Concat(n.args, []*node{first}) { // used
		if u := a.uses[x]; len(u) > 0 && u[0] == a.now {
			a.uses[x] = slices.DeleteFunc(u, func(i int) bool { return i == a.now })
		}
	}
	for _, x := range slices.Concat(n.args, []*node{first}) {
		if len(a.uses[x]) == 0 {
			a.leave(x)
		}
	}
	d := a.take(n) // may be a register of an operand
	switch {
	case third != nil && a.mask:
		a.code("VPMOVQ2M Z%d, K1", mask)
		a.code("VBLENDMPD %s, Z%d, K1, Z%d", from, f, d)
	case third != nil:
		a.code("VBLENDVPD Y%d, %s, Y%d, Y%d", mask, from, f, d)
	case a.mask && strings.HasPrefix(ops[n.op], "VCMPPD"):
		a.code("%s %s, Z%d, K1", ops[n.op], from, f)
		a.code("VPMOVM2Q K1, Z%d", d)
	default:
		a.code("%s %s, %s%d, %s%d", ops[n.op], from, a.reg, f, a.reg, d)
	}
	for _, x := range n.args { // memory is free only once it was read
		if len(a.uses[x]) == 0 {
			a.drop(x)
		}
	}
}

func (a *allocator) in(n *node) bool {
	_, ok := a.at[n]
	return ok
}

// soon says whether a value will be needed again soon, so that it should be in a register.
func (a *allocator) soon(n *node) bool {
	u := a.uses[n]
	return len(u) > 1 && u[1] != a.now && u[1] < a.now+24
}
