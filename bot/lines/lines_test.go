package lines

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"
)

func readAll(t *testing.T, r io.Reader) []Line {
	t.Helper()
	var got []Line
	for lr := NewReader(r); ; {
		l, err := lr.Next()
		if err == io.EOF {
			return got
		}
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, l)
	}
}

func TestReader_Next(t *testing.T) {
	tests := []struct {
		reason, in string
		want       []string
	}{
		{"nothing at all", "", nil},
		{"Unix line ends", "a\nb\n", []string{"a", "b"}},
		{"Windows line ends", "a\r\nb\r\n", []string{"a", "b"}},
		{"last line without a line end is not lost", "a\nb", []string{"a", "b"}},
		{"byte-order mark before the first line only", "\ufeffa\n\n", []string{"a", ""}},
		{"only a byte-order mark", "\ufeff", []string{""}},
		{"tabs and other scripts stay", "a\tb\nΔ pH — 7\n", []string{"a\tb", "Δ pH — 7"}},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			for name, r := range map[string]io.Reader{
				"whole":        strings.NewReader(tt.in),
				"byte by byte": iotest.OneByteReader(strings.NewReader(tt.in)),
			} {
				got := readAll(t, r)
				if len(got) != len(tt.want) {
					t.Fatalf("%s: got %d lines %v, want %q", name, len(got), got, tt.want)
				}
				for i, l := range got {
					if l.Text != tt.want[i] || l.Err != nil || l.No != i+1 {
						t.Errorf("%s: line %d: got %d %q %v, want %q", name, i+1, l.No, l.Text, l.Err, tt.want[i])
					}
				}
			}
		})
	}
}

func TestReader_Next_refusals(t *testing.T) {
	tests := []struct {
		reason, in string
		want       error
		names      string
	}{
		{"NUL", "pH\x007", ErrControl, "U+0000 at position 3"},
		{"escape, as in terminal codes", "\x1b[31mred", ErrControl, "U+001B"},
		{"C1 control", "a\u0085b", ErrControl, "U+0085"},
		{"carriage return inside a line", "a\rb", ErrControl, "U+000D"},
		{"stray byte", "pH\xff7", ErrNotUTF8, "0xFF at position 3"},
		{"cut sequence at the end", "caf\xc3", ErrNotUTF8, "0xC3"},
		{"surrogate half in UTF-8", "\xed\xa0\x80", ErrNotUTF8, "0xED"},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			got := readAll(t, strings.NewReader("before\n"+tt.in+"\nafter\n"))
			if len(got) != 3 || got[2].Text != "after" || got[2].Err != nil {
				t.Fatalf("reading did not go on: %v", got)
			}
			if err := got[1].Err; !errors.Is(err, tt.want) || !strings.Contains(err.Error(), tt.names) {
				t.Errorf("got %v, want %v naming %q", err, tt.want, tt.names)
			}
		})
	}
	if err := Check("a typed \ufffd is text"); err != nil {
		t.Errorf("replacement character that was typed: %v", err)
	}
}

func TestReader_Next_long(t *testing.T) {
	for _, end := range []string{"\nafter", "\r\nafter\n"} {
		fits := strings.Repeat("x", Max-2)
		got := readAll(t, strings.NewReader(fits+end))
		if len(got) != 2 || got[0].Text != fits || got[0].Err != nil {
			t.Errorf("a line of %d bytes: got %d lines, error %v", len(fits), len(got), got[0].Err)
		}
		got = readAll(t, strings.NewReader(strings.Repeat("x", 3*Max)+end))
		if len(got) != 2 || !errors.Is(got[0].Err, ErrTooLong) || got[0].Text != "" || got[1].Text != "after" {
			t.Errorf("a line of %d bytes: got %d lines, error %v", 3*Max, len(got), got[0].Err)
		}
	}
	got := readAll(t, strings.NewReader(strings.Repeat("x", 2*Max)))
	if len(got) != 1 || !errors.Is(got[0].Err, ErrTooLong) {
		t.Errorf("a long last line without line end: got %d lines", len(got))
	}
}

func TestReader_Next_brokenReader(t *testing.T) {
	broken := errors.New("disk gone")
	lr := NewReader(io.MultiReader(strings.NewReader("whole\nhal"), iotest.ErrReader(broken)))
	if l, err := lr.Next(); err != nil || l.Text != "whole" {
		t.Fatalf("got %q, %v", l.Text, err)
	}
	if _, err := lr.Next(); !errors.Is(err, broken) {
		t.Errorf("got %v, want the reader's error", err)
	}
}
