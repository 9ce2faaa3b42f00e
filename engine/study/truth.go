package study

// Truth draws tanks from a wider truth than the model assumes, asks for their
// outlooks on the way, and scores these against the day on which each tank was
// really done.
func Truth(tanks, draws int, seed uint64, p Progress) Report {
	return Report{}
}

// Report is what a study of outlooks found.
type Report struct{}

// Table prints the scores.
func (r *Report) Table() string { return "" }

// Lines prints one line a tank.
func (r *Report) Lines() string { return "" }
