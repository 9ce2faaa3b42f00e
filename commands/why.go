package commands

func whySpecs() []Spec {
	return []Spec{{Name: "why", Private: true, Help: "what slows the tank, and what to do about it", Example: "/why",
		Options: []Option{optTank(), optMember()}}}
}
