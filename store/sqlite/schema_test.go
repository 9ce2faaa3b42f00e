package sqlite

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"ripen/store"
)

var update = flag.Bool("update", false, "write the database file of the current schema to testdata/db")

// kept is the folder of the database files of all schemas.
const kept = "../../testdata/db"

func TestOpenOlderSchemas(t *testing.T) {
	if *update {
		keep(t, latest(t))
	}
	for v := 1; v <= latest(t); v++ {
		t.Run(fmt.Sprintf("v%d", v), func(t *testing.T) {
			old, err := os.ReadFile(filepath.Join(kept, fmt.Sprintf("v%d.db", v)))
			if err != nil {
				t.Fatalf("%v: run go test ./store/sqlite -update while this schema is the current one", err)
			}
			path := filepath.Join(t.TempDir(), "ripen.db")
			write(t, path, old)
			db := openFile(t, path)
			want, err := os.ReadFile(filepath.Join(kept, fmt.Sprintf("v%d.txt", v)))
			if err != nil {
				t.Fatal(err)
			}
			if got := dump(t, db); got != string(want) {
				t.Errorf("the store reads\n%s\nwant\n%s", got, want)
			}
			added, err := db.AddEntry(t.Context(), store.Entry{Tank: 1, Kind: store.KindLog, Key: "new", At: at(20), Recorded: at(20)})
			if err != nil || !added {
				t.Errorf("added %v, %v", added, err)
			}
		})
	}
}

func TestOpenErrNewer(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ripen.db")
	write(t, path, ownFile(t))
	run(t, plainDSN(path), "INSERT INTO goose_db_version (version_id, is_applied) VALUES (999, 1)")
	before, _ := os.ReadFile(path)
	_, err := Open(path)
	if !errors.Is(err, ErrNewer) || !strings.Contains(err.Error(), "999") {
		t.Errorf("error is %v, want ErrNewer with both versions", err)
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) {
		t.Error("the file was changed")
	}
}

func TestMigrateAllOrNothing(t *testing.T) {
	db := openNew(t)
	fill(t, db)
	before := dump(t, db)
	next := fmt.Sprintf("%03d_next.sql", latest(t)+1)
	files := func(sql string) fs.FS {
		m := fstest.MapFS{next: {Data: []byte("-- +goose Up\n" + sql)}}
		for v := 1; v <= latest(t); v++ {
			m[fmt.Sprintf("%03d_old.sql", v)] = &fstest.MapFile{Data: []byte("-- +goose Up\nSELECT 1;")}
		}
		return m
	}
	if err := migrate(t.Context(), db.pool, files("DELETE FROM entry_values; DROP TABLE members; SELECT * FROM nowhere;")); err == nil {
		t.Fatal("no error")
	}
	if after := dump(t, db); after != before {
		t.Errorf("a failed migration left\n%s\nwant\n%s", after, before)
	}
	if err := migrate(t.Context(), db.pool, files("ALTER TABLE members ADD COLUMN more TEXT;")); err != nil {
		t.Error(err)
	}
	if after := dump(t, db); after != before {
		t.Errorf("a migration left\n%s\nwant\n%s", after, before)
	}
}

// latest returns the number of the newest migration.
func latest(t *testing.T) int {
	t.Helper()
	files, err := fs.Glob(migrations(), "*.sql")
	if err != nil || len(files) == 0 {
		t.Fatalf("migrations are %v, %v", files, err)
	}
	return len(files)
}

// keep writes a filled database of the current schema, and what it holds.
func keep(t *testing.T, version int) {
	path := filepath.Join(t.TempDir(), "ripen.db")
	db := openFile(t, path)
	fill(t, db)
	text := dump(t, db)
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	run(t, plainDSN(path), "UPDATE goose_db_version SET tstamp = '2026-03-01 09:00:00'", "VACUUM")
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(kept, fmt.Sprintf("v%d.db", version)), b)
	write(t, filepath.Join(kept, fmt.Sprintf("v%d.txt", version)), []byte(text))
}

// at returns nine o'clock of a day in March 2026.
func at(day int) time.Time { return time.Date(2026, 3, day, 9, 0, 0, 0, time.UTC) }

