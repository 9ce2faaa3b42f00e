package post

import (
	"fmt"
	"os"
	"testing"
)

func TestDbg(t *testing.T) {
	s := os.Getenv("DBG")
	if s == "" {
		t.Skip()
	}
	r := &reader{src: clean(s), opt: Options{}.filled()}
	ps := r.parse(0, len(r.src.text))
	se := look(ps)
	date(ps, se)
	for k, q := range ps {
		fmt.Printf("%d sort=%d cue=%d %q", k, q.sort, q.cue, r.src.text[q.from:q.to])
		if q.amt != nil {
			fmt.Printf(" amt=%+v left=%q was=%v old=%v rank=%v mark=%v", *q.amt, se[k].left, se[k].was, se[k].old, se[k].rank, se[k].mark)
		}
		if q.sort == sLabel {
			fmt.Printf(" kind=%v", q.kind)
		}
		fmt.Println()
	}
	b, l := bind(ps)
	fmt.Println(b, l)
}
