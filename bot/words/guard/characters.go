package guard

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

// plain is every character that an answer may have. Whatever else there is, as digits and
// letters that only look plain, marks that hide, and signs that chats make links, mentions
// or dress of, is not looked at further.
const plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 \n.,;:!()'%/-°–—’"

// joined are signs that are plain in some places only.
var joined = regexp.MustCompile(`//|[a-zA-Z]\.[a-zA-Z]|--|(?m:^ {4,})|\(\s*\)|[!.,;:]{2,}`)

// slashed are all uses of a slash that mean something: units and commands.
var slashed = regexp.MustCompile(`(?:\bmg|\bmeq)/L\b|\bg/kg\b|(?:^|[\s(])/[a-z]+(?:-[a-z]+)?\b`)

// placed is the place of the name as a word of its own, which is all that is put in for.
var placed = regexp.MustCompile(`\b` + Name + `\b`)

func checkCharacters(s string) error {
	if !utf8.ValidString(s) {
		return refuse("it is no proper text", "")
	}
	for i, r := range s {
		if !strings.ContainsRune(plain, r) {
			return refuse("a character that answers don't have", s[i:])
		}
	}
	if m := joined.FindString(s); m != "" {
		return refuse("signs that answers don't have", m)
	}
	if strings.Count(s, Name) > len(placed.FindAllString(s, -1)) {
		return refuse("the place of the name within a word", "")
	}
	if strings.Contains(slashed.ReplaceAllString(s, " "), "/") {
		return refuse("a slash that is neither of a unit nor of a command", "")
	}
	return nil
}
