package storetest

import "strings"

var notes = []claim{
	{"NoneAtFirst", func(s suite) { s.wantNote("reef", "form/wren", "") }},
	{"OK", func(s suite) {
		s.must(s.s.SetNote(s.Context(), "reef", "form/wren", "volume:60L"))
		s.wantNote("reef", "form/wren", "volume:60L")
	}},
	{"LastCounts", func(s suite) {
		s.must(s.s.SetNote(s.Context(), "reef", "form/wren", "volume:60L"))
		s.must(s.s.SetNote(s.Context(), "reef", "form/wren", "volume:15gal"))
		s.wantNote("reef", "form/wren", "volume:15gal")
	}},
	{"EmptyRemoves", func(s suite) {
		s.must(s.s.SetNote(s.Context(), "reef", "form/wren", "volume:60L"))
		s.must(s.s.SetNote(s.Context(), "reef", "form/wren", ""))
		s.wantNote("reef", "form/wren", "")
		s.must(s.s.SetNote(s.Context(), "reef", "form/wren", ""))
	}},
	{"ClubsAndNamesApart", func(s suite) {
		s.must(s.s.SetNote(s.Context(), "reef", "form/wren", "volume:60L"))
		s.wantNote("pond", "form/wren", "")
		s.wantNote("reef", "form/Wren", "")
		s.wantNote("", "form/wren", "")
	}},
	{"OfAMember", func(s suite) {
		for name, text := range map[string]string{"form/wren": "x", "post/wren": "two\nlines", "form/tern": "for wren", "tie/12": "1 wren", "tie/13": "2 tern", "post/Wren": "y"} {
			s.must(s.s.SetNote(s.Context(), "reef", name, text))
			s.must(s.s.SetNote(s.Context(), "pond", name, "elsewhere wren"))
		}
		s.must(s.s.SetNote(s.Context(), "reef", "gone/wren", "x"))
		s.must(s.s.SetNote(s.Context(), "reef", "gone/wren", ""))
		all, err := s.s.MemberNotes(s.Context(), "reef", "wren")
		s.must(err)
		wantSame(s.T, all, map[string]string{"form/wren": "x", "post/wren": "two\nlines", "tie/12": "1 wren"})
		all, err = s.s.MemberNotes(s.Context(), "reef", "lark")
		s.must(err)
		wantSame(s.T, len(all), 0)
	}},
	{"ByteForByte", func(s suite) {
		for _, text := range []string{"two\nlines\x00", "\xff not text", strings.Repeat("é", 4000)} {
			s.must(s.s.SetNote(s.Context(), "reef", text, text))
			s.wantNote("reef", text, text)
		}
	}},
}

// wantNote checks what stands under a name.
func (s suite) wantNote(club, name, want string) {
	s.Helper()
	text, err := s.s.Note(s.Context(), club, name)
	s.must(err)
	wantSame(s.T, text, want)
}
