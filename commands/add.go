package commands

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"ripen/commands/post"
	"ripen/store"
)

func addSpecs() []Spec {
	return []Spec{{Name: "add", Private: true, Post: true, Help: "take the readings from an ordinary post", Example: "!add day 12: ammonia 0.5, nitrite 2, pH 7.6", run: add,
		Options: []Option{{Name: "tank", Type: TypeTank, Help: "which tank, where a chat asks for it beside the post"},
			{Name: "at", Type: TypeWhen, Help: "when the post was written, in UTC, of a post without a day; default now"}}}}
}

// Added is what was understood of a post.
type Added struct {
	Noted
	Understood Values        `json:"understood"`
	Scale      string        `json:"scale"`            // of the nitrogen tests: "ion", "n" or "mixed"
	Scales     Scales        `json:"scales,omitempty"` // of each, where they are mixed
	Doubtful   []Snippet     `json:"doubtful"`
	Stored     bool          `json:"stored"`
	Left       []Snippet     `json:"left"` // numbers that are no reading of now
	Shown      []string      `json:"shown"`
	Reading    *ReadingNoted `json:"noted,omitempty"`
	Ahead      *Ahead        `json:"ahead,omitempty"`   // what would be noted
	Undated    string        `json:"undated,omitempty"` // a date of the post that is no day of the tank's life
	Events     []post.Event  `json:"events,omitempty"`  // what the post says was done to the tank; it is told how to note it
	Next       string        `json:"next,omitempty"`
}

// Ahead is where a post would be noted that was only looked at.
type Ahead struct {
	Tank  string    `json:"tank"`
	At    time.Time `json:"at"`
	AtDay float64   `json:"at_day"`
}

// Snippet is a part of a post as written, with a reason in plain words.
type Snippet struct {
	Text   string `json:"text"`
	Reason string `json:"reason"`
}

// add takes the readings from a post. It stores nothing while anything in it is
// doubtful.
func add(c *call) (Result, error) {
	if err := checkText(c.Post, "post", maxPost, true); err != nil {
		return nil, err
	}
	if strings.TrimSpace(c.Post) == "" {
		return nil, refuse(CodeMissing, "post", "the post is empty; write what your tests show, as in %s", c.spec.Example)
	}
	found := post.Read(c.Post, post.Options{Temp: c.units.Temp, KH: c.units.KH, Scale: c.units.Scale})
	r := Added{Doubtful: snippets(found.Doubtful), Left: snippets(found.Left), Events: found.Events}
	values := c.takeFound(found.Found, &r)
	r.Understood, r.Shown = valuesOf(c.args), append([]string{}, shown(c)...)
	r.Scale, r.Scales = scaleOfReading(c)
	if len(values) == 0 && len(r.Doubtful) == 0 {
		r.Next = "Write the name of a test and its value, as in " + c.spec.Example + ", or use /reading."
		return r, nil
	}
	if len(r.Doubtful) > 0 {
		r.Next = "Nothing was stored yet. Please send the post again with that put plainly, or use /reading."
		return r, nil
	}
	t, err := c.tankOfPost()
	if err != nil {
		return nil, err
	}
	at, doubt := c.dayOfPost(t, found.Day)
	if found.Day == nil && doubt == nil {
		at, r.Undated, doubt = c.dateOfPost(t, at, found.Date)
	}
	if doubt != nil {
		r.Doubtful = append(r.Doubtful, *doubt)
		r.Next = "Nothing was stored yet. Please send the post again with the right day, or without one for now."
		return r, nil
	}
	if c.Look {
		r.Ahead = &Ahead{t.Name, at, dayNumber(t.Started, at)}
		r.Next = fmt.Sprintf("Nothing is stored yet; it would stand for %s, day %s (%s).", t.Name, number(r.Ahead.AtDay, 0), day(at))
		return r, nil
	}
	noted, err := c.note(t, at, append(values, store.Value{Name: "post", Typed: c.Post}))
	if err != nil {
		return nil, err
	}
	r.Stored, r.Reading, r.Duplicate = true, &noted, noted.Duplicate
	return r, nil
}

func snippets(doubts []post.Doubt) []Snippet {
	s := []Snippet{}
	for _, d := range doubts {
		s = append(s, Snippet(d))
	}
	return s
}

// takeFound reads what was found as if it had been typed for /reading, and
// returns it as it is kept. What /reading would refuse is doubtful.
func (c *call) takeFound(found []post.Found, r *Added) []store.Value {
	var values []store.Value
	spec := readingSpecs()[0]
	for _, f := range found {
		name := strings.TrimSuffix(strings.TrimSuffix(f.Kind.String(), "_dkh"), "_c")
		o, ok := spec.Option(name)
		if !ok {
			continue
		}
		a, err := c.readFound(o, f)
		if err != nil {
			r.Doubtful = append(r.Doubtful, Snippet{f.Typed, err.Message})
			continue
		}
		c.args[name] = a
		values = append(values, store.Value{Name: name, Typed: a.typed, Unit: a.bare})
	}
	return values
}

