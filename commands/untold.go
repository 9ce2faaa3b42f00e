package commands

import (
	"fmt"
	"math"
	"strings"

	"ripen/engine/model"
	"ripen/engine/unit"
	"ripen/store"
)

// tenth is how many standard deviations from the middle one chance in ten lies.
const tenth = 1.2816

// untoldWater says which pH and hardness stand in for those that were neither
// told nor read up to now, and how wide they are taken; "" if both are known.
func untoldWater(c model.Case, now unit.Days, u store.Units) string {
	ph, kh := toldWater(c, now)
	w := c.Setup.Water()
	var untold, about, ask []string
	if !ph {
		untold, ask = append(untold, label("ph")), append(ask, "ph:")
		about = append(about, fmt.Sprintf("pH %s (%s to %s)", number(w.PH, 1), number(w.PH-tenth*w.PHSD, 1), number(w.PH+tenth*w.PHSD, 1)))
	}
	if !kh {
		untold, ask = append(untold, "hardness (KH)"), append(ask, "kh:")
		at := func(sds float64) Quantity {
			return inUnit(hardnesses(), u.KH, float64(w.KH.DKH())*math.Exp(sds*w.KHSD))
		}
		low, high := at(-tenth), at(tenth)
		about = append(about, fmt.Sprintf("KH %s (%s to %s)", at(0), number(low.Value, 1), number(high.Value, 1)))
	}
	if len(untold) == 0 {
		return ""
	}
	return fmt.Sprintf("%s not told, so about %s, as is usual for %s; /reading %s would narrow this",
		list(untold, "and"), list(about, "and"), waterWords(c.Setup), strings.Join(ask, " "))
}

// saltCaveat says how little is known of salt tanks; "" for others.
func saltCaveat(s model.Setup) string {
	if !s.Salt() {
		return ""
	}
	return fmt.Sprintf("At %s g/kg salt this is a rough guess: hardly any of these bacteria were measured in salt water, so those of fresh water stand in for them, with more doubt.",
		number(s.Salinity, 1))
}

// waterWords names the water of a set-up.
func waterWords(s model.Setup) string {
	if s.Salt() {
		return "salt water"
	}
	switch s.Source {
	case model.Well:
		return "well water"
	case model.RO:
		return "water made up from RO"
	case model.Rain:
		return "rain water"
	}
	return "tap water"
}

// toldWater says whether pH and hardness were told or read by now.
func toldWater(c model.Case, now unit.Days) (ph, kh bool) {
	ph, kh = c.Setup.Given.PH, c.Setup.Given.KH
	for _, x := range c.Changes {
		if x.Day <= now {
			ph, kh = ph || x.PH != nil, kh || x.KH != nil
		}
	}
	for _, r := range c.Readings {
		if r.Day <= now {
			ph, kh = ph || r.PH != nil, kh || r.KH != nil
		}
	}
	return ph, kh
}

// untoldNote asks a keeper whose tank is late for the pH and the hardness that nobody
// told, since both are common reasons.
func untoldNote(c model.Case, now unit.Days) string {
	ph, kh := toldWater(c, now)
	switch {
	case !ph && !kh:
		return "Neither pH nor KH was told or tested. Too little of either is a common reason: test both first, and tell me with /reading ph: kh:"
	case !ph:
		return "The pH was never told or tested. Acidic water is a common reason: test it first, and tell me with /reading ph:"
	case !kh:
		return "KH was never told or tested. Hardness that is used up is a common reason: test it first, and tell me with /reading kh:"
	}
	return ""
}
