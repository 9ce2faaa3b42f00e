package discordtest

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/getkin/kin-openapi/openapi3"
)

// misfits names what does not fit a schema, at the innermost places where it
// does not: a union that fails would otherwise list each of its branches.
func misfits(schema *openapi3.Schema, v any, at string) []string {
	err := schema.VisitJSON(v, openapi3.EnableJSONSchema2020(), openapi3.EnableFormatValidation())
	if err == nil {
		return nil
	}
	var inner []string
	chosen := branches(schema, v)
	switch v := v.(type) {
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(v)) {
			var fits bool
			var worst []string
			for _, p := range properties(chosen, name) {
				if p == nil {
					fits = true
					continue
				}
				m := misfits(p, v[name], at+"."+name)
				fits = fits || len(m) == 0
				worst = m
			}
			if !fits {
				inner = append(inner, worst...)
			}
		}
	case []any:
		for i, e := range v {
			for _, s := range chosen {
				if s.Items != nil {
					inner = append(inner, misfits(s.Items.Value, e, fmt.Sprintf("%s[%d]", at, i))...)
				}
			}
		}
	}
	if len(inner) > 0 {
		return inner
	}
	said := strings.Join(strings.Fields(err.Error()), " ")
	if len(said) > 400 {
		said = said[:400] + "..."
	}
	return []string{fmt.Sprintf("%s: %s", place(at), said)}
}

// unknown names fields that no schema of their place knows: the description
// allows them, the platform ignores them, and so a slip of the pen is lost.
func unknown(schema *openapi3.Schema, v any, at string) []string {
	var faults []string
	chosen := branches(schema, v)
	switch v := v.(type) {
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(v)) {
			known := properties(chosen, name)
			if len(known) == 0 && (v[name] == nil || v[name] == false || v[name] == "") {
				continue // says nothing; clients send such of all kinds of options
			}
			if len(known) == 0 {
				faults = append(faults, fmt.Sprintf("%s: unknown field %q", place(at), name))
				continue
			}
			if known[0] != nil {
				faults = append(faults, unknown(known[0], v[name], at+"."+name)...)
			}
		}
	case []any:
		for i, e := range v {
			for _, s := range chosen {
				if s.Items != nil {
					faults = append(faults, unknown(s.Items.Value, e, fmt.Sprintf("%s[%d]", at, i))...)
					break
				}
			}
		}
	}
	return faults
}

// branches are the schemas that describe a value: the schema with what it joins,
// and of what it offers the branches whose field "type" takes the value's.
func branches(schema *openapi3.Schema, v any) []*openapi3.Schema {
	all := []*openapi3.Schema{schema}
	for _, r := range schema.AllOf {
		all = append(all, branches(r.Value, v)...)
	}
	for _, r := range slices.Concat(schema.OneOf, schema.AnyOf) {
		if typed(r.Value, v) {
			all = append(all, branches(r.Value, v)...)
		}
	}
	return all
}

// typed holds for a schema that may be meant for v.
func typed(schema *openapi3.Schema, v any) bool {
	switch v := v.(type) {
	case map[string]any:
		kind := schema.Properties["type"]
		if len(schema.Properties) == 0 && len(schema.AllOf)+len(schema.OneOf)+len(schema.AnyOf) == 0 {
			return schema.Type == nil || schema.Type.Includes("object")
		}
		if kind == nil || len(kind.Value.Enum) == 0 || v["type"] == nil {
			return true
		}
		return slices.ContainsFunc(kind.Value.Enum, func(e any) bool { return fmt.Sprint(e) == fmt.Sprint(v["type"]) })
	case []any:
		return schema.Items != nil
	default:
		return true
	}
}

// properties are the schemas of a field, nil among them if any value will do.
func properties(all []*openapi3.Schema, name string) []*openapi3.Schema {
	var found []*openapi3.Schema
	for _, s := range all {
		if p := s.Properties[name]; p != nil {
			found = append(found, p.Value)
		} else if a := s.AdditionalProperties; a.Schema != nil {
			found = append(found, a.Schema.Value)
		} else if a.Has != nil && *a.Has {
			found = append(found, nil)
		}
	}
	return found
}

// place names a place in a body.
func place(at string) string {
	if at == "" {
		return "body"
	}
	return strings.TrimPrefix(at, ".")
}
