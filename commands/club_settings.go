package commands

import (
	"fmt"
	"strings"
	"time"

	"ripen/store"
)

var weekdays = []string{"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"}

func clubSpecs() []Spec {
	return []Spec{
		{Name: "club", Sub: "slow", Moderator: true, Private: true, Help: "tanks that are behind or stalled, most urgent first", Example: "/club slow", run: clubSlow,
			Options: []Option{{Name: "page", Type: TypeNumber, Help: "which page of the list; default 1"}}},
		{Name: "club", Sub: "case", Moderator: true, Private: true, Help: "one page about a member's tank, with an answer ready to post", Example: "/club case member:wren", run: clubCase,
			Options: []Option{{Name: "member", Type: TypeMember, Required: true, Moderator: true, Help: "whose tank"}, optTank()}},
		{Name: "club", Sub: "week", Moderator: true, Private: true, Help: "the weekly summary, now", Example: "/club week", run: clubWeek},
		{Name: "club", Sub: "record", Moderator: true, Private: true, Help: "how earlier outlooks turned out", Example: "/club record", run: clubRecord},
		{Name: "club", Sub: "settings", Moderator: true, Private: true, Help: "show or change what the club chose", Example: "/club settings day:monday time:18:00 zone:Europe/Lisbon", run: clubSettings,
			Options: []Option{
				{Name: "channel", Type: TypeChannel, Help: "where the weekly summary goes"},
				{Name: "day", Type: TypeChoice, Choices: weekdays, Help: "day of the weekly summary; default monday"},
				{Name: "time", Type: TypeText, Help: "time of that day: 18:00 (default), 6pm"},
				{Name: "zone", Type: TypeText, Help: "time zone of that time: Europe/Lisbon; default UTC"},
				{Name: "digest", Type: TypeChoice, Choices: []string{"on", "off"}, Help: "whether a weekly summary is posted; default off"},
				{Name: "share", Type: TypeChoice, Choices: []string{"on", "off"}, Help: "off (default): only tanks of members who said share:yes are shown; on: all without share:no"},
				{Name: "words", Type: TypeChoice, Choices: []string{"on", "off"}, Help: "off: replies stay in the program's own words where a language model may phrase them; default on"},
			}},
	}
}

// ClubSettings are a club's settings.
type ClubSettings struct {
	Channel string `json:"channel"` // "" while none is set
	Day     string `json:"day"`
	Time    string `json:"time"` // 24 hours, "18:00"
	Zone    string `json:"zone"`
	Digest  string `json:"digest"` // "on" or "off"
	Share   string `json:"share"`
	Words   string `json:"words"`
	Changed bool   `json:"changed"`

	Last *WeekPosted `json:"last_summary,omitempty"`
}

// clubSettings shows the settings, or sets those that are named.
func clubSettings(c *call) (Result, error) {
	s, err := c.book.store.Settings(c.ctx, c.Club)
	if err != nil {
		return nil, err
	}
	if len(c.args) == 0 {
		r := settingsView(s)
		r.Last, err = c.lastWeek(s)
		return r, err
	}
	was := s
	for option, to := range map[string]*string{"channel": &s.Channel, "day": &s.Day} {
		if a, ok := c.args[option]; ok {
			*to = a.word
		}
	}
	for option, to := range map[string]*bool{"digest": &s.Digest, "share": &s.Share} {
		if a, ok := c.args[option]; ok {
			*to = a.word == "on"
		}
	}
	if a, ok := c.args["words"]; ok {
		s.Plain = a.word == "off"
	}
	var refused *Error
	if a, ok := c.args["time"]; ok {
		if s.Time, refused = readClock("time", a.typed); refused != nil {
			return nil, refused
		}
	}
	if a, ok := c.args["zone"]; ok {
		if s.Zone, refused = readZone("zone", a.typed); refused != nil {
			return nil, refused
		}
	}
	if s.Digest && s.Channel == "" {
		return nil, refuse(CodeMissing, "channel", "a weekly summary needs a channel to go to; add it, as in /club settings digest:on channel:cycling")
	}
	if err := c.book.store.SetSettings(c.ctx, c.Club, s); err != nil {
		return nil, err
	}
	if err := c.reschedule(was, s); err != nil {
		return nil, err
	}
	r := settingsView(s)
	r.Changed = true
	return r, nil
}

// settingsView fills in what a club did not choose.
func settingsView(s store.Settings) ClubSettings {
	word := func(on bool) string {
		if on {
			return "on"
		}
		return "off"
	}
	r := ClubSettings{Channel: s.Channel, Day: s.Day, Time: s.Time, Zone: s.Zone, Digest: word(s.Digest), Share: word(s.Share), Words: word(!s.Plain)}
	for _, d := range []struct {
		to    *string
		usual string
	}{{&r.Day, "monday"}, {&r.Time, "18:00"}, {&r.Zone, "UTC"}} {
		if *d.to == "" {
			*d.to = d.usual
		}
	}
	return r
}

// readClock reads a time of day.
func readClock(option, typed string) (string, *Error) {
	s := strings.ToUpper(strings.ReplaceAll(strings.TrimSpace(typed), " ", ""))
	for _, layout := range []string{"15:04", "15.04", "3:04PM", "3PM"} {
		if t, err := time.Parse(layout, s); err == nil {
			return t.Format("15:04"), nil
		}
	}
	return "", refuse(CodeTime, option, "%s %s is no time of day; write it as 18:00 or 6pm", option, quote(typed))
}

// Text shows the settings.
func (r ClubSettings) Text() string {
	var b strings.Builder
	b.WriteString("The club's settings:")
	if r.Changed {
		b.Reset()
		b.WriteString("Noted. The club's settings are now:")
	}
	where := "no channel yet"
	if r.Channel != "" {
		where = "in " + quote(r.Channel)
	}
	fmt.Fprintf(&b, "\n  weekly summary %s: %s at %s (%s), %s", r.Digest, capital(r.Day), r.Time, r.Zone, where)
	if r.Last != nil {
		b.WriteString("\n  " + r.Last.sentence())
	}
	if r.Share == "on" {
		b.WriteString("\n  share on: tanks stand in lists and summaries unless their members said /tank edit share:no; tell your members so")
	} else {
		b.WriteString("\n  share off: only tanks whose members said /tank edit share:yes stand in lists and summaries")
	}
	if r.Words == "off" {
		b.WriteString("\n  words off: replies stay in the program's own words")
	}
	return b.String()
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
