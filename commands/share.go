package commands

import (
	"strings"
	"time"

	"ripen/engine/model"
	"ripen/engine/unit"
	"ripen/store"
)

func shareSpecs() []Spec {
	return []Spec{{Name: "share", Private: true, Help: "the tank's story for a forum post, with nothing private in it", Example: "/share as:markdown", run: shareStory,
		Options: []Option{
			optTank(),
			{Name: "as", Type: TypeChoice, Choices: markupNames(), Help: "how the post is written; default text"},
		}}}
}

// Share is a tank's story as others may read it. It holds no name of the member or
// the tank, no height of its place, and no words that the member typed. Numbers are
// in the member's units.
type Share struct {
	As         string         `json:"as"` // "text", "markdown" or "bbcode"
	Day        float64        `json:"day"`
	Setup      ShareSetup     `json:"setup"`
	Readings   []ShareReading `json:"readings"` // of a long log the first and last
	ReadingsIn int            `json:"readings_in_all"`
	LeftOut    int            `json:"readings_left_out"` // after the first of Readings
	Events     []ShareEvent   `json:"events"`
	EventsIn   int            `json:"events_in_all"`
	EventsOut  int            `json:"events_left_out"`
	Scale      string         `json:"scale"`
	Outlook    []string       `json:"outlook"` // sentences
	Verdict    string         `json:"verdict"`
	Causes     []string       `json:"causes"`
	Horizon    int            `json:"horizon_days"`
}

// ShareSetup is the set-up as it stands, in facts.
type ShareSetup struct {
	Facts   []string `json:"facts"`
	Assumed []string `json:"assumed"` // facts that nobody told
}

// ShareReading is what the tests showed at one time; "" where nothing was read.
type ShareReading struct {
	Day      float64 `json:"day"`
	Ammonia  string  `json:"ammonia,omitempty"`
	Nitrite  string  `json:"nitrite,omitempty"`
	Nitrate  string  `json:"nitrate,omitempty"`
	PH       string  `json:"ph,omitempty"`
	KH       string  `json:"kh,omitempty"`
	Temp     string  `json:"temp,omitempty"`
	Chlorine string  `json:"chlorine,omitempty"`
	Oxygen   string  `json:"oxygen,omitempty"`
}

// ShareEvent is what was done on a day.
type ShareEvent struct {
	Day   float64 `json:"day"`
	Words string  `json:"words"`
}

// Of a long log so many of the first and of the last entries are told.
const (
	firstTold = 8
	lastTold  = 16
)

// shareStory gathers the story of a tank.
func shareStory(c *call) (Result, error) {
	t, cs, now, err := c.theCase()
	if err != nil {
		return nil, err
	}
	entries, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return nil, storeError(err, t.Name)
	}
	d, o, err := c.adviser.Why(cs, now)
	if err != nil {
		return nil, engineError(err)
	}
	set := current(cs.Setup, cs.Changes, now)
	r := Share{As: markupNames()[0], Day: dayNumber(t.Started, c.At), Scale: c.units.Scale, Horizon: int(o.Horizon), Readings: []ShareReading{}, Events: []ShareEvent{}}
	if a, ok := c.args["as"]; ok {
		r.As = a.word
	}
	r.Setup = ShareSetup{setupFacts(setupView(set, c.units)), append([]string{}, labels(assumed(set))...)}
	for _, x := range cs.Readings {
		r.Readings = append(r.Readings, shareReading(x, dayNumber(t.Started, dateOf(t.Started, float64(x.Day)).Round(time.Minute)), c.units))
	}
	for _, e := range entries {
		words, err := eventWords(e, cs.Setup.Volume, c.units)
		if err != nil {
			return nil, err
		}
		if words != "" {
			r.Events = append(r.Events, ShareEvent{dayNumber(t.Started, e.At), words})
		}
	}
	r.ReadingsIn, r.EventsIn = len(r.Readings), len(r.Events)
	r.Readings, r.LeftOut = shortened(r.Readings)
	r.Events, r.EventsOut = shortened(r.Events)

	t.Name = "this tank"
	out := outlookResult(t, cs, o, c.At, c.units.Scale)
	r.Outlook = []string{sentence(out.answer())}
	if out.Stage != "ready" {
		r.Outlook = append(r.Outlook, out.stageWords())
		if chances := out.chances(); chances != "" {
			r.Outlook = append(r.Outlook, chances)
		}
	}
	why := Why{Head: headOf(t, c.At), Verdict: d.Verdict, DelayDays: d.Delay, Stage: o.Stage, DoneDay: o.Done, DoneOn: calendarDays(t.Started, o.Done), DoneDate: dates(t.Started, o.Done), Horizon: int(o.Horizon)}
	for i, x := range d.Causes {
		why.Causes = append(why.Causes, causeOf(i+1, x))
	}
	r.Causes = []string{}
	for _, x := range why.told() {
		r.Causes = append(r.Causes, causeWords(x.Cause)+": "+number(x.Percent, 0)+" % likely, costs "+costWords(x.DaysCost))
	}
	r.Verdict = sentence(why.verdict())
	if out.Animals && d.Verdict != "ready" {
		r.Verdict = "Animals are in, and their water comes first. The cycle itself: " + r.Verdict
	}
	return r, nil
}

