package discordtest

import (
	"encoding/json"
	"slices"
	"time"
)

// upset is how a future connection goes wrong.
type upset struct {
	noHello bool
	deaf    bool
	first   *answer // to IDENTIFY or RESUME, in place of READY
}

type answer struct {
	op   int
	data any
	code int // closes with it if not zero
	why  string
}

// upset takes the next connection's fate; s is locked.
func (s *Server) upset() *upset {
	if len(s.gateway) == 0 {
		return &upset{}
	}
	u := s.gateway[0]
	s.gateway = s.gateway[1:]
	return u
}

func (s *Server) plan(u *upset) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.gateway = append(s.gateway, u)
}

// NextWithoutHello lets the next connection wait for HELLO in vain.
func (s *Server) NextWithoutHello() { s.plan(&upset{noHello: true}) }

// NextDeaf lets the next connection go without acknowledgements of heartbeats.
func (s *Server) NextDeaf() { s.plan(&upset{deaf: true}) }

// NextReconnect sends opcode 7 before READY on the next connection.
func (s *Server) NextReconnect() { s.plan(&upset{first: &answer{op: opReconnect}}) }

// NextInvalid answers the first IDENTIFY or RESUME of the next connection with
// opcode 9.
func (s *Server) NextInvalid() { s.plan(&upset{first: &answer{op: opInvalidSession, data: false}}) }

// NextClose closes the next connection at IDENTIFY or RESUME.
func (s *Server) NextClose(code int) { s.plan(&upset{first: &answer{code: code, why: "planned"}}) }

// each does something to every open connection, and returns how many there were.
func (s *Server) each(f func(*session)) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	n := 0
	for _, x := range slices.Clone(s.sessions) {
		if x.conn != nil {
			f(x)
			n++
		}
	}
	return n
}

// Close closes all connections with a code. Sessions end where the code says so.
func (s *Server) Close(code int) {
	s.each(func(x *session) {
		x.conn.close(code, "planned")
		x.conn = nil
		if code == 1000 || code == 1001 || code == 4003 || code == 4004 || code == 4007 || code >= 4009 {
			s.end(x)
		}
	})
}

// Drop cuts all connections without a word.
func (s *Server) Drop() {
	s.each(func(x *session) {
		x.conn.ws.UnderlyingConn().Close()
		x.conn = nil
	})
}

// Reconnect asks all clients to connect anew (opcode 7).
func (s *Server) Reconnect() { s.each(func(x *session) { x.conn.send(opReconnect, nil) }) }

// Invalidate ends all sessions (opcode 9) on their open connections.
func (s *Server) Invalidate() {
	s.each(func(x *session) {
		x.conn.send(opInvalidSession, false)
		s.end(x)
	})
}

// Deafen stops acknowledging heartbeats on the open connections.
func (s *Server) Deafen() { s.each(func(x *session) { x.conn.deaf = true }) }

// AskBeat asks for a heartbeat at once.
func (s *Server) AskBeat() { s.each(func(x *session) { x.conn.send(opHeartbeat, nil) }) }

// Event sends an event of any name and data to all sessions.
func (s *Server) Event(name string, data any) {
	s.each(func(x *session) { s.event(x, name, data) })
}

// Raw sends text on all open connections, whether or not it is a packet.
func (s *Server) Raw(text string) { s.each(func(x *session) { x.conn.raw([]byte(text)) }) }

// Again sends the last n events of each session once more, in reverse order and
// with their old numbers.
func (s *Server) Again(n int) {
	s.each(func(x *session) {
		last := append([]json.RawMessage(nil), x.sent[max(0, len(x.sent)-n):]...)
		slices.Reverse(last)
		for _, b := range last {
			x.conn.raw(b)
		}
	})
}

// Ready waits until n sessions are connected.
func (s *Server) Ready(n int) {
	s.t.Helper()
	s.wait("READY", func() bool {
		open := 0
		for _, x := range s.sessions {
			if x.conn != nil {
				open++
			}
		}
		return open >= n
	})
}

// Sent waits until clients have sent an opcode (IDENTIFY, RESUME or HEARTBEAT) n
// times, and returns how often they have.
func (s *Server) Sent(op string, n int) int {
	s.t.Helper()
	count := 0
	s.wait(op, func() bool {
		count = 0
		for _, e := range s.events {
			if e == op {
				count++
			}
		}
		return count >= n
	})
	return count
}

// Quiet waits and returns how often clients have sent an opcode by then. It is
// for what must not happen.
func (s *Server) Quiet(op string, d time.Duration) int {
	time.Sleep(d)
	return s.Sent(op, 0)
}
