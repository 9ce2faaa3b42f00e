package model

import "testing"

// BenchmarkScenarios takes each tank of the solvers' comparison through its 60
// days, reporting on each as the other solvers must; see testdata/solvers/compare.
func BenchmarkScenarios(b *testing.B) {
	for i := range scenarios {
		x := &scenarios[i]
		b.Run(x.name, func(b *testing.B) {
			dev, _ := x.deviation(b, nil)
			worst := 0.0
			for _, d := range dev {
				worst = max(worst, d)
			}
			plan, par := x.build()
			days := sampleDays()
			var r Run
			for b.Loop() {
				r.Reset(plan, par)
				for _, d := range days {
					r.To(d, nil)
				}
			}
			b.ReportMetric(float64(r.Steps), "steps")
			b.ReportMetric(100*worst, "%peak")
		})
	}
}
