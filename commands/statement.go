package commands

import (
	"slices"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// statement is what a member said of a tank's set-up; nil where nothing was
// said. What a Change cannot hold describes the tank from its start on.
type statement struct {
	model.Change
	Volume   *unit.Litres
	Method   *model.Method
	Target   *unit.MgN
	Altitude *float64 // m
}

// set takes in one option of /tank new or /tank edit; other options of these
// (name, started, at) say nothing of the set-up.
func (s *statement) set(name string, a arg) {
	switch name {
	case "volume":
		s.Volume = new(unit.Litres(a.low))
	case "ph":
		s.PH = new(a.low)
	case "kh":
		s.KH = new(unit.DKH(a.low).CaCO3())
	case "temp":
		s.Temp = new(unit.Celsius(a.low))
	case "method":
		s.Method = new(model.Method(slices.Index(methodNames[:], a.word)))
	case "plants":
		s.Plants = new(model.Plants(slices.Index(plantNames[:], a.word)))
	case "media":
		s.Media = new(model.Media(slices.Index(mediaNames[:], a.word)))
	case "media-volume":
		s.MediaVolume = new(unit.Litres(a.low))
	case "flow":
		s.Flow = new(model.Flow(slices.Index(flowNames[:], a.word)))
	case "source":
		s.Source = new(model.Source(slices.Index(sourceNames[:], a.word)))
	case "conditioner":
		s.Conditioner = new(a.word == "yes")
	case "salinity":
		s.Salinity = new(a.low)
	case "altitude":
		s.Altitude = new(a.low)
	case "target":
		s.Target = new(nitrogen(a, unit.Ammonia))
	case "stock":
		s.Stock = new(unit.Grams(a.low))
	case "feed":
		s.Feed = new(unit.Grams(a.low))
	}
}

// nitrogen converts a concentration on the scale of a kit to mg N/L.
func nitrogen(a arg, s unit.Species) unit.MgN {
	if a.bare == "n" {
		return unit.MgN(a.low)
	}
	return unit.MgIon(a.low).N(s)
}

// onScaleOf converts mg N/L to the scale that a kit shows, "ion" or "n".
func onScaleOf(scale string, c unit.MgN, s unit.Species) float64 {
	if scale == "n" {
		return float64(c)
	}
	return float64(c.Ion(s))
}

// merge copies what s says into a set-up.
func (s *statement) merge(t *model.Setup) {
	put(&t.Volume, s.Volume, nil)
	put(&t.Method, s.Method, nil)
	put(&t.Target, s.Target, &t.Given.Target)
	put(&t.Altitude, s.Altitude, nil)
	put(&t.Plants, s.Plants, nil)
	put(&t.Salinity, s.Salinity, nil)
	put(&t.PH, s.PH, &t.Given.PH)
	put(&t.KH, s.KH, &t.Given.KH)
	put(&t.Temp, s.Temp, &t.Given.Temp)
	put(&t.Media, s.Media, &t.Given.Media)
	put(&t.MediaVolume, s.MediaVolume, &t.Given.MediaVolume)
	put(&t.Flow, s.Flow, &t.Given.Flow)
	put(&t.Source, s.Source, &t.Given.Source)
	put(&t.Conditioner, s.Conditioner, &t.Given.Conditioner)
	put(&t.Stock, s.Stock, &t.Given.Stock)
	put(&t.Feed, s.Feed, &t.Given.Feed)
}

// put copies *from, if there is one, and notes that it was given.
func put[T any](to, from *T, given *bool) {
	if from == nil {
		return
	}
	*to = *from
	if given != nil {
		*given = true
	}
}

// correct takes in what describes the tank from its start on: volume, method,
// target and altitude always, everything if the edit is of the first day. It returns the
// rest, which changed then.
func (s *statement) correct(edit statement, day unit.Days) (change model.Change) {
	s.Volume, s.Method, s.Target = or(edit.Volume, s.Volume), or(edit.Method, s.Method), or(edit.Target, s.Target)
	s.Altitude = or(edit.Altitude, s.Altitude)
	if day < 1 {
		overlay(&s.Change, edit.Change)
		return model.Change{}
	}
	return edit.Change
}

func or[T any](a, b *T) *T {
	if a != nil {
		return a
	}
	return b
}

// overlay lets what x says stand over what c says.
func overlay(c *model.Change, x model.Change) {
	c.PH, c.KH, c.Temp = or(x.PH, c.PH), or(x.KH, c.KH), or(x.Temp, c.Temp)
	c.Media, c.MediaVolume, c.Flow = or(x.Media, c.Media), or(x.MediaVolume, c.MediaVolume), or(x.Flow, c.Flow)
	c.Plants, c.Source, c.Conditioner = or(x.Plants, c.Plants), or(x.Source, c.Source), or(x.Conditioner, c.Conditioner)
	c.Salinity, c.Feed, c.Stock = or(x.Salinity, c.Salinity), or(x.Feed, c.Feed), or(x.Stock, c.Stock)
}
