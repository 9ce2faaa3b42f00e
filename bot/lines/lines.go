// Package lines reads text one line at a time and says of each line whether it
// can be taken: lines of any length, with either line end, with a byte-order
// mark before the first, with or without a line end after the last.
package lines

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"unicode"
	"unicode/utf8"
)

// Max is the longest line that is kept, in bytes. A longer one is read to its
// end and refused, so that it can't fill the memory.
const Max = 8 << 20

// Why a line can't be taken. Line.Err wraps one of them.
var (
	ErrTooLong = errors.New("line too long")
	ErrNotUTF8 = errors.New("not valid UTF-8 text")
	ErrControl = errors.New("control character in the line")
)

// Line is one line without its line end.
type Line struct {
	No   int    // counts from 1
	Text string // as read; empty when it was too long
	Err  error  // why it can't be taken, nil if it can
}

// Reader reads lines.
type Reader struct {
	r  *bufio.Reader
	no int
}

// NewReader returns a Reader on r.
func NewReader(r io.Reader) *Reader { return &Reader{r: bufio.NewReaderSize(r, 64<<10)} }

// Next returns the next line. The error is io.EOF after the last line, or that
// of the underlying reader; a line that was cut short by an error is not returned.
func (r *Reader) Next() (Line, error) {
	var text []byte
	long := false
	for {
		part, err := r.r.ReadSlice('\n')
		if long = long || len(text)+len(part) > Max; !long {
			text = append(text, part...)
		}
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		if err == io.EOF && (len(text) > 0 || long) {
			err = nil // the last line has no line end; the next call ends
		}
		if err != nil {
			return Line{}, err
		}
		break
	}
	r.no++
	if r.no == 1 {
		text = bytes.TrimPrefix(text, []byte("\ufeff"))
	}
	if long {
		return Line{No: r.no, Err: fmt.Errorf("%w: it has more than %d MB; split it", ErrTooLong, Max>>20)}, nil
	}
	text = bytes.TrimSuffix(bytes.TrimSuffix(text, []byte("\n")), []byte("\r"))
	return Line{No: r.no, Text: string(text), Err: Check(string(text))}, nil
}

// Check says whether text can be taken as a line: valid UTF-8 without control
// characters other than the tab. The error names the place.
func Check(text string) error {
	for i, c := range text {
		switch {
		case c == utf8.RuneError && invalidAt(text[i:]):
			return fmt.Errorf("%w: byte 0x%02X at position %d; save it as UTF-8 and try again", ErrNotUTF8, text[i], i+1)
		case unicode.IsControl(c) && c != '\t':
			return fmt.Errorf("%w: U+%04X at position %d; take it out and try again", ErrControl, c, i+1)
		}
	}
	return nil
}

// invalidAt tells a stray byte from a replacement character that was typed.
func invalidAt(s string) bool {
	_, size := utf8.DecodeRuneInString(s)
	return size == 1
}
