package commands

var whatNames = [...]string{"dose", "feed", "water-change", "conditioner", "buffer", "seed", "culture", "plants", "media", "clean", "medicine", "outage", "stock", "losses", "note"}

func logSpecs() []Spec {
	return []Spec{{Name: "log", Private: true, Help: "note what you did or saw", Example: "/log what:dose amount:2ppm",
		Options: []Option{
			{Name: "what", Type: TypeChoice, Required: true, Choices: whatNames[:], Help: "what was done or seen"},
			{Name: "amount", Type: TypeAmount, Help: "how much: 2ppm, 40%, 5g, 10ml, 2dKH, 1L"},
			{Name: "detail", Type: TypeNote, Help: "in your words, up to 2000 characters"},
			optYesNo("conditioned", "whether the new or rinsing water was conditioned"),
			optPH("donor-ph", "pH of the tank that the seed came from"),
			{Name: "hours", Type: TypeHours, Max: 720, Unit: "h", Help: "how long: 12, 12h, 2d"},
			optTank(), optAt(),
		}}}
}
