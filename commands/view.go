package commands

import (
	"fmt"
	"math"
	"strings"
	"time"

	"ripen/engine/model"
	"ripen/engine/unit"
	"ripen/store"
)

// Quantity is a number in a member's own unit, as it is printed.
type Quantity struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

func (q Quantity) String() string { return number(q.Value, 2) + unitText(q.Unit) }

// inUnit converts a value in base units to a member's unit of the family, to
// three digits or to whole ones.
func inUnit(f family, name string, base float64) Quantity {
	m := f.find(name)
	if m == nil {
		m = &f.measures[0]
	}
	v := m.from(base)
	decimals := 2
	for k := math.Abs(v); k >= 10 && decimals > 0; k /= 10 {
		decimals--
	}
	return Quantity{rounded(v, decimals), m.name}
}

// SetupView is a tank's set-up, in fixed units and in the member's own.
type SetupView struct {
	VolumeL      float64 `json:"volume_l"`
	PH           float64 `json:"ph"`
	KHdKH        float64 `json:"kh_dkh"`
	TempC        float64 `json:"temp_c"`
	SalinityGKg  float64 `json:"salinity_gkg"`
	AltitudeM    float64 `json:"altitude_m"`
	Method       string  `json:"method"`
	Plants       string  `json:"plants"`
	Media        string  `json:"media"`
	MediaVolumeL float64 `json:"media_volume_l"`
	Flow         string  `json:"flow"`
	Source       string  `json:"source"`
	Conditioner  string  `json:"conditioner"`
	TargetMgL    float64 `json:"target_mgl"` // total ammonia, on the member's scale
	Scale        string  `json:"scale"`
	StockG       float64 `json:"stock_g"`
	FeedGPerDay  float64 `json:"feed_g_per_day"`

	Own OwnUnits `json:"own_units"`
}

// OwnUnits is the part of a set-up that has a unit, in the member's.
type OwnUnits struct {
	Volume      Quantity `json:"volume"`
	MediaVolume Quantity `json:"media_volume"`
	KH          Quantity `json:"kh"`
	Temp        Quantity `json:"temp"`
}

// feedShown is the food a day, g: to the milligram if it was told, else to two digits.
func feedShown(s *model.Setup) float64 {
	if s.Given.Feed {
		return rounded(float64(s.Feed), 3)
	}
	return digits(float64(s.Feed), 2)
}

func setupView(s model.Setup, u store.Units) SetupView {
	v := SetupView{
		VolumeL: rounded(float64(s.Volume), 3), PH: s.PH, KHdKH: rounded(float64(s.KH.DKH()), 2), TempC: rounded(float64(s.Temp), 2),
		SalinityGKg: s.Salinity, AltitudeM: rounded(s.Altitude, 0), Method: methodNames[s.Method], Plants: plantNames[s.Plants], Media: mediaNames[s.Media],
		MediaVolumeL: rounded(float64(s.MediaVolume), 3), Flow: flowNames[s.Flow], Source: sourceNames[s.Source],
		Conditioner: "no", TargetMgL: rounded(onScaleOf(u.Scale, s.Target, unit.Ammonia), 2), Scale: u.Scale,
		StockG: rounded(float64(s.Stock), 2), FeedGPerDay: feedShown(&s),
		Own: OwnUnits{
			Volume: inUnit(volumes(), u.Volume, float64(s.Volume)), MediaVolume: inUnit(volumes(), u.Volume, float64(s.MediaVolume)),
			KH: inUnit(hardnesses(), u.KH, float64(s.KH.DKH())), Temp: inUnit(temps(), u.Temp, float64(s.Temp)),
		},
	}
	if s.Conditioner {
		v.Conditioner = "yes"
	}
	return v
}

