package post

import "strings"

// bracket handles BBCode and Markdown links.
func (c *cleaner) bracket(i int, s string) int {
	end := within(s, "]")
	if end < 0 {
		return 0
	}
	tag := strings.ToLower(s[1:end])
	name := strings.TrimPrefix(tag, "/")
	if j := strings.IndexAny(name, "= "); j >= 0 {
		name = name[:j]
	}
	closing := strings.HasPrefix(tag, "/")
	switch name {
	case "quote", "blockquote":
		c.nest(closing, i)
		return end + 1
	case "b", "i", "u", "color", "size", "font", "center", "left", "right", "code", "url", "user", "h1", "h2", "h3", "table", "list", "highlight", "spoiler", "indent", "sub", "sup", "plain", "post", "email", "heading", "justify":
		if name == "url" || name == "list" || name == "code" {
			c.emit(" ", i)
		}
		return end + 1
	case "s", "strike", "del":
		if !closing {
			if stop := within(s, "[/"+name+"]"); stop > 0 {
				return stop + len(name) + 3
			}
		}
		return end + 1
	case "img", "media", "attach", "youtube", "video":
		if stop := within(s, "[/"+name+"]"); stop > 0 {
			return stop + len(name) + 3
		}
		return end + 1
	case "tr", "*", "hr", "li", "br":
		c.emit("\n", i)
		return end + 1
	case "td", "th":
		c.emit("|", i)
		return end + 1
	}
	if strings.HasPrefix(s[end:], "](") { // [words](link): the words stay
		if stop := within(s[end:], ")"); stop > 0 && strings.Contains(s[end:end+stop], "/") {
			c.emitPlain(i+1, i+end)
			return end + stop + 1
		}
	}
	return 0
}

func (c *cleaner) emitPlain(from, to int) {
	for from < to {
		from += c.char(from)
	}
}

func (c *cleaner) nest(closing bool, i int) {
	switch {
	case closing && c.depth > 0:
		c.depth--
	case !closing:
		c.emit("\n", i)
		if c.depth == 0 {
			c.open = i
		}
		c.depth++
		return
	}
	c.emit("\n", i)
}

// angle handles HTML tags and the mentions of chats. "<0.25" and "<5" are no tags.
func (c *cleaner) angle(i int, s string) int {
	if len(s) < 3 || !(isLetter(s[1]) || strings.IndexByte("/@#:!", s[1]) >= 0) {
		return 0
	}
	end := within(s, ">")
	if end < 0 || strings.ContainsAny(s[:end], "\n") {
		return 0
	}
	tag := strings.ToLower(s[1:end])
	closing := strings.HasPrefix(tag, "/")
	name := strings.TrimPrefix(tag, "/")
	if j := strings.IndexAny(name, " /"); j >= 0 {
		name = name[:j]
	}
	switch name {
	case "blockquote", "quote":
		c.nest(closing, i)
	case "br", "p", "li", "tr", "div", "h1", "h2", "h3", "h4":
		c.emit("\n", i)
	case "td", "th":
		if !closing {
			c.emit("|", i)
		}
	case "b", "i", "u", "em", "strong", "span", "sub", "sup", "font", "a", "code", "pre", "table", "tbody", "thead", "ul", "ol":
	case "s", "del", "strike":
		if stop := within(s, "</"+name+">"); !closing && stop > 0 {
			return stop + len(name) + 3
		}
	default:
		if strings.IndexByte("@#:!at", tag[0]) < 0 {
			return 0
		}
		if (tag[0] == 'a' || tag[0] == 't') && !strings.Contains(tag, ":") {
			return 0
		}
		c.emit(" ", i)
	}
	return end + 1
}
