package commands

import (
	"fmt"
	"strings"
)

func methodSpecs() []Spec {
	return []Spec{{Name: "method", Private: true, Help: "what the numbers rest on", Example: "/method", run: method}}
}

// Method says what the numbers rest on.
type Method struct {
	Version string        `json:"version,omitempty"`
	Points  []MethodPoint `json:"points"`
}

// MethodPoint is one thing that they rest on.
type MethodPoint struct {
	Topic string `json:"topic"`
	Text  string `json:"text"`
}

func method(c *call) (Result, error) {
	points := []MethodPoint{
		{"The tank", "simulated as one well-mixed volume with four groups of bacteria and archaea, each with its own growth, its appetite, and its answer to temperature, pH, oxygen, hardness and too much ammonia or nitrite. Nitrogen and hardness are kept in balance, so pH and KH move by themselves."},
		{"Your tests", "a colour chart gives a step, not a value: a reading counts for every level that could have shown that step; a chart that tops out (5+) means that much or more, and now and then a test is simply wrong."},
		{"Fitting", "thousands of possible tanks are weighed by how well they agree with your readings and what you logged. What you did not state stays uncertain. The same record always gives the same answer."},
		{"Done", "means that your target dose (2 mg/L of ammonia unless you set another) is cleared, ammonia and nitrite both below 0.25 mg/L, within 24 hours. A tank with animals is never dosed to try it: it is done when it carries their food."},
		{"Outlook", fmt.Sprintf("the middle of the possible tanks, with the day before which one in ten is done and the day by which nine in ten are. It assumes that you go on as now, and reaches %d days from the start.", horizonDays)},
		{"Why", "conditions are put right one by one in the simulation, and the days saved are their cost; events that were not told (chlorine, medicine, a stopped filter) are weighed by how much better they explain the readings."},
		{"Safety", "free ammonia: Emerson et al. 1975, with harm to gills from about 0.05 mg/L (University of Florida 1996); total ammonia: US EPA 2013, as for mussels unless you say trout or warm-water, and in salt water US EPA 1989; nitrite against chloride: British Columbia 1986; salt against nitrite: Durborow et al. 1997; chlorine: US EPA 1985. The strictest counts. None of them was made for shrimps."},
		{"Limits", "test kits err, tanks differ, and no model sees everything. Animals come before numbers: when they look ill, act and see a vet."},
	}
	if c.book.model != "" {
		points = append(points, MethodPoint{"Words", fmt.Sprintf("here a language model (%s) may put /outlook, /why and /club case in other words. It gets the finished text without names, and what it writes is shown only if a strict comparison finds every number, date, verdict, piece of advice and warning of that text in it, and nothing else; the reply then says so. Moderators can turn it off with /club settings words:off.", c.book.model)})
	}
	return Method{c.book.version, points}, nil
}

// Text prints the points.
func (m Method) Text() string {
	var b strings.Builder
	b.WriteString("What the numbers rest on")
	if m.Version != "" {
		fmt.Fprintf(&b, " (version %s)", m.Version)
	}
	b.WriteString(":")
	for _, p := range m.Points {
		fmt.Fprintf(&b, "\n- %s: %s", p.Topic, p.Text)
	}
	return b.String()
}
