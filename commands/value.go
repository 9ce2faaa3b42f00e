package commands

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"ripen/store"
)

// arg is the value of one option, read.
type arg struct {
	typed string // as typed, spaces trimmed
	bare  string // the unit that a bare number has, "" where that is fixed
	word  string // the choice, name or text
	amount
}

// maxName is the longest name of a tank, in characters.
const maxName = 40

// families tells which units a type of option takes.
func families(t OptionType) (family, bool) {
	switch t {
	case TypeNumber:
		return numbers("a plain number", "g/kg", "ppt", "psu", "g/l"), true
	case TypePH:
		return numbers("7.4", "ph"), true
	case TypeVolume:
		return volumes(), true
	case TypeTemp:
		return temps(), true
	case TypeKH:
		return hardnesses(), true
	case TypeConc:
		return concentrations(), true
	case TypeReading:
		return chartSteps(), true
	case TypeMass:
		return masses(), true
	case TypeFluid:
		return fluids(), true
	case TypeShare:
		return shares(), true
	case TypeHours:
		return spans(), true
	case TypeHeight:
		return heights(), true
	}
	return family{}, false
}

// bareUnit returns what a bare number of an option means to a member, as it is
// kept with the number: the member's unit, or the scale of a concentration.
func bareUnit(o Option, u store.Units) string {
	switch o.Type {
	case TypeVolume:
		return u.Volume
	case TypeTemp:
		return u.Temp
	case TypeKH:
		return u.KH
	case TypeHeight:
		return "m"
	}
	if o.scaled {
		return u.Scale
	}
	return ""
}

// readValue reads what was typed for an option. bare is the unit of a bare
// number as kept with it, see bareUnit.
func readValue(o Option, typed, bare string) (arg, *Error) {
	a := arg{typed: strings.TrimSpace(typed), bare: bare}
	limit := maxValue
	if o.Type == TypeNote {
		limit = maxNote
	}
	if err := checkText(typed, o.Name, limit, o.Type == TypeNote); err != nil {
		return arg{}, err
	}
	if a.typed == "" {
		return arg{}, refuse(CodeMissing, o.Name, "%s has no value; write it as %s:value without a space, or leave it out", o.Name, o.Name)
	}
	switch o.Type {
	case TypeName:
		a.word = a.typed
		return a, checkName(o.Name, a.word)
	case TypeChoice:
		word := choiceOf(o, a.typed)
		i := slices.IndexFunc(o.Choices, func(c string) bool { return strings.EqualFold(c, word) })
		if i < 0 {
			return arg{}, refuse(CodeChoice, o.Name, "%s %s is not one of its choices%s: %s",
				o.Name, quote(a.typed), didYouMean(a.typed, o.Choices), strings.Join(o.Choices, ", "))
		}
		a.word = o.Choices[i]
		return a, nil
	}
	f, isAmount := families(o.Type)
	if !isAmount {
		a.word = a.typed
		return a, nil
	}
	var err *Error
	if a.amount, err = readAmount(o.Name, a.typed, f, bareMeasure(o, f, bare)); err != nil {
		return arg{}, err
	}
	if o.Type != TypeReading && a.under {
		return arg{}, refuse(CodeNumber, o.Name, "%s %s has to be one number; write it as %s, and as 0 if the test shows less than its first step", o.Name, quote(a.typed), f.example)
	}
	if o.Type != TypeReading && (a.open || a.low != a.high) {
		return arg{}, refuse(CodeNumber, o.Name, "%s %s has to be one number; write it as %s", o.Name, quote(a.typed), f.example)
	}
	if err := checkRange(o, a); err != nil {
		return arg{}, err
	}
	if a.under && a.high <= firstSteps[o.Name] {
		a.high = 0
	}
	return a, nil
}

// choiceOf writes a choice as it is listed: "Fish in" as fish-in, "y" as yes.
func choiceOf(o Option, typed string) string {
	s := strings.ToLower(strings.NewReplacer(" ", "-", "_", "-").Replace(strings.TrimSpace(typed)))
	if slices.Contains(o.Choices, "yes") && slices.Contains(o.Choices, "no") {
		switch s {
		case "y", "true", "yeah", "yep":
			return "yes"
		case "n", "false", "nope":
			return "no"
		}
	}
	return s
}

// bareMeasure returns the measure that a bare number has.
func bareMeasure(o Option, f family, bare string) *measure {
	if m := f.find(bare); bare != "" && m != nil && !o.scaled {
		return m
	}
	return &f.measures[0]
}

// checkRange refuses an amount outside the range of its option.
func checkRange(o Option, a arg) *Error {
	slack := 1e-9 * max(1, o.Max) // 104F is not quite 40C in floating point
	if o.Max == 0 || (a.low >= o.Min-slack && a.high <= o.Max+slack) {
		return nil
	}
	instead := ", or leave it out"
	if o.Required || o.Name == "amount" {
		instead = ""
	}
	return refuse(CodeRange, o.Name, "%s %s is outside %s; %s%s", o.Name, quote(a.typed), rangeText(o, a.measure), otherUnit(o, a), instead)
}

// otherUnit says what to check: of a bare number, the unit in which it would fit.
func otherUnit(o Option, a arg) string {
	f, _ := families(o.Type)
	if o.Type == TypeShare && a.low > 0 && a.low < 1 {
		return "a part of one is written in percent, as in " + number(100*a.low, 1) + "%"
	}
	if s := a.typed; f.measures != nil && s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9' {
		v := a.low
		if a.measure.from != nil {
			v = a.measure.from(v)
		}
		for _, m := range f.measures {
			if x := m.to(v); m.name != a.measure.name && o.Type != TypeVolume && o.Type != TypeConc && o.Type != TypeReading && x >= o.Min && x <= o.Max && x != 0 {
				return "if that is " + m.name + ", write " + s + m.name
			}
		}
	}
	return "check the number and its unit"
}

// rangeText says the range of an option, in the unit that was typed first.
func rangeText(o Option, m measure) string {
	plain := fmt.Sprintf("%s to %s%s", number(o.Min, 3), number(o.Max, 3), unitText(o.Unit))
	if m.from == nil || m.name == "" || m.name == o.Unit {
		return plain
	}
	return fmt.Sprintf("%s to %s%s (%s)", number(m.from(o.Min), 1), number(m.from(o.Max), 1), unitText(m.name), plain)
}

// checkName refuses what cannot be the name of a tank.
func checkName(option, name string) *Error {
	if n := utf8.RuneCountInString(name); n > maxName {
		return refuse(CodeTooLong, option, "%s has %d characters; a name has 1 to %d", option, n, maxName)
	}
	for _, r := range name {
		if !unicode.IsPrint(r) {
			return refuse(CodeBadText, option, "%s holds a character that does not show (%U); type it again without", option, r)
		}
	}
	return nil
}