// readFound reads one reading of a post: from the words of the member if they
// read the same for /reading, else from what was understood of them.
func (c *call) readFound(o Option, f post.Found) (arg, *Error) {
	bare := bareUnit(o, c.units)
	if o.scaled {
		bare = "ion"
		if f.AsN {
			bare = "n"
		}
	}
	same := func(x, y float64) bool { return math.Abs(x-y) < 0.005 }
	if a, err := readValue(o, f.Typed, bare); err == nil && a.open == f.Over && same(a.low, f.Low) && same(a.high, f.High) {
		return a, nil
	}
	typed := Value{f.Low, f.High, f.Over}.String()
	switch o.Type {
	case TypeKH:
		return readValue(o, typed+"dKH", "dKH")
	case TypeTemp:
		return readValue(o, typed+"C", "C")
	}
	return readValue(o, typed, bare)
}

// tankOfPost returns the tank that a post is about: the only one that its words
// name, or the member's only one.
func (c *call) tankOfPost() (store.Tank, error) {
	if c.has("tank") {
		return c.tank()
	}
	all, err := c.book.store.Tanks(c.ctx, c.Club, c.Member)
	if err != nil {
		return store.Tank{}, err
	}
	var open, named []store.Tank
	for _, t := range all {
		if !t.Closed.IsZero() {
			continue
		}
		open = append(open, t)
		if mentions(c.Post, t.Name) {
			named = append(named, t)
		}
	}
	if len(named) == 1 {
		return named[0], nil
	}
	if t, ok, err := c.tied(c.Member, open); ok || err != nil {
		return t, err
	}
	if len(open) > 1 {
		return store.Tank{}, refuse(CodeAmbiguous, "tank", "which tank is the post about? put one of these names into it: %s", names(open))
	}
	return c.tank()
}

// mentions says whether a text holds a name as words of its own.
func mentions(text, name string) bool {
	text, name = store.Fold(text), store.Fold(name)
	inWord := func(r rune, _ int) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	for name != "" {
		before, after, found := strings.Cut(text, name)
		if !found {
			return false
		}
		if !inWord(utf8.DecodeLastRuneInString(before)) && !inWord(utf8.DecodeRuneInString(after)) {
			return true
		}
		text = after
	}
	return false
}

// dayOfPost returns when a post was read: on the day that it names, or when it was
// written. A day to come is doubtful; the day after is today, counted from one.
func (c *call) dayOfPost(t store.Tank, told *float64) (time.Time, *Snippet) {
	written := c.At.UTC()
	if a, ok := c.args["at"]; ok {
		at, err := c.at(t)
		if err != nil {
			return at, &Snippet{a.typed, err.Error()}
		}
		written = at
	}
	today := dayNumber(t.Started, written)
	if told == nil || *told == today || *told == today+1 {
		return written, nil
	}
	typed := "day " + number(*told, 1)
	at, err := readAt("day", typed, c.At, t.Started)
	if err != nil {
		return at, &Snippet{typed, fmt.Sprintf("%s is at day %s now", t.Name, number(today, 0))}
	}
	return at, nil
}

// Text says back what was understood, and asks about the rest.
func (r Added) Text() string {
	var b strings.Builder
	switch {
	case r.Reading != nil:
		b.WriteString(r.Reading.Text())
	case len(r.Shown) > 0:
		fmt.Fprintf(&b, "I understood: %s.", strings.Join(r.Shown, ", "))
	case len(r.Doubtful) == 0:
		b.WriteString("I found no test result in that post, so nothing was stored.")
	}
	if len(r.Doubtful) > 0 {
		b.WriteString("\nI am not sure about this:")
		for _, d := range r.Doubtful {
			fmt.Fprintf(&b, "\n- %s: %s", quote(oneLine(d.Text)), d.Reason)
		}
	}
	if len(r.Left) > 0 {
		b.WriteString("\nNot taken as a test of now:")
		for _, d := range r.Left {
			fmt.Fprintf(&b, "\n- %s: %s", quote(oneLine(d.Text)), d.Reason)
		}
	}
	if r.Undated != "" {
		fmt.Fprintf(&b, "\nThe post says %s, a day before the tank was filled or still to come, so this stands for when the post was written. If the tank was filled earlier, tell me with /tank edit started:", quote(r.Undated))
	}
	if len(r.Events) > 0 {
		b.WriteString("\n" + eventLine(r.Events))
	}
	if r.Next != "" {
		fmt.Fprintf(&b, "\n%s", r.Next)
	}
	return strings.TrimPrefix(b.String(), "\n")
}

// oneLine shows a snippet of a post on one line.
func oneLine(s string) string { return strings.Join(slices.Collect(strings.FieldsSeq(s)), " ") }
