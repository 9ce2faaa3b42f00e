package discordtest

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/gorilla/websocket"
)

// The opcodes of the gateway.
const (
	opDispatch       = 0
	opHeartbeat      = 1
	opIdentify       = 2
	opPresence       = 3
	opVoice          = 4
	opResume         = 6
	opReconnect      = 7
	opRequestMembers = 8
	opInvalidSession = 9
	opHello          = 10
	opAck            = 11
)

// privileged intents are refused: the application has none.
const privileged = 1<<1 | 1<<8 | 1<<15

// session is what a client resumes.
type session struct {
	id           string
	shard, count int64
	sent         []json.RawMessage // events, the first of which has the number 1
	conn         *conn             // nil between connections
}

// conn is a connection. Its writes are made with the server locked.
type conn struct {
	ws   *websocket.Conn
	deaf bool // answers no heartbeats
}

type packet struct {
	Op   int             `json:"op"`
	Data json.RawMessage `json:"d"`
	Seq  *int64          `json:"s,omitempty"`
	Type string          `json:"t,omitempty"`
}

func (c *conn) send(op int, data any) {
	b, err := json.Marshal(map[string]any{"op": op, "d": data, "s": nil, "t": nil})
	if err != nil {
		panic(err)
	}
	c.raw(b)
}

func (c *conn) raw(b []byte) {
	_ = c.ws.SetWriteDeadline(time.Now().Add(time.Second))
	_ = c.ws.WriteMessage(websocket.TextMessage, b) // the reader sees what is lost
}

func (c *conn) close(code int, why string) {
	_ = c.ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(code, why), time.Now().Add(time.Second))
	c.ws.Close()
}

func (s *Server) serveGateway(w http.ResponseWriter, r *http.Request) {
	up := websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}
	ws, err := up.Upgrade(w, r, nil)
	if err != nil {
		return
	}
	c := &conn{ws: ws}
	defer ws.Close()
	s.mu.Lock()
	if v, e := r.URL.Query().Get("v"), r.URL.Query().Get("encoding"); v != "9" && v != "10" || e != "json" {
		s.wrong("a gateway of version %q and encoding %q", v, e)
	}
	upset := s.upset()
	s.conns[c] = true
	s.mu.Unlock()
	defer func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		delete(s.conns, c)
	}()
	if upset.noHello {
		_, _, _ = ws.ReadMessage() // until the client has had enough
		return
	}
	beat := s.Heartbeat
	if beat == 0 {
		beat = 41250 * time.Millisecond
	}
	s.mu.Lock()
	c.deaf = upset.deaf
	c.send(opHello, map[string]any{"heartbeat_interval": beat.Milliseconds(), "_trace": []string{"stand-in"}})
	s.mu.Unlock()
	var x *session
	for {
		_, b, err := ws.ReadMessage()
		s.mu.Lock()
		if err != nil {
			if x != nil && x.conn == c {
				x.conn = nil
				if websocket.IsCloseError(err, websocket.CloseNormalClosure, websocket.CloseGoingAway) {
					s.end(x) // so says the manual of these two
				}
			}
			s.cond.Broadcast()
			s.mu.Unlock()
			return
		}
		x = s.heard(c, x, upset, b)
		s.cond.Broadcast()
		s.mu.Unlock()
	}
}

// heard takes a packet of a client and returns the session of the connection; s
// is locked.
func (s *Server) heard(c *conn, x *session, u *upset, b []byte) *session {
	var p packet
	if err := json.Unmarshal(b, &p); err != nil {
		s.wrong("a packet that is not JSON: %.200s", b)
		c.close(4002, "Error while decoding payload.")
		return x
	}
	s.events = append(s.events, opName(p.Op))
	if x != nil && !slices.Contains(s.sessions, x) {
		x = nil // invalidated, and to be identified anew
	}
	switch {
	case p.Op == opHeartbeat:
		if !c.deaf {
			c.send(opAck, nil)
		}
	case p.Op == opIdentify && x == nil:
		return s.identify(c, u, p.Data)
	case p.Op == opResume && x == nil:
		return s.resume(c, u, p.Data)
	case p.Op == opIdentify || p.Op == opResume:
		s.wrong("identified twice on one connection")
		c.close(4005, "Already authenticated.")
	case x == nil:
		s.wrong("%s before identifying", opName(p.Op))
		c.close(4003, "Not authenticated.")
	case p.Op == opPresence || p.Op == opVoice || p.Op == opRequestMembers:
	default:
		s.wrong("opcode %d is not for clients", p.Op)
		c.close(4001, "Unknown opcode.")
	}
	return x
}

