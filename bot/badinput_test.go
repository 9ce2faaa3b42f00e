package main

import (
	"database/sql"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
)

// good is a record that bad input must not change.
const good = `
2026-03-01T09:00:00Z @wren /tank new name:"moss bowl" volume:60L ph:7.6 kh:6dKH temp:25C
2026-03-05T09:00:00Z @wren /reading ammonia:2 nitrite:0.25
2026-03-05T09:00:00Z @tern /tank new name:"river box" volume:120L
`

// Each bad line is refused with a text that names the value and what fits, and
// leaves the record as it was.
func TestBadInput(t *testing.T) {
	tests := []struct {
		reason, typed string
		code          string
		says          []string // in the text
	}{
		{"pH 15", "/reading ph:15", "range", []string{"15", "10.5"}},
		{"pH 0", "/reading ph:0", "range", []string{"0", "3.5"}},
		{"below nothing", "/reading ammonia:-1ppm", "range", []string{"-1", "0"}},
		{"far beyond a kit", "/reading ammonia:5000ppm", "range", []string{"5000", "50"}},
		{"no number", "/reading nitrite:abc", "number", []string{"abc"}},
		{"temperature 300 F", "/reading temp:300F", "range", []string{"300"}},
		{"an empty tank", "/tank new name:other volume:0", "range", []string{"0"}},
		{"before the tank's start", "/reading ammonia:1 at:2026-02-01", "time", []string{"2026-02-01"}},
		{"in the future", "/reading ammonia:1 at:2026-05-01", "time", []string{"2026-05-01"}},
		{"an unknown tank", "/reading ammonia:1 tank:mos", "unknown-tank", []string{"mos", "moss bowl"}},
		{"someone else's tank", `/reading ammonia:1 tank:"river box"`, "unknown-tank", []string{"river box"}},
		{"two tanks of one name", `/tank new name:"Moss Bowl" volume:20L`, "name-taken", []string{"oss "}},
		{"a comma that could be a thousand", "/reading nitrate:1,000", "number", []string{"1,000"}},
		{"an unknown option", "/reading amonia:1", "unknown-option", []string{"amonia", "ammonia"}},
		{"an unknown command", "/redding ammonia:1", "unknown-command", []string{"redding"}},
		{"an unknown sub-command", "/tank build name:x", "unknown-command", []string{"build"}},
		{"not one of the choices", "/tank edit flow:gentle", "choice", []string{"gentle", "weak", "strong"}},
		{"a value of 100 kB", "/log what:note detail:" + strings.Repeat("x", 100_000), "too-long", []string{"at most"}},
		{"a post of 100 kB", "!add " + strings.Repeat("ammonia 1 ", 10_000), "too-long", []string{"at most"}},
		{"a control character", "/tank new name:a\x07b volume:20L", "bad-text", []string{"U+0007"}},
		{"NUL", "/tank new name:a\x00b volume:20L", "bad-text", []string{"U+0000"}},
		{"invalid UTF-8", "/tank new name:a\xffb volume:20L", "bad-text", []string{"0xFF"}},
		{"nothing to note", "/reading", "missing", nil},
		{"an option given twice", "/reading ph:7 ph:8", "repeated", []string{"ph"}},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			db := filepath.Join(t.TempDir(), "club.db")
			for _, a := range replayed(t, good, "--db", db) {
				if !a.OK {
					t.Fatalf("the good record was refused: %s", a.Text)
				}
			}
			before := rows(t, db)
			got := replayed(t, "2026-03-10T09:00:00Z @wren "+tt.typed+"\n2026-03-10T09:01:00Z @wren /tank show", "--db", db)
			if len(got) != 2 || !got[1].OK {
				t.Fatalf("the script did not go on: %+v", got)
			}
			a := got[0]
			if a.OK || !a.Private || a.Error == nil || a.Error.Code != tt.code || a.Error.Message != a.Text {
				t.Errorf("got %+v %+v, want a private refusal with code %q", a, a.Error, tt.code)
			}
			if len(a.Text) > 400 || strings.ContainsAny(a.Text, "\x00\x07") {
				t.Errorf("%d bytes of text: %.500q", len(a.Text), a.Text)
			}
			for _, s := range tt.says {
				if !strings.Contains(a.Text, s) {
					t.Errorf("%q does not name %q", a.Text, s)
				}
			}
			if after := rows(t, db); after != before {
				t.Errorf("the record changed from\n%s\nto\n%s", before, after)
			}
		})
	}
}

// rows prints all that stands in a database.
func rows(t *testing.T, file string) string {
	t.Helper()
	db, err := sql.Open("sqlite", file)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	var all strings.Builder
	for _, table := range column(t, db, "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name") {
		fmt.Fprintln(&all, table)
		names := column(t, db, "SELECT name FROM pragma_table_info('"+table+"') ORDER BY cid")
		for _, row := range column(t, db, `SELECT concat_ws('|', "`+strings.Join(names, `", "`)+`") FROM "`+table+`" ORDER BY 1`) {
			fmt.Fprintln(&all, " ", row)
		}
	}
	return all.String()
}

// column returns the first column of a query.
func column(t *testing.T, db *sql.DB, query string) []string {
	t.Helper()
	found, err := db.QueryContext(t.Context(), query)
	if err != nil {
		t.Fatalf("%v in %s", err, query)
	}
	defer found.Close()
	var all []string
	for found.Next() {
		var s sql.NullString
		if err := found.Scan(&s); err != nil {
			t.Fatal(err)
		}
		all = append(all, s.String)
	}
	if err := found.Err(); err != nil {
		t.Fatal(err)
	}
	return all
}
