package words

import (
	"sync"
	"time"

	"ripen/commands"
)

// After so many failures in a row the model is left alone for so long.
const (
	failuresInRow = 5
	restFor       = 10 * time.Minute
)

// spending counts what was asked of the model, and how it went. Its clock is that of the
// requests.
type spending struct {
	memberDay, clubDay int

	mu     sync.Mutex // protects what follows
	day    string
	asked  map[[2]string]int // by club and member, "" for the club
	failed int               // in a row
	until  time.Time         // when the model is tried again
}

func newSpending(memberDay, clubDay int) *spending {
	if memberDay == 0 {
		memberDay = usualMemberDay
	}
	if clubDay == 0 {
		clubDay = usualClubDay
	}
	return &spending{memberDay: memberDay, clubDay: clubDay}
}

// take counts a request, or says why it is one too many.
func (s *spending) take(r commands.Request) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if r.At.Before(s.until) {
		return errResting
	}
	if day := r.At.UTC().Format(time.DateOnly); day != s.day {
		s.day, s.asked = day, map[[2]string]int{}
	}
	member, club := [2]string{r.Club, r.Member}, [2]string{r.Club, ""}
	if s.asked[member] >= s.memberDay || s.asked[club] >= s.clubDay {
		return errBudget
	}
	s.asked[member]++
	s.asked[club]++
	return nil
}

// ended notes how a request went.
func (s *spending) ended(at time.Time, well bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if well {
		s.failed = 0
		return
	}
	if s.failed++; s.failed >= failuresInRow {
		s.until = at.Add(restFor)
		s.failed = failuresInRow - 1 // then one failure more is enough
	}
}
