package discordtest

import (
	"encoding/json"
	"net/http/httptest"
	"strings"
	"testing"
)

func faultsOf(tb testing.TB, method, path, body string) []string {
	d, err := load()
	if err != nil {
		tb.Fatal(err)
	}
	in, err := d.find(httptest.NewRequest(method, path, nil), path)
	if err != nil {
		tb.Fatal(err)
	}
	var v any
	if err := json.Unmarshal([]byte(body), &v); err != nil {
		tb.Fatal(err)
	}
	return append(d.body(in, v), rules(&call{op: in.Route.Operation.OperationID, body: v})...)
}

const (
	callbackPath = "/interactions/100000000000000001/tok/callback"
	commandsPath = "/applications/100000000000000001/guilds/100000000000000002/commands"
	postPath     = "/channels/100000000000000001/messages"
)

// A wrong body of each kind is refused for the reason that it is wrong.
func TestFaults(t *testing.T) {
	if testing.Short() {
		t.Skip("a check takes some 20 ms")
	}
	long := func(n int) string { return strings.Repeat("a", n) }
	button := func(id string) string {
		return `{"type":2,"style":1,"label":"x","custom_id":"` + id + `"}`
	}
	row := func(parts ...string) string { return `{"type":1,"components":[` + strings.Join(parts, ",") + `]}` }
	message := func(data string) string { return `{"type":4,"data":` + data + `}` }
	option := func(name, more string) string {
		return `{"type":3,"name":"` + name + `","description":"d"` + more + `}`
	}
	commandOf := func(name, options string) string {
		return `[{"name":"` + name + `","description":"x","type":1,"options":[` + options + `]}]`
	}
	many := func(n int, what string) string { return strings.TrimSuffix(strings.Repeat(what+",", n), ",") }
	tests := []struct {
		path, body, says string // nothing for a body that is right
	}{
		{callbackPath, message(`{"content":"x","flags":64,"allowed_mentions":{"parse":[]},"components":[` + row(button("a"), button("b")) + `]}`), ""},
		{callbackPath, `{"type":5,"data":{"flags":64}}`, ""},
		{callbackPath, `{"type":6}`, ""},
		{callbackPath, `{"type":7,"data":{"content":null,"embeds":[],"components":null}}`, ""},
		{callbackPath, `{"type":8,"data":{"choices":[{"name":"a","value":"b"}]}}`, ""},
		{callbackPath, `{"type":9,"data":{"title":"t","custom_id":"c","components":[` + row(`{"type":4,"custom_id":"i","label":"l","style":1,"required":false}`) + `]}}`, ""},
		{callbackPath, `{"data":{"content":"x"}}`, "no known type"},
		{callbackPath, `{"type":9}`, "missing property 'data'"},
		{callbackPath, message(`{"contnet":"x"}`), `unknown field "contnet"`},
		{callbackPath, message(`{"content":"x","components":[` + row(`{"type":2,"style":1,"lable":"x","custom_id":"a"}`) + `]}`), `unknown field "lable"`},
		{callbackPath, message(`{"content":7}`), "data.content"},
		{callbackPath, message(`{"content":"` + long(2001) + `"}`), "data.content"},
		{callbackPath, message(`{"content":" "}`), "empty message"},
		{callbackPath, message(`{"embeds":[{"title":"` + long(257) + `"}]}`), "data.embeds[0].title"},
		{callbackPath, message(`{"embeds":[` + many(2, `{"description":"`+long(3001)+`"}`) + `]}`), "6002 characters"},
		{callbackPath, message(`{"embeds":[` + many(11, `{"title":"a"}`) + `]}`), "data.embeds"},
		{callbackPath, message(`{"content":"x","components":[` + row(button(long(101))) + `]}`), "custom_id"},
		{callbackPath, message(`{"content":"x","components":[` + row(button("a"), button("a")) + `]}`), `"a" twice`},
		{callbackPath, message(`{"content":"x","components":[` + row(`{"type":2,"style":5,"label":"x","custom_id":"a"}`) + `]}`), "is a link with a url"},
		{callbackPath, message(`{"content":"x","components":[` + row(`{"type":2,"style":1,"custom_id":"a"}`) + `]}`), "without label"},
		{callbackPath, message(`{"content":"x","components":[` + row(button("a"), `{"type":3,"custom_id":"m","options":[{"label":"a","value":"a"}]}`) + `]}`), "five buttons or one menu"},
		{callbackPath, message(`{"content":"x","components":[` + row(`{"type":3,"custom_id":"m","options":[`+many(2, `{"label":"a","value":"a"}`)+`]}`) + `]}`), `the value "a" twice`},
		{callbackPath, message(`{"content":"x","components":[` + row(`{"type":3,"custom_id":"m","max_values":2,"options":[{"label":"a","value":"a"}]}`) + `]}`), "1 to 2 values of 1"},
		{callbackPath, message(`{"content":"x","flags":2}`), "flags: 2"},
		{callbackPath, message(`{"content":"x","flags":32768}`), "version 2"},
		{callbackPath, message(`{"content":"x","allowed_mentions":{"parse":["users"],"users":["100000000000000001"]}}`), "both parsed and listed"},
		{callbackPath, message(`{"content":"x","attachments":[{"id":"0","description":"alt"}]}`), "no file that was sent"},
		{callbackPath, message(`{"content":"x","attachments":[{"id":0}]}`), "data.attachments[0].id"},
		{callbackPath, message(`{"embeds":[{"title":"x","image":{"url":"attachment://x.png"}}]}`), "not sent"},
		{callbackPath, `{"type":5,"data":{"content":"x"}}`, "a deferral"},
		{callbackPath, `{"type":8,"data":{"choices":[` + many(26, `{"name":"a","value":"b"}`) + `]}}`, "data.choices"},
		{callbackPath, `{"type":8,"data":{"choices":[{"name":"a","value":"` + long(101) + `"}]}}`, "a value of 101"},
		{callbackPath, `{"type":9,"data":{"title":"` + long(46) + `","custom_id":"c","components":[` + row(`{"type":4,"custom_id":"i","label":"l","style":1}`) + `]}}`, "data.title"},
		{callbackPath, `{"type":9,"data":{"title":"t","custom_id":"c","components":[` + many(2, row(`{"type":4,"custom_id":"i","label":"l","style":1}`)) + `]}}`, `"i" twice`},
		{postPath, `{"content":"x","nonce":"n","enforce_nonce":true}`, ""},
		{postPath, `{"content":"x","flags":64}`, "flags: 64"},
		{commandsPath, `[{"name":"tank","description":"x","type":1,"default_member_permissions":"32","contexts":[0],"options":[` + option("b", `,"choices":[{"name":"a","value":"3"}]`) + `]}]`, ""},
		{commandsPath, `[{"name":"Add readings","type":3}]`, ""},
		{commandsPath, `[{"name":"Add readings","type":3,"description":"x"}]`, "a menu has no description"},
		{commandsPath, commandOf("Tank", ""), "lower-case"},
		{commandsPath, commandOf("a b", ""), "lower-case"},
		{commandsPath, `[` + many(2, `{"name":"tank","description":"x"}`) + `]`, `"tank" twice`},
		{commandsPath, `[{"name":"tank","type":1}]`, "no description"},
		{commandsPath, commandOf("tank", option("a", "")+","+option("a", "")), "a: twice"},
		{commandsPath, commandOf("tank", option("a", "")+","+option("b", `,"required":true`)), "required after"},
		{commandsPath, commandOf("tank", option("a", "")+`,{"type":1,"name":"new","description":"d"}`), "beside options"},
		{commandsPath, commandOf("tank", option("a", `,"choices":[{"name":"a","value":3}]`)), "choices[0].value"},
		{commandsPath, commandOf("tank", option("a", `,"autocomplete":true,"choices":[{"name":"a","value":"3"}]`)), "beside autocomplete"},
		{commandsPath, commandOf("tank", option("a", `,"choices":[`+many(2, `{"name":"a","value":"3"}`)+`]`)), `"a" twice`},
		{commandsPath, commandOf("tank", `{"type":10,"name":"n","description":"d","min_value":3,"max_value":2}`), "from 3 to 2"},
		{commandsPath, commandOf("tank", `{"type":3,"name":"n","descripton":"d","description":"d"}`), `unknown field "descripton"`},
		{commandsPath, commandOf("tank", many(26, option("a", ""))), "options"},
		{commandsPath, `[{"name":"tank","description":"` + long(101) + `"}]`, "[0].description"},
		{commandsPath, `[` + many(16, `{"name":"m","type":2}`) + `]`, "16 commands of type 2"},
	}
	for _, test := range tests {
		method := "POST"
		if test.path == commandsPath {
			method = "PUT"
		}
		got := strings.Join(faultsOf(t, method, test.path, test.body), "\n")
		if test.says == "" && got != "" || !strings.Contains(got, test.says) {
			t.Errorf("%.300s\nis said to be wrong because\n%s\nwant %q", test.body, got, test.says)
		}
	}
}

func BenchmarkFaults(b *testing.B) {
	for b.Loop() {
		faultsOf(b, "POST", callbackPath, `{"type":4,"data":{"content":"x","flags":64,"components":[{"type":1,"components":[{"type":2,"style":1,"label":"x","custom_id":"a"}]}]}}`)
	}
}
