package post

import "time"

// Date is the day of the calendar that the readings of a post belong to.
type Date struct {
	Name       string // as written
	Year       int    // 0 if the post does not say
	Month, Day int
	Other      bool // 3/4 can be read the other way as well: Day is the month
	Weekday    time.Weekday
	IsWeekday  bool // only the day of the week is told
}

// date returns the date or weekday that the chosen readings stand under, nil if
// there is none or one of them is of another time. What the other dates of the post tell of the order of month and
// day holds for it too.
func (r *reader) date() *Date {
	var m *mark
	for i := range r.chosen {
		x := r.chosen[i].sense.mark
		switch {
		case x == nil && r.chosen[i].sense.rank == 0: // on a line of its own
		case x == nil || m != nil && !sameTime(m, x) || x.class != markDate && x.class != markWeekday:
			return nil
		default:
			m = x
		}
	}
	if m == nil {
		return nil
	}
	if m.class == markWeekday {
		return &Date{Name: m.name, IsWeekday: true, Weekday: time.Weekday((int(m.key) + 1) % 7)}
	}
	monthFirst, dayFirst := false, false
	for _, o := range r.marks {
		monthFirst, dayFirst = monthFirst || o.order == 'm', dayFirst || o.order == 'd'
	}
	key := int(m.key)
	if dayFirst && !monthFirst {
		key = int(m.alt)
	}
	return &Date{Name: m.name, Year: key / 10000, Month: key / 100 % 100, Day: key % 100,
		Other: m.key != m.alt && monthFirst == dayFirst}
}
