package discordtest

import (
	"encoding/json"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"regexp"
	"strings"

	"github.com/getkin/kin-openapi/openapi3filter"
)

var (
	version   = regexp.MustCompile(`^/api(/v(9|10))?/`)
	userAgent = regexp.MustCompile(`^DiscordBot \(\S+, \S+\)`)
)

// call is a request in the making of its answer.
type call struct {
	*http.Request
	s      *Server
	op     string // of the description
	params map[string]string
	body   any
	files  []File
}

// refusal is an answer that says no.
type refusal struct {
	status, code int
	message      string
	fault        bool // fails the test
}

func (r *refusal) Error() string { return fmt.Sprintf("%d, code %d: %s", r.status, r.code, r.message) }

func refuse(status, code int, message string) error { return &refusal{status, code, message, true} }

func (s *Server) serveREST(w http.ResponseWriter, r *http.Request) {
	raw, err := io.ReadAll(io.LimitReader(r.Body, 26<<20))
	if err != nil {
		return
	}
	path := r.URL.Path
	if m := version.FindString(path); m != "" {
		path = path[len(m)-1:]
	}
	in, err := s.d.find(r, path)
	if err != nil {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.wrong("%s %s: %v", r.Method, r.URL.Path, err)
		answer404(w)
		return
	}
	answered, lost := s.spoil(w, r, in.Route.Operation.OperationID)
	if answered {
		return
	}
	c := &call{Request: r, s: s, op: in.Route.Operation.OperationID, params: in.PathParams}
	var faults []string
	if len(raw) > 0 {
		if c.body, c.files, err = decode(r.Header.Get("Content-Type"), raw); err != nil {
			faults = append(faults, err.Error())
		}
	}
	if len(faults) == 0 && !s.Unchecked {
		faults = s.check(c, in)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	defer s.cond.Broadcast()
	status, out := http.StatusOK, any(nil)
	if len(faults) > 0 {
		s.wrong("%s %s\n%s\nbecause\n%s", r.Method, r.URL.Path, shown(raw), strings.Join(faults, "\n"))
		status, out = http.StatusBadRequest, map[string]any{"code": 50035, "message": "Invalid Form Body", "errors": map[string]any{"_errors": faults}}
	} else if out, err = s.answer(c); err != nil {
		no := err.(*refusal)
		status, out = no.status, map[string]any{"code": no.code, "message": no.message}
		if no.fault {
			s.wrong("%s %s\n%s\nbecause %v", r.Method, r.URL.Path, shown(raw), no)
		}
	} else if out == nil {
		status = http.StatusNoContent
	} else if in.Route.Operation.Responses.Value("200") == nil {
		status = http.StatusCreated
	}
	s.calls = append(s.calls, Call{r.Method, c.op, path, status})
	if lost {
		panic(http.ErrAbortHandler)
	}
	reply(w, status, out)
}

func reply(w http.ResponseWriter, status int, out any) {
	if out == nil {
		w.WriteHeader(status)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(out)
}

func answer404(w http.ResponseWriter) {
	reply(w, http.StatusNotFound, map[string]any{"code": 0, "message": "404: Not Found"})
}

// shown is a body for a failure.
func shown(raw []byte) string {
	const most = 1500
	if len(raw) > most {
		return string(raw[:most]) + "..."
	}
	return string(raw)
}

// check holds a request to the description and to the rules.
func (s *Server) check(c *call, in *openapi3filter.RequestValidationInput) []string {
	var faults []string
	if err := openapi3filter.ValidateRequest(c.Context(), in); err != nil {
		faults = append(faults, err.Error())
	}
	if !userAgent.MatchString(c.UserAgent()) {
		faults = append(faults, fmt.Sprintf("the user agent %q is not of the form DiscordBot (url, version)", c.UserAgent()))
	}
	faults = append(faults, s.d.body(in, c.body)...)
	return append(faults, rules(c)...)
}

// decode reads a body, and what lies beside it in a multipart one.
func decode(contentType string, raw []byte) (any, []File, error) {
	kind, params, err := mime.ParseMediaType(contentType)
	if err != nil {
		return nil, nil, fmt.Errorf("content type %q: %w", contentType, err)
	}
	var v any
	if kind == "application/json" {
		err := json.Unmarshal(raw, &v)
		return v, nil, err
	}
	if kind != "multipart/form-data" {
		return nil, nil, fmt.Errorf("content type %q", contentType)
	}
	var files []File
	for parts := multipart.NewReader(strings.NewReader(string(raw)), params["boundary"]); ; {
		p, err := parts.NextPart()
		if err == io.EOF {
			return v, files, nil
		}
		if err != nil {
			return nil, nil, err
		}
		b, err := io.ReadAll(p)
		if err != nil {
			return nil, nil, err
		}
		switch name := p.FormName(); {
		case name == "payload_json":
			if err := json.Unmarshal(b, &v); err != nil {
				return nil, nil, fmt.Errorf("payload_json: %w", err)
			}
		case strings.HasPrefix(name, "files["):
			files = append(files, File{name, p.FileName(), p.Header.Get("Content-Type"), b})
		default:
			return nil, nil, fmt.Errorf("a part %q", name)
		}
	}
}
