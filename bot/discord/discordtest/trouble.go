package discordtest

import (
	"net/http"
	"strconv"
	"time"
)

// fault is what befalls the next requests of a route.
type fault struct {
	route string // of the description, "" for all
	left  int
	lose  bool // of the answer, after all was done
	hit   func(http.ResponseWriter, *http.Request) (answered bool)
}

func (s *Server) trouble(route string, n int, hit func(http.ResponseWriter, *http.Request) bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.faults = append(s.faults, fault{route: route, left: n, hit: hit})
}

// Fail answers the next n requests of a route with a status. A route is named as
// the official description names its operation, such as
// "create_interaction_response"; "" is any.
func (s *Server) Fail(route string, status, n int) {
	s.trouble(route, n, func(w http.ResponseWriter, _ *http.Request) bool {
		http.Error(w, "upstream connect error", status)
		return true
	})
}

// Limit answers the next n requests with 429 and asks to wait.
func (s *Server) Limit(route string, after time.Duration, global bool, n int) {
	s.trouble(route, n, func(w http.ResponseWriter, _ *http.Request) bool {
		h, seconds := w.Header(), after.Seconds()
		h.Set("Retry-After", strconv.Itoa(int(seconds+0.999)))
		if global {
			h.Set("X-RateLimit-Global", "true")
			h.Set("X-RateLimit-Scope", "global")
		} else {
			h.Set("X-RateLimit-Scope", "user")
			h.Set("X-RateLimit-Bucket", "stand-in")
			h.Set("X-RateLimit-Limit", "5")
			h.Set("X-RateLimit-Remaining", "0")
			h.Set("X-RateLimit-Reset-After", strconv.FormatFloat(seconds, 'f', 3, 64))
			h.Set("X-RateLimit-Reset", strconv.FormatFloat(float64(s.now().Add(after).UnixMilli())/1000, 'f', 3, 64))
		}
		reply(w, http.StatusTooManyRequests, map[string]any{"message": "You are being rate limited.", "retry_after": seconds, "global": global})
		return true
	})
}

// LimitPlain answers the next n requests with a 429 that is not JSON, as the
// network before the platform does.
func (s *Server) LimitPlain(route string, after time.Duration, n int) {
	s.trouble(route, n, func(w http.ResponseWriter, _ *http.Request) bool {
		w.Header().Set("Retry-After", strconv.Itoa(int(after.Seconds()+0.999)))
		w.Header().Set("Content-Type", "text/html")
		w.WriteHeader(http.StatusTooManyRequests)
		_, _ = w.Write([]byte("<html><title>Access denied</title></html>"))
		return true
	})
}

// Delete makes a channel unknown.
func (s *Server) Delete(channel string) {
	s.shutOut(channel, refusal{status: http.StatusNotFound, code: 10003, message: "Unknown Channel"})
}

// Hide keeps a channel from the bot's sight.
func (s *Server) Hide(channel string) {
	s.shutOut(channel, refusal{status: http.StatusForbidden, code: 50001, message: "Missing Access"})
}

// Mute keeps the bot from writing in a channel.
func (s *Server) Mute(channel string) {
	s.shutOut(channel, refusal{status: http.StatusForbidden, code: 50013, message: "Missing Permissions"})
}

func (s *Server) shutOut(channel string, r refusal) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.closedTo[channel] = r
}

// Slow lets the next n requests wait before they are served.
func (s *Server) Slow(route string, d time.Duration, n int) {
	s.trouble(route, n, func(_ http.ResponseWriter, r *http.Request) bool {
		select {
		case <-time.After(d):
		case <-r.Context().Done():
		case <-s.done:
		}
		return false
	})
}

// Lose serves the next n requests and cuts the connection before the answer.
// Unlike Fail, what was asked for is done.
func (s *Server) Lose(route string, n int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.faults = append(s.faults, fault{route: route, left: n, lose: true})
	s.lossy = true
}

// spoil lets a request meet its fate. It reports whether that was an answer, and
// whether the answer is to be lost.
func (s *Server) spoil(w http.ResponseWriter, r *http.Request, route string) (answered, lost bool) {
	s.mu.Lock()
	var now fault
	for k := range s.faults {
		if f := &s.faults[k]; f.left > 0 && (f.route == "" || f.route == route) {
			f.left--
			now = *f
			break
		}
	}
	s.mu.Unlock()
	if now.hit == nil || !now.hit(w, r) {
		return false, now.lose
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.calls = append(s.calls, Call{Method: r.Method, Route: route, Path: r.URL.Path})
	s.cond.Broadcast()
	return true, false
}
