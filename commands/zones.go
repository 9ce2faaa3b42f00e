package commands

import (
	_ "embed"
	"slices"
	"strings"
	"time"
	_ "time/tzdata" // so that zones are known on machines without them
)

// zoneList holds the names of the IANA time zone database's places, and UTC, a line each
// (public domain).
//
//go:embed zones.txt
var zoneList string

// Zones returns the names of the time zones that an option takes, sorted.
func Zones() []string { return zones() }

// zones returns the names of the known time zones, sorted.
func zones() []string { return strings.Fields(zoneList) }

// readZone reads the name of a time zone, in any case, with blanks for underscores.
func readZone(option, typed string) (string, *Error) {
	all := zones()
	name := strings.ReplaceAll(strings.TrimSpace(typed), " ", "_")
	if i := slices.IndexFunc(all, func(z string) bool { return strings.EqualFold(z, name) }); i >= 0 {
		if _, err := time.LoadLocation(all[i]); err == nil {
			return all[i], nil
		}
	}
	near := nearest(name, all)
	if len(near) == 0 {
		near = samePlace(name, all)
	}
	hint := ""
	if len(near) > 0 {
		hint = " (did you mean " + list(near, "or") + "?)"
	}
	return "", refuse(CodeChoice, option, "there is no time zone %s%s; name it by continent and city, as in Europe/Lisbon, or UTC", quote(typed), hint)
}

// samePlace finds zones by the name of their city alone.
func samePlace(name string, all []string) []string {
	place := name[strings.LastIndex(name, "/")+1:]
	var cities []string
	for _, z := range all {
		cities = append(cities, z[strings.LastIndex(z, "/")+1:])
	}
	var found []string
	for _, city := range nearest(place, cities) {
		for i, c := range cities {
			if c == city && !slices.Contains(found, all[i]) && len(found) < 3 {
				found = append(found, all[i])
			}
		}
	}
	return found
}
