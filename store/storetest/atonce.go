package storetest

import (
	"errors"
	"fmt"
	"sync"
	"sync/atomic"

	"ripen/store"
)

// crowd is how many callers a claim lets loose at once.
const crowd = 8

// together calls fn for 0 to crowd-1 at once and waits for all.
func (s suite) together(fn func(i int) error) {
	s.Helper()
	var wg sync.WaitGroup
	for i := range crowd {
		wg.Go(func() {
			if err := fn(i); err != nil {
				s.Error(err)
			}
		})
	}
	wg.Wait()
}

var atOnce = []claim{
	{"EveryEntryIsKept", func(s suite) {
		const each = 5
		t := s.tank("Nano")
		s.together(func(i int) error {
			for n := range each {
				added, err := s.s.AddEntry(s.Context(), on(t, told(2, fmt.Sprint(i, n), store.Value{Name: "ph", Typed: "7"})))
				if err != nil || !added {
					return fmt.Errorf("added %v, %w", added, err)
				}
			}
			return nil
		})
		wantSame(s.T, len(s.entries(t)), 1+crowd*each)
	}},
	{"OneKeyAddsOneEntry", func(s suite) {
		t := s.tank("Nano")
		var times atomic.Int32
		s.together(func(int) error {
			added, err := s.s.AddEntry(s.Context(), on(t, told(2, "k")))
			if added {
				times.Add(1)
			}
			return err
		})
		wantSame(s.T, times.Load(), 1)
		s.wantKeys(t, "setup Nano", "k")
	}},
	{"OneNameMakesOneTank", func(s suite) {
		var times atomic.Int32
		s.together(func(i int) error {
			_, err := s.s.AddTank(s.Context(), tankOf("reef", "wren", "Nano"), told(1, fmt.Sprint(i)))
			if err == nil {
				times.Add(1)
			}
			return nil
		})
		wantSame(s.T, times.Load(), 1)
		wantSame(s.T, len(s.tanks("reef", "wren")), 1)
	}},
	{"OneKeyTakesBackOneEntry", func(s suite) {
		t := s.tank("Nano")
		for i := range crowd {
			s.addEntry(on(t, told(2+i, fmt.Sprint(i))))
		}
		s.together(func(int) error {
			e, _, err := s.s.Undo(s.Context(), "reef", "wren", "", "u", day(20))
			if err == nil && e.Key != fmt.Sprint(crowd-1) {
				return fmt.Errorf("entry %q was taken back", e.Key)
			}
			return err
		})
		wantSame(s.T, len(s.entries(t)), 1+crowd-1)
	}},
	{"OneEntryIsTakenBackOnce", func(s suite) {
		t := s.tank("Nano")
		for i := range crowd {
			s.addEntry(on(t, told(2+i, fmt.Sprint(i))))
		}
		last := fmt.Sprint(crowd - 1)
		s.together(func(i int) error {
			_, _, err := s.s.Undo(s.Context(), "reef", "wren", last, fmt.Sprint("u", i), day(20))
			if errors.Is(err, store.ErrNotLast) {
				return nil
			}
			return err
		})
		wantSame(s.T, len(s.entries(t)), 1+crowd-1)
	}},
	{"ReadersSeeWholeEntries", func(s suite) {
		t := s.tank("Nano")
		values := []store.Value{{Name: "ammonia", Typed: "1"}, {Name: "nitrite", Typed: "2"}, {Name: "ph", Typed: "7"}}
		s.together(func(i int) error {
			if i%2 == 0 {
				_, err := s.s.AddEntry(s.Context(), on(t, told(2, fmt.Sprint(i), values...)))
				return err
			}
			all, err := s.s.Entries(s.Context(), t.ID)
			if err != nil {
				return err
			}
			for _, e := range all[1:] { // after the setup
				if len(e.Values) != len(values) {
					return fmt.Errorf("entry %+v is not whole", e)
				}
			}
			return nil
		})
	}},
}
