package commands

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// The longest values, in characters.
const (
	maxValue = 200  // of any option but notes
	maxNote  = 2000 // of a note
	maxPost  = 4000 // of a post
	maxLine  = 8000 // of a typed line
)

// ParseLine takes a typed command apart:
//
//	/tank new name:"big one" volume:60L
//
// command and sub are the words before the first option, in lower case; options
// hold the values as typed, by lower-case name. A value with spaces stands in
// double quotes, within which \" is a quote and \\ a backslash. The words after
// /help are its option "command". ParseLine knows no commands: whether a name
// or a value makes sense is decided by Book.Do.
func ParseLine(line string) (command, sub string, options map[string]string, err *Error) {
	line = strings.TrimSpace(line)
	if err := checkText(line, "", maxLine, false); err != nil {
		return "", "", nil, err
	}
	tokens, err := split(line)
	if err != nil {
		return "", "", nil, err
	}
	if len(tokens) == 0 || !strings.HasPrefix(tokens[0].word, "/") || len(tokens[0].word) < 2 {
		return "", "", nil, refuse(CodeSyntax, "", "a command starts with a slash, as in /help")
	}
	command = strings.ToLower(tokens[0].word[1:])
	if tokens[0].named {
		return "", "", nil, refuse(CodeSyntax, "", "put a space between the command and its first option, as in /reading ammonia:0.5")
	}
	options = map[string]string{}
	var words []string
	for _, t := range tokens[1:] {
		if !t.named {
			words = append(words, t.word)
			continue
		}
		name := strings.ToLower(t.word)
		if _, twice := options[name]; twice {
			return "", "", nil, refuse(CodeRepeated, name, "%s is given twice; name it once", name)
		}
		if err := checkValue(name, t.value); err != nil {
			return "", "", nil, err
		}
		options[name] = t.value
	}
	switch {
	case command == "help" && len(words) > 0 && options["command"] == "":
		options["command"] = strings.ToLower(strings.Join(words, " "))
	case len(words) == 1 && !tokens[1].named && isSub(words[0]):
		sub = strings.ToLower(words[0])
	case len(words) > 0:
		return "", "", nil, strayWord(words[len(words)-1])
	}
	return command, sub, options, nil
}

// isSub says whether a word can be a sub-command.
func isSub(w string) bool {
	return strings.IndexFunc(w, func(r rune) bool { return !unicode.IsLetter(r) && r != '-' }) < 0
}

// strayWord refuses a word that is neither a sub-command nor name:value.
func strayWord(w string) *Error {
	shown := quote(w)
	if name, value, ok := strings.Cut(w, "="); ok && name != "" && value != "" {
		return refuse(CodeSyntax, "", "%s is not an option; write it with a colon: %s:%s", shown, name, value)
	}
	return refuse(CodeSyntax, "", "%s stands alone; options are written name:value without a space, and a value with spaces in double quotes, as in tank:\"big one\"", shown)
}

// token is one part of a line: a bare word, or a name with its value.
type token struct {
	word, value string
	named       bool
}

// split cuts a line at spaces outside quotes.
func split(line string) ([]token, *Error) {
	var tokens []token
	rest := line
	for {
		rest = strings.TrimLeftFunc(rest, unicode.IsSpace)
		if rest == "" {
			return tokens, nil
		}
		end := strings.IndexFunc(rest, func(r rune) bool { return r == ':' || unicode.IsSpace(r) })
		if end < 0 || rest[end] != ':' || end == 0 {
			if end <= 0 {
				end = strings.IndexFunc(rest, unicode.IsSpace)
			}
			if end < 0 {
				end = len(rest)
			}
			tokens = append(tokens, token{word: rest[:end]})
			rest = rest[end:]
			continue
		}
		t := token{word: rest[:end], named: true}
		var err *Error
		t.value, rest, err = value(t.word, rest[end+1:])
		if err != nil {
			return nil, err
		}
		tokens = append(tokens, t)
	}
}

// value reads the value at the head of s, quoted or up to the next space.
func value(name, s string) (v, rest string, err *Error) {
	first, width := utf8.DecodeRuneInString(s)
	if !isQuote(first) {
		end := strings.IndexFunc(s, unicode.IsSpace)
		if end < 0 {
			end = len(s)
		}
		return s[:end], s[end:], nil
	}
	var b strings.Builder
	escaped := false
	for i, r := range s[width:] {
		switch {
		case escaped:
			b.WriteRune(r)
			escaped = false
		case r == '\\':
			escaped = true
		case isQuote(r):
			rest = s[width+i+utf8.RuneLen(r):]
			if next, _ := utf8.DecodeRuneInString(rest); rest != "" && !unicode.IsSpace(next) {
				return "", "", refuse(CodeSyntax, strings.ToLower(name), "put a space after the closing quote of %s", name)
			}
			return b.String(), rest, nil
		default:
			b.WriteRune(r)
		}
	}
	return "", "", refuse(CodeSyntax, strings.ToLower(name), "the quote that opens the value of %s is never closed; end it with \"", name)
}

// isQuote holds for the straight quote and those that phones type instead.
func isQuote(r rune) bool { return r == '"' || r == '“' || r == '”' || r == '„' }

// checkValue refuses a value that no option can hold.
func checkValue(name, v string) *Error {
	limit := maxValue
	if name == "detail" {
		limit = maxNote
	}
	return checkText(v, name, limit, false)
}

// checkText refuses broken UTF-8, control characters (line breaks and tabs are
// let through if lines) and more than limit characters.
func checkText(s, option string, limit int, lines bool) *Error {
	what := "the line"
	if option != "" {
		what = option
	}
	if n := utf8.RuneCountInString(s); n > limit {
		return refuse(CodeTooLong, option, "%s has %d characters; at most %d fit", what, n, limit)
	}
	if !utf8.ValidString(s) {
		return refuse(CodeBadText, option, "%s is not valid UTF-8 text; type it again", what)
	}
	for _, r := range s {
		if unicode.IsControl(r) && !(lines && (r == '\n' || r == '\r' || r == '\t')) && !(option == "" && r == '\t') {
			return refuse(CodeBadText, option, "%s holds a control character (%U); type it again without", what, r)
		}
	}
	return nil
}
