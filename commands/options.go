package commands

// Options that several commands share. Ranges are what water, kits and tanks can
// show (common practice, no source); a value outside is a slip of the finger.

func optTank() Option {
	return Option{Name: "tank", Type: TypeTank, Help: "which tank; may be left out if you have one"}
}

func optMember() Option {
	return Option{Name: "member", Type: TypeMember, Moderator: true, Help: "whose tank, for moderators"}
}

func optAt() Option {
	return Option{Name: "at", Type: TypeWhen, Help: "when it was, in UTC: 2026-03-01, 2026-03-01 09:00, day 12, yesterday, start; default now"}
}

func optPH(name, help string) Option {
	return Option{Name: name, Type: TypePH, Min: 3.5, Max: 10.5, Unit: "pH", Help: help}
}

func optKH(help string) Option {
	return Option{Name: "kh", Type: TypeKH, Min: 0, Max: 50, Unit: "dKH", Help: help}
}

func optTemp(help string) Option {
	return Option{Name: "temp", Type: TypeTemp, Min: 4, Max: 40, Unit: "C", Help: help}
}

func optAmmonia(t OptionType) Option {
	return Option{Name: "ammonia", Type: t, Max: 50, Unit: "mg/L", Help: "total ammonia (NH3 + NH4)", scaled: true}
}

func optNitrite(t OptionType) Option {
	return Option{Name: "nitrite", Type: t, Max: 100, Unit: "mg/L", Help: "nitrite (NO2)", scaled: true}
}

func optChlorine() Option {
	return Option{Name: "chlorine", Type: TypeConc, Max: 10, Unit: "mg/L", Help: "total chlorine (Cl2)"}
}

func optSalinity() Option {
	return Option{Name: "salinity", Type: TypeNumber, Max: 45, Unit: "g/kg", Help: "salt in the water; 0 is fresh water, 35 is the sea"}
}

func optChloride() Option {
	return Option{Name: "chloride", Type: TypeConc, Max: 25000, Unit: "mg/L", Help: "chloride (Cl), from the supplier's report"}
}

// The lowest shore and the highest towns lie within the range.
func optAltitude() Option {
	return Option{Name: "altitude", Type: TypeHeight, Min: -450, Max: 5100, Unit: "m", Help: "height above the sea, as thin air holds less oxygen: 1600m, 5200ft; default 0"}
}

func optYesNo(name, help string) Option {
	return Option{Name: name, Type: TypeChoice, Choices: []string{"yes", "no"}, Help: help}
}
