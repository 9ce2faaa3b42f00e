package commands

import (
	"slices"
	"strings"

	"ripen/engine/model"
	"ripen/store"
)

// logKind describes one thing that can be logged.
type logKind struct {
	name    string
	help    string
	event   model.EventKind
	amounts []Option // the ways to tell how much; the first is that of a bare number
	need    string   // what to write when the amount is left out; "" if it may be
	other   string   // why another unit will not do
	asks    bool     // a bare number could mean either of the amounts
	takes   []string // further options beside detail, tank and at
	noEvent bool     // words only
}

// byAmount is one way to tell an amount.
func byAmount(t OptionType, lowest, highest float64, unit string) Option {
	return Option{Name: "amount", Type: t, Min: lowest, Max: highest, Unit: unit}
}

// logKinds lists what can be logged, in the order of the command book.
func logKinds() []logKind {
	rise := byAmount(TypeConc, 0.01, 50, "mg/L")
	rise.scaled = true
	grams := byAmount(TypeMass, 0.001, 100000, "g")
	media := byAmount(TypeVolume, 0.001, 10000, "L")
	share := byAmount(TypeShare, 1, 100, "%")
	product := []Option{byAmount(TypeFluid, 0.01, 100000, "ml"), grams}
	return []logKind{
		{name: "dose", event: model.Dose, amounts: []Option{rise}, help: "ammonia dosed, as the rise that it gives",
			need:  "write by how much the dose raises the ammonia, as in amount:2ppm",
			other: "grams and millilitres say nothing without the product's strength; write by how much the dose raises the ammonia, as in amount:2ppm (the label tells, or a test before and after)"},
		{name: "feed", event: model.FeedOnce, amounts: []Option{byAmount(TypeMass, 0.001, 1000, "g")}, help: "food given",
			need: "write how much food, as in amount:0.2g"},
		{name: "water-change", event: model.WaterChange, amounts: []Option{share, byAmount(TypeVolume, 0.1, 100000, "L")}, takes: []string{"conditioned"},
			help: "part of the water replaced", need: "write how much of the water, as in amount:40%"},
		{name: "conditioner", event: model.Conditioned, amounts: product, help: "water conditioner added to the tank"},
		{name: "buffer", event: model.Buffer, amounts: []Option{byAmount(TypeMass, 0.01, 10000, "g"), byAmount(TypeKH, 0.05, 50, "dKH")}, asks: true,
			help: "carbonate hardness added; grams are baking soda unless the detail names another salt",
			need: "write how much, as in amount:5g (of baking soda) or the rise that it gives, amount:2dKH"},
		{name: "seed", event: model.Seed, amounts: []Option{media}, takes: aboutSeed, help: "mature media from another tank; say from what water and how long out of water"},
		{name: "culture", event: model.Culture, amounts: product, takes: []string{"content"}, help: "bottled bacteria; say in content which"},
		{name: "plants", event: model.PlantsAdded, help: "plants added; say in detail: few-slow, many-slow, few-fast or many-fast"},
		{name: "media", event: model.MediaAdded, amounts: []Option{media}, help: "filter media added"},
		{name: "clean", event: model.Cleaned, amounts: []Option{share}, takes: []string{"conditioned"}, help: "filter media cleaned; say in detail how: in tank water, under the tap, replaced"},
		{name: "medicine", event: model.Medicine, amounts: product, takes: []string{"hours"}, help: "medicine, and how long it stayed"},
		{name: "outage", event: model.Outage, takes: []string{"hours"}, help: "filter off, and how long"},
		{name: "stock", event: model.Stocked, amounts: []Option{grams}, help: "animals put in, by weight",
			need: "write what the animals weigh together, as in amount:4g; how many and which goes into detail"},
		{name: "losses", event: model.Losses, amounts: []Option{grams}, help: "animals that died, by weight if you know it"},
		{name: "note", noEvent: true, help: "anything else, in detail"},
	}
}

// kindOfLog returns the kind of a name that passed its option's choices.
func kindOfLog(name string) (logKind, bool) {
	kinds := logKinds()
	i := slices.IndexFunc(kinds, func(k logKind) bool { return k.name == name })
	if i < 0 {
		return logKind{}, false
	}
	return kinds[i], true
}

func whatNames() []string {
	var names []string
	for _, k := range logKinds() {
		names = append(names, k.name)
	}
	return names
}

// bare returns what a bare amount means to a member, as it is kept with it.
func (k logKind) bare(u store.Units) string {
	if len(k.amounts) == 0 {
		return ""
	}
	return bareUnit(k.amounts[0], u)
}

// read reads the amount of a log entry.
func (k logKind) read(typed, bare string) (arg, *Error) {
	if len(k.amounts) == 0 {
		instead := "say more in detail"
		if slices.Contains(k.takes, "hours") {
			instead = "write how long as in hours:12"
		}
		return arg{}, refuse(CodeUnknownOption, "amount", "what:%s takes no amount; %s", k.name, instead)
	}
	if err := checkText(typed, "amount", maxValue, false); err != nil {
		return arg{}, err
	}
	var all family
	var examples []string
	for _, o := range k.amounts {
		f, _ := families(o.Type)
		all = all.with(f, "")
		examples = append(examples, f.example)
	}
	all.example = strings.Join(examples, " or ")
	first, _ := families(k.amounts[0].Type)
	usual := bareMeasure(k.amounts[0], first, bare)
	if k.asks {
		usual = nil
	}
	a := arg{typed: strings.TrimSpace(typed), bare: bare}
	var err *Error
	if a.amount, err = readAmount("amount", a.typed, all, usual); err != nil {
		if err.Code == CodeUnit && k.other != "" {
			err.Message = "amount " + quote(a.typed) + ": " + k.other
		}
		return arg{}, err
	}
	if a.open || a.low != a.high {
		return arg{}, refuse(CodeNumber, "amount", "amount %s has to be one number; write it as %s", quote(a.typed), all.example)
	}
	for _, o := range k.amounts {
		if f, _ := families(o.Type); f.measures[0].dim == a.measure.dim {
			return a, checkRange(o, a)
		}
	}
	return a, nil
}
