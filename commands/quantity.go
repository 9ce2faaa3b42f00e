package commands

import (
	"errors"
	"fmt"
	"strings"

	"ripen/engine/dosing"
	"ripen/engine/unit"
)

// amountKinds is what /amount works out, in the order of the command book.
var amountKinds = [...]string{"ammonia", "buffer", "conditioner", "water-change"}

// levelNames is what a change of water can bring down, in the order of the kits.
var levelNames = [...]string{"ammonia", "nitrite", "nitrate", "chlorine"}

func amountSpecs() []Spec {
	conc := func(name string, highest float64, scaled bool, help string) Option {
		return Option{Name: name, Type: TypeConc, Max: highest, Unit: "mg/L", Help: help, scaled: scaled}
	}
	newKH := optKH("KH of the new water")
	newKH.Name = "new-kh"
	return []Spec{{Name: "amount", Private: true, Help: "how much ammonia, buffer, conditioner or new water it takes", Example: "/amount what:ammonia to:2ppm product:10%", run: amountOf,
		Options: []Option{
			{Name: "what", Type: TypeChoice, Required: true, Choices: amountKinds[:], Help: "what to work out"},
			{Name: "to", Type: TypeAmount, Help: "the level to reach: 2ppm of ammonia, 6dKH with a buffer, 0.5ppm by a water change"},
			{Name: "of", Type: TypeChoice, Choices: levelNames[:], Help: "what a water change is to bring down"},
			{Name: "volume", Type: TypeVolume, Min: 0.1, Max: 100000, Unit: "L", Help: "for any water: 60L, 15gal; left out, it is your tank"},
			{Name: "product", Type: TypeText, Help: "its strength or salt: 10%, \"10% w/v\", ammonium-chloride, potassium-bicarbonate"},
			{Name: "density", Type: TypeNumber, Min: 0.8, Max: 1.05, Unit: "g/ml", Help: "of an ammonia solution, g/ml, if its label says so"},
			{Name: "from", Type: TypeAmount, Help: "the level that there is now; left out, it is your last reading"},
			optPH("ph", "pH of the water now"), optKH("KH of the water now"), optTemp("temperature: 25C, 77F"),
			conc("ammonia", 50, true, "total ammonia in the water now"),
			optYesNo("animals", "whether animals are in the water"),
			conc("new-ammonia", 50, true, "ammonia in the new water"), conc("new-nitrite", 100, true, "nitrite in the new water"),
			conc("new-nitrate", 1000, true, "nitrate in the new water"), newKH,
			conc("new-chlorine", 10, false, "chlorine or chloramine (Cl2) in the new water"),
			{Name: "source", Type: TypeChoice, Choices: sourceNames[:], Help: "where the new water comes from"},
			{Name: "scale", Type: TypeChoice, Choices: scaleNames[:], Help: "ion: as NH4, NO2, NO3; n: as nitrogen; default your units"},
			optTank(),
		}}}
}

// Amount is what every answer of /amount holds.
type Amount struct {
	What     string   `json:"what"`
	Tank     string   `json:"tank,omitempty"` // "" for any water
	Day      *float64 `json:"day,omitempty"`
	VolumeL  float64  `json:"volume_l"`
	Volume   Quantity `json:"volume"`  // in the member's unit
	Animals  string   `json:"animals"` // "yes", "no" or "unknown"
	Scale    string   `json:"scale"`
	PH       float64  `json:"ph"` // of the water now
	Temp     Quantity `json:"temp"`
	Harm     float64  `json:"free_ammonia_harm_mgl"` // from where gills are harmed
	Warnings []string `json:"warnings"`              // said first
	Assumed  []string `json:"assumed"`
	Cautions []string `json:"cautions"`
}

// takes are the options of each kind beside what, volume and tank.
var takes = map[string]string{
	"ammonia":      "to product density from ph kh temp ammonia animals scale",
	"buffer":       "to product from ph kh temp ammonia animals scale",
	"conditioner":  "product new-chlorine source ph temp animals scale",
	"water-change": "to of from ph kh temp ammonia animals scale new-ammonia new-nitrite new-nitrate new-kh new-chlorine source",
}