// identify opens a session, nil if it is refused; s is locked.
func (s *Server) identify(c *conn, u *upset, data json.RawMessage) *session {
	var d struct {
		Token      string           `json:"token"`
		Properties map[string]any   `json:"properties"`
		Intents    *int64           `json:"intents"`
		Shard      *[2]int64        `json:"shard"`
		Large      *int64           `json:"large_threshold"`
		Presence   *json.RawMessage `json:"presence"`
	}
	if err := json.Unmarshal(data, &d); err != nil || d.Properties == nil {
		s.wrong("an IDENTIFY that can't be read: %.300s", strings.ReplaceAll(string(data), Token, "***"))
		c.close(4002, "Error while decoding payload.")
		return nil
	}
	if d.Large != nil && (*d.Large < 50 || *d.Large > 250) {
		s.wrong("large_threshold %d, want 50 to 250", *d.Large)
	}
	shard, count := int64(0), int64(1)
	if d.Shard != nil {
		shard, count = d.Shard[0], d.Shard[1]
	}
	switch {
	case u.first != nil:
		if u.first.code != 0 {
			c.close(u.first.code, u.first.why)
			return nil
		}
		c.send(u.first.op, u.first.data)
		if u.first.op == opInvalidSession {
			u.first = nil // the next is taken
			return nil
		}
	case strings.TrimPrefix(d.Token, "Bot ") != Token:
		c.close(4004, "Authentication failed.")
		return nil
	case shard < 0 || shard >= count:
		c.close(4010, "Invalid shard.")
		return nil
	case d.Intents == nil || *d.Intents < 0 || *d.Intents >= 1<<26:
		c.close(4013, "Invalid intent(s).")
		return nil
	case *d.Intents&privileged != 0:
		c.close(4014, "Disallowed intent(s).")
		return nil
	}
	x := &session{id: fmt.Sprintf("session%d", len(s.sessions)+1), shard: shard, count: count, conn: c}
	s.sessions = append(s.sessions, x)
	var guilds []any
	for _, g := range s.Guilds {
		if of(g, count) == shard {
			guilds = append(guilds, map[string]any{"id": g, "unavailable": true})
		}
	}
	if guilds == nil {
		guilds = []any{}
	}
	s.event(x, "READY", map[string]any{
		"v": 10, "user": s.self(), "guilds": guilds, "session_id": x.id,
		"resume_gateway_url": s.gatewayURL(), "shard": []int64{shard, count},
		"application": map[string]any{"id": App, "flags": 0},
	})
	for _, g := range s.Guilds {
		if of(g, count) == shard {
			s.event(x, "GUILD_CREATE", s.guild(g))
		}
	}
	return x
}

// resume goes on with a session, nil if it can't; s is locked.
func (s *Server) resume(c *conn, u *upset, data json.RawMessage) *session {
	var d struct {
		Token   string `json:"token"`
		Session string `json:"session_id"`
		Seq     int64  `json:"seq"`
	}
	if err := json.Unmarshal(data, &d); err != nil {
		s.wrong("a RESUME that can't be read")
		c.close(4002, "Error while decoding payload.")
		return nil
	}
	if u.first != nil && u.first.code != 0 {
		c.close(u.first.code, u.first.why)
		return nil
	}
	i := slices.IndexFunc(s.sessions, func(x *session) bool { return x.id == d.Session })
	if u.first != nil {
		c.send(u.first.op, u.first.data)
		invalid := u.first.op == opInvalidSession
		u.first = nil
		if invalid {
			if i >= 0 {
				s.end(s.sessions[i])
			}
			return nil
		}
	}
	if i < 0 {
		c.send(opInvalidSession, false)
		return nil
	}
	x := s.sessions[i]
	if d.Seq < 0 || d.Seq > int64(len(x.sent)) {
		s.wrong("resumed at %d of %d events", d.Seq, len(x.sent))
		c.close(4007, "Invalid seq.")
		return nil
	}
	x.conn = c
	for _, b := range x.sent[d.Seq:] {
		c.raw(b)
	}
	s.event(x, "RESUMED", map[string]any{"_trace": []string{"stand-in"}})
	return x
}

// event sends an event to a session, or keeps it until the session is resumed; s
// is locked.
func (s *Server) event(x *session, name string, data any) {
	b, err := json.Marshal(map[string]any{"op": opDispatch, "t": name, "s": len(x.sent) + 1, "d": data})
	if err != nil {
		panic(err)
	}
	x.sent = append(x.sent, b)
	if x.conn != nil {
		x.conn.raw(b)
	}
}

// end forgets a session, so that it can't be resumed; s is locked.
func (s *Server) end(x *session) {
	s.sessions = slices.DeleteFunc(s.sessions, func(y *session) bool { return x == y })
}

func (s *Server) gatewayURL() string {
	return "ws" + strings.TrimPrefix(s.http.URL, "http") + "/gateway"
}

func opName(op int) string {
	names := map[int]string{opHeartbeat: "HEARTBEAT", opIdentify: "IDENTIFY", opResume: "RESUME"}
	if n := names[op]; n != "" {
		return n
	}
	return fmt.Sprintf("op %d", op)
}