// fact returns what the set-up says for an option, in words, "" if nothing.
func (v SetupView) fact(option string) string {
	switch option {
	case "volume":
		return v.Own.Volume.String()
	case "ph":
		return number(v.PH, 2)
	case "kh":
		return v.Own.KH.String()
	case "temp":
		return v.Own.Temp.String()
	case "method":
		return v.Method
	case "plants":
		return v.Plants
	case "media":
		return v.Media
	case "media-volume":
		return v.Own.MediaVolume.String()
	case "flow":
		return v.Flow
	case "source":
		return v.Source
	case "conditioner":
		return v.Conditioner
	case "salinity":
		return number(v.SalinityGKg, 2) + " g/kg"
	case "altitude":
		return number(v.AltitudeM, 0) + " m"
	case "target":
		return number(v.TargetMgL, 2) + " mg/L" + asNitrogen(v.Scale)
	case "stock":
		return number(v.StockG, 2) + " g"
	case "feed":
		return number(v.FeedGPerDay, 3) + " g a day"
	}
	return ""
}

// Text prints the set-up, a few facts a line.
func (v SetupView) Text() string {
	var b strings.Builder
	line := func(options ...string) {
		var facts []string
		for _, o := range options {
			facts = append(facts, label(o)+" "+v.fact(o))
		}
		fmt.Fprintf(&b, "\n  %s", strings.Join(facts, ", "))
	}
	line("volume", "ph", "kh", "temp", "salinity")
	line("method", "target", "plants")
	line("media", "media-volume", "flow")
	line("source", "conditioner")
	if v.AltitudeM != 0 {
		line("altitude")
	}
	if v.StockG > 0 || v.FeedGPerDay > 0 {
		line("stock", "feed")
	}
	return strings.TrimPrefix(b.String(), "\n")
}

// label is how an option is called in a sentence.
func label(option string) string {
	switch option {
	case "ph":
		return "pH"
	case "kh":
		return "KH"
	case "media-volume":
		return "media volume"
	case "donor-ph":
		return "donor pH"
	case "donor-temp", "donor-salinity":
		return strings.ReplaceAll(option, "-", " ")
	case "source":
		return "water source"
	}
	return option
}

// assumed lists the options that the member did not state, as typical values
// stand in for them.
func assumed(s model.Setup) []string {
	var left []string
	for _, g := range []struct {
		option string
		given  bool
	}{
		{"ph", s.Given.PH}, {"kh", s.Given.KH}, {"temp", s.Given.Temp}, {"media", s.Given.Media}, {"media-volume", s.Given.MediaVolume || s.Media == model.NoMedia},
		{"flow", s.Given.Flow}, {"source", s.Given.Source}, {"conditioner", s.Given.Conditioner},
		{"stock", s.Given.Stock || s.Stock == 0}, {"feed", s.Given.Feed || s.Feed == 0},
	} {
		if !g.given {
			left = append(left, g.option)
		}
	}
	return left
}

// current is the set-up as it stands after the changes up to a day.
func current(s model.Setup, changes []model.Change, day unit.Days) model.Setup {
	for _, c := range changes {
		if c.Day <= day {
			(&statement{Change: c}).merge(&s)
		}
	}
	return s
}

// Head is what every result about a tank begins with.
type Head struct {
	Tank    string    `json:"tank"`
	Day     float64   `json:"day"` // calendar days since the start
	Started time.Time `json:"started"`

	member string // whose tank it is
}

// About returns the tank that a result is about, and whose it is.
func (h Head) About() (tank, member string) { return h.Tank, h.member }

func headOf(t store.Tank, at time.Time) Head {
	return Head{Tank: t.Name, Day: dayNumber(t.Started, at), Started: t.Started.UTC(), member: t.Member}
}

// dayAt counts a moment, told in days since the start, as dayNumber does.
func (h Head) dayAt(d float64) float64 { return dayNumber(h.Started, dateOf(h.Started, d)) }

// Noted is part of every result that stores something.
type Noted struct {
	Duplicate bool `json:"duplicate,omitempty"` // the delivery was noted before; nothing was added
}

// again is what a repeated delivery is told.
const again = "That was noted already; nothing was added."
