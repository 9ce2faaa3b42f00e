package storetest

import (
	"strings"

	"ripen/store"
)

// odd holds strings that a store may stumble over. Whoever asks a store checks
// what members type; a store keeps whatever it is given.
var odd = []struct{ name, text string }{
	{"Empty", ""},
	{"NUL", "\x00"},
	{"NULInside", "a\x00b"},
	{"NULInsideOther", "a\x00c"},
	{"NotUTF8", "\xff\xfe\xed\xa0\x80"},
	{"NotUTF8Other", "\xff\xfe\xed\xa0\x81"},
	{"Controls", "\r\n\t\x1b[31m\u202e"},
	{"Quotes", `'); DROP TABLE tanks; -- "` + "`"},
	{"LooksLikeANumber", "007"},
	{"LooksLikeATime", "2026-03-01 09:00:00"},
	{"Emoji", "🐟\u200d🫧"},
	{"ByteOrderMark", "\ufeffx"},
	{"Large", strings.Repeat("ä\x00", 50_000)},
}

var anyStrings = []claim{
	{"ComeBackByteForByte", func(s suite) {
		for _, o := range odd {
			x := o.text
			u := store.Units{Volume: x, Temp: x, KH: x, Scale: x}
			s.must(s.s.SetUnits(s.Context(), x, x, u))
			m, err := s.s.Member(s.Context(), x, x)
			s.must(err)
			wantSame(s.T, m, store.Member{Club: x, ID: x, Units: u})

			t := s.addTank(tankOf(x, x, x), told(1, x))
			wantSame(s.T, s.tanks(x, x), []store.Tank{t})
			wantSame(s.T, t.Name, x)

			e := on(t, told(2, x+" reading", store.Value{Name: x, Typed: x, Unit: x}))
			e.Kind = store.Kind(x)
			wantSame(s.T, s.addEntry(e), true)
			got := s.entries(t)[1]
			e.ID = got.ID
			wantSame(s.T, got, e)

			undone, _, err := s.s.Undo(s.Context(), x, x, "", x+" undo", day(3))
			s.must(err)
			e.Undone = day(3)
			wantSame(s.T, undone, e)
		}
	}},
	{"StayApart", func(s suite) {
		for i, o := range odd {
			wantSame(s.T, s.addTank(tankOf("reef", "wren", o.text), told(1, "x"+o.text)).Name, o.text)
			wantSame(s.T, len(s.tanks("reef", "wren")), i+1)
		}
	}},
}
