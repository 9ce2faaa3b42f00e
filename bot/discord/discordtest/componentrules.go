package discordtest

import "fmt"

// rowRules hold rows to what fits into one.
func rowRules(rows []any) []string {
	var faults []string
	if len(rows) > 5 {
		faults = append(faults, fmt.Sprintf("components: %d rows, the most is 5", len(rows)))
	}
	for i, r := range rows {
		row, _ := r.(map[string]any)
		parts, _ := row["components"].([]any)
		buttons, menus := 0, 0
		for j, p := range parts {
			p, _ := p.(map[string]any)
			if p["type"] != 2.0 {
				menus++
				faults = append(faults, menuRules(p, fmt.Sprintf("components[%d].components[%d]", i, j))...)
				continue
			}
			buttons++
			at := fmt.Sprintf("components[%d].components[%d]", i, j)
			_, named := p["custom_id"].(string)
			_, linked := p["url"].(string)
			style, _ := p["style"].(float64)
			switch {
			case style == 5 && (!linked || named), style >= 1 && style <= 4 && (!named || linked):
				faults = append(faults, at+": a button has a custom id, or is a link with a url")
			}
			if label, _ := p["label"].(string); label == "" && p["emoji"] == nil && style != 6 {
				faults = append(faults, at+": a button without label and emoji")
			}
		}
		if menus > 1 || menus == 1 && buttons > 0 {
			faults = append(faults, fmt.Sprintf("components[%d]: a row has five buttons or one menu", i))
		}
	}
	return faults
}

// menuRules are those of menus of strings.
func menuRules(menu map[string]any, at string) []string {
	if menu["type"] != 3.0 {
		return nil
	}
	var faults []string
	options, _ := menu["options"].([]any)
	if len(options) == 0 {
		faults = append(faults, at+": a menu without options")
	}
	values := map[any]bool{}
	for _, o := range options {
		o, _ := o.(map[string]any)
		if values[o["value"]] {
			faults = append(faults, fmt.Sprintf("%s: the value %q twice", at, o["value"]))
		}
		values[o["value"]] = true
	}
	least, ok := menu["min_values"].(float64)
	if !ok {
		least = 1
	}
	most, ok := menu["max_values"].(float64)
	if !ok {
		most = 1
	}
	if least > most || int(most) > len(options) {
		faults = append(faults, fmt.Sprintf("%s: %v to %v values of %d", at, least, most, len(options)))
	}
	return faults
}

// duplicates names custom ids that occur twice, and too many components.
func duplicates(m map[string]any) []string {
	var faults []string
	seen, count := map[string]bool{}, 0
	var visit func(v any)
	visit = func(v any) {
		c, ok := v.(map[string]any)
		if !ok {
			return
		}
		count++
		if id, _ := c["custom_id"].(string); id != "" {
			if seen[id] {
				faults = append(faults, fmt.Sprintf("components: the custom id %q twice", id))
			}
			seen[id] = true
		}
		inner, _ := c["components"].([]any)
		for _, i := range inner {
			visit(i)
		}
		visit(c["component"]) // of a label
		visit(c["accessory"]) // of a section
	}
	components, _ := m["components"].([]any)
	for _, c := range components {
		visit(c)
	}
	if count > 40 {
		faults = append(faults, fmt.Sprintf("components: %d, the most is 40", count))
	}
	return faults
}
