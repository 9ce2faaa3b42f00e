// Package words lets a language model put replies in other words, where an installation
// has one. What the model writes is shown only if the guard finds in it all that the
// engine said and nothing else; whatever goes wrong, the reply stays as it was.
//
// The model gets the draft of a reply and nothing more: no names, no notes, no log.
package words

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strings"
	"time"

	"ripen/bot/words/guard"
	"ripen/commands"
)

// Limits of an installation, where it sets none.
const (
	usualTimeout   = 4 * time.Second
	usualMemberDay = 20
	usualClubDay   = 300
	atOnce         = 4
)

// footer says under a reply whose words these are.
const footer = "\n\n(Worded by a language model. Each number, date and piece of advice was compared with the engine's.)"

// Writer puts a draft in other words.
type Writer interface {
	Write(ctx context.Context, draft string) (string, error)
}

// Stage stands between the commands and a front end. A nil Stage changes nothing. It is
// safe for use by several goroutines at once.
type Stage struct {
	writer  Writer
	timeout time.Duration
	spend   *spending
	slots   chan struct{}
	log     *slog.Logger
}

// New returns the stage of a configuration, nil if that asks for no model.
func New(c Config, log *slog.Logger) (*Stage, error) {
	if c.URL == "" {
		return nil, nil
	}
	w, err := newClient(c)
	if err != nil {
		return nil, err
	}
	return newStage(c, w, log), nil
}

func newStage(c Config, w Writer, log *slog.Logger) *Stage {
	return &Stage{
		writer: w, timeout: c.timeout(), spend: newSpending(c.MemberDay, c.ClubDay),
		slots: make(chan struct{}, atOnce), log: log,
	}
}

// Why a reply keeps its own words.
var (
	errBusy    = errors.New("other replies are being phrased")
	errBudget  = errors.New("the day's budget is spent")
	errResting = errors.New("the model failed several times in a row and is left alone for a while")
	errLate    = errors.New("no answer in time")
)

// Say returns a reply in the model's words if there is anything to phrase, the model
// answers in time and the guard lets it pass; else it returns the reply as it is, and logs
// why.
func (s *Stage) Say(ctx context.Context, r commands.Request, reply commands.Reply) commands.Reply {
	if s == nil || reply.Draft == nil || !reply.OK {
		return reply
	}
	said, err := s.phrase(ctx, r, reply.Draft)
	if err != nil {
		s.log.Warn("a reply keeps its own words", "command", r.Command, "reason", err)
		return reply
	}
	reply.Text = reply.Draft.Said(said) + footer
	return reply
}

// phrase returns other words for a draft, its warnings with them.
func (s *Stage) phrase(ctx context.Context, r commands.Request, d *commands.Draft) (string, error) {
	if err := guarded(r, d).Fits(); err != nil {
		return "", err
	}
	select {
	case s.slots <- struct{}{}:
	default:
		return "", errBusy
	}
	if err := s.spend.take(r); err != nil {
		<-s.slots
		return "", err
	}
	asker := ctx
	ctx, cancel := context.WithTimeout(ctx, s.timeout)
	defer cancel()
	type answer struct {
		said string
		err  error
	}
	// A writer that does not heed its context must not hold up the reply; its slot is
	// taken as long as it runs.
	done := make(chan answer, 1)
	go func() {
		defer func() {
			if p := recover(); p != nil {
				done <- answer{err: fmt.Errorf("panic: %v", p)}
			}
			<-s.slots
		}()
		said, err := s.writer.Write(ctx, d.Body)
		if err == nil {
			said, err = checked(r, d, said)
		}
		done <- answer{said, err}
	}()
	a := answer{err: errLate}
	select {
	case a = <-done:
	case <-ctx.Done():
	}
	if asker.Err() == nil { // else it was not the model that gave up
		s.spend.ended(r.At, a.err == nil)
	}
	return a.said, a.err
}

// guarded is a draft as the guard takes it.
func guarded(r commands.Request, d *commands.Draft) guard.Draft {
	return guard.Draft{Body: d.Body, Keep: d.Keep, Today: r.At.UTC().Truncate(24 * time.Hour)}
}

// checked returns the model's words with the warnings of the draft, if the guard lets them
// pass.
func checked(r commands.Request, d *commands.Draft, said string) (string, error) {
	said = unwrap(said)
	if len(d.Keep) > 0 {
		said += "\n\n" + strings.Join(d.Keep, " ")
	}
	if err := guard.Check(guarded(r, d), said); err != nil {
		return "", fmt.Errorf("the guard refused it: %w", err)
	}
	return said, nil
}
