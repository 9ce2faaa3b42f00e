// Package talk turns what a person typed into a request of the command book.
package talk

import (
	"fmt"
	"strings"
	"unicode"

	"ripen/commands"
)

// addMark before a post asks for the readings in it.
const addMark = "!add"

// Request reads text as a command ("/reading ammonia:0.5") or as a post with
// readings ("!add day 12: ammonia 0.5"), and fills Command, Sub, Options and
// Post. asked is false for an ordinary post, which wants no answer. With an
// error the Request still names the command as far as it was understood.
//
// A post of several lines is typed on one: a backslash and n between two lines.
func Request(text string) (r commands.Request, asked bool, err *commands.Error) {
	text = strings.TrimSpace(text)
	if post, ok := Post(text); ok {
		return commands.Request{Command: "add", Post: strings.ReplaceAll(post, `\n`, "\n")}, true, nil
	}
	if !strings.HasPrefix(text, "/") {
		return r, false, nil
	}
	command, sub, options, err := commands.ParseLine(text)
	if err != nil {
		return commands.Request{Command: firstWord(text[1:])}, true, err
	}
	return commands.Request{Command: command, Sub: sub, Options: options}, true, nil
}

// Post returns what follows the !add of text, and whether it has one.
func Post(text string) (post string, ok bool) {
	if len(text) < len(addMark) || !strings.EqualFold(text[:len(addMark)], addMark) {
		return "", false
	}
	post = text[len(addMark):]
	if post != "" && strings.TrimLeftFunc(post, unicode.IsSpace) == post {
		return "", false // "!address"
	}
	return strings.TrimSpace(post), true
}

// Path returns the command of r as it is typed, without the slash: "tank new".
func Path(r commands.Request) string { return strings.TrimSpace(r.Command + " " + r.Sub) }

// firstWord returns the letters at the head of s, lower case.
func firstWord(s string) string {
	end := strings.IndexFunc(s, func(c rune) bool { return !unicode.IsLetter(c) && c != '-' })
	if end < 0 {
		end = len(s)
	}
	if end > maxName {
		return ""
	}
	return strings.ToLower(s[:end])
}

// maxName is the longest nickname, in characters.
const maxName = 64

// CheckName says whether name can be a member's nickname: 1 to 64 letters,
// digits, '-' or '_'.
func CheckName(name string) error {
	if n := len([]rune(name)); n == 0 || n > maxName || strings.IndexFunc(name, notInName) >= 0 {
		return fmt.Errorf("the nickname %s can't be used: it takes 1 to %d letters, digits, - or _, such as wren", Quote(name), maxName)
	}
	return nil
}

// Nickname makes a nickname out of a user name of the computer, which may hold
// a domain, blanks or anything else; "keeper" if nothing is left of it.
func Nickname(user string) string {
	user = user[strings.LastIndexAny(user, `\/`)+1:]
	name := strings.Trim(strings.Join(strings.FieldsFunc(user, notInName), "-"), "-")
	if r := []rune(name); len(r) > maxName {
		name = string(r[:maxName])
	}
	if name == "" {
		return "keeper"
	}
	return name
}

func notInName(c rune) bool {
	return !unicode.IsLetter(c) && !unicode.IsDigit(c) && c != '-' && c != '_'
}

// Quote quotes what a person typed for an error, shortened where it is long.
func Quote(s string) string {
	if r := []rune(s); len(r) > 40 {
		s = string(r[:40]) + "…"
	}
	return fmt.Sprintf("%q", s)
}
