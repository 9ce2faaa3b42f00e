package discordtest

import (
	"encoding/json"
	"io"
	"net/http"
	"strings"
	"testing"
)

// What the stand-in answers is shaped as the official description has it.
func TestAnswerShapes(t *testing.T) {
	if testing.Short() {
		t.Skip("a check takes some 20 ms")
	}
	s := New(t)
	for _, test := range []struct{ method, path, body string }{
		{"GET", "/gateway", ""},
		{"GET", "/gateway/bot", ""},
		{"GET", "/users/@me", ""},
		{"PUT", "/applications/" + App + "/commands", `[{"name":"tank","description":"x","options":[{"type":3,"name":"a","description":"d"}]},{"name":"Add","type":3}]`},
		{"GET", "/applications/" + App + "/commands", ""},
		{"POST", postPath, `{"content":"x","embeds":[{"title":"t"}],"components":[{"type":1,"components":[{"type":2,"style":1,"label":"l","custom_id":"c"}]}]}`},
	} {
		req, err := http.NewRequest(test.method, s.API()+test.path, strings.NewReader(test.body))
		if err != nil {
			t.Fatal(err)
		}
		req.Header.Set("Authorization", "Bot "+Token)
		req.Header.Set("User-Agent", "DiscordBot (https://ripen.example, 1)")
		req.Header.Set("Content-Type", "application/json")
		resp, err := http.DefaultClient.Do(req)
		if err != nil {
			t.Fatal(err)
		}
		raw, err := io.ReadAll(resp.Body)
		resp.Body.Close()
		if err != nil || resp.StatusCode != 200 {
			t.Fatalf("%s %s: %d %s %v", test.method, test.path, resp.StatusCode, raw, err)
		}
		in, err := s.d.find(req, test.path)
		if err != nil {
			t.Fatal(err)
		}
		var v any
		if err := json.Unmarshal(raw, &v); err != nil {
			t.Fatal(err)
		}
		schema := in.Route.Operation.Responses.Value("200").Value.Content.Get("application/json").Schema.Value
		if faults := misfits(schema, v, ""); len(faults) > 0 {
			t.Errorf("%s %s is answered by %s\nwhich is wrong because\n%s", test.method, test.path, raw, strings.Join(faults, "\n"))
		}
	}
}
