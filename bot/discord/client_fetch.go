package discord

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"slices"
)

// stores are the hosts on which the platform keeps what members attach.
var stores = []string{"cdn.discordapp.com", "media.discordapp.net"}

// Fetch returns an attachment, up to one byte more than limit. It is asked of the
// platform's own hosts only, whatever the address says.
func (c *Client) Fetch(ctx context.Context, address string, limit int64) ([]byte, error) {
	u, err := url.Parse(address)
	if err != nil {
		return nil, errors.New("the attachment has no address that can be read")
	}
	test := c.options.API != platformAPI && u.Host == c.transport.base.Host // of another base, the same host
	if !test && (u.Scheme != "https" || !slices.Contains(stores, u.Host)) {
		return nil, fmt.Errorf("the attachment lies on %s, not with the platform", u.Host)
	}
	ctx, cancel := context.WithTimeout(ctx, maxCall)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, address, nil)
	if err != nil {
		return nil, err
	}
	resp, err := c.transport.next.RoundTrip(req) // follows nowhere else
	if err != nil {
		return nil, err
	}
	defer resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("the attachment is not to be had: %s", resp.Status)
	}
	return io.ReadAll(io.LimitReader(resp.Body, limit+1))
}
