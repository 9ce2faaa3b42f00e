package commands

import "slices"

// OptionType tells how the value of an option is read.
type OptionType string

// The types of options.
const (
	TypeName    OptionType = "name"    // a new name of a tank, 1 to 40 printable characters
	TypeTank    OptionType = "tank"    // the name of one of the member's tanks
	TypeMember  OptionType = "member"  // another member, for moderators
	TypeChannel OptionType = "channel" // a channel of the club; words where there are none
	TypeText    OptionType = "text"    // words on one line, up to 200 characters
	TypeNote    OptionType = "note"    // words, up to 2000 characters
	TypeChoice  OptionType = "choice"  // one of Choices
	TypeNumber  OptionType = "number"  // a plain number
	TypePH      OptionType = "ph"      // a pH
	TypeVolume  OptionType = "volume"  // 60L, 15gal, 15impgal
	TypeTemp    OptionType = "temp"    // 25C, 77F
	TypeKH      OptionType = "kh"      // 6dKH, 107ppm, 2.1meq
	TypeConc    OptionType = "conc"    // mg/L: 0.5, 2ppm
	TypeReading OptionType = "reading" // mg/L off a chart: 0.5, 20-40, 5+
	TypeMass    OptionType = "mass"    // 5g, 1.2kg
	TypeFluid   OptionType = "fluid"   // 10ml of a product
	TypeShare   OptionType = "share"   // 40%
	TypeHours   OptionType = "hours"   // 12, 12h, 2d
	TypeHeight  OptionType = "height"  // 1600m, 5200ft
	TypeAmount  OptionType = "amount"  // depends on what is logged: 2ppm, 40%, 5g, 10ml
	TypeWhen    OptionType = "when"    // a time that has been
	TypeDay     OptionType = "day"     // a day or date, also to come
	TypeFile    OptionType = "file"    // the name of a file, which the front end puts into Request.Files
)

// Option describes one option of a command. Completion, help and registration
// are made from it.
type Option struct {
	Name      string     `json:"name"`
	Type      OptionType `json:"type"`
	Required  bool       `json:"required,omitempty"`
	Moderator bool       `json:"moderator,omitempty"` // only moderators may use it
	Choices   []string   `json:"choices,omitempty"`
	Min       float64    `json:"min,omitempty"` // of numbers, in Unit; no range when Max is 0
	Max       float64    `json:"max,omitempty"`
	Unit      string     `json:"unit,omitempty"` // of Min and Max
	Help      string     `json:"help"`           // one line, lower case

	scaled bool // a concentration on the scale of the member's kit
}

// Spec describes one command.
type Spec struct {
	Name      string   `json:"name"`
	Sub       string   `json:"sub,omitempty"` // "" when the command has none
	Help      string   `json:"help"`          // one line, lower case
	Example   string   `json:"example"`       // a line that works as typed
	Moderator bool     `json:"moderator,omitempty"`
	Private   bool     `json:"private,omitempty"` // only the asker sees the answer
	Post      bool     `json:"post,omitempty"`    // takes the text of a post, not options
	Options   []Option `json:"options,omitempty"`

	run func(*call) (Result, error)
}

// Path returns the command as it is typed, without the slash: "tank new".
func (s Spec) Path() string {
	if s.Sub == "" {
		return s.Name
	}
	return s.Name + " " + s.Sub
}

// Option returns the option of that name.
func (s Spec) Option(name string) (Option, bool) {
	i := slices.IndexFunc(s.Options, func(o Option) bool { return o.Name == name })
	if i < 0 {
		return Option{}, false
	}
	return s.Options[i], true
}

// Result is what a handler found out. It marshals to the data of the command
// book, and its text holds no number that the data does not.
type Result interface{ Text() string }

// book returns all commands in the order of the command book.
func book() []Spec {
	return slices.Concat(
		tankSpecs(), readingSpecs(), logSpecs(), undoSpecs(), outlookSpecs(),
		whySpecs(), tryoutSpecs(), nextTestSpecs(), safeSpecs(), stockSpecs(), amountSpecs(), chartSpecs(), shareSpecs(), dataSpecs(), unitsSpecs(), clubSpecs(), helpSpecs(), methodSpecs(), addSpecs(),
	)
}
