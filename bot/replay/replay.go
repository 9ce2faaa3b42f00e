// Package replay runs a script of the text form: the same commands as a chat,
// with the clock and the members that the script names.
//
//	TIME @MEMBER[+moderator] /command [sub] option:value …
//
// Blank lines and lines that start with # are skipped; a line without a slash is
// an ordinary post, unless !add stands before it. Lines run in the order in
// which they stand, each at its own time. A line that can't be understood is
// refused with its number, changes nothing, and the script goes on. A line that
// was taken before on the same database, to the letter, adds nothing.
package replay

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"ripen/bot/lines"
	"ripen/bot/talk"
	"ripen/commands"
)

// Errors that end a script.
var (
	ErrScript   = errors.New("can't read the script")
	ErrDatabase = errors.New("the database failed")
)

// Book answers requests.
type Book interface {
	Do(context.Context, commands.Request) commands.Reply
}

// Exchange is one line of a script and the answer to it.
type Exchange struct {
	Line    int    // counts from 1
	Typed   string // the line as it stands
	Request commands.Request
	At      time.Time // as written, with its zone; zero if the line has no time
	Said    string    // what stands after the member
	Asked   bool      // false for an ordinary post, which has no Reply
	Reply   commands.Reply
}

// Run runs a script in a club and hands each exchange to show, in order. It
// returns an error that wraps ErrScript when the script can't be read on,
// ErrDatabase when the database failed, or the error of ctx or show.
func Run(ctx context.Context, book Book, club string, script io.Reader, show func(Exchange) error) error {
	for r := lines.NewReader(script); ; {
		l, err := r.Next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%w: %w", ErrScript, err)
		}
		if t := strings.TrimSpace(l.Text); l.Err == nil && (t == "" || t[0] == '#') {
			continue
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		x := exchange(ctx, book, club, l)
		if err := show(x); err != nil {
			return err
		}
		if e := x.Reply.Err; e != nil && e.Code == commands.CodeDatabase {
			var cause error = e
			if below := errors.Unwrap(e); below != nil {
				cause = below
			}
			return fmt.Errorf("%w at line %d: %w", ErrDatabase, l.No, cause)
		}
	}
}

// exchange runs one line.
func exchange(ctx context.Context, book Book, club string, l lines.Line) Exchange {
	x := Exchange{Line: l.No, Typed: l.Text, Asked: true}
	refuse := func(code string, err error) Exchange {
		e := &commands.Error{Code: code, Message: fmt.Sprintf("line %d: %v", l.No, err)}
		x.Reply = commands.Reply{Private: true, Text: e.Message, Err: e}
		return x
	}
	if errors.Is(l.Err, lines.ErrTooLong) {
		return refuse(commands.CodeTooLong, l.Err)
	}
	if l.Err != nil {
		return refuse(commands.CodeBadText, l.Err)
	}
	said, err := parse(l.Text)
	x.At, x.Said = said.at, said.text
	x.Request = commands.Request{Member: said.member}
	if err != nil {
		return refuse(commands.CodeSyntax, err)
	}
	var failed *commands.Error
	x.Request, x.Asked, failed = talk.Request(said.text)
	x.Request.At = said.at.UTC()
	x.Request.Club, x.Request.Member, x.Request.Moderator = club, said.member, said.moderator
	x.Request.Key = key(said)
	x.Request.Plain = true
	switch {
	case failed != nil:
		x.Reply = commands.Reply{Private: true, Text: failed.Message, Err: failed}
	case x.Asked:
		x.Reply = book.Do(ctx, x.Request)
	}
	return x
}

// key tells a line from every other, and is the same when it comes again.
func key(l line) string {
	h := sha256.New()
	fmt.Fprintf(h, "%s\n%s\n%s", l.at.UTC().Format(time.RFC3339Nano), l.member, l.text)
	return "replay/" + hex.EncodeToString(h.Sum(nil))
}
