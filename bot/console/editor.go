package console

import (
	"errors"
	"io"
	"os"

	"github.com/peterh/liner"

	"ripen/bot/lines"
)

// Editor is an Input at a terminal, with line editing, completion by the Tab
// key, and a history that is kept in a file.
type Editor struct {
	state   *liner.State
	history string
}

// NewEditor returns an Editor on the program's terminal. history is the file of
// earlier lines, "" for none; a file that can't be read or written only costs
// the history. Close must be called, it puts the terminal back.
func NewEditor(history string, c Completer) *Editor {
	e := &Editor{state: liner.NewLiner(), history: history}
	e.state.SetCtrlCAborts(true)
	e.state.SetMultiLineMode(true)
	e.state.SetTabCompletionStyle(liner.TabPrints)
	e.state.SetWordCompleter(func(line string, pos int) (string, []string, string) {
		return c.Complete(line, len(string([]rune(line)[:pos]))) // pos counts characters
	})
	if f, err := os.Open(history); err == nil {
		_, _ = e.state.ReadHistory(f)
		f.Close()
	}
	return e
}

// EditorSupported tells whether the terminal can do what Editor needs.
func EditorSupported() bool { return liner.TerminalSupported() }

// Line implements Input.
func (e *Editor) Line(prompt string) (string, error) {
	line, err := e.state.Prompt(prompt)
	switch {
	case errors.Is(err, liner.ErrPromptAborted):
		return "", ErrInterrupted
	case errors.Is(err, io.EOF):
		os.Stdout.WriteString("\n")
		return "", io.EOF
	case err != nil:
		return "", err
	}
	if err := lines.Check(line); err != nil {
		return "", err
	}
	if line != "" {
		e.state.AppendHistory(line)
	}
	return line, nil
}

// Close keeps the history and puts the terminal back as it was.
func (e *Editor) Close() error {
	if e.history != "" {
		if f, err := os.OpenFile(e.history, os.O_CREATE|os.O_WRONLY|os.O_TRUNC, 0o600); err == nil {
			_, _ = e.state.WriteHistory(f)
			f.Close()
		}
	}
	return e.state.Close()
}
