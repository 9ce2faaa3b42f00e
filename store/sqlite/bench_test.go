package sqlite

import (
	"strconv"
	"testing"

	"ripen/store"
)

var reading = []store.Value{
	{Name: "ammonia", Typed: "0.25", Unit: "ion"}, {Name: "nitrite", Typed: "5+", Unit: "ion"},
	{Name: "nitrate", Typed: "20", Unit: "ion"}, {Name: "ph", Typed: "7.6"}, {Name: "temp", Typed: "25", Unit: "C"},
}

func benchTank(b *testing.B) (*DB, store.Tank) {
	db := openNew(b)
	tank, err := db.AddTank(b.Context(), store.Tank{Club: "reef", Member: "wren", Name: "Nano", Started: at(1)}, store.Entry{})
	if err != nil {
		b.Fatal(err)
	}
	return db, tank
}

func BenchmarkAddEntry(b *testing.B) {
	db, tank := benchTank(b)
	n := 0
	for b.Loop() {
		n++
		e := store.Entry{Tank: tank.ID, Kind: store.KindReading, At: at(2), Recorded: at(2), Key: strconv.Itoa(n), Values: reading}
		if _, err := db.AddEntry(b.Context(), e); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEntries500(b *testing.B) {
	db, tank := benchTank(b)
	for i := range 500 {
		e := store.Entry{Tank: tank.ID, Kind: store.KindReading, At: at(2 + i%20), Recorded: at(2), Key: strconv.Itoa(i), Values: reading}
		if _, err := db.AddEntry(b.Context(), e); err != nil {
			b.Fatal(err)
		}
	}
	b.ResetTimer()
	for b.Loop() {
		all, err := db.Entries(b.Context(), tank.ID)
		if err != nil || len(all) != 501 {
			b.Fatal(len(all), err)
		}
	}
}

func BenchmarkOpen(b *testing.B) {
	db, _ := benchTank(b)
	var path string
	if err := db.pool.QueryRow("SELECT file FROM pragma_database_list").Scan(&path); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		again, err := Open(path)
		if err != nil {
			b.Fatal(err)
		}
		again.Close()
	}
}
