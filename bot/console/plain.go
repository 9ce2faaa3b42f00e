package console

import (
	"errors"
	"fmt"
	"io"

	"ripen/bot/lines"
	"ripen/bot/page"
)

// Plain is an Input without line editing, for pipes and files. With Echo it
// repeats each line after its prompt, so that the output reads as the chat.
type Plain struct {
	Output io.Writer
	Echo   bool
	lines  *lines.Reader
}

// NewPlain returns a Plain that reads r and prompts on w.
func NewPlain(r io.Reader, w io.Writer, echo bool) *Plain {
	return &Plain{Output: w, Echo: echo, lines: lines.NewReader(r)}
}

// Line implements Input. The last line needs no line end.
func (p *Plain) Line(prompt string) (string, error) {
	if _, err := io.WriteString(p.Output, prompt); err != nil {
		return "", err
	}
	l, err := p.lines.Next()
	if err != nil {
		fmt.Fprintln(p.Output)
		return "", err
	}
	if p.Echo {
		if _, err := fmt.Fprintln(p.Output, page.Typed(l.Text)); err != nil {
			return "", err
		}
	}
	return l.Text, l.Err
}

// refused holds for a line that can't be taken while the next ones may.
func refused(err error) bool {
	return errors.Is(err, lines.ErrTooLong) || errors.Is(err, lines.ErrNotUTF8) || errors.Is(err, lines.ErrControl)
}
