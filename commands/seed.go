package commands

import (
	"slices"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/tryout"
	"ripen/engine/unit"
	"ripen/store"
)

// Names of how a seed was kept and of what a culture holds, in the order of the
// engine's.
var (
	keptNames    = [...]string{model.MoistWarm: "moist-warm", model.MoistCool: "moist-cool", model.Dried: "dry"}
	contentNames = [...]string{model.UnknownContent: "unknown", model.Nitrospira: "nitrospira", model.Nitrobacter: "nitrobacter", model.Heterotrophs: "heterotrophs"}
)

// aboutSeed are the options that tell where a seed came from and how.
var aboutSeed = []string{"donor-ph", "donor-temp", "donor-salinity", "hours", "kept"}

func optDonorTemp() Option {
	o := optTemp("temperature of the tank that the seed came from: 24C, 75F")
	o.Name = "donor-temp"
	return o
}

func optDonorSalinity() Option {
	o := optSalinity()
	o.Name, o.Help = "donor-salinity", "salt in the water that the seed came from; 0 is fresh water, 35 is the sea"
	return o
}

func optHours(help string) Option {
	return Option{Name: "hours", Type: TypeHours, Min: 0.05, Max: 720, Unit: "h", Help: help}
}

func optKept() Option {
	return Option{Name: "kept", Type: TypeChoice, Choices: keptNames[:], Help: "how a seed was kept out of water: wet at room temperature, wet and cool, or dry; needs hours"}
}

func optContent(name string) Option {
	return Option{Name: name, Type: TypeChoice, Choices: contentNames[:], Help: "bacteria in the bottle: nitrospira stay in a tank, nitrobacter mostly fade, heterotrophs eat waste"}
}

// donor puts what was told of a seed's water and way into its event.
func donor(args map[string]arg, e *model.Event) {
	e.DonorPH, e.DonorTemp, e.Hours = args["donor-ph"].low, unit.Celsius(args["donor-temp"].low), args["hours"].low
	if a, ok := args["donor-salinity"]; ok {
		e.DonorSalinity = new(a.low)
	}
	e.Kept = model.Kept(max(slices.Index(keptNames[:], args["kept"].word), 0))
}

// contentOf is the content that an option names.
func contentOf(a arg) model.Content {
	return model.Content(max(slices.Index(contentNames[:], a.word), 0))
}

// donorOf says what was told of a seed's water and way, in the member's units.
func donorOf(e model.Event, u store.Units) (d SeedDonor) {
	if e.DonorPH > 0 {
		d.PH = new(e.DonorPH)
	}
	if e.DonorTemp > 0 {
		d.Temp = new(inUnit(temps(), u.Temp, float64(e.DonorTemp)))
	}
	if e.Kind == model.Seed && e.Hours > 0 {
		d.Hours, d.Kept = new(rounded(e.Hours, 2)), keptNames[e.Kept]
	}
	d.Salinity = e.DonorSalinity
	return d
}

// checkSeed refuses more seed than the tank holds.
func checkSeed(option string, a arg, volume unit.Litres) *Error {
	if a.low <= float64(volume) {
		return nil
	}
	return refuse(CodeRange, option, "%s %s is more seed than the tank holds (%s L); write the volume of the media that come in, as in %s:0.5L", option, quote(a.typed), number(float64(volume), 1), option)
}

// checkKept refuses how a seed was kept without how long.
func (c *call) checkKept() *Error {
	if c.has("kept") && !c.has("hours") {
		return refuse(CodeMissing, "hours", "kept goes with hours; say how long the seed was out of water, as in hours:12")
	}
	return nil
}

// Gain is what a seed or a culture is expected to save against not adding it.
type Gain struct {
	DaysSaved   outlook.Quantiles `json:"days_saved"` // below zero for days lost
	Chance      float64           `json:"chance_helps"`
	Percent     float64           `json:"percent_helps"`
	ChanceHarms float64           `json:"chance_harms"`
	HarmPercent float64           `json:"percent_harms"`
	Lives       *SeedLives        `json:"lives,omitempty"` // of a seed of which something is known
	Content     string            `json:"content,omitempty"`
}

// SeedLives is how much of a seed's bacteria is expected to live on.
type SeedLives struct {
	Share        float64   `json:"share"`
	Percent      float64   `json:"percent"`
	TankPH       float64   `json:"tank_ph"`
	TankTemp     Quantity  `json:"tank_temp"`
	TankSalinity float64   `json:"tank_salinity"`
	Losses       []Loss    `json:"losses"` // each by itself
	Do           []string  `json:"do"`
	Donor        SeedDonor `json:"donor"`
}

// SeedDonor is what was told of where a seed came from.
type SeedDonor struct {
	PH       *float64  `json:"ph,omitempty"`
	Temp     *Quantity `json:"temp,omitempty"`
	Salinity *float64  `json:"salinity,omitempty"`
	Hours    *float64  `json:"hours,omitempty"` // out of water
	Kept     string    `json:"kept,omitempty"`
}

// Loss is something that costs a seed bacteria.
type Loss struct {
	By      string  `json:"by"` // ph, acid, temp, salinity, hours
	Text    string  `json:"text"`
	Percent float64 `json:"percent_left"`
}

// gainOf asks the engine what the seed or the culture that was just noted is expected
// to save. It is nil where that cannot be said; the entry stands all the same.
func (c *call) gainOf(t store.Tank, e model.Event, day unit.Days) *Gain {
	now := daysSince(t.Started, c.At)
	if c.adviser == nil || now < 0 {
		return nil
	}
	entries, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return nil
	}
	cs, err := caseOf(t, entries)
	if err != nil {
		return nil
	}
	for _, x := range slices.Backward(cs.Events) { // told last of that moment
		if x.Kind == e.Kind && x.Day == day {
			g, err := c.adviser.Gain(cs, now, x)
			if err != nil {
				return nil
			}
			return c.gained(x, g)
		}
	}
	return nil
}

// gained makes the typed result of what the engine expects.
func (c *call) gained(e model.Event, g tryout.Gain) *Gain {
	r := &Gain{DaysSaved: g.Saved, Chance: rounded(g.Helps, 3), Percent: percent(rounded(g.Helps, 6)), ChanceHarms: rounded(g.Harms, 3), HarmPercent: percent(rounded(g.Harms, 6))}
	if e.Kind == model.Culture {
		r.Content = contentNames[e.Content]
		return r
	}
	r.Lives = c.lives(e, g.Lives)
	return r
}

// lives makes the typed result of how much of a seed lives on; nil if nothing was told
// that it could be told by.
func (c *call) lives(e model.Event, l *tryout.Lives) *SeedLives {
	if l == nil {
		return nil
	}
	r := &SeedLives{
		Share: rounded(l.All(), 4), Percent: percent(rounded(l.All(), 4)), TankPH: rounded(l.TankPH, 1),
		TankTemp: inUnit(temps(), c.units.Temp, float64(l.TankTemp)), TankSalinity: l.TankSalinity,
	}
	r.Donor = donorOf(e, c.units)
	if r.Donor == (SeedDonor{}) && l.All() == 1 {
		return nil
	}
	r.Losses, r.Do = r.losses(l), r.advice(l)
	return r
}
