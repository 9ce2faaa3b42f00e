package commands

import (
	"slices"

	"ripen/engine/model"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// changes makes what the engine tries of the options, in the order of the spec.
func (c *call) changes(s model.Setup) (names []string, changes []tryout.Change, refused *Error) {
	tries := slices.DeleteFunc(optionNames(c.spec), func(o string) bool {
		return o == "tank" || o == "member" || slices.Contains(aboutSeed, o) || o == "media-volume" && c.has("media") || !c.has(o)
	})
	for _, o := range aboutSeed {
		if c.has(o) && !c.has("seed") {
			return nil, nil, refuse(CodeMissing, "seed", "%s goes with seed; add how much media, as in seed:0.5L", o)
		}
	}
	if err := c.checkKept(); err != nil {
		return nil, nil, err
	}
	switch {
	case len(tries) == 0:
		return nil, nil, refuse(CodeNothing, "", "say what to change, up to %d things at once, as in %s", tryout.Most, c.spec.Example)
	case len(tries) > tryout.Most:
		return nil, nil, refuse(CodeRange, "", "%d changes at once are too many; try 1 to %d, the ones that you would make first", len(tries), tryout.Most)
	}
	for _, o := range tries {
		if o == "conditioned" && c.has("water-change") {
			continue // it says how that water is treated
		}
		x, err := c.change(o, s)
		if err != nil {
			return nil, nil, err
		}
		names, changes = append(names, o), append(changes, x)
	}
	return names, changes, nil
}

// change makes one change of an option.
func (c *call) change(option string, s model.Setup) (tryout.Change, *Error) {
	a := c.args[option]
	var told statement
	told.set(option, a)
	switch option {
	case "temp":
		return tryout.Temp(*told.Temp), nil
	case "kh":
		return tryout.KH(*told.KH), nil
	case "ph":
		return tryout.PH(a.low), nil
	case "water-change":
		return tryout.WaterChange{Fraction: a.low / 100, Treated: treatedAs(c.args["conditioned"].word)}, nil
	case "dose":
		return tryout.Dose{N: nitrogen(a, unit.Ammonia)}, nil
	case "plants":
		return tryout.Plants(*told.Plants), nil
	case "seed":
		if err := checkSeed(option, a, s.Volume); err != nil {
			return nil, err
		}
		var e model.Event
		donor(c.args, &e)
		return tryout.Seed{Volume: unit.Litres(a.low), DonorPH: e.DonorPH, DonorTemp: e.DonorTemp, DonorSalinity: e.DonorSalinity, Hours: e.Hours, Kept: e.Kept}, nil
	case "culture":
		return tryout.Culture(contentOf(a)), nil
	case "media", "media-volume":
		m := tryout.Media{Kind: s.Media, Volume: unit.Litres(c.args["media-volume"].low)}
		if told.Media != nil {
			m.Kind = *told.Media
		}
		switch {
		case m.Kind == model.NoMedia && m.Volume > 0:
			return nil, refuse(CodeMissing, "media", "say which medium it is, as in media:sponge media-volume:1L")
		case m.Volume > s.Volume:
			return nil, refuse(CodeRange, "media-volume", "media-volume %s is more than the tank holds (%s L)", quote(c.args["media-volume"].typed), number(float64(s.Volume), 1))
		}
		return m, nil
	case "flow":
		return tryout.Flow(*told.Flow), nil
	}
	return tryout.Conditioned(a.word == "yes"), nil
}

// treatedAs is what conditioned:yes and conditioned:no say of new water.
func treatedAs(word string) model.Treated {
	switch word {
	case "yes":
		return model.Yes
	case "no":
		return model.No
	}
	return model.AsHabit
}