// amountOf works out an amount. It stores nothing.
func amountOf(c *call) (Result, error) {
	kind := c.args["what"].word
	for _, o := range optionNames(c.spec) {
		known := strings.Contains(" what volume tank "+takes[kind]+" ", " "+o+" ")
		if c.has(o) && !known {
			return nil, refuse(CodeUnknownOption, o, "%s does not go with what:%s, which takes %s", o, kind, strings.ReplaceAll(takes[kind], " ", ", "))
		}
	}
	if kind != "conditioner" && !c.has("to") {
		return nil, refuse(CodeMissing, "to", "say which level it is to reach, as in /amount what:%s", map[string]string{
			"ammonia": "ammonia to:2ppm product:10%", "buffer": "buffer to:6dKH", "water-change": "water-change of:nitrite to:0.5ppm"}[kind])
	}
	c.rescale()
	w, err := c.treated()
	if err != nil {
		return nil, err
	}
	switch kind {
	case "ammonia":
		return c.ammoniaAmount(w)
	case "buffer":
		return c.bufferAmount(w)
	case "conditioner":
		return c.conditionerAmount(w)
	}
	return c.changeAmount(w)
}

// rescale lets scale: stand for what bare concentrations mean.
func (c *call) rescale() {
	a, ok := c.args["scale"]
	if !ok {
		return
	}
	for name, v := range c.args {
		if o, _ := c.spec.Option(name); o.scaled {
			v.bare = a.word
			c.args[name] = v
		}
	}
}

// level reads to or from as o, which names neither; nil if it was not given.
func (c *call) level(name string, o Option) (*arg, *Error) {
	typed, ok := c.args[name]
	if !ok {
		return nil, nil
	}
	o.Name, o.Required = name, name == "to"
	bare := bareUnit(o, c.units)
	if s, told := c.args["scale"]; told && o.scaled {
		bare = s.word
	}
	a, err := readValue(o, typed.typed, bare)
	if err != nil {
		return nil, err
	}
	return &a, nil
}

// base is the part that all answers share.
func (w treated) base(c *call, kind string) Amount {
	return Amount{
		What: kind, Tank: w.tank, Day: w.day, VolumeL: digits(float64(w.Volume), 4), Volume: inUnit(volumes(), c.units.Volume, float64(w.Volume)), Animals: w.animals, Scale: scaleOf(c),
		PH: rounded(w.PH, 2), Temp: inUnit(temps(), c.units.Temp, float64(w.Temp)), Harm: harmFrom, Warnings: []string{}, Assumed: w.assumed, Cautions: []string{},
	}
}

// where names the water: "60 L", or "nano (60 L)".
func (r Amount) where() string {
	if r.Tank == "" {
		return r.Volume.String()
	}
	return fmt.Sprintf("%s (%s)", r.Tank, r.Volume)
}

// text puts warnings first, then what it takes, what was assumed, and cautions.
func (r Amount) text(lines ...string) string {
	var b strings.Builder
	for _, s := range r.Warnings {
		fmt.Fprintf(&b, "Careful: %s\n", s)
	}
	for _, s := range lines {
		if s != "" {
			fmt.Fprintf(&b, "%s\n", s)
		}
	}
	if len(r.Assumed) > 0 {
		fmt.Fprintf(&b, "Not told, so assumed: %s.\n", strings.Join(r.Assumed, "; "))
	}
	b.WriteString(strings.Join(r.Cautions, " "))
	return strings.TrimSuffix(b.String(), "\n")
}

// amountError turns what the engine refuses into a refusal; the commands ask for the
// same ranges, so it is seldom met.
func amountError(err error, option, typed string) *Error {
	if e, ok := errors.AsType[*dosing.RangeError](err); ok {
		return refuse(CodeRange, option, "%s %s comes to a %s of %s, outside %s to %s; check the number and its unit",
			option, quote(typed), e.What, sigText(e.Value), number(e.Low, 2), number(e.High, 2))
	}
	return asError(err)
}

// kh prints a hardness in the member's unit.
func (c *call) kh(a unit.MgCaCO3) Quantity { return c.likelyKH(a) }
