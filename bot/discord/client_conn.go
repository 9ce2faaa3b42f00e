package discord

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

// link is one session of the gateway and its connections.
type link struct {
	s    *discordgo.Session
	lost chan struct{} // the connection is gone

	mu   sync.Mutex
	conn net.Conn // the latest
	addr string   // where it goes
	dead bool     // given up
}

// newLink returns a session that is not open yet. interaction gets what
// members do, as it came.
func (c *Client) newLink(interaction func(raw []byte)) *link {
	l := &link{s: c.newSession(), lost: make(chan struct{}, 1)}
	if c.made != nil {
		c.made(l.s)
	}
	l.s.Dialer = &websocket.Dialer{Proxy: http.ProxyFromEnvironment, HandshakeTimeout: c.opening, NetDialContext: func(ctx context.Context, network, addr string) (net.Conn, error) {
		conn, err := (&net.Dialer{}).DialContext(ctx, network, addr)
		if err != nil {
			return nil, err
		}
		return l.keep(&patient{conn, c.silence, c.now}, addr)
	}}
	l.s.AddHandler(func(*discordgo.Session, *discordgo.Disconnect) {
		select {
		case l.lost <- struct{}{}:
		default:
		}
	})
	l.s.AddHandler(func(_ *discordgo.Session, e *discordgo.Event) {
		if e.Type == "INTERACTION_CREATE" {
			interaction(e.RawData)
		}
	})
	return l
}

func (l *link) keep(conn net.Conn, addr string) (net.Conn, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.dead {
		conn.Close()
		return nil, net.ErrClosed
	}
	l.conn, l.addr = conn, addr
	closeCodes.Delete(addr)
	return conn, nil
}

// open opens the session's connection. The library may hang in it for good, so
// after patience it is given up, with the session.
func (l *link) open(ctx context.Context, patience time.Duration) error {
	select {
	case <-l.lost: // of an earlier connection
	default:
	}
	opened := make(chan error, 1)
	go func() { opened <- l.s.Open() }()
	timer := time.NewTimer(patience)
	defer timer.Stop()
	select {
	case err := <-opened:
		if errors.Is(err, discordgo.ErrWSAlreadyOpen) {
			return nil // the library told of a lost connection twice, late: this one stands
		}
		return err
	case <-ctx.Done():
		return ctx.Err()
	case <-timer.C:
		return fmt.Errorf("the gateway was not ready after %v", patience)
	}
}

// drop gives the session up, whatever the library is doing with it.
func (l *link) drop() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.dead = true
	if l.conn != nil {
		l.conn.Close()
	}
}

// close says good-bye and drops the session.
func (l *link) close() {
	closed := make(chan struct{})
	go func() {
		l.s.Close() // says it at once, but then sleeps
		close(closed)
	}()
	timer := time.NewTimer(200 * time.Millisecond)
	defer timer.Stop()
	select {
	case <-closed:
	case <-timer.C:
	}
	l.drop()
}

// why returns the code that the connection was closed with, nil if it just broke.
func (l *link) why() error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if e, ok := closeCodes.LoadAndDelete(l.addr); ok {
		return e.(*websocket.CloseError)
	}
	return nil
}

// patient is a connection whose reads end after a while of silence.
type patient struct {
	net.Conn
	silence time.Duration
	now     func() time.Time
}

// Read reads what comes within the patience.
func (p *patient) Read(b []byte) (int, error) {
	if err := p.SetReadDeadline(p.now().Add(p.silence)); err != nil {
		return 0, err
	}
	return p.Conn.Read(b)
}

// closeCodes are the last *websocket.CloseError by address. The library tells
// them to its log only, which is one for the process.
var closeCodes sync.Map

// hookLogger takes the library's log over. Nothing else of it is shown: it may
// quote what members wrote.
var hookLogger = sync.OnceFunc(func() {
	discordgo.Logger = func(_, _ int, _ string, args ...any) {
		var addr string
		for _, x := range args {
			switch x := x.(type) {
			case string:
				if u, err := url.Parse(x); err == nil && addr == "" {
					addr = address(u)
				}
			case *websocket.CloseError:
				closeCodes.Store(addr, x)
			}
		}
	}
})

// address is the host and port that a gateway's address leads to.
func address(u *url.URL) string {
	port := u.Port()
	switch {
	case port != "":
	case u.Scheme == "wss":
		port = "443"
	default:
		port = "80"
	}
	return net.JoinHostPort(u.Hostname(), port)
}
