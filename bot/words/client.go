package words

import (
	"context"
	"crypto/tls"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"

	"github.com/sashabaranov/go-openai"
)

// largest is how much of an answer is read, in bytes.
const largest = 64 << 10

// client asks a model, once for each draft.
type client struct {
	api    *openai.Client
	model  string
	stream bool
}

func newClient(c Config) (*client, error) {
	if err := c.Check(); err != nil {
		return nil, err
	}
	config := openai.DefaultConfig(string(c.Key))
	config.BaseURL = strings.TrimSuffix(c.URL, "/")
	config.HTTPClient = &http.Client{
		Transport: capped{http.DefaultTransport},
		// The key goes to the server that was named, and to no other.
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}
	return &client{api: openai.NewClientWithConfig(config), model: c.Model, stream: c.Stream}, nil
}

// Write asks the model to put a draft in other words. Its errors hold nothing that the
// server wrote, since that may repeat the key.
func (c *client) Write(ctx context.Context, draft string) (string, error) {
	r := openai.ChatCompletionRequest{
		Model:               c.model,
		MaxCompletionTokens: len(draft)/2 + 200, // English takes a token for three letters or more
		Messages: []openai.ChatCompletionMessage{
			{Role: openai.ChatMessageRoleSystem, Content: task},
			{Role: openai.ChatMessageRoleUser, Content: fenced(draft)},
		},
	}
	ask := c.whole
	if c.stream {
		ask = c.pieces
	}
	said, end, err := ask(ctx, r)
	switch {
	case err != nil:
		return "", plainly(ctx, err)
	case end == openai.FinishReasonLength:
		return "", errors.New("the answer was cut: too long")
	case end != openai.FinishReasonStop && end != "":
		return "", errors.New("the answer ended early")
	case strings.TrimSpace(said) == "":
		return "", errors.New("the answer is empty")
	}
	return said, nil
}

// whole gets an answer in one.
func (c *client) whole(ctx context.Context, r openai.ChatCompletionRequest) (string, openai.FinishReason, error) {
	a, err := c.api.CreateChatCompletion(ctx, r)
	if err != nil || len(a.Choices) == 0 {
		return "", "", err
	}
	return a.Choices[0].Message.Content, a.Choices[0].FinishReason, nil
}

// errUnfinished is an answer in pieces whose last one is missing.
var errUnfinished = errors.New("the answer has no end")

// pieces gets an answer piece by piece.
func (c *client) pieces(ctx context.Context, r openai.ChatCompletionRequest) (string, openai.FinishReason, error) {
	s, err := c.api.CreateChatCompletionStream(ctx, r)
	if err != nil {
		return "", "", err
	}
	defer s.Close()
	var said strings.Builder
	var end openai.FinishReason
	for {
		a, err := s.Recv()
		switch {
		case errors.Is(err, io.EOF) && end == "":
			return "", "", errUnfinished
		case errors.Is(err, io.EOF):
			return said.String(), end, nil
		case err != nil:
			return "", "", err
		}
		if len(a.Choices) > 0 {
			said.WriteString(a.Choices[0].Delta.Content)
			if a.Choices[0].FinishReason != "" {
				end = a.Choices[0].FinishReason
			}
		}
	}
}

// plainly says what failed, in words of our own.
func plainly(ctx context.Context, err error) error {
	api, isAPI := errors.AsType[*openai.APIError](err)
	refused, isRefused := errors.AsType[*openai.RequestError](err)
	_, isCertificate := errors.AsType[*tls.CertificateVerificationError](err)
	_, isNet := errors.AsType[net.Error](err)
	_, isSyntax := errors.AsType[*json.SyntaxError](err)
	_, isType := errors.AsType[*json.UnmarshalTypeError](err)
	switch {
	case ctx.Err() != nil:
		return errLate
	case errors.Is(err, errTooLarge):
		return errTooLarge
	case isAPI && api.HTTPStatusCode > 0:
		return fmt.Errorf("the server answers with status %d", api.HTTPStatusCode)
	case isRefused && refused.HTTPStatusCode > 0:
		return fmt.Errorf("the server answers with status %d", refused.HTTPStatusCode)
	case isCertificate:
		return errors.New("the server's certificate is not trusted")
	case errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, errUnfinished), errors.Is(err, io.EOF):
		return errors.New("the answer breaks off")
	case isSyntax, isType:
		return errors.New("the answer is not understood")
	case isNet:
		return errors.New("the server can't be reached")
	}
	return errors.New("asking the model failed")
}

// capped is a transport whose answers end in an error when they grow too large.
type capped struct{ http.RoundTripper }

var errTooLarge = fmt.Errorf("the answer is larger than %d KiB", largest>>10)

// RoundTrip sends a request.
func (c capped) RoundTrip(r *http.Request) (*http.Response, error) {
	a, err := c.RoundTripper.RoundTrip(r)
	if err == nil {
		a.Body = &cappedBody{ReadCloser: a.Body, left: largest}
	}
	return a, err
}

type cappedBody struct {
	io.ReadCloser
	left int
}

// Read reads as long as the answer is small enough.
func (b *cappedBody) Read(p []byte) (int, error) {
	if b.left <= 0 {
		return 0, errTooLarge
	}
	n, err := b.ReadCloser.Read(p[:min(len(p), b.left)])
	b.left -= n
	return n, err
}
