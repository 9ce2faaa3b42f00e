package words

import (
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/url"
	"time"
)

// Config is how an installation reaches its model.
type Config struct {
	URL       string        // base of an OpenAI-compatible interface, "" for no model
	Model     string        // as the server calls it
	Key       Key           // "" where the server asks for none
	Stream    bool          // whether to ask for the answer in pieces
	MemberDay int           // how many replies a member has phrased in a day; 0 is 20
	ClubDay   int           // how many a club has; 0 is 300
	Timeout   time.Duration // 0 is 4 s
}

// Key is a secret that is never printed.
type Key string

// String hides the key.
func (Key) String() string { return "(hidden)" }

// GoString hides the key from %#v.
func (Key) GoString() string { return "(hidden)" }

// LogValue hides the key from logs.
func (Key) LogValue() slog.Value { return slog.StringValue("(hidden)") }

func (c Config) timeout() time.Duration {
	if c.Timeout > 0 {
		return c.Timeout
	}
	return usualTimeout
}

// Check says what is wrong with a configuration. The address is not shown, since a key may
// stand in it.
func (c Config) Check() error {
	if c.URL == "" {
		if c.Model != "" || c.Key != "" {
			return errors.New("a language model is named without its address; set RIPEN_LLM_URL, as in http://localhost:8080/v1, or leave RIPEN_LLM_MODEL and RIPEN_LLM_KEY out")
		}
		return nil
	}
	u, err := url.Parse(c.URL)
	switch {
	case err != nil || u.Host == "" || u.Scheme != "http" && u.Scheme != "https":
		return errors.New("RIPEN_LLM_URL is no address; write it as https://host/v1 or http://localhost:8080/v1")
	case u.User != nil || u.RawQuery != "" || u.Fragment != "":
		return errors.New("RIPEN_LLM_URL holds more than an address; put the key in RIPEN_LLM_KEY")
	case c.Model == "":
		return errors.New("RIPEN_LLM_URL names a server but no model; set RIPEN_LLM_MODEL to what the server calls it")
	case u.Scheme == "http" && !local(u.Hostname()):
		return errors.New("RIPEN_LLM_URL sends texts in the clear to another computer; use https, or a server on this one")
	case c.MemberDay < 0 || c.ClubDay < 0:
		return fmt.Errorf("budgets of %d and %d replies a day make no sense; write 1 or more, or leave them out", c.MemberDay, c.ClubDay)
	}
	return nil
}

// local holds for this computer.
func local(host string) bool {
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}
