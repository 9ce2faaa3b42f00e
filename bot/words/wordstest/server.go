// Package wordstest is a stand-in for an OpenAI-compatible server, on the loopback, that
// answers as it is told to: well, or in any way that servers fail.
package wordstest

import (
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
)

// Trouble is how a server answers.
type Trouble string

// What a server can do. None answers well.
const (
	None       Trouble = ""
	Slow       Trouble = "slow"         // never, until the asker gives up
	Stuck      Trouble = "stuck"        // half of it, then nothing until the asker gives up
	Cut        Trouble = "cut"          // half of it, then the connection ends
	TooMany    Trouble = "429"          // too many requests
	Broken     Trouble = "500"          // an internal error
	Invalid    Trouble = "invalid JSON" // what is no JSON
	Other      Trouble = "other JSON"   // JSON of another shape
	Empty      Trouble = "empty"        // no words
	NoChoice   Trouble = "no choice"    // no answer among the answers
	NoBody     Trouble = "no body"      // not a byte
	Huge       Trouble = "huge"         // a megabyte of words
	WrongModel Trouble = "wrong model"  // that model is not known
	Long       Trouble = "cut short"    // the model was stopped at its limit
	Filtered   Trouble = "filtered"     // the server would not say it all
	Moved      Trouble = "moved"        // look elsewhere
	NoKey      Trouble = "401"          // the key is wrong, and shown
)

// Troubles are all of them that are troubles.
var Troubles = []Trouble{Slow, Stuck, Cut, TooMany, Broken, Invalid, Other, Empty, NoChoice, NoBody, Huge, WrongModel, Long, Filtered, Moved, NoKey}

// Server is the stand-in.
type Server struct {
	*httptest.Server

	mu      sync.Mutex
	say     func(draft string) string
	trouble Trouble
	asked   []string
}

// New starts a stand-in that ends with the test. say is what it answers to a draft.
func New(tb testing.TB, say func(draft string) string) *Server {
	s := &Server{say: say}
	s.Server = httptest.NewServer(s)
	tb.Cleanup(s.Close)
	return s
}

// NewTLS starts one whose certificate nobody trusts.
func NewTLS(tb testing.TB, say func(draft string) string) *Server {
	s := &Server{say: say}
	s.Server = httptest.NewUnstartedServer(s)
	s.Config.ErrorLog = nil
	s.StartTLS()
	tb.Cleanup(s.Close)
	return s
}

// Be makes the server answer so from now on.
func (s *Server) Be(t Trouble) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.trouble = t
}

// Asked returns the bodies of the requests so far.
func (s *Server) Asked() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]string(nil), s.asked...)
}

// ServeHTTP answers a request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	body, _ := io.ReadAll(r.Body)
	s.mu.Lock()
	s.asked = append(s.asked, string(body))
	trouble, say := s.trouble, s.say
	s.mu.Unlock()
	var q struct {
		Model    string
		Stream   bool
		Messages []struct{ Content string }
	}
	if err := json.Unmarshal(body, &q); err != nil || r.URL.Path != "/v1/chat/completions" || len(q.Messages) == 0 {
		http.Error(w, "no such thing", http.StatusNotFound)
		return
	}
	draft := strings.TrimSuffix(strings.TrimPrefix(q.Messages[len(q.Messages)-1].Content, "<<<\n"), "\n>>>")
	refuse := func(status int, format string, a ...any) {
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(status)
		fmt.Fprintf(w, `{"error":{"message":%q,"type":"stand-in"}}`, fmt.Sprintf(format, a...))
	}
	words, end := say(draft), "stop"
	switch trouble {
	case Slow:
		<-r.Context().Done()
		return
	case TooMany:
		refuse(http.StatusTooManyRequests, "slow down")
		return
	case Broken:
		refuse(http.StatusInternalServerError, "out of order")
		return
	case WrongModel:
		refuse(http.StatusNotFound, "the model %s does not exist", q.Model)
		return
	case NoKey:
		refuse(http.StatusUnauthorized, "not a key: %s", r.Header.Get("Authorization"))
		return
	case Moved:
		http.Redirect(w, r, "/v1/chat/completions?again", http.StatusTemporaryRedirect)
		return
	case Invalid:
		fmt.Fprint(w, `data: {"choices":[{"message":{"content":"`)
		return
	case Other:
		fmt.Fprint(w, `{"choices":"none","data":7}`)
		return
	case NoBody:
		return
	case Empty:
		words = " \n"
	case Huge:
		words = strings.Repeat(words+"\n", 1+(1<<20)/(len(words)+1))
	case Long:
		end = "length"
	case Filtered:
		end = "content_filter"
	}
	if q.Stream {
		stream(w, r, q.Model, words, end, trouble)
		return
	}
	choices := []any{map[string]any{"index": 0, "finish_reason": end, "message": map[string]string{"role": "assistant", "content": words}}}
	if trouble == NoChoice {
		choices = nil
	}
	answer, _ := json.Marshal(map[string]any{"id": "1", "object": "chat.completion", "model": q.Model, "choices": choices})
	w.Header().Set("Content-Type", "application/json")
	if trouble == Cut || trouble == Stuck {
		half(w, r, answer[:len(answer)/2], trouble)
		return
	}
	_, _ = w.Write(answer)
}

// stream answers word by word.
func stream(w http.ResponseWriter, r *http.Request, model, words, end string, trouble Trouble) {
	w.Header().Set("Content-Type", "text/event-stream")
	piece := func(delta map[string]string, end any) []byte {
		choices := []any{map[string]any{"index": 0, "delta": delta, "finish_reason": end}}
		if trouble == NoChoice {
			choices = []any{}
		}
		b, _ := json.Marshal(map[string]any{"id": "1", "object": "chat.completion.chunk", "model": model, "choices": choices})
		return fmt.Appendf(nil, "data: %s\n\n", b)
	}
	all := strings.SplitAfter(words, " ")
	for i, word := range all {
		if (trouble == Cut || trouble == Stuck) && i >= len(all)/2 {
			half(w, r, nil, trouble)
			return
		}
		if _, err := w.Write(piece(map[string]string{"content": word}, nil)); err != nil {
			return
		}
	}
	_, _ = w.Write(piece(map[string]string{}, end))
	_, _ = io.WriteString(w, "data: [DONE]\n\n")
}

// half sends a part of an answer, and no more.
func half(w http.ResponseWriter, r *http.Request, part []byte, trouble Trouble) {
	_, _ = w.Write(part)
	_ = http.NewResponseController(w).Flush()
	if trouble == Stuck {
		<-r.Context().Done()
	}
	panic(http.ErrAbortHandler)
}
