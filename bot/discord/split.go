package discord

import (
	"strings"
	"unicode/utf8"
)

// The platform's limits, in its characters.
const (
	maxContent  = 2000
	maxMessages = 5 // of one answer; the rest goes into a file
	maxCustomID = 100
	maxLabel    = 80  // of a button
	maxTitle    = 45  // of a form, and of its fields
	maxHint     = 100 // of a description, a choice or a placeholder
	maxChoices  = 25
)

// fence begins and ends a block of code.
const fence = "```"

// length counts as the platform does at most: a character outside the basic
// plane counts two.
func length(s string) int {
	n := 0
	for _, r := range s {
		n += size(r)
	}
	return n
}

func size(r rune) int {
	if r > 0xffff {
		return 2
	}
	return 1
}

// clip shortens words to a limit.
func clip(s string, limit int) string {
	if length(s) <= limit {
		return s
	}
	head, _ := cutAt(s, limit-1)
	return strings.TrimRight(head, " \\") + "…"
}

// split packs lines into messages of at most limit characters, which must be 20
// or more. A block of code is closed at the end of a message and goes on in the
// next; no line is broken that fits.
func split(lines []line, limit int) []string {
	var out []string
	var now strings.Builder
	used, code := 0, false
	add := func(s string) {
		if used > 0 {
			now.WriteByte('\n')
			used++
		}
		now.WriteString(s)
		used += length(s)
	}
	leave := func() {
		if code {
			add(fence)
			code = false
		}
	}
	flush := func() {
		leave()
		if s := strings.Trim(now.String(), "\n"); strings.TrimSpace(s) != "" {
			out = append(out, s)
		}
		now.Reset()
		used = 0
	}
	for _, l := range lines {
		for rest, more := l.text, true; more; {
			if l.code != code {
				leave()
			}
			room := limit - used
			if used > 0 {
				room--
			}
			if l.code {
				room -= len(fence) + 1 // its end
				if !code {
					room -= len(fence) + 1
				}
			}
			if length(rest) > room && used > 0 {
				flush()
				continue
			}
			var head string
			head, rest = cutAt(rest, room)
			if l.code && !code {
				add(fence)
				code = true
			}
			add(head)
			more = rest != ""
		}
	}
	flush()
	return out
}

// cutAt cuts s behind at most room characters, at a blank if there is one, and
// never between a backslash and what it stands for.
func cutAt(s string, room int) (head, rest string) {
	if length(s) <= room {
		return s, ""
	}
	used, last, blank := 0, 0, 0
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		w := size(r)
		if r == '\\' && i+n < len(s) {
			r2, n2 := utf8.DecodeRuneInString(s[i+n:])
			n, w = n+n2, w+size(r2)
		}
		if used+w > room {
			break
		}
		used, i = used+w, i+n
		last = i
		if r == ' ' {
			blank = i
		}
	}
	if blank > last/2 {
		last = blank
	}
	return s[:last], s[last:]
}
