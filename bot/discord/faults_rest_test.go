package discord

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/bot/discord/discordtest"
	"ripen/commands"
)

// calling is a client of a server that answers with f, on a clock that only waiting moves.
type calling struct {
	*Client
	mu     sync.Mutex
	at     time.Time
	waited []time.Duration
	calls  int
}

func newCalling(t *testing.T, f func(n int, w http.ResponseWriter, r *http.Request)) *calling {
	t.Helper()
	k := &calling{at: time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)}
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		k.mu.Lock()
		k.calls++
		n := k.calls
		k.mu.Unlock()
		f(n, w, r)
	}))
	t.Cleanup(srv.Close)
	c, err := New(Options{Token: discordtest.Token, API: srv.URL, Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	k.Client = c
	c.transport.now = func() time.Time { k.mu.Lock(); defer k.mu.Unlock(); return k.at }
	c.transport.wait = func(ctx context.Context, d time.Duration) error {
		k.mu.Lock()
		defer k.mu.Unlock()
		k.at = k.at.Add(d)
		k.waited = append(k.waited, d)
		return ctx.Err()
	}
	return k
}

func limit(w http.ResponseWriter, seconds float64, global bool) {
	w.WriteHeader(http.StatusTooManyRequests)
	fmt.Fprintf(w, `{"message":"You are being rate limited.","retry_after":%g,"global":%t}`, seconds, global)
}

var to = &discordgo.Interaction{ID: "1", AppID: "2", Token: "t"}

func TestRow5EditsDoNotWaitForEachOther(t *testing.T) {
	const n = 5
	var all sync.WaitGroup
	all.Add(n)
	k := newCalling(t, func(_ int, w http.ResponseWriter, _ *http.Request) {
		all.Done()
		all.Wait() // answers none before all are there
		fmt.Fprint(w, `{"id":"1"}`)
	})
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	k.transport.now = time.Now
	ended := make(chan error, n)
	for range n {
		go func() { ended <- k.Edit(ctx, to, Message{Content: "x"}) }()
	}
	for range n {
		select {
		case err := <-ended:
			if err != nil {
				t.Fatal(err)
			}
		case <-ctx.Done():
			t.Fatal("edits wait for each other")
		}
	}
}

func TestRow6NothingIsKeptOfAnInteraction(t *testing.T) {
	k := newCalling(t, func(_ int, w http.ResponseWriter, _ *http.Request) { fmt.Fprint(w, `{"id":"1"}`) })
	for n := range 20 {
		i := &discordgo.Interaction{ID: fmt.Sprint(n), AppID: "2", Token: fmt.Sprint("t", n)}
		err := k.Respond(t.Context(), i, Response{Type: discordgo.InteractionResponseDeferredMessageUpdate})
		_, err2 := k.Followup(t.Context(), i, Message{Content: "x"})
		if err := errors.Join(err, err2, k.Edit(t.Context(), i, Message{Content: "x"})); err != nil {
			t.Fatal(err)
		}
	}
	if kept := reflect.ValueOf(k.rest.Ratelimiter).Elem().FieldByName("buckets").Len(); kept != 0 {
		t.Errorf("%d buckets are kept", kept)
	}
}

func TestRow8LimitsEnd(t *testing.T) {
	for name, f := range map[string]func(http.ResponseWriter){
		"for ever": func(w http.ResponseWriter) { limit(w, 2, false) },
		"not JSON": func(w http.ResponseWriter) {
			w.Header().Set("Retry-After", "2")
			http.Error(w, "<html>", http.StatusTooManyRequests)
		},
	} {
		k := newCalling(t, func(_ int, w http.ResponseWriter, _ *http.Request) { f(w) })
		err := k.Edit(t.Context(), to, Message{Content: "x"})
		if e, ok := errors.AsType[*limitError](err); !ok || e.after != 2*time.Second || k.calls != maxTries {
			t.Errorf("%s: %d calls, then %v", name, k.calls, err)
		}
	}
}

func TestRow8WaitsHeedTheContext(t *testing.T) {
	k := newCalling(t, func(_ int, w http.ResponseWriter, _ *http.Request) { limit(w, 30, false) })
	ctx, cancel := context.WithDeadline(t.Context(), time.Now().Add(5*time.Second))
	defer cancel()
	k.transport.now = time.Now
	if err := k.Edit(ctx, to, Message{Content: "x"}); err == nil || k.calls != 1 || len(k.waited) != 0 {
		t.Errorf("%d calls, waits %v, %v", k.calls, k.waited, err)
	}
}

// While a call waits for the end of a global limit, others of the client wait too.
func TestRow8GlobalLimitHoldsAllUp(t *testing.T) {
	t.Parallel()
	k := newCalling(t, func(n int, w http.ResponseWriter, r *http.Request) {
		if n == 1 {
			limit(w, 40, true)
			return
		}
		fmt.Fprint(w, `{"id":"1"}`)
	})
	waits, goOn := make(chan time.Duration), make(chan bool)
	k.transport.wait = func(ctx context.Context, d time.Duration) error {
		waits <- d
		<-goOn
		return ctx.Err()
	}
	ended := make(chan error, 2)
	go func() { ended <- k.Post(t.Context(), forum, Message{Content: "x"}, "n") }()
	first := got(t, waits)
	go func() { _, err := k.Self(t.Context()); ended <- err }()
	second := got(t, waits)
	k.mu.Lock()
	if first != 40*time.Second || second != 40*time.Second || k.calls != 1 {
		t.Errorf("one call waits %v and another %v after %d calls, want both to wait 40 s after one", first, second, k.calls)
	}
	k.at = k.at.Add(40 * time.Second)
	k.mu.Unlock()
	close(goOn)
	for range 2 {
		if err := got(t, ended); err != nil {
			t.Error(err)
		}
	}
	if k.calls != 3 {
		t.Errorf("%d calls, want 3", k.calls)
	}
}

// A route whose calls are used up waits until the platform said there are more;
// others go on, and nothing is kept of it afterwards.
func TestRow8UsedUpRoutesWait(t *testing.T) {
	k := newCalling(t, func(n int, w http.ResponseWriter, r *http.Request) {
		if n == 1 {
			w.Header().Set("X-RateLimit-Remaining", "0")
			w.Header().Set("X-RateLimit-Reset-After", "3.5")
		}
		fmt.Fprint(w, `{"id":"1"}`)
	})
	post := func(channel string) (waited time.Duration) {
		before := k.at
		if err := k.Post(t.Context(), channel, Message{Content: "x"}, ""); err != nil {
			t.Fatal(err)
		}
		return k.at.Sub(before)
	}
	const other = "300000000000000002"
	if d := []time.Duration{post(forum), post(other), post(forum)}; d[0] != 0 || d[1] != 0 || d[2] != 3500*time.Millisecond {
		t.Errorf("the first post waits %v, one elsewhere %v, the next there %v; want 0, 0, 3.5 s", d[0], d[1], d[2])
	}
	k.calls = 0 // uses up another, which forgets the first
	post(other)
	if len(k.transport.spent) != 1 {
		t.Errorf("%d routes are remembered", len(k.transport.spent))
	}
}

func TestRow8NotTooManyInASecond(t *testing.T) {
	var k *calling
	var at []time.Time
	k = newCalling(t, func(_ int, w http.ResponseWriter, _ *http.Request) {
		at = append(at, k.transport.now())
		fmt.Fprint(w, `{"id":"1"}`)
	})
	for range 120 {
		if err := k.Post(t.Context(), forum, Message{Content: "x"}, ""); err != nil {
			t.Fatal(err)
		}
	}
	for n := 50; n < len(at); n++ {
		if d := at[n].Sub(at[n-50]); d < time.Second {
			t.Fatalf("51 calls in %v", d)
		}
	}
}

func TestRow9FailuresAreTriedAgainWhereThatIsSafe(t *testing.T) {
	calls := map[string]func(*calling) error{
		"edit": func(k *calling) error { return k.Edit(t.Context(), to, Message{Content: "x"}) },
		"commands": func(k *calling) error {
			k.app = "2"
			return k.SetCommands(t.Context(), "", nil)
		},
		"self":             func(k *calling) error { _, err := k.Self(t.Context()); return err },
		"post with nonce":  func(k *calling) error { err := k.Post(t.Context(), forum, Message{Content: "x"}, "n"); return err },
		"post without one": func(k *calling) error { err := k.Post(t.Context(), forum, Message{Content: "x"}, ""); return err },
		"followup":         func(k *calling) error { _, err := k.Followup(t.Context(), to, Message{Content: "x"}); return err },
	}
	once := map[string]bool{"post without one": true, "followup": true}
	for name, call := range calls {
		for _, status := range []int{500, 502, 503, 504} {
			k := newCalling(t, func(n int, w http.ResponseWriter, r *http.Request) {
				if n < 3 {
					w.WriteHeader(status)
					return
				}
				var body map[string]any
				_ = json.NewDecoder(r.Body).Decode(&body)
				if name == "post with nonce" && (body["nonce"] != "n" || body["enforce_nonce"] != true) {
					t.Errorf("a post goes out with %v", body)
				}
				fmt.Fprint(w, `{"id":"1"}`)
			})
			err := call(k)
			if want := once[name]; (err != nil) != want || (k.calls == 1) != want {
				t.Errorf("%s, %d: %d calls, then %v", name, status, k.calls, err)
			}
		}
	}
}

func TestRow9AnAnswerWhoseEchoIsLost(t *testing.T) {
	for _, lost := range []bool{true, false} {
		k := newCalling(t, func(n int, w http.ResponseWriter, _ *http.Request) {
			if n == 1 && lost {
				panic(http.ErrAbortHandler) // after it was done
			}
			w.WriteHeader(http.StatusBadRequest)
			fmt.Fprint(w, `{"code":40060,"message":"Interaction has already been acknowledged."}`)
		})
		k.transport.now = time.Now
		err := k.Respond(t.Context(), to, Response{Type: discordgo.InteractionResponseDeferredMessageUpdate})
		if (err == nil) != lost {
			t.Errorf("lost %t: answering ends with %v after %d calls", lost, err, k.calls)
		}
	}
}

// A post is surely not there only if none of its tries can have arrived, and if it is the
// first part of its reply.
func TestPostsThatWereSurelyNotSent(t *testing.T) {
	const dial, limited, cut, done = "no connection", "too many calls", "cut before the answer", "posted"
	refused := &net.OpError{Op: "dial", Err: errors.New("connection refused")}
	for _, tt := range []struct {
		tries []string // then no connection
		parts int
		want  bool
	}{
		{nil, 1, true},
		{[]string{limited, dial}, 1, true},
		{[]string{cut}, 1, false},
		{[]string{dial, cut}, 1, false},
		{[]string{done}, 2, false},
	} {
		k := newCalling(t, nil)
		n := 0
		k.transport.next = trips(func(*http.Request) (*http.Response, error) {
			what := dial
			if n++; n <= len(tt.tries) {
				what = tt.tries[n-1]
			}
			answer := func(status int, body string) (*http.Response, error) {
				return &http.Response{StatusCode: status, Header: http.Header{}, Body: io.NopCloser(strings.NewReader(body))}, nil
			}
			switch what {
			case limited:
				return answer(http.StatusTooManyRequests, `{"retry_after":1}`)
			case cut:
				return nil, io.ErrUnexpectedEOF
			case done:
				return answer(http.StatusOK, `{"id":"1"}`)
			}
			return nil, refused
		})
		reply := commands.Reply{OK: true, Text: strings.Repeat("a line of the summary\n", 90*tt.parts)}
		err := k.PostReply(t.Context(), "300000000000000001", reply, "week 10")
		if err == nil || errors.Is(err, ErrNotSent) != tt.want {
			t.Errorf("tries %v of %d parts end with %v, surely not sent should be %v", tt.tries, tt.parts, err, tt.want)
		}
	}
}

// trips is a function as a transport.
type trips func(*http.Request) (*http.Response, error)

func (f trips) RoundTrip(r *http.Request) (*http.Response, error) { return f(r) }
