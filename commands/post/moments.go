package post

// markClass is the sort of a point in time, or of a vessel.
type markClass uint8

const (
	markNow      markClass = iota // key orders within now: before a change, this morning, today
	markOld                       // yesterday, last week
	markDay                       // day of the cycle
	markDate                      // key month, day; alt day, month
	markWeekday                   // key 0 Monday to 6 Sunday
	markClock                     // minutes
	markHours                     // hours since something
	markMonthDay                  // "5th:", the month is not told
	markRow                       // a row of a table without a date
	markVessel                    // one of several tanks
)

// mark is a point in time as the post names it.
type mark struct {
	class    markClass
	key, alt float64
	ahead    bool // "at day 30" may be a plan
	past     bool // "on Monday", "last Monday"
	on       bool // "on day 3"
	done     bool // "on day 3 I added", but not "I'm on day 3"
	order    byte // dates that can be read one way only: 'm' month first, 'd' day first
	name     string
}

// relative are words for points in time before or around now.
var relative = map[string]mark{}

var weekdays = map[string]int{}

var months = map[string]int{}

func init() {
	for _, e := range []struct {
		mark  mark
		words string
	}{
		{mark{class: markNow, key: 0.5}, `today, todays, currently, at the moment, at present, presently, current, tonight, tonights, this evening, this evenings, heute, as of today, today so far, most recent, most recently, recent, newest, at this point, at this moment`},
		{mark{class: markNow, key: 0.6}, `now, right now, just now, as of now, as of this morning, rn, atm, jetzt, as of tonight, present, present day, right this minute, as we speak`},
		{mark{class: markNow, key: 0.4}, `in the morning, this morning, this mornings, this am, earlier today, morning, latest, just tested, just checked, this week, this weekend`},
		{mark{class: markNow, key: 0.36}, `an hour ago, a few hours ago, a couple of hours ago, a couple hours ago, couple hours ago, few hours ago, hours ago, minutes ago, a few minutes ago, few minutes ago, half an hour ago, a minute ago, a moment ago, moments ago, redid it, redid the test, redid that, did it again, ran it again, did the test again, ran the test again, tested again, tested it again, retested, retested it, on retest, on retesting, second try, second attempt, third try`},
		{mark{class: markNow, key: 0.48}, `this afternoon, afternoon, evening, night, in the afternoon, in the evening, at night`},
		{mark{class: markNow, key: 0.1}, `last test, last reading, last readings, last results, last checked, last i checked, last tested, when i last tested, when i last checked`},
		{mark{class: markNow, key: 0.45}, `later, later on, next day, the next day, the next morning, next morning, afterwards, a day later, the day after, a week later, this time, 24 hours on, the following day, the following morning`},
		{mark{class: markNow, key: -0.5}, `before change, before the change, before my change, before the big change, before water change, before the water change, before a water change, before my water change, before wc, before the wc, pre wc, pre water change, before pwc, before the pwc, before changing water, before changing the water, pre change, before dosing, before dose, before the dose, pre dose, prior to the water change, prior to water change, before todays water change, before`},
		{mark{class: markNow, key: 0.2}, `after water change, after the water change, after a water change, after my water change, after wc, after the wc, post wc, post water change, after pwc, after the pwc, after changing the water, post change, after todays water change`},
		{mark{class: markOld, key: 1}, `yesterday, yesterdays, last night, last nights, yesterday morning, yesterday evening, yesterday afternoon, yesterday night, gestern`},
		{mark{class: markOld, key: 2}, `day before yesterday, the day before yesterday, the night before last, night before last, the day before, the other day, couple days ago, a couple days ago, couple of days ago, a couple of days ago, few days ago, a few days ago, several days ago, a few days back, few days back, earlier this week, earlier this month, some days ago, two nights ago, the previous day, a day ago, one day ago`},
		{mark{class: markOld, key: 7}, `last week, last weeks, last months, a week ago, one week ago, previous week, last weekend, a week back, about a week ago, over a week ago, the week before last, week before last, the week before, the previous week`},
		{mark{class: markOld, key: 14}, `two weeks ago, a couple weeks ago, a couple of weeks ago, couple weeks ago, few weeks ago, a few weeks ago, last month, a month ago, last year, months ago, a fortnight ago, weeks ago, days ago, years ago`},
		{mark{class: markOld, key: 20}, `since it was, previously, previous, previous reading, previous readings, previous test, before that, earlier, initially, originally, at first, at the start, at the beginning, in the beginning, started at, started out at, started with, started out with, started off at, started off with, starting at, starting with, starting point, the first time i tested, the first time we tested, when i first tested, when we first tested, it all began with, began with, the day we set it up, the day i set it up, when i set it up, when we set it up, had been, had been at, used to be, used to have, used to sit, used to sit at, used to read, used to run, used to see, used to get, used to hover, used to hover at, used to hover around, used to show, back then, back when, until now, up until now, up to now, until yesterday, until recently, at one point, last time, at setup, to begin with, to start with, at the outset, in the past, formerly, prior reading, prior test, prior, earlier on, first reading, first test, at its peak, at the peak, at peak, had peaked at, peaked at, peaked, back in, old reading, once was, not long ago, the time before, when i started, when we started, in week one, initial`},
	} {
		for w := range wordSet(e.words) {
			relative[w] = e.mark
		}
	}
	for i, list := range [...]string{"monday,mondays,mon,montag", "tuesday,tuesdays,tue,tues,dienstag", "wednesday,wednesdays,wed,weds,mittwoch", "thursday,thursdays,thu,thur,thurs,donnerstag", "friday,fridays,fri,freitag", "saturday,saturdays,sat,samstag", "sunday,sundays,sun,sonntag"} {
		for w := range wordSet(list) {
			weekdays[w] = i
		}
	}
	for i, list := range [...]string{"january,jan", "february,feb", "march,mar", "april,apr", "may", "june,jun", "july,jul", "august,aug", "september,sep,sept", "october,oct", "november,nov", "december,dec"} {
		for w := range wordSet(list) {
			months[w] = i + 1
		}
	}
}
