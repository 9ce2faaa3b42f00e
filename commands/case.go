package commands

import (
	"fmt"

	"ripen/engine/model"
	"ripen/engine/unit"
	"ripen/store"
)

// caseOf replays what was told about a tank, by At, into what the engine works
// with. Everything is read again from what was typed, with the units that it
// was typed in.
func caseOf(t store.Tank, entries []store.Entry) (model.Case, error) {
	setup, changes, err := setupOf(t, entries)
	if err != nil {
		return model.Case{}, err
	}
	c := model.Case{Setup: setup, Changes: changes, Began: float64(daysSince(midnight(t.Started.UTC()), t.Started))}
	for i, e := range entries {
		day := daysSince(t.Started, e.At)
		switch e.Kind {
		case store.KindReading:
			args, err := reread(e)
			if err != nil {
				return c, err
			}
			r := readingOf(args, day)
			r.Seq = i // what was told first of the same moment came first
			c.Readings = append(c.Readings, r)
		case store.KindLog:
			args, err := reread(e)
			if err != nil {
				return c, err
			}
			kind, _ := kindOfLog(args["what"].word)
			if kind.noEvent {
				continue
			}
			event, refused := kind.toEvent(args, setup.Volume)
			if refused != nil {
				return c, unreadable(e, refused)
			}
			event.Day, event.Seq = day, i
			c.Events = append(c.Events, event)
		}
	}
	return c, nil
}

// setupOf replays the set-up and its edits.
func setupOf(t store.Tank, entries []store.Entry) (model.Setup, []model.Change, error) {
	var base statement
	var changes []model.Change
	for _, kind := range []store.Kind{store.KindSetup, store.KindEdit} {
		for _, e := range entries {
			if e.Kind != kind {
				continue
			}
			args, err := reread(e)
			if err != nil {
				return model.Setup{}, nil, err
			}
			day := daysSince(t.Started, e.At)
			if kind == store.KindSetup || isStart(args["at"].typed) {
				day = 0 // whatever became of the start since
			}
			if change := base.correct(stated(args), day); change != (model.Change{}) {
				change.Day = day
				changes = append(changes, change)
			}
		}
	}
	return typical(base), changes, nil
}

// stated gathers the options of /tank new or /tank edit that describe the tank.
func stated(args map[string]arg) statement {
	var s statement
	for _, o := range setupOptions() {
		if a, ok := args[o.Name]; ok {
			s.set(o.Name, a)
		}
	}
	return s
}

// readingOf makes a reading of the options of /reading.
func readingOf(args map[string]arg, day unit.Days) model.Reading {
	r := model.Reading{Day: day}
	seen := func(name string) *model.Seen {
		a, ok := args[name]
		if !ok {
			return nil
		}
		return &model.Seen{Low: a.low, High: a.high, Over: a.open, AsN: a.bare == "n"}
	}
	value := func(name string) *float64 {
		a, ok := args[name]
		if !ok {
			return nil
		}
		return new(a.low)
	}
	r.Ammonia, r.Nitrite, r.Nitrate = seen("ammonia"), seen("nitrite"), seen("nitrate")
	r.PH, r.Chlorine, r.Oxygen = value("ph"), value("chlorine"), value("oxygen")
	if kh := value("kh"); kh != nil {
		r.KH = new(unit.DKH(*kh).CaCO3())
	}
	if temp := value("temp"); temp != nil {
		r.Temp = new(unit.Celsius(*temp))
	}
	for i, k := range kitNames {
		if args["kit"].word == k {
			r.Kit = model.Kit(i)
		}
	}
	return r
}

// entryOptions returns the options that an entry's values were typed for.
func entryOptions(k store.Kind) []Option {
	switch k {
	case store.KindSetup, store.KindEdit:
		return setupOptions()
	case store.KindReading:
		return readingSpecs()[0].Options
	}
	return logSpecs()[0].Options
}

// reread reads the values of an entry again. Values that are no option of the
// engine's (a new name, a closing, a time) come back as words.
func reread(e store.Entry) (map[string]arg, error) {
	args := map[string]arg{}
	options := entryOptions(e.Kind)
	for _, v := range e.Values {
		a, err := arg{typed: v.Typed, word: v.Typed}, (*Error)(nil)
		for _, o := range options {
			switch {
			case o.Name != v.Name:
			case o.Type == TypeAmount:
				kind, _ := kindOfLog(e.Value("what"))
				a, err = kind.read(v.Typed, v.Unit)
			default:
				a, err = readValue(o, v.Typed, v.Unit)
			}
		}
		if err != nil {
			return nil, unreadable(e, err)
		}
		args[v.Name] = a
	}
	return args, nil
}

// unreadable is what is wrong when a stored entry no longer reads as it did; it
// hides the refusal, which is not the asker's fault.
func unreadable(e store.Entry, refused *Error) error {
	return fmt.Errorf("entry %d of tank %d: %s", e.ID, e.Tank, refused.Message)
}

// values returns what was typed, in the order of the command's options, as it
// is kept. Options that only say where it goes are left out.
func (c *call) values() []store.Value {
	var vs []store.Value
	for _, o := range c.spec.Options {
		a, ok := c.args[o.Name]
		if !ok || o.Name == "tank" || o.Name == "scale" {
			continue
		}
		typed := a.typed
		if o.Type == TypeChoice {
			typed = a.word
		}
		vs = append(vs, store.Value{Name: o.Name, Typed: typed, Unit: a.bare})
	}
	return vs
}
