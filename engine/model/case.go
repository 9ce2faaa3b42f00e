package model

import (
	"math"

	"ripen/engine/unit"
)

// Case is everything the engine knows of one tank: its set-up, what changed,
// what was done and what was read. Days count from the tank's start.
type Case struct {
	Setup    Setup     // as of day 0
	Changes  []Change  // by Day
	Events   []Event   // by Day
	Readings []Reading // by Day
	Began    float64   // time of day of day 0, 0..1: only DayOf asks for it
}

// DayOf is the number that a calendar gives a day: that of its date, day 0 being the first.
func (c *Case) DayOf(day unit.Days) int { return int(math.Floor(float64(day) + c.Began)) }

// Method is how the tank gets the ammonia that feeds its bacteria.
type Method int

// The methods of the command book.
const (
	Dosed     Method = iota // ammonia solution or salt, by the keeper
	Food                    // food left to rot
	DarkStart               // ammonia leaching from aquatic soil, no light
	Seeded                  // dosed, with mature media from another tank
	Planted                 // plants first, little ammonia
	FishIn                  // animals from the start
)

// Plants is how many plants grow in the tank and how fast.
type Plants int

// The plant classes of the command book.
const (
	NoPlants Plants = iota
	FewSlow
	ManySlow
	FewFast
	ManyFast
)

// Media is the filter medium that carries the attached bacteria.
type Media int

// The media of the command book.
const (
	NoMedia Media = iota
	Sponge
	Ceramic
	Floss
	Sand
	MovingBed
)

// Flow is the strength of the filter's flow and so of the oxygen supply.
type Flow int

// The flow classes of the command book.
const (
	Weak Flow = iota
	Normal
	Strong
)

// Source is where the tank's water comes from.
type Source int

// The sources of the command book.
const (
	Chlorinated   Source = iota // tap, free chlorine
	Chloraminated               // tap, monochloramine
	Well
	RO
	Rain
)

// Setup is a tank as registered. What the member left out is false in Given;
// the values then are typical ones. The
// model holds for 1 L and more, pH 3.5 to 10.5, 4 to 40 C, 0 to 45 g/kg and
// -450 to 5,100 m; commands ask for these ranges.
type Setup struct {
	Volume      unit.Litres  // of water
	PH          float64      // on day 0
	KH          unit.MgCaCO3 // alkalinity, on day 0 and of new water
	Temp        unit.Celsius
	Salinity    float64     // g/kg
	Altitude    float64     // of the tank above the sea, m
	Method      Method      // where the ammonia comes from
	Plants      Plants      // on day 0
	Media       Media       // in the filter
	MediaVolume unit.Litres // of the medium
	Flow        Flow        // of the filter
	Source      Source      // of new water
	Conditioner bool        // tap water is treated as a habit
	Target      unit.MgN    // total ammonia that must clear in 24 h; 0 for the usual one
	Stock       unit.Grams  // animals: present from the start when FishIn, else planned
	Feed        unit.Grams  // food per day: given from the start when FishIn or Food, else planned
	Start       Pools       // what was in the water on day 0, mg N/L; see Complete
	Given       Given       // what of this was stated
}

// Given says which facts of the Setup the member stated, each by its name there.
type Given struct {
	PH, KH, Temp, Media, MediaVolume, Flow, Source, Conditioner, Stock, Feed, Target bool
}

// Change is a change of the set-up that holds from Day on: each field is that of
// Setup, nil where it stays. A PH and a KH count as measured on that day, and the
// KH is that of new water from then on.
type Change struct {
	Day         unit.Days
	PH          *float64
	KH          *unit.MgCaCO3
	Temp        *unit.Celsius
	Media       *Media
	MediaVolume *unit.Litres
	Flow        *Flow
	Plants      *Plants
	Source      *Source
	Conditioner *bool
	Salinity    *float64    // g/kg
	Feed        *unit.Grams // per day
	Stock       *unit.Grams
}

// EventKind is what was done to the tank.
type EventKind int

