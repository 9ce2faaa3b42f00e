package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"net"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"time"
)

const (
	maxTries   = 5                      // of one call
	maxPause   = time.Minute            // that the platform may ask for
	firstPause = 250 * time.Millisecond // after a failure; doubles
	maxCall    = 15 * time.Second       // for one try
	perSecond  = 40                     // calls; with the burst never more than the 50 that are allowed
	burst      = 10                     // calls at once
)

// transport sends calls to the base of our choice: not too many at a time, again
// where that can't do anything twice, and never for ever.
type transport struct {
	base *url.URL
	next http.RoundTripper
	now  func() time.Time
	wait func(context.Context, time.Duration) error

	mu    sync.Mutex
	turn  time.Time            // when the bucket of calls would be full
	until time.Time            // nothing is sent before, the platform said
	spent map[string]time.Time // when a route whose calls are used up has more
}

func newTransport(base *url.URL, now func() time.Time) *transport {
	return &transport{base: base, next: http.DefaultTransport, now: now, wait: wait, spent: map[string]time.Time{}}
}

// attempt goes with the context of a call.
type attempt struct {
	repeatable bool // doing it twice is doing it once
	tries      int
	arrived    bool // at least one try may have been heard and done
}

type attemptKey struct{}

// limitError is a call that the platform did not take for now.
type limitError struct{ after time.Duration }

func (e *limitError) Error() string {
	return fmt.Sprintf("too many calls: the platform asks to wait %v", e.after)
}

// RoundTrip sends a call.
func (t *transport) RoundTrip(req *http.Request) (*http.Response, error) {
	ctx := req.Context()
	a, _ := ctx.Value(attemptKey{}).(*attempt)
	if a == nil {
		a = &attempt{}
	}
	repeatable := a.repeatable || req.Method != http.MethodPost
	pause := firstPause
	for a.tries = 1; ; a.tries++ {
		if err := t.queue(ctx, req); err != nil {
			return nil, err
		}
		resp, err := t.once(req)
		a.arrived = a.arrived || arrived(resp, err)
		if err == nil {
			t.heed(req, resp)
		}
		after, again := pause, repeatable && (err != nil || resp.StatusCode >= 500)
		if err == nil && resp.StatusCode == http.StatusTooManyRequests {
			after, again = t.limited(resp), true
			if after > maxPause || a.tries == maxTries || t.late(ctx, after) {
				return nil, &limitError{after}
			}
		}
		if !again || a.tries == maxTries || ctx.Err() != nil || t.late(ctx, after) {
			return resp, err
		}
		if err := t.wait(ctx, after); err != nil {
			return nil, err
		}
		pause *= 2
	}
}

// arrived says whether what a try asked for may have been done: not where no connection
// was made, nor where the platform said that the call came too soon.
func arrived(resp *http.Response, err error) bool {
	if op, ok := errors.AsType[*net.OpError](err); ok && op.Op == "dial" {
		return false
	}
	return err != nil || resp.StatusCode != http.StatusTooManyRequests
}

// late says that a wait would outlast the call's context.
func (t *transport) late(ctx context.Context, d time.Duration) bool {
	end, ok := ctx.Deadline()
	return ok && t.now().Add(d).After(end)
}

// queue waits until a call may go: when its route has calls left, after a pause for
// all that the platform asked for, and not too many in a second. Answers to
// interactions are outside of the latter two.
func (t *transport) queue(ctx context.Context, req *http.Request) error {
	answer := strings.Contains(req.URL.Path, "/interactions/") || strings.Contains(req.URL.Path, "/webhooks/")
	for {
		t.mu.Lock()
		now := t.now()
		d := t.spent[route(req)].Sub(now)
		if !answer {
			d = max(d, t.until.Sub(now))
		}
		if d <= 0 && !answer {
			if empty := now.Add(-burst * time.Second / perSecond); t.turn.Before(empty) {
				t.turn = empty
			}
			if d = t.turn.Add(time.Second / perSecond).Sub(now); d <= 0 {
				t.turn = t.turn.Add(time.Second / perSecond)
			}
		}
		t.mu.Unlock()
		if d <= 0 {
			return nil
		}
		if err := t.wait(ctx, d); err != nil {
			return err
		}
	}
}

// route is what the platform counts calls of: the same call on the same channel, or
// to the same interaction.
func route(req *http.Request) string { return req.Method + " " + req.URL.Path }

// heed remembers that a route has no calls left, until it has. What is over is
// forgotten.
func (t *transport) heed(req *http.Request, resp *http.Response) {
	if resp.Header.Get("X-RateLimit-Remaining") != "0" {
		return
	}
	after, err := strconv.ParseFloat(resp.Header.Get("X-RateLimit-Reset-After"), 64)
	if err != nil || after <= 0 {
		return
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	now := t.now()
	maps.DeleteFunc(t.spent, func(_ string, until time.Time) bool { return !until.After(now) })
	t.spent[route(req)] = now.Add(min(time.Duration(after*float64(time.Second)), maxPause))
}

// limited returns how long a 429 asks to wait, and holds all calls up if it is
// meant for all.
func (t *transport) limited(resp *http.Response) time.Duration {
	var body struct {
		After  float64 `json:"retry_after"`
		Global bool    `json:"global"`
	}
	raw, _ := io.ReadAll(resp.Body)
	if err := json.Unmarshal(raw, &body); err != nil || body.After <= 0 {
		body.After, _ = strconv.ParseFloat(resp.Header.Get("Retry-After"), 64)
	}
	after := max(time.Duration(body.After*float64(time.Second)), firstPause)
	if body.Global || resp.Header.Get("X-RateLimit-Global") != "" {
		t.mu.Lock()
		if until := t.now().Add(after); until.After(t.until) {
			t.until = until
		}
		t.mu.Unlock()
	}
	return after
}

// once sends a call one time and reads all of the answer.
func (t *transport) once(req *http.Request) (*http.Response, error) {
	ctx, cancel := context.WithTimeout(req.Context(), maxCall)
	defer cancel()
	as := req.Clone(ctx)
	_, path, _ := strings.Cut(strings.TrimPrefix(req.URL.Path, "/api/"), "/") // after the version
	as.URL.Scheme, as.URL.Host, as.Host = t.base.Scheme, t.base.Host, ""
	as.URL.Path, as.URL.RawPath = t.base.Path+"/"+path, ""
	if req.GetBody != nil {
		body, err := req.GetBody()
		if err != nil {
			return nil, err
		}
		as.Body = body
	}
	resp, err := t.next.RoundTrip(as)
	if err != nil {
		return nil, err
	}
	defer resp.Body.Close()
	raw, err := io.ReadAll(resp.Body)
	if err != nil {
		return nil, err
	}
	resp.Body = io.NopCloser(bytes.NewReader(raw))
	return resp, nil
}
