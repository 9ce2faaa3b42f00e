// Package console is the local chat: one member at one keyboard, with the same
// commands as everywhere else.
package console

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"ripen/bot/page"
	"ripen/bot/talk"
	"ripen/commands"
)

// Book answers requests and knows what can be asked.
type Book interface {
	Do(context.Context, commands.Request) commands.Reply
	Specs() []commands.Spec
}

// Console is one chat. All fields but Place and Save must be set.
type Console struct {
	Book      Book
	Input     Input
	Output    io.Writer
	Now       func() time.Time
	Club      string
	Member    string
	Moderator bool
	Session   string                                  // sets this chat's lines apart from those of every other
	Tanks     func(context.Context) ([]string, error) // the member's tanks, oldest first
	Place     string                                  // where the record is kept, for the first screen

	// Save keeps a file of a reply and returns where; nil if nobody asked for pictures.
	Save func(commands.File) (where string, err error)

	said int // lines with a request so far
}

// ErrInterrupted is what an Input returns when the person at the keyboard ends
// the chat in the middle of a line.
var ErrInterrupted = errors.New("interrupted")

// Input gives the lines that a person types.
type Input interface {
	// Line asks with a prompt and returns a line without its line end. The
	// error is io.EOF at the end and ErrInterrupted when the person breaks
	// off; one that wraps a refusal of package lines spoils that line only.
	Line(prompt string) (string, error)
}

// Run greets and answers line by line until the input ends, the person leaves,
// or ctx is done. These are no errors; one that comes back is of Input or Output.
func (c *Console) Run(ctx context.Context) error {
	if err := c.welcome(ctx); err != nil {
		return err
	}
	for {
		line, err := c.line(ctx, c.Member+"> ")
		switch {
		case ended(err):
			return c.print("Goodbye.")
		case refused(err):
			err = c.print(page.Wrap("Not done: "+err.Error(), page.Width, ""), "")
		case err != nil:
			return err
		default:
			if leaves(line) {
				return c.print("Goodbye.")
			}
			err = c.answer(ctx, line)
		}
		if err != nil {
			return err
		}
	}
}

// line waits for a line or for the end of ctx.
func (c *Console) line(ctx context.Context, prompt string) (string, error) {
	if ctx.Err() != nil { // the read before may still be waiting
		return "", ErrInterrupted
	}
	type result struct {
		line string
		err  error
	}
	done := make(chan result, 1)
	go func() {
		line, err := c.Input.Line(prompt)
		done <- result{line, err}
	}()
	select {
	case <-ctx.Done():
		return "", ErrInterrupted
	case r := <-done:
		return r.line, r.err
	}
}

// answer answers one line.
func (c *Console) answer(ctx context.Context, line string) error {
	if strings.TrimSpace(line) == "" {
		return nil
	}
	if post, ok := talk.Post(strings.TrimSpace(line)); ok && post == "" {
		post, err := c.post(ctx)
		if err != nil {
			return c.print(page.Wrap("Not done: "+err.Error(), page.Width, ""), "")
		}
		line += " " + post
	}
	r, asked, failed := talk.Request(line)
	if !asked {
		return c.print(page.Wrap(c.hint(line), page.Width, ""), "")
	}
	reply := commands.Reply{}
	if failed != nil {
		reply.Text, reply.Err = failed.Message, failed
	} else {
		c.said++
		r.At, r.Club, r.Member, r.Moderator = c.Now().UTC(), c.Club, c.Member, c.Moderator
		r.Key = "console/" + c.Session + "/" + strconv.Itoa(c.said)
		r.Plain = c.Save == nil
		reply = c.Book.Do(ctx, r)
	}
	return c.print(page.Reply(reply, "")+c.saved(reply.Files), "")
}

// saved keeps the files of a reply, and says where.
func (c *Console) saved(files []commands.File) string {
	var says strings.Builder
	for _, f := range files {
		if c.Save == nil {
			break
		}
		where, err := c.Save(f)
		if err != nil {
			says.WriteString("\n" + page.Wrap("The picture could not be saved: "+err.Error(), page.Width, ""))
			continue
		}
		says.WriteString("\nSaved: " + where)
	}
	return says.String()
}

// post collects the lines of a post up to an empty one or the end.
func (c *Console) post(ctx context.Context) (string, error) {
	if err := c.print("Paste the post; an empty line ends it."); err != nil {
		return "", err
	}
	var post []string
	for {
		line, err := c.line(ctx, "| ")
		if ended(err) || err == nil && strings.TrimSpace(line) == "" {
			return strings.Join(post, "\n"), nil
		}
		if err != nil {
			return "", err
		}
		post = append(post, line)
	}
}

func (c *Console) print(lines ...string) error {
	_, err := fmt.Fprintln(c.Output, strings.Join(lines, "\n"))
	return err
}

// ended holds for the two ways in which an input ends without fault.
func ended(err error) bool { return errors.Is(err, io.EOF) || errors.Is(err, ErrInterrupted) }

// leaves holds for the words that end a chat.
func leaves(line string) bool {
	switch strings.ToLower(strings.TrimPrefix(strings.TrimSpace(line), "/")) {
	case "quit", "exit", "bye":
		return true
	}
	return false
}
