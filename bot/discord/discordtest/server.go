// Package discordtest plays Discord for tests: the gateway and the part of the
// HTTP interface that the bot uses, on a loopback socket.
//
// Whatever the bot sends is held to the platform's official description and to
// the rules of its manual that the description leaves out. What breaks them fails
// the test, with the request. A test sends interactions (Slash, Press, Submit and
// so on), waits for what the bot does with them, and asks for the faults that a
// network and a platform have.
package discordtest

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strconv"
	"sync"
	"time"
)

// The bot that the stand-in knows.
const (
	Token = "NTAwMDAwMDAwMDAwMDAwMDAx.stand-in.token"
	App   = "500000000000000001" // its application and its user
)

// TB is what of testing.TB a Server needs.
type TB interface {
	Helper()
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
	Cleanup(func())
}

// Server is a stand-in. Its exported fields are set before a client connects.
type Server struct {
	Heartbeat  time.Duration    // what HELLO asks for; as on the platform if zero
	Patience   time.Duration    // how long a test waits for the bot; 20 s if zero
	Now        func() time.Time // the clock of the three seconds; the wall's if nil
	Guilds     []string         // told of in READY
	Channels   map[string]int   // types of channels by id; text if not named
	Shards     int              // recommended; 1 if zero
	Identifies int              // left of the day's 1,000; 999 if zero, none if below
	Unchecked  bool             // takes bodies as they are, to measure pace: a check takes some 20 ms

	t      TB
	d      *description
	http   *httptest.Server
	mu     sync.Mutex
	cond   *sync.Cond
	closed bool
	done   chan struct{} // closed with the server
	next   int64

	conns        map[*conn]bool
	sessions     []*session
	interactions map[string]*Interaction // by token
	commands     map[string][]map[string]any
	posts        []*Message
	attached     map[string]*File
	lossy        bool               // answers get lost, so that what was done may come again
	closedTo     map[string]refusal // channels that the bot can't write in
	calls        []Call
	faults       []fault
	gateway      []*upset
	events       []string // what clients sent on the gateway
}

// Call is a request. Its route is named as the official description names the
// operation.
type Call struct {
	Method, Route, Path string
	Status              int // zero where it met with trouble that a test asked for
}

// New starts a stand-in that ends with the test.
func New(t TB) *Server {
	t.Helper()
	d, err := load()
	if err != nil {
		t.Fatalf("the description can't be read: %v", err)
	}
	s := &Server{t: t, d: d, interactions: map[string]*Interaction{}, commands: map[string][]map[string]any{}, conns: map[*conn]bool{}, done: make(chan struct{}), Channels: map[string]int{}, closedTo: map[string]refusal{}, attached: map[string]*File{}}
	s.cond = sync.NewCond(&s.mu)
	mux := http.NewServeMux()
	mux.HandleFunc("/gateway", s.serveGateway)
	mux.HandleFunc("/gateway/", s.serveGateway)
	mux.HandleFunc("GET /attachments/{id}", s.serveAttachment)
	mux.HandleFunc("/", s.serveREST)
	s.http = httptest.NewServer(mux)
	t.Cleanup(s.shut)
	return s
}

// serveAttachment gives back what was attached.
func (s *Server) serveAttachment(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	f := s.attached[r.PathValue("id")]
	s.mu.Unlock()
	if f == nil {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", f.Type)
	_, _ = w.Write(f.Data)
}

// shut ends everything; what comes later is no fault.
func (s *Server) shut() {
	s.mu.Lock()
	s.closed = true
	close(s.done)
	for c := range s.conns {
		c.ws.Close()
	}
	s.cond.Broadcast()
	s.mu.Unlock()
	s.http.Close() // after what is being answered
}

// API is the base of the HTTP interface.
func (s *Server) API() string { return s.http.URL + "/api/v10" }

// Transport sends requests for any host here.
func (s *Server) Transport() http.RoundTripper {
	to, err := url.Parse(s.http.URL)
	if err != nil {
		panic(err) // of a server that listens
	}
	return redirect{to, s.http.Client().Transport}
}

type redirect struct {
	to   *url.URL
	with http.RoundTripper
}

func (r redirect) RoundTrip(req *http.Request) (*http.Response, error) {
	as := req.Clone(req.Context())
	as.URL.Scheme, as.URL.Host, as.Host = r.to.Scheme, r.to.Host, r.to.Host
	return r.with.RoundTrip(as)
}

// Calls are the requests so far, oldest first.
func (s *Server) Calls() []Call {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]Call(nil), s.calls...)
}

// Commands are the commands registered for a guild, or for all if it is "".
func (s *Server) Commands(guild string) []map[string]any {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.commands[guild]
}

// Posts are the messages that were sent to channels, oldest first.
func (s *Server) Posts() []*Message {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]*Message(nil), s.posts...)
}

func (s *Server) now() time.Time {
	if s.Now != nil {
		return s.Now()
	}
	return time.Now()
}

// id is a new id of the platform at the present time; s is locked.
func (s *Server) id() string {
	s.next++
	return strconv.FormatInt((s.now().UnixMilli()-1420070400000)<<22+s.next%(1<<22), 10)
}

// wait blocks until what is asked of the locked server holds. It fails the test
// after the server's patience.
func (s *Server) wait(what string, holds func() bool) bool {
	s.t.Helper()
	if ok := s.await(holds); !ok {
		s.t.Fatalf("waited in vain for %s", what)
		return false
	}
	return true
}

// await is wait without the failure.
func (s *Server) await(holds func() bool) bool {
	patience := s.Patience
	if patience == 0 {
		patience = 20 * time.Second
	}
	late := false
	timer := time.AfterFunc(patience, func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		late = true
		s.cond.Broadcast()
	})
	defer timer.Stop()
	s.mu.Lock()
	defer s.mu.Unlock()
	for !holds() {
		if late || s.closed {
			return false
		}
		s.cond.Wait()
	}
	return true
}

// wrong fails the test for what a client did, unless the test is over; s is
// locked.
func (s *Server) wrong(format string, args ...any) {
	if !s.closed {
		s.t.Errorf("discord would not like this: %s", fmt.Sprintf(format, args...))
	}
}
