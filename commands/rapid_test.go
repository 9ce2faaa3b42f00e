package commands

import (
	"context"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// morsels are what people type, and what they should not, to build lines of.
var morsels = []string{
	"/tank", "/reading", "/log", "/undo", "/outlook", "/why", "/safe", "/units", "/help", "/method", "/nothing", "!add", " ", " ", " ", ":",
	"new", "show", "list", "edit", "close", "name:", "volume:", "ph:", "kh:", "temp:", "ammonia:", "nitrite:", "nitrate:", "what:", "amount:", "detail:", "at:", "on:", "tank:",
	"started:", "hours:", "donor-ph:", "conditioned:", "member:", "method:", "media:", "source:", "scale:", "command:", "target:",
	"60L", "1,250", "0,5", "5+", "20-40", "-1", "NaN", "1e308", "7.4", "25C", "300F", "2ppm", "40%", "5g", "10ml", "day 3", "2026-03-02", "yesterday", "now", "start",
	"dose", "feed", "buffer", "plants", "clean", "note", "fish-in", "n", "yes", "a", "\"", "“", "\\", "\x00", "\xff", "\u202e", "é", "½", "°", "\t", "\n", "＋", "٣", "+", "-",
}

func anyLine() *rapid.Generator[string] {
	built := rapid.Custom(func(t *rapid.T) string {
		s := ""
		for _, m := range rapid.SliceOfN(rapid.SampledFrom(morsels), 0, 14).Draw(t, "morsels") {
			s += m
		}
		return s
	})
	return rapid.OneOf(built, built, rapid.String(), rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return "/reading ammonia:" + string(b) }))
}

// TestAnyLine types anything: nothing panics, every reply is sound, and a
// refusal leaves the record as it was.
func TestAnyLine(t *testing.T) {
	st := newStore(t)
	b := New(st, WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7.5")
	at := clock("2026-03-03T09:00:00Z")
	rapid.Check(t, func(rt *rapid.T) {
		line := anyLine().Draw(rt, "line")
		at = at.Add(time.Second)
		r, refused := said(at, "wren", line)
		if refused != nil {
			if refused.Code == "" || refused.Message == "" {
				rt.Fatalf("%q: a refusal without words", line)
			}
			return
		}
		before := dump(t, st, "wren")
		reply := b.Do(context.Background(), r)
		checkReply(t, line, reply)
		if after := dump(t, st, "wren"); !reply.OK && after != before {
			rt.Fatalf("%q was refused and changed the record", line)
		}
	})
}

// TestAnyOptions sends options as a platform would, without a line.
func TestAnyOptions(t *testing.T) {
	st := newStore(t)
	b := New(st, WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7.5")
	at := clock("2026-03-03T09:00:00Z")
	rapid.Check(t, func(rt *rapid.T) {
		at = at.Add(time.Second)
		spec := rapid.SampledFrom(b.Specs()).Draw(rt, "command")
		r := Request{At: at, Club: "club", Member: "wren", Command: spec.Name, Sub: spec.Sub, Options: map[string]string{}, Post: rapid.String().Draw(rt, "post")}
		for _, o := range spec.Options {
			if rapid.Bool().Draw(rt, "give "+o.Name) {
				values := rapid.OneOf(rapid.SampledFrom(append(o.Choices, morsels...)), rapid.String())
				r.Options[o.Name] = values.Draw(rt, o.Name)
			}
		}
		before := dump(t, st, "wren")
		reply := b.Do(context.Background(), r)
		checkReply(t, spec.Path(), reply)
		if after := dump(t, st, "wren"); !reply.OK && after != before {
			rt.Fatalf("%s %q was refused and changed the record", spec.Path(), r.Options)
		}
	})
}
