package discordtest

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"sync"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/openapi3filter"
	"github.com/getkin/kin-openapi/routers"
	"github.com/getkin/kin-openapi/routers/legacy"

	"ripen/testdata"
)

// described is the base that the official description gives.
const described = "https://discord.com/api/v10"

// description is the official description with a way to look up routes.
type description struct {
	doc     *openapi3.T
	router  routers.Router
	fitting sync.Map // bodies that fit: to check one takes some 20 ms, and most come again
}

// load reads the description once for all servers.
var load = sync.OnceValues(func() (*description, error) {
	doc, err := openapi3.NewLoader().LoadFromData(testdata.DiscordAPI)
	if err != nil {
		return nil, err
	}
	router, err := legacy.NewRouter(doc)
	if err != nil {
		return nil, err
	}
	return &description{doc: doc, router: router}, nil
})

// find looks up the route of a request whose path has lost its version.
func (d *description) find(r *http.Request, path string) (*openapi3filter.RequestValidationInput, error) {
	u, err := url.Parse(described + path)
	if err != nil {
		return nil, err
	}
	u.RawQuery = r.URL.RawQuery
	as := r.Clone(r.Context())
	as.URL, as.Host, as.Body = u, u.Host, http.NoBody
	route, params, err := d.router.FindRoute(as)
	if err != nil {
		return nil, err
	}
	return &openapi3filter.RequestValidationInput{Request: as, PathParams: params, Route: route, Options: &openapi3filter.Options{
		ExcludeRequestBody: true, // see body
		AuthenticationFunc: openapi3filter.NoopAuthenticationFunc,
	}}, nil
}

// body checks what was sent against the description of its route. Files are
// checked elsewhere, so that the rest is described as JSON also in a multipart
// request.
func (d *description) body(in *openapi3filter.RequestValidationInput, sent any) []string {
	described := in.Route.Operation.RequestBody
	if described == nil {
		if sent != nil {
			return []string{"a body where none is described"}
		}
		return nil
	}
	if sent == nil {
		return []string{"no body"}
	}
	schema := described.Value.Content.Get("application/json").Schema.Value
	if in.Route.Operation.OperationID == "create_interaction_response" {
		branch := d.callback(sent)
		if branch == nil {
			return []string{fmt.Sprintf("a callback of no known type: %s", compact(sent))}
		}
		schema = branch
	}
	sent = conventional(in.Route.Operation.OperationID, sent)
	raw, err := json.Marshal(sent)
	if err != nil {
		return []string{err.Error()}
	}
	same := body{schema, string(raw)}
	if _, ok := d.fitting.Load(same); ok {
		return nil
	}
	faults := append(misfits(schema, sent, ""), unknown(schema, sent, "")...)
	if len(faults) == 0 {
		d.fitting.Store(same, true)
	}
	return faults
}

// body is one that was held to a schema.
type body struct {
	schema *openapi3.Schema
	raw    string
}

// callbacks names the schema of each type of callback.
var callbacks = map[float64]string{
	1: "PongInteractionCallbackRequest",
	4: "CreateMessageInteractionCallbackRequest",
	5: "CreateMessageInteractionCallbackRequest",
	6: "UpdateMessageInteractionCallbackRequest",
	7: "UpdateMessageInteractionCallbackRequest",
	8: "ApplicationCommandAutocompleteCallbackRequest",
	9: "ModalInteractionCallbackRequest",
}

// callback is the schema of a callback by its type, so that a fault is told of
// that branch and not of all, nil for an unknown type.
func (d *description) callback(sent any) *openapi3.Schema {
	m, _ := sent.(map[string]any)
	kind, _ := m["type"].(float64)
	if ref := d.doc.Components.Schemas[callbacks[kind]]; ref != nil {
		return ref.Value
	}
	return nil
}

// conventional turns permissions that are sent as a string, as the platform's
// manual has it, into the integer of its description.
func conventional(operation string, sent any) any {
	switch operation {
	case "bulk_set_application_commands", "bulk_set_guild_application_commands", "create_application_command", "create_guild_application_command":
	default:
		return sent
	}
	all, ok := sent.([]any)
	if !ok {
		all = []any{sent}
	}
	for _, c := range all {
		if c, ok := c.(map[string]any); ok {
			if p, ok := c["default_member_permissions"].(string); ok {
				var n float64
				if json.Unmarshal([]byte(p), &n) == nil {
					c["default_member_permissions"] = n
				}
			}
		}
	}
	return sent
}

// compact is JSON on one line, cut where it is long.
func compact(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		return err.Error()
	}
	const most = 2000
	if len(b) > most {
		return string(b[:most]) + "..."
	}
	return string(b)
}
