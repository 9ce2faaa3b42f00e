package commands

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

var update = flag.Bool("update", false, "write the replies into testdata/transcripts")

// TestTranscripts types what stands in the transcripts and compares the replies.
// A line is TIME @MEMBER[+moderator] and what was typed; the reply stands below
// it, indented by a tab. Lines that start with # are remarks.
func TestTranscripts(t *testing.T) {
	files, err := filepath.Glob("../testdata/transcripts/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no transcripts: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) { transcript(t, file) })
	}
}

func transcript(t *testing.T, file string) {
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	st := newStore(t)
	b := New(st, WithAdviser(fakeAdviser{}), WithVersion("test"))
	var out strings.Builder
	for n, line := range strings.Split(strings.TrimRight(string(raw), "\n"), "\n") {
		if strings.HasPrefix(line, "\t") {
			continue
		}
		out.WriteString(line + "\n")
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		r, refused := scriptLine(t, line, fmt.Sprintf("%s:%d", file, n))
		before := dump(t, st, r.Member)
		var reply Reply
		if refused != nil {
			reply = refusal(refused)
		} else {
			reply = b.Do(context.Background(), r)
		}
		if !reply.OK && dump(t, st, r.Member) != before {
			t.Errorf("line %d was refused and changed the store: %s", n+1, line)
		}
		checkReply(t, line, reply)
		fmt.Fprintf(&out, "\t%s\n", strings.ReplaceAll(head1(reply)+reply.Text, "\n", "\n\t"))
	}
	got := trimLines(out.String())
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got != string(raw) {
		t.Errorf("the replies differ from %s; run with -update and read the diff\n%s", file, firstDifference(string(raw), got))
	}
}

// scriptLine takes a line of a transcript apart.
func scriptLine(t *testing.T, line, key string) (Request, *Error) {
	t.Helper()
	stamp, rest, _ := strings.Cut(line, " ")
	who, typed, _ := strings.Cut(rest, " ")
	at, err := time.Parse(time.RFC3339, stamp)
	if err != nil || !strings.HasPrefix(who, "@") {
		t.Fatalf("not TIME @MEMBER and words: %s", line)
	}
	member, moderator := strings.CutSuffix(who[1:], "+moderator")
	r, refused := said(at, member, typed)
	r.At, r.Club, r.Member, r.Moderator, r.Key = at, "club", member, moderator, key
	return r, refused
}

// head1 marks a refusal with its code and option.
func head1(r Reply) string {
	if r.OK {
		return ""
	}
	return strings.TrimSuffix(fmt.Sprintf("[%s %s", r.Err.Code, r.Err.Option), " ") + "] "
}

// checkReply holds what is true of every reply.
func checkReply(t *testing.T, line string, r Reply) {
	t.Helper()
	switch {
	case r.OK == (r.Err != nil):
		t.Errorf("%s: ok %v with error %v", line, r.OK, r.Err)
	case r.Text == "" || !utf8.ValidString(r.Text):
		t.Errorf("%s: bad text %q", line, r.Text)
	case !r.OK && (r.Err.Code == "" || r.Err.Message == "" || r.Data != nil):
		t.Errorf("%s: a refusal needs a code and a message and no data: %+v", line, r)
	case !r.OK && (r.Err.Code == CodeInternal || r.Err.Code == CodeDatabase):
		t.Errorf("%s: %v", line, r.Err.Unwrap())
	case r.OK:
		if _, err := json.Marshal(r.Data); err != nil {
			t.Errorf("%s: %v", line, err)
		}
		if missing := unfounded(r.Text, r.Data); len(missing) > 0 {
			raw, _ := json.Marshal(r.Data)
			t.Errorf("%s: the text has %v, the data has not\n%s\n%s", line, missing, r.Text, raw)
		}
	}
}

// trimLines takes blanks off the ends of lines; an empty line of a reply stays
// a tab, which marks it as one.
func trimLines(s string) string {
	lines := strings.Split(s, "\n")
	for i := range lines {
		if lines[i] = strings.TrimRight(lines[i], " "); !strings.HasPrefix(lines[i], "\t") {
			lines[i] = strings.TrimRight(lines[i], "\t")
		}
	}
	return strings.Join(lines, "\n")
}

func firstDifference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(w), len(g)) {
		if w[i] != g[i] {
			return fmt.Sprintf("line %d\nwant %s\ngot  %s", i+1, w[i], g[i])
		}
	}
	return fmt.Sprintf("%d lines, want %d", len(g), len(w))
}
