package commands

import (
	"context"
	"errors"
	"strings"
	"testing"

	"ripen/store"
)

func TestRepeatedKeyAddsNothing(t *testing.T) {
	st := newStore(t)
	b := New(st)
	const at = "2026-03-02T09:00:00Z"
	do := func(key, line string) Reply {
		t.Helper()
		r, err := said(clock(at), "wren", line)
		if err != nil {
			t.Fatal(err)
		}
		r.Key = key
		return b.Do(context.Background(), r)
	}
	if r := do("k0", "/tank new name:a volume:60L started:2026-03-01"); !r.OK {
		t.Fatal(r.Text)
	}
	for _, line := range []string{
		"/reading ammonia:1", "/log what:dose amount:2ppm", "/tank edit temp:27C",
	} {
		if r := do("k "+line, line); !r.OK {
			t.Fatalf("%s: %s", line, r.Text)
		}
		before := dump(t, st, "wren")
		r := do("k "+line, line)
		if !r.OK || r.Text != again || dump(t, st, "wren") != before {
			t.Errorf("%s twice with one key: ok %v, %q, changed %v", line, r.OK, r.Text, dump(t, st, "wren") != before)
		}
		if missing := unfounded(r.Text, r.Data); len(missing) > 0 {
			t.Errorf("%s: %v", line, missing)
		}
	}
	if r := do("k0", "/tank new name:a volume:60L started:2026-03-01"); r.OK || r.Err.Code != CodeNameTaken {
		t.Errorf("a taken name with its own key: %+v, want %s", r, CodeNameTaken)
	}
	before := dump(t, st, "wren")
	if r := do("k0", "/tank new name:b volume:60L"); !r.OK || r.Text != again || dump(t, st, "wren") != before {
		t.Errorf("another tank with a known key: %v %q", r.OK, r.Text)
	}
	undone := do("u1", "/undo")
	between := dump(t, st, "wren")
	if twice := do("u1", "/undo"); !undone.OK || twice.Text != undone.Text || dump(t, st, "wren") != between {
		t.Errorf("undo twice with one key: %q, then %q", undone.Text, twice.Text)
	}
	first, before := do("k post", "!add ammonia 0.5 nitrite 1").Data.(Added), dump(t, st, "wren")
	second := do("k post", "!add ammonia 0.5 nitrite 1").Data.(Added)
	if first.Duplicate || !first.Stored || !second.Duplicate || dump(t, st, "wren") != before {
		t.Errorf("a post twice with one key: %+v, then %+v", first, second)
	}
}

func TestModeratorCommand(t *testing.T) {
	b := New(newStore(t))
	b.specs = append(b.specs, Spec{Name: "slow", Moderator: true, run: func(*call) (Result, error) { return TankList{}, nil }})
	r := Request{At: clock("2026-03-01T09:00:00Z"), Club: "club", Member: "wren", Command: "slow"}
	if got := b.Do(context.Background(), r); got.OK || got.Err.Code != CodeRights {
		t.Errorf("a member: %+v, want %s", got, CodeRights)
	}
	r.Moderator = true
	if got := b.Do(context.Background(), r); !got.OK {
		t.Errorf("a moderator: %+v", got)
	}
	if h := tell(t, b, "2026-03-01T09:00:00Z", "/help"); strings.Contains(h.Text, "/slow") {
		t.Error("help shows a member what only moderators may use")
	}
}

func TestPanicBecomesReply(t *testing.T) {
	b := New(newStore(t))
	b.specs = append(b.specs, Spec{Name: "burst", run: func(*call) (Result, error) { panic("a slip") }})
	r := tell(t, b, "2026-03-01T09:00:00Z", "/burst")
	if r.OK || r.Err.Code != CodeInternal || !strings.Contains(r.Err.Unwrap().Error(), "a slip") || strings.Contains(r.Text, "a slip") {
		t.Errorf("%+v: want code %s, the cause for the log, none of it in the text", r, CodeInternal)
	}
}

// brokenStore fails wherever it is asked.
type brokenStore struct {
	store.Store
	err error
}

func (s brokenStore) Member(context.Context, string, string) (store.Member, error) {
	return store.Member{}, s.err
}

func TestStoreFailure(t *testing.T) {
	for _, err := range []error{errors.New("disk gone"), store.ErrReadOnly} {
		r := tell(t, New(brokenStore{err: err}), "2026-03-01T09:00:00Z", "/tank list")
		if r.OK || r.Err.Code != CodeDatabase || !errors.Is(r.Err, err) || strings.Contains(r.Text, "disk") {
			t.Errorf("%v: %+v: want code %s with the cause in Unwrap only", err, r, CodeDatabase)
		}
	}
}

func TestNoAdviser(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	for _, line := range []string{"/outlook", "/why"} {
		if r := tell(t, b, "2026-03-02T09:00:00Z", line); r.OK || r.Err.Code != CodeUnavailable {
			t.Errorf("%s: %+v, want %s", line, r, CodeUnavailable)
		}
	}
}

func TestSpecs(t *testing.T) {
	b := New(newStore(t))
	seen := map[string]bool{}
	for _, s := range b.Specs() {
		if seen[s.Path()] {
			t.Errorf("%s stands twice", s.Path())
		}
		seen[s.Path()] = true
		if s.Help == "" || s.Example == "" || s.run == nil || !s.Private {
			t.Errorf("%s lacks help, an example or a handler, or is not private", s.Path())
		}
		names := map[string]bool{}
		for _, o := range s.Options {
			if names[o.Name] || o.Help == "" || len(o.Help) > 100 {
				t.Errorf("%s %s stands twice or has no help of at most 100 characters", s.Path(), o.Name)
			}
			names[o.Name] = true
			if (o.Type == TypeChoice) != (len(o.Choices) > 0) || len(o.Choices) > 25 {
				t.Errorf("%s %s: choices %v do not go with type %s", s.Path(), o.Name, o.Choices, o.Type)
			}
			if o.Max < o.Min || (o.Max > 0) != (o.Unit != "") {
				t.Errorf("%s %s: range %v to %v in %q", s.Path(), o.Name, o.Min, o.Max, o.Unit)
			}
		}
	}
}

// TestExamples types the example of every command, as help shows it.
func TestExamples(t *testing.T) {
	for _, s := range New(newStore(t)).Specs() {
		b := New(newStore(t), WithAdviser(fakeAdviser{}))
		if s.Path() != "tank new" {
			must(t, b, "2026-03-01T09:00:00Z", "/tank new name:nano volume:60L ph:7.5")
			must(t, b, "2026-03-02T09:00:00Z", "/reading ammonia:1 nitrite:0")
		}
		r, err := said(clock("2026-03-13T09:00:00Z"), "wren", s.Example)
		if err != nil {
			t.Fatal(err)
		}
		r.Place, r.Moderator = "thread", s.Moderator
		if _, ok := s.Option("file"); ok {
			r.Files = []File{{Name: r.Options["file"], Data: exported(t, filled(t), "2026-03-10T09:00:00Z")}}
		}
		if reply := b.Do(t.Context(), r); !reply.OK {
			t.Errorf("%s: %s (%s)", s.Example, reply.Text, reply.Err.Code)
		}
	}
}
