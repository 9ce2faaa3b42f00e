// Package guard says whether an answer in other words says what a draft says: the same
// numbers, units, dates, verdict, advice and warnings, of the same things, and no more.
//
// The draft is split into claims, each a short list of what counts in it: quantities
// with their units, and the words that carry meaning. Words that carry none are left out
// of both texts, and a closed table makes one of words that mean the same. The answer
// has to be the draft's claims in their order, each with all that counts in it and
// nothing else, a negation on the same word, and things of one kind in the same order.
// A word that neither the claim nor the tables know is refused, so that no new advice
// can come in. Warnings stay word by word. On any doubt the answer is refused.
//
// It judges text by text: it knows no command, no chat, no clock and no network.
package guard

import (
	"fmt"
	"strings"
	"time"
)

// Name stands for the tank's name in drafts and answers.
const Name = "TANK"

// Draft is what an answer has to say.
type Draft struct {
	Body  string
	Keep  []string  // warnings that stay word by word
	Today time.Time // of the draft, for "in 9 days" and weekdays
}

// Longest is how long a draft may be with its warnings, in bytes.
const Longest = 6000

// Refusal is why an answer does not pass. It holds words of the answer, for the log only.
type Refusal struct {
	Why string
	At  string
}

func (r *Refusal) Error() string {
	if r.At == "" {
		return r.Why
	}
	return fmt.Sprintf("%s: %.60q", r.Why, r.At)
}

func refuse(why, at string) error { return &Refusal{why, at} }

// Check returns nil if the answer says what the draft says, and a *Refusal otherwise.
// The answer holds the warnings too.
func Check(d Draft, answer string) error {
	return verdict(d, answer, func() []claim { return claims(d.Body) }, tokens)
}

// verdict is that of Check; claimed takes the draft apart when it comes to that, and read
// the answer.
func verdict(d Draft, answer string, claimed func() []claim, read func(string) []token) error {
	if err := checkLength(d, answer); err != nil {
		return err
	}
	if err := checkCharacters(answer); err != nil {
		return err
	}
	rest, err := takeWarnings(answer, d.Keep)
	if err != nil {
		return err
	}
	return align(claimed(), read(rest), d.Today)
}

// Fits returns a *Refusal if a draft is too long for any answer to pass.
func (d Draft) Fits() error {
	if n := d.len(); n > Longest {
		return refuse(fmt.Sprintf("the draft is too long: %d bytes", n), "")
	}
	return nil
}

func (d Draft) len() int {
	n := len(d.Body)
	for _, k := range d.Keep {
		n += len(k) + 1
	}
	return n
}

// checkLength refuses what is much longer than the draft.
func checkLength(d Draft, answer string) error {
	whole := d.len()
	switch {
	case whole > Longest:
		return d.Fits()
	case strings.TrimSpace(answer) == "":
		return refuse("it is empty", "")
	case len(answer) > whole*8/5+120:
		return refuse(fmt.Sprintf("it is too long: %d bytes for %d", len(answer), whole), "")
	}
	return nil
}

// takeWarnings takes the warnings out of an answer, each of which has to be there as a
// whole, in order.
func takeWarnings(answer string, keep []string) (rest string, err error) {
	rest = strings.Join(strings.FieldsFunc(answer, func(r rune) bool { return r == ' ' }), " ")
	var before strings.Builder
	for _, k := range keep {
		at := strings.Index(rest, k)
		if at < 0 || at > 0 && !strings.ContainsRune(" \n", rune(rest[at-1])) {
			return "", refuse("a warning is not there as it has to be", k)
		}
		before.WriteString(rest[:at])
		before.WriteString("\n")
		rest = rest[at+len(k):]
	}
	return before.String() + rest, nil
}
