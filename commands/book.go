package commands

import (
	"context"
	"fmt"
	"slices"

	"ripen/engine/diagnose"
	"ripen/engine/model"
	"ripen/engine/nexttest"
	"ripen/engine/outlook"
	"ripen/engine/stocking"
	"ripen/engine/tryout"
	"ripen/engine/unit"
	"ripen/store"
)

// Adviser is the engine behind /outlook and /why. now counts days from the
// tank's start, like every day of the case.
type Adviser interface {
	Outlook(c model.Case, now unit.Days) (outlook.Outlook, error)
	Why(c model.Case, now unit.Days) (diagnose.Diagnosis, outlook.Outlook, error)
	NextTest(c model.Case, now unit.Days) (nexttest.Advice, outlook.Outlook, error)
	Tryout(c model.Case, now unit.Days, changes ...tryout.Change) (tryout.Result, error)
	Stock(c model.Case, now unit.Days, w stocking.Wish) (stocking.Advice, error)
	Gain(c model.Case, now unit.Days, of model.Event) (tryout.Gain, error)
}

// Book answers requests. It is safe for use by several goroutines at once if
// its store and its adviser are.
type Book struct {
	store    store.Store
	advisers advisers
	version  string
	model    string // that may phrase replies, "" for none
	specs    []Spec
	watch    *Watch // nil where everything is worked out when it is asked for
}

// Setting adjusts a new Book.
type Setting func(*Book)

// WithAdviser plugs in the engine behind /outlook and /why. Without it they
// answer with code "unavailable".
func WithAdviser(a Adviser) Setting { return func(b *Book) { b.advisers.base = a } }

// WithVersion sets the version that /method names.
func WithVersion(v string) Setting { return func(b *Book) { b.version = v } }

// New returns the command book over a store.
func New(st store.Store, settings ...Setting) *Book {
	b := &Book{store: st, specs: book()}
	for _, set := range settings {
		set(b)
	}
	if b.watch != nil {
		b.watch.book, b.store = b, watched{st, b.watch}
	}
	return b
}

// Specs returns the description of every command, in the order of the command
// book.
func (b *Book) Specs() []Spec { return slices.Clone(b.specs) }

// Do answers one request. It never panics: whatever goes wrong below is turned
// into a Reply with an Error.
func (b *Book) Do(ctx context.Context, r Request) (reply Reply) {
	defer func() {
		if p := recover(); p != nil {
			reply = refusal(&Error{
				Code:    CodeInternal,
				Message: "something went wrong inside the program; please tell whoever runs this bot what you typed",
				cause:   fmt.Errorf("%s %s: panic: %v", r.Command, r.Sub, p),
			})
		}
	}()
	c, err := b.parse(ctx, r)
	if err != nil {
		return refusal(asError(err))
	}
	if c.spec.run == nil {
		return refusal(refuse(CodeUnavailable, "", "/%s is not ready yet", c.spec.Path()))
	}
	result, err := c.spec.run(c)
	if err != nil {
		return refusal(asError(err))
	}
	attached, err := files(result, r.Plain)
	if err != nil {
		return refusal(asError(err))
	}
	if x, ok := result.(interface{ attached() []File }); ok {
		attached = x.attached()
	}
	text := result.Text()
	bare := false
	if x, ok := result.(pictured); ok && r.Bare && len(attached) > 0 {
		bare, text = true, x.words()
	}
	return Reply{OK: true, Private: c.spec.Private, Text: text, Data: result, Files: attached, Draft: b.draft(ctx, r.Club, result, bare)}
}

// refusal is the reply to a request that cannot be met; only the asker sees it.
func refusal(e *Error) Reply { return Reply{Private: true, Text: e.Message, Err: e} }
