// Package demo walks through the job with an invented club: a dozen tanks in
// all stages, told through the same commands that everybody types.
package demo

import (
	"context"
	_ "embed"
	"fmt"
	"io"
	"strings"
	"time"

	"ripen/bot/page"
	"ripen/bot/replay"
)

// Member is whose tank the walk follows.
const Member = "wren"

// Now is the moment at which the demonstration ends.
var Now = time.Date(2026, time.March, 31, 18, 30, 0, 0, time.UTC)

// club.txt is what the other members have told so far; walk.txt is the walk, in
// which comments are the guide's words. Both are scripts of the text form.
var (
	//go:embed club.txt
	clubScript string
	//go:embed walk.txt
	walkScript string
)

// Run loads the club and walks, writing to w what the guide says, what is typed
// and what is answered. The book must be on an empty database.
func Run(ctx context.Context, book replay.Book, club string, w io.Writer) error {
	loading := func(x replay.Exchange) error {
		if x.Asked && !x.Reply.OK {
			return fmt.Errorf("line %d of the invented club was refused: %s", x.Line, x.Reply.Text)
		}
		return nil
	}
	if err := replay.Run(ctx, book, club, strings.NewReader(clubScript), loading); err != nil {
		return fmt.Errorf("loading the invented club: %w", err)
	}
	for _, part := range parts(walkScript) {
		if part.guide {
			if _, err := fmt.Fprintf(w, "%s\n\n", page.Wrap(part.text, page.Width, "")); err != nil {
				return err
			}
			continue
		}
		if err := replay.Run(ctx, book, club, strings.NewReader(part.text), walking(w)); err != nil {
			return fmt.Errorf("walking through the invented club: %w", err)
		}
	}
	return nil
}

// walking writes an exchange as it looks in the chat.
func walking(w io.Writer) func(replay.Exchange) error {
	return func(x replay.Exchange) error {
		typed := x.Request.Member + "> " + x.Said
		if _, err := fmt.Fprintln(w, page.Wrap(typed, page.Width, "")); err != nil {
			return err
		}
		if !x.Asked {
			return nil
		}
		_, err := fmt.Fprintf(w, "%s\n\n", page.Reply(x.Reply, "  "))
		return err
	}
}

// part is a paragraph of the guide, or script lines.
type part struct {
	guide bool
	text  string
}

// parts splits the walk at empty lines. A part whose lines start with # is the
// guide's.
func parts(script string) []part {
	var all []part
	for text := range strings.SplitSeq(strings.TrimSpace(script), "\n\n") {
		if !strings.HasPrefix(text, "#") {
			all = append(all, part{text: text})
			continue
		}
		var said []string
		for l := range strings.SplitSeq(text, "\n") {
			said = append(said, strings.TrimPrefix(strings.TrimPrefix(l, "#"), " "))
		}
		all = append(all, part{guide: true, text: strings.Join(said, "\n")})
	}
	return all
}
