package commands

import (
	"fmt"
	"strings"

	"ripen/engine/tryout"
)

// worthTelling is the share of bacteria left below which a loss is named.
const worthTelling = 0.8

// losses names what costs the seed a good part of its bacteria, and what it leaves.
func (r *SeedLives) losses(l *tryout.Lives) []Loss {
	out := []Loss{}
	add := func(by string, left float64, format string, args ...any) {
		if left < worthTelling {
			p := percent(rounded(left, 4))
			out = append(out, Loss{by, fmt.Sprintf(format, args...) + " " + number(p, 0) + " %", p})
		}
	}
	d := r.Donor
	if d.PH != nil {
		add("ph", l.PH, "the step from pH %s to %s leaves", number(*d.PH, 2), number(r.TankPH, 1))
	}
	add("acid", l.Acid, "your acidic water of pH %s leaves", number(r.TankPH, 1))
	if d.Temp != nil {
		add("temp", l.Temp, "the step from %s to %s leaves", *d.Temp, r.TankTemp)
	}
	if d.Salinity != nil {
		add("salinity", l.Salinity, "the step from %s to %s g/kg salt leaves", number(*d.Salinity, 1), number(r.TankSalinity, 1))
	}
	if d.Hours != nil {
		add("hours", l.Air, "%s h out of water (%s) leave", number(*d.Hours, 2), d.Kept)
	}
	return out
}

// advice says how a seed does better. What fits a pH, and how to carry seed, is common
// practice, no source.
func (r *SeedLives) advice(l *tryout.Lives) []string {
	out := []string{}
	var like []string
	if l.PH < worthTelling {
		like = append(like, "a pH as near yours as you can find (within 0.5 at most; where you can choose, seed lives best between 7.0 and 7.4)")
	}
	if l.Temp < worthTelling {
		like = append(like, "about your temperature")
	}
	if l.Salinity < worthTelling {
		like = append(like, "about your salt")
	}
	if len(like) > 0 {
		out = append(out, "Better: several smaller seeds some days apart, from a tank with "+strings.Join(like, ", and ")+". Do not shift your own water to suit a seed.")
	}
	if l.Acid < worthTelling {
		out = append(out, "In acidic water seed gains little, wherever it comes from; /tryout kh: shows what more hardness would do.")
	}
	if l.Air < worthTelling {
		out = append(out, "Next time carry seed over wet and cool, with air at it, within the hour.")
	}
	return out
}

// Text says how much lives on, what costs it, and what does better.
func (r *SeedLives) Text() string {
	var losses []string
	for _, x := range r.Losses {
		losses = append(losses, x.Text)
	}
	text := fmt.Sprintf("About %s %% of its bacteria should live on", number(r.Percent, 0))
	if len(losses) > 0 {
		text += ": " + strings.Join(losses, ", ")
	}
	return strings.Join(append([]string{text + "."}, r.Do...), " ")
}

// Text says what is expected of it, with its spread, and what that hangs on.
func (g *Gain) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "Against not adding it: %s", g.days())
	if g.Lives != nil {
		fmt.Fprintf(&b, "\n%s", g.Lives.Text())
	}
	switch g.Content {
	case "": // a seed
		if g.Lives == nil {
			b.WriteString("\nHow much of it lives on hangs on its donor's pH and the time out of water: with donor-ph: and hours: I can say it.")
		}
	case "unknown":
		b.WriteString("\nWhat is in the bottle decides: if its label names the bacteria, /undo and log it again with content:nitrospira, nitrobacter or heterotrophs.")
	case "nitrobacter":
		b.WriteString("\nNitrobacter-like bacteria need much nitrite and mostly fade as it falls; those that stay are of the Nitrospira kind.")
	case "heterotrophs":
		b.WriteString("\nSuch bacteria eat waste, and turn neither ammonia nor nitrite: go on as if nothing had been added.")
	}
	return b.String()
}

// days says how many days it saves, in the words of a try.
func (g *Gain) days() string {
	return Tried{DaysSaved: g.DaysSaved, Percent: g.Percent, HarmPercent: g.HarmPercent}.days()
}

// words says where a seed came from and how, "" if nothing was told.
func (d SeedDonor) words() string {
	var from []string
	if d.PH != nil {
		from = append(from, "pH "+number(*d.PH, 2))
	}
	if d.Temp != nil {
		from = append(from, d.Temp.String())
	}
	if d.Salinity != nil {
		from = append(from, number(*d.Salinity, 1)+" g/kg salt")
	}
	words := ""
	if len(from) > 0 {
		words = ", from a tank at " + strings.Join(from, ", ")
	}
	if d.Hours != nil {
		words += fmt.Sprintf(", %s h out of water (%s)", number(*d.Hours, 2), d.Kept)
	}
	return words
}
