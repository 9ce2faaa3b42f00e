package commands

func addSpecs() []Spec {
	return []Spec{{Name: "add", Private: true, Post: true, Help: "take the readings from an ordinary post", Example: "!add day 12: ammonia 0.5, nitrite 2, pH 7.6"}}
}
