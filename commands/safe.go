package commands

func safeSpecs() []Spec {
	return []Spec{{Name: "safe", Private: true, Help: "whether water is safe for animals", Example: "/safe ammonia:1 ph:8 temp:26C",
		Options: []Option{
			optTank(), optAmmonia(TypeConc), optNitrite(TypeConc), optPH("ph", "pH"), optTemp("temperature: 25C, 77F"), optSalinity(),
			{Name: "chloride", Type: TypeConc, Max: 25000, Unit: "mg/L", Help: "chloride (Cl), from the supplier's report"},
			optChlorine(),
		}}}
}
