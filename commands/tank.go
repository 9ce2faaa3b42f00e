package commands

// The choices of a tank's set-up, in the order of the engine's constants.
var (
	methodNames = [...]string{"dosed", "food", "dark-start", "seeded", "planted", "fish-in"}
	plantNames  = [...]string{"none", "few-slow", "many-slow", "few-fast", "many-fast"}
	mediaNames  = [...]string{"none", "sponge", "ceramic", "floss", "sand", "moving-bed"}
	flowNames   = [...]string{"weak", "normal", "strong"}
	sourceNames = [...]string{"chlorine", "chloramine", "well", "ro", "rain"}
)

// setupOptions are what describes a tank, for new and edit.
func setupOptions() []Option {
	return []Option{
		{Name: "volume", Type: TypeVolume, Min: 1, Max: 100000, Unit: "L", Help: "water in the tank: 60L, 15gal (US), 15impgal"},
		optPH("ph", "pH of the water"),
		optKH("carbonate hardness: 6dKH, 107ppm, 2.1meq"),
		optTemp("temperature: 25C, 77F"),
		{Name: "method", Type: TypeChoice, Choices: methodNames[:], Help: "where the ammonia comes from"},
		{Name: "plants", Type: TypeChoice, Choices: plantNames[:], Help: "plants in the tank"},
		{Name: "media", Type: TypeChoice, Choices: mediaNames[:], Help: "what fills the filter"},
		{Name: "media-volume", Type: TypeVolume, Max: 10000, Unit: "L", Help: "how much of it: 2L"},
		{Name: "flow", Type: TypeChoice, Choices: flowNames[:], Help: "how strongly the filter runs"},
		{Name: "source", Type: TypeChoice, Choices: sourceNames[:], Help: "where the water comes from; your supplier's report names chlorine or chloramine"},
		optYesNo("conditioner", "whether new water is conditioned as a habit"),
		optSalinity(),
		optAltitude(),
		{Name: "target", Type: TypeConc, Min: 0.25, Max: 8, Unit: "mg/L", Help: "the ammonia that must clear in a day; default 2ppm", scaled: true},
		{Name: "stock", Type: TypeMass, Max: 100000, Unit: "g", Help: "animals, in the tank (fish-in) or planned"},
		{Name: "feed", Type: TypeMass, Max: 1000, Unit: "g", Help: "food a day, given now or planned"},
	}
}

func tankSpecs() []Spec {
	started := Option{Name: "started", Type: TypeWhen, Help: "when the tank was filled, in UTC: 2026-03-01, 2026-03-01 09:00; default now"}
	name := Option{Name: "name", Type: TypeName, Required: true, Help: "a name of your choice, 1 to 40 characters"}
	rename := name
	rename.Required, rename.Help = false, "a new name, 1 to 40 characters"
	create := append([]Option{name}, setupOptions()...)
	create[1].Required = true
	return []Spec{
		{Name: "tank", Sub: "new", Private: true, Help: "register a tank", Example: "/tank new name:nano volume:60L ph:7.6 kh:6dKH temp:25C",
			Options: append(create, started, optShare()), run: tankNew},
		{Name: "tank", Sub: "show", Private: true, Help: "a tank's set-up and what was told about it", Example: "/tank show",
			Options: []Option{optTank()}, run: tankShow},
		{Name: "tank", Sub: "list", Private: true, Help: "your tanks", Example: "/tank list", run: tankList},
		{Name: "tank", Sub: "edit", Private: true, Help: "change or correct a tank", Example: "/tank edit temp:27C",
			Options: append(append([]Option{optTank(), rename}, setupOptions()...), started, optShare(), optNote(), optAt()), run: tankEdit},
		{Name: "tank", Sub: "close", Private: true, Help: "close a tank; its record stays", Example: "/tank close tank:nano reason:done",
			Options: []Option{optTank(), optReason(), optAt()}, run: tankClose},
		{Name: "tank", Sub: "tie", Private: true, Help: "tie this thread to a tank, so that it need not be named here", Example: "/tank tie tank:nano",
			Options: []Option{optTank(), {Name: "off", Type: TypeChoice, Choices: []string{"yes"}, Help: "yes: tie it to no tank any longer"}}, run: tankTie},
	}
}