// setupFacts lists the set-up, without where it stands.
func setupFacts(v SetupView) []string {
	var facts []string
	for _, o := range []string{"volume", "ph", "kh", "temp", "salinity", "method", "target", "plants", "media", "media-volume", "flow", "source", "conditioner", "stock", "feed"} {
		switch {
		case o == "salinity" && v.SalinityGKg == 0, o == "stock" && v.StockG == 0, o == "feed" && v.FeedGPerDay == 0, o == "media-volume" && v.MediaVolumeL == 0:
		default:
			facts = append(facts, label(o)+" "+v.fact(o))
		}
	}
	return facts
}

// shareReading prints a reading in a member's units.
func shareReading(x model.Reading, day float64, u store.Units) ShareReading {
	seen := func(s *model.Seen, species unit.Species) string {
		if s == nil {
			return ""
		}
		to := func(v float64) float64 {
			if s.AsN == (u.Scale == "n") {
				return v
			}
			return digits(shownOn(u.Scale, (&model.Seen{Low: v, AsN: s.AsN}).Ion(species), species), 3)
		}
		return Value{to(s.Low), to(s.High), s.Over}.String()
	}
	plain := func(v *float64) string {
		if v == nil {
			return ""
		}
		return number(*v, 2)
	}
	r := ShareReading{Day: day, Ammonia: seen(x.Ammonia, unit.Ammonia), Nitrite: seen(x.Nitrite, unit.Nitrite), Nitrate: seen(x.Nitrate, unit.Nitrate),
		PH: plain(x.PH), Chlorine: plain(x.Chlorine), Oxygen: plain(x.Oxygen)}
	if x.KH != nil {
		r.KH = inUnit(hardnesses(), u.KH, float64(x.KH.DKH())).String()
	}
	if x.Temp != nil {
		r.Temp = inUnit(temps(), u.Temp, float64(*x.Temp)).String()
	}
	return r
}

// eventWords puts an entry into words, in a member's units and without what the
// member typed; "" if it is no event or a private one.
func eventWords(e store.Entry, volume unit.Litres, u store.Units) (string, error) {
	if e.Kind != store.KindLog && e.Kind != store.KindEdit {
		return "", nil
	}
	args, err := reread(e)
	if err != nil {
		return "", err
	}
	if e.Kind == store.KindEdit {
		return editWords(args, u), nil
	}
	kind, _ := kindOfLog(args["what"].word)
	if kind.noEvent {
		return "", nil
	}
	event, refused := kind.toEvent(args, volume)
	if refused != nil {
		return "", unreadable(e, refused)
	}
	words := kind.name
	if a, ok := args["amount"]; ok {
		switch a.measure.dim {
		case dimConc:
			words += " " + sigText(onScaleOf(u.Scale, event.N, unit.Ammonia)) + " mg/L" + asNitrogen(u.Scale)
		case dimVolume:
			words += " " + inUnit(volumes(), u.Volume, a.low).String()
		case dimKH:
			words += " " + inUnit(hardnesses(), u.KH, a.low).String()
		default:
			words += " " + logAmount(Quantity{rounded(a.measure.from(a.low), 3), a.measure.name})
		}
	}
	switch {
	case event.Kind == model.PlantsAdded:
		words += " " + plantNames[event.Plants]
	case event.Kind == model.Cleaned && event.Harsh:
		words += " harshly"
	}
	if event.Hours > 0 && event.Kind != model.Seed {
		words += ", " + number(event.Hours, 2) + " h"
	}
	words += donorOf(event, u).words()
	if event.Content != model.UnknownContent {
		words += " of " + contentNames[event.Content]
	}
	switch event.Treated {
	case model.Yes:
		words += ", conditioned"
	case model.No:
		words += ", not conditioned"
	}
	return words, nil
}

// editWords is a change of the set-up, "" if only the name changed or the like.
func editWords(args map[string]arg, u store.Units) string {
	var set model.Setup
	s := stated(args)
	s.merge(&set)
	v := setupView(set, u)
	var facts []string
	for _, o := range setupOptions() {
		if _, ok := args[o.Name]; ok && o.Name != "altitude" {
			if fact := v.fact(o.Name); fact != "" {
				facts = append(facts, label(o.Name)+" "+fact)
			}
		}
	}
	if len(facts) == 0 {
		return ""
	}
	return "changed: " + strings.Join(facts, ", ")
}

// shortened leaves out the middle of a long list, and says how much.
func shortened[T any](all []T) ([]T, int) {
	if len(all) <= firstTold+lastTold+1 {
		return all, 0
	}
	out := len(all) - firstTold - lastTold
	return append(append([]T{}, all[:firstTold]...), all[len(all)-lastTold:]...), out
}
