package commands

func undoSpecs() []Spec {
	return []Spec{{Name: "undo", Private: true, Help: "take back your own last entry", Example: "/undo"}}
}
