package year

import (
	"context"
	"slices"
	"strings"
	"time"

	"ripen/commands"
)

// window is the time that the summary of a week is of: since the last one that was posted.
func window(week int) (since, until time.Time) {
	before := week - 1
	for down(before) {
		before--
	}
	if since = lookAt(before); week == 0 {
		since = lookAt(0).AddDate(0, 0, -7)
	}
	return since, lookAt(week)
}

// check holds the summary of a week against what was typed since the one before, and
// against the logs, which are read anew: each tank that is done now and was not then is
// listed, and no other.
func (y *Year) check(ctx context.Context, book *commands.Book, week int, typed []said, shown map[string]bool) error {
	since, until := window(week)
	want, told := map[string]bool{}, map[string]bool{}
	for _, s := range typed {
		if !s.at.After(since) || s.at.After(until) {
			continue
		}
		told[s.member] = true
		switch {
		case !shown[s.member]:
		case strings.HasPrefix(s.line, "/tank new"):
			want["new "+s.member] = true
		case s.line == "/why":
			want["asked "+s.member] = true
		case strings.HasPrefix(s.line, "/data erase"):
			delete(want, "new "+s.member)
			delete(want, "asked "+s.member)
		}
	}
	for member := range told {
		done, err := y.isDone(ctx, book, member)
		if err != nil {
			return err
		}
		if done && !y.done[member] && shown[member] {
			want["done "+member] = true
		}
		y.done[member] = done
	}
	y.compare(until.Format("2006-01-02"), want)
	return nil
}

// isDone says whether a member has a tank whose log shows it done.
func (y *Year) isDone(ctx context.Context, book *commands.Book, member string) (bool, error) {
	tanks, err := y.Store.Tanks(ctx, club, member)
	for _, t := range tanks {
		if done, err := book.Done(ctx, t); done || err != nil {
			return done, err
		}
	}
	return false, err
}

// compare holds the last summary against what it should have.
func (y *Year) compare(day string, want map[string]bool) {
	if len(y.Posts) == 0 || y.Posts[len(y.Posts)-1].To != day {
		y.Wrong = append(y.Wrong, day+": no summary")
		return
	}
	post := y.Posts[len(y.Posts)-1]
	got := map[string]int{}
	for _, t := range post.New {
		got["new "+t.Member]++
	}
	for _, t := range post.Asked {
		got["asked "+t.Member]++
	}
	for _, t := range post.Finished {
		got["done "+t.Member]++
	}
	var wrong []string
	for k, n := range got {
		if !want[k] || n > 1 {
			wrong = append(wrong, day+": has "+k)
		}
	}
	for k := range want {
		if got[k] == 0 && !strings.HasPrefix(k, "asked ") { // who asked may be done, or gone, by the end of the week
			wrong = append(wrong, day+": lacks "+k)
		}
	}
	slices.Sort(wrong)
	y.Wrong = append(y.Wrong, wrong...)
}