// The kinds of the command book's /log.
const (
	Dose           EventKind = iota // ammonia; N is the rise in mg N/L
	FeedOnce                        // Mass g of food
	WaterChange                     // Fraction of the volume
	Conditioned                     // conditioner added
	Buffer                          // Alk is the rise in mg/L as CaCO3
	Seed                            // mature media from another tank
	Culture                         // bottled culture
	PlantsAdded                     // Plants
	MediaAdded                      // Volume of new media
	Cleaned                         // filter media cleaned
	Medicine                        // Hours of exposure
	Outage                          // filter off for Hours
	Stocked                         // Mass g of animals added
	NitriteRemoved                  // in what-if runs only: Fraction of the nitrite goes
	Losses                          // animals died; Mass g if known
)

// Event is something done to the tank at a time.
type Event struct {
	Seq      int          // order among events and readings of the same Day
	Day      unit.Days    // when it was; of what lasts, when it began
	Kind     EventKind    // what it was, and so which of the fields below count
	N        unit.MgN     // Dose
	Salt     bool         // Dose: an ammonium salt, which adds no alkalinity
	Mass     unit.Grams   // FeedOnce, Stocked, Losses
	Fraction float64      // WaterChange, 0..1; Cleaned: share cleaned, 0 when unknown
	Alk      unit.MgCaCO3 // Buffer
	Volume   unit.Litres  // Seed, MediaAdded: volume of media, 0 when unknown
	Hours    float64      // Outage, Medicine, 0 when unknown; Seed: out of water
	DonorPH  float64      // Seed, 0 when unknown
	Plants   Plants       // PlantsAdded
	Treated  Treated      // WaterChange, Cleaned: was the new water conditioned
	Assumed  bool         // not logged: the engine inferred it from the readings
	Perhaps  bool         // Dose: given only by keepers who note no doses, see Params.Silent, onto clear water
	Harsh    bool         // Cleaned: under the tap, hot water or replaced, by the detail's words

	// What was added later; see hash.
	DonorTemp     unit.Celsius // Seed, 0 when unknown
	DonorSalinity *float64     // Seed, g/kg, nil when unknown
	Kept          Kept         // Seed: while out of water
	Content       Content      // Culture
}

// Treated says whether new water was conditioned.
type Treated int

// Whether water was treated: as the tank's habit, surely, surely not.
const (
	AsHabit Treated = iota
	Yes
	No
)

// Kit is the kind of test that a reading came from.
type Kit int

// The kits of the command book.
const (
	Liquid Kit = iota
	Strip
	Meter
)

// Seen is one value read off a kit, on the kit's own scale.
type Seen struct {
	Low, High float64 // equal, or the two steps that the colour stood between; mg/L
	Over      bool    // the chart topped out: at least Low
	AsN       bool    // on the nitrogen scale
}

// Reading is what was read at one time. Nil fields were not read.
type Reading struct {
	Seq                       int // order among events and readings of the same Day
	Day                       unit.Days
	Ammonia, Nitrite, Nitrate *Seen         // ammonia as total, NH3 + NH4
	PH                        *float64      // 3.5 to 10.5
	KH                        *unit.MgCaCO3 // alkalinity
	Temp                      *unit.Celsius // of the water
	Chlorine                  *float64      // total, mg/L Cl2
	Oxygen                    *float64      // mg/L
	Kit                       Kit           // of the three nitrogen readings
}

// Of returns the reading of one species, nil if it was not read.
func (r *Reading) Of(s unit.Species) *Seen {
	return [...]*Seen{r.Ammonia, r.Nitrite, r.Nitrate}[s]
}

// LastKit is the kit of the last reading of ammonia, nitrite or nitrate up to now, liquid before any.
func (c *Case) LastKit(now unit.Days) Kit {
	k := Liquid
	for i := range c.Readings {
		if r := &c.Readings[i]; r.Day <= now && (r.Ammonia != nil || r.Nitrite != nil || r.Nitrate != nil) {
			k = r.Kit
		}
	}
	return k
}

// After says whether the event was told to come after a reading: on a later day, or later of the
// same moment.
func (e *Event) After(r *Reading) bool { return e.Day > r.Day || e.Day == r.Day && e.Seq > r.Seq }

// Ion returns the lower end of what was seen on the ion scale, mg/L.
func (x *Seen) Ion(s unit.Species) float64 {
	if x.AsN {
		return float64(unit.MgN(x.Low).Ion(s))
	}
	return x.Low
}