// fill stores one of everything.
func fill(t *testing.T, db *DB) {
	t.Helper()
	ctx := context.Background()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	add := func(club, member, name string) store.Tank {
		t.Helper()
		tank, err := db.AddTank(ctx, store.Tank{Club: club, Member: member, Name: name, Started: at(1)},
			store.Entry{At: at(1), Recorded: at(1), Key: "setup " + name, Values: []store.Value{
				{Name: "volume", Typed: "15", Unit: "gal"}, {Name: "ph", Typed: "7,6"}, {Name: "method", Typed: "dosed"}}})
		must(err)
		return tank
	}
	tell := func(tank store.Tank, kind store.Kind, day int, key string, values ...store.Value) {
		t.Helper()
		_, err := db.AddEntry(ctx, store.Entry{Tank: tank.ID, Kind: kind, At: at(day), Recorded: at(day), Key: key, Values: values})
		must(err)
	}
	must(db.SetUnits(ctx, "reef", "wren", store.Units{Volume: "gal", Temp: "F", KH: "ppm", Scale: "n"}))
	nano := add("reef", "wren", "Étang")
	tell(nano, store.KindReading, 3, "r1", store.Value{Name: "nitrite", Typed: "5+"}, store.Value{Name: "ammonia", Typed: "0.25", Unit: "n"})
	tell(nano, store.KindLog, 4, "l1", store.Value{Name: "what", Typed: "note"}, store.Value{Name: "detail", Typed: "cloudy 🐟\nsince noon"})
	_, err := db.EditTank(ctx, nano.ID, "Pond", at(2), store.Entry{At: at(5), Recorded: at(5), Key: "e1", Values: []store.Value{{Name: "temp", Typed: "77", Unit: "F"}}})
	must(err)
	tell(nano, store.KindReading, 6, "slip", store.Value{Name: "ammonia", Typed: "80"})
	_, _, err = db.Undo(ctx, "reef", "wren", "", "u1", at(6))
	must(err)
	old := add("reef", "wren", "Old")
	must(db.CloseTank(ctx, old.ID, at(7), store.Entry{At: at(7), Recorded: at(7), Key: "c1"}))
	add("reef", "tern", "Mistake")
	_, _, err = db.Undo(ctx, "reef", "tern", "", "u2", at(8))
	must(err)
	add("pond", "wren", "Étang")
	must(db.SetNote(ctx, "reef", "form/wren", "volume:60L\nph:7.6"))
	must(db.SetSettings(ctx, "reef", store.Settings{Channel: "cycling", Day: "monday", Time: "18:00", Zone: "Europe/Lisbon", Digest: true, Share: true, Plain: true}))
	must(db.KeepOutlook(ctx, store.Outlook{Tank: nano.ID, Asked: "outlook", Own: true, At: at(6), Day: 4, Stage: "nitrite", Readings: 1,
		Done: [7]float64{9, 12, 15, 20.5, 30, 60, math.Inf(1)}, Engine: "0.1", Prior: "general"}))
	must(db.SetVerdict(ctx, store.Verdict{Tank: nano.ID, Revision: "1.1", At: at(6), Data: "{}"}))
	_, err = db.SetWeek(ctx, store.Week{Club: "reef", Name: "2026-W10", Claimed: at(2), Sent: at(2), Ended: at(3), Trouble: "no such channel"})
	must(err)
}

// dump writes what a filled store holds, in lines.
func dump(t *testing.T, db *DB) string {
	t.Helper()
	var b strings.Builder
	for _, who := range [][2]string{{"reef", "wren"}, {"reef", "tern"}, {"pond", "wren"}} {
		m, err := db.Member(t.Context(), who[0], who[1])
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "member %q\n", m)
		tanks, err := db.Tanks(t.Context(), m.Club, m.ID)
		if err != nil {
			t.Fatal(err)
		}
		for _, tank := range tanks {
			fmt.Fprintf(&b, "  tank %d %q started %s closed %s\n", tank.ID, tank.Name, day(tank.Started), day(tank.Closed))
			entries, err := db.Entries(t.Context(), tank.ID)
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range entries {
				fmt.Fprintf(&b, "    %d %s at %s told %s key %q values %q\n", e.ID, e.Kind, day(e.At), day(e.Recorded), e.Key, e.Values)
			}
		}
	}
	if text, err := db.Note(t.Context(), "reef", "form/wren"); err != nil {
		t.Fatal(err)
	} else if text != "" {
		fmt.Fprintf(&b, "note %q\n", text)
	}
	if s, err := db.Settings(t.Context(), "reef"); err != nil {
		t.Fatal(err)
	} else if s != (store.Settings{}) {
		fmt.Fprintf(&b, "settings %+v\n", s)
	}
	if all, err := db.ClubOutlooks(t.Context(), "reef", time.Time{}); err != nil {
		t.Fatal(err)
	} else if len(all) > 0 {
		fmt.Fprintf(&b, "outlooks %+v\n", all)
	}
	if s, err := db.Standing(t.Context(), 1); err != nil {
		t.Fatal(err)
	} else if s.Verdict != (store.Verdict{}) {
		fmt.Fprintf(&b, "verdict %+v\n", s.Verdict)
	}
	if w, err := db.LastWeek(t.Context(), "reef"); err != nil {
		t.Fatal(err)
	} else if w != (store.Week{}) {
		fmt.Fprintf(&b, "week %+v\n", w)
	}
	return b.String()
}

func day(t time.Time) string {
	if t.IsZero() {
		return "never"
	}
	return t.Format(time.RFC3339)
}
