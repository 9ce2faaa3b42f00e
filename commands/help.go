package commands

func helpSpecs() []Spec {
	return []Spec{{Name: "help", Private: true, Help: "all commands, or one of them", Example: "/help reading",
		Options: []Option{{Name: "command", Type: TypeText, Help: "the command to explain: reading, tank new"}}}}
}
