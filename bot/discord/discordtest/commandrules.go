package discordtest

import (
	"fmt"
	"regexp"
	"strings"
)

// commandName is the manual's expression for names of commands and options.
var commandName = regexp.MustCompile(`^[-_'\p{L}\p{N}\p{Devanagari}\p{Thai}]{1,32}$`)

// commandRules hold a set of commands to the manual.
func commandRules(all []any) []string {
	var faults []string
	counts, taken := map[float64]int{}, map[string]bool{}
	for i, v := range all {
		c, _ := v.(map[string]any)
		name, _ := c["name"].(string)
		kind, ok := c["type"].(float64)
		if !ok {
			kind = 1
		}
		counts[kind]++
		key := fmt.Sprint(kind, name)
		if taken[key] {
			faults = append(faults, fmt.Sprintf("[%d]: the command %q twice", i, name))
		}
		taken[key] = true
		at := fmt.Sprintf("[%d] %q", i, name)
		description, _ := c["description"].(string)
		if kind != 1 {
			if description != "" || c["options"] != nil {
				faults = append(faults, at+": a menu has no description and no options")
			}
			continue
		}
		faults = append(faults, nameRules(at, name)...)
		if description == "" {
			faults = append(faults, at+": no description")
		}
		options, _ := c["options"].([]any)
		faults = append(faults, optionRules(at, options)...)
		if n := commandLength(c); n > 8000 {
			faults = append(faults, fmt.Sprintf("%s: %d characters, the most is 8000", at, n))
		}
	}
	for kind, most := range map[float64]int{1: 100, 2: 15, 3: 15} {
		if counts[kind] > most {
			faults = append(faults, fmt.Sprintf("%d commands of type %v, the most is %d", counts[kind], kind, most))
		}
	}
	return faults
}

func nameRules(at, name string) []string {
	if !commandName.MatchString(name) || name != strings.ToLower(name) {
		return []string{fmt.Sprintf("%s: the name %q has other than lower-case letters, digits, - and _, or is too long", at, name)}
	}
	return nil
}

// optionRules hold options to the manual, at any depth.
func optionRules(at string, options []any) []string {
	var faults []string
	taken, optional, parts := map[string]bool{}, false, 0
	for _, v := range options {
		o, _ := v.(map[string]any)
		name, _ := o["name"].(string)
		at := at + " " + name
		faults = append(faults, nameRules(at, name)...)
		if taken[name] {
			faults = append(faults, at+": twice")
		}
		taken[name] = true
		inner, _ := o["options"].([]any)
		if o["type"] == 1.0 || o["type"] == 2.0 {
			parts++
			faults = append(faults, optionRules(at, inner)...)
			continue
		}
		if required, _ := o["required"].(bool); !required {
			optional = true
		} else if optional {
			faults = append(faults, at+": required after one that is not")
		}
		faults = append(faults, valueRules(at, o)...)
	}
	if parts > 0 && parts < len(options) {
		faults = append(faults, at+": sub-commands beside options")
	}
	return faults
}

// valueRules hold choices and ranges to the manual.
func valueRules(at string, o map[string]any) []string {
	var faults []string
	choices, _ := o["choices"].([]any)
	if o["autocomplete"] == true && len(choices) > 0 {
		faults = append(faults, at+": choices beside autocomplete")
	}
	taken := map[any]bool{}
	for _, c := range choices {
		c, _ := c.(map[string]any)
		if taken[c["name"]] {
			faults = append(faults, fmt.Sprintf("%s: the choice %q twice", at, c["name"]))
		}
		taken[c["name"]] = true
	}
	for _, r := range [][2]string{{"min_value", "max_value"}, {"min_length", "max_length"}} {
		least, ok := o[r[0]].(float64)
		most, also := o[r[1]].(float64)
		if ok && also && least > most {
			faults = append(faults, fmt.Sprintf("%s: from %v to %v", at, least, most))
		}
	}
	return faults
}

// commandLength counts names, descriptions and values.
func commandLength(c map[string]any) int {
	n := 0
	for _, name := range []string{"name", "description", "value"} {
		s, _ := c[name].(string)
		n += length(s)
	}
	for _, name := range []string{"options", "choices"} {
		all, _ := c[name].([]any)
		for _, v := range all {
			if inner, ok := v.(map[string]any); ok {
				n += commandLength(inner)
			}
		}
	}
	return n
}

// choiceRules hold proposals to the manual.
func choiceRules(data map[string]any) []string {
	var faults []string
	choices, _ := data["choices"].([]any)
	for i, c := range choices {
		c, _ := c.(map[string]any)
		name, _ := c["name"].(string)
		value, isText := c["value"].(string)
		if n := length(name); n < 1 || n > 100 {
			faults = append(faults, fmt.Sprintf("choices[%d]: a name of %d characters", i, n))
		}
		if isText && length(value) > 100 {
			faults = append(faults, fmt.Sprintf("choices[%d]: a value of %d characters", i, length(value)))
		}
	}
	return faults
}
