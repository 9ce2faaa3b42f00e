package commands

func outlookSpecs() []Spec {
	return []Spec{{Name: "outlook", Private: true, Help: "when the tank will be done, and how sure that is", Example: "/outlook",
		Options: []Option{optTank(), {Name: "on", Type: TypeDay, Help: "a day or date: the chance that it is done by then"}, optMember()}}}
}
