package commands

func methodSpecs() []Spec {
	return []Spec{{Name: "method", Private: true, Help: "what the numbers rest on", Example: "/method"}}
}
