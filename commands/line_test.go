package commands

import (
	"maps"
	"strings"
	"testing"
)

func TestParseLine(t *testing.T) {
	tests := []struct {
		line, command, sub string
		options            map[string]string
	}{
		{"/reading ammonia:0.5 nitrite:2", "reading", "", map[string]string{"ammonia": "0.5", "nitrite": "2"}},
		{`/Tank NEW Name:"big one"   VOLUME:60L`, "tank", "new", map[string]string{"name": "big one", "volume": "60L"}},
		{`/log what:note detail:"say \"hi\" \\ bye"`, "log", "", map[string]string{"what": "note", "detail": `say "hi" \ bye`}},
		{"/tank show tank:“big one”", "tank", "show", map[string]string{"tank": "big one"}},
		{"/reading at:2026-03-01T09:00:00Z", "reading", "", map[string]string{"at": "2026-03-01T09:00:00Z"}},
		{"/reading\tammonia:1", "reading", "", map[string]string{"ammonia": "1"}},
		{"/reading\u00a0ammonia:1\r\n", "reading", "", map[string]string{"ammonia": "1"}},
		{`/reading ammonia:""`, "reading", "", map[string]string{"ammonia": ""}},
		{"/help tank new", "help", "", map[string]string{"command": "tank new"}},
		{"/undo", "undo", "", map[string]string{}},
		{"/tank show 'x':y", "tank", "show", map[string]string{"'x'": "y"}},
	}
	for _, tt := range tests {
		command, sub, options, err := ParseLine(tt.line)
		if err != nil || command != tt.command || sub != tt.sub || !maps.Equal(options, tt.options) {
			t.Errorf("%s: %q %q %v %v", tt.line, command, sub, options, err)
		}
	}
}

func TestParseLineRefuses(t *testing.T) {
	tests := []struct{ line, code, reason string }{
		{"", CodeSyntax, "nothing"},
		{"reading ammonia:1", CodeSyntax, "no slash"},
		{"/", CodeSyntax, "no command"},
		{"/reading:x", CodeSyntax, "no space before an option"},
		{"/reading ammonia:1 ammonia:2", CodeRepeated, "twice"},
		{"/reading ammonia:1 AMMONIA:2", CodeRepeated, "twice, in another case"},
		{`/reading tank:"big one`, CodeSyntax, "never closed"},
		{`/reading tank:"big one\"`, CodeSyntax, "the closing quote is escaped"},
		{`/reading tank:"big"one`, CodeSyntax, "no space behind the quote"},
		{"/reading tank:big one", CodeSyntax, "a space without quotes"},
		{"/reading ammonia 0.5", CodeSyntax, "no colon"},
		{"/reading 0.5", CodeSyntax, "a value without a name"},
		{"/reading ammonia=0.5", CodeSyntax, "an equals sign"},
		{"/reading :5", CodeSyntax, "no name"},
		{"/reading tank:a\x00b", CodeBadText, "NUL"},
		{"/reading tank:\"a\tb\"", CodeBadText, "a tab within a value"},
		{"/reading tank:a\x1b[31m", CodeBadText, "a terminal escape"},
		{"/reading tank:\xff", CodeBadText, "invalid UTF-8"},
		{"/reading tank:" + strings.Repeat("x", 201), CodeTooLong, "a long value"},
		{"/log detail:" + strings.Repeat("x", 2001), CodeTooLong, "a long note"},
		{"/log detail:" + strings.Repeat("x", 100_000), CodeTooLong, "100 kB"},
	}
	for _, tt := range tests {
		command, sub, options, err := ParseLine(tt.line)
		switch {
		case err == nil:
			t.Errorf("%.60q = %q %q %v, want a refusal: %s", tt.line, command, sub, options, tt.reason)
		case err.Code != tt.code:
			t.Errorf("%.60q: code %q, want %q: %s", tt.line, err.Code, tt.code, tt.reason)
		case len(err.Message) > 400:
			t.Errorf("%.60q: the refusal has %d bytes", tt.line, len(err.Message))
		}
	}
}
