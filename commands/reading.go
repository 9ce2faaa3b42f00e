package commands

var (
	scaleNames = [...]string{"ion", "n"}
	kitNames   = [...]string{"liquid", "strip", "meter"}
)

func readingSpecs() []Spec {
	return []Spec{{Name: "reading", Private: true, Help: "note what your test kits show", Example: "/reading ammonia:0.5 nitrite:2 nitrate:20-40",
		Options: []Option{
			optAmmonia(TypeReading), optNitrite(TypeReading),
			{Name: "nitrate", Type: TypeReading, Max: 1000, Unit: "mg/L", Help: "nitrate (NO3)"},
			optPH("ph", "pH"), optKH("carbonate hardness: 6dKH, 107ppm, 2.1meq"), optTemp("temperature: 25C, 77F"),
			optChlorine(),
			{Name: "oxygen", Type: TypeConc, Max: 25, Unit: "mg/L", Help: "dissolved oxygen"},
			{Name: "scale", Type: TypeChoice, Choices: scaleNames[:], Help: "ion: as NH4, NO2, NO3; n: as nitrogen; default your units"},
			{Name: "kit", Type: TypeChoice, Choices: kitNames[:], Help: "what kind of test; default liquid"},
			optTank(), optAt(),
		}}}
}
