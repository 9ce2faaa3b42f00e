package sqlite

import (
	"net/url"
	"path/filepath"
	"strings"

	_ "modernc.org/sqlite" // registers the driver
)

// driver is the name under which modernc.org/sqlite registers itself.
const driver = "sqlite"

// busyTimeout is how long a connection waits for a lock of another one, in
// milliseconds. A transaction here takes a few.
const busyTimeout = "5000"

// dsn returns the data source name that opens the file at an absolute path.
// Its settings hold on every connection of a pool, unlike those of a PRAGMA
// statement, which reach one connection only. sync is a level of PRAGMA
// synchronous.
func dsn(path, sync string) string {
	q := base()
	q.Set("_foreign_keys", "on")
	q.Set("_journal_mode", "WAL")
	q.Set("_synchronous", sync)
	return uri(path, q)
}

// plainDSN returns the data source name that opens the file and changes
// nothing of it: a database of another program must not end up in WAL mode.
func plainDSN(path string) string {
	return uri(path, base())
}

func base() url.Values {
	return url.Values{
		"_busy_timeout": {busyTimeout},
		"_txlock":       {"immediate"}, // of transactions that may write
		"_dqs":          {"0"},         // "x" is never a string
		"_defensive":    {"1"},
		"_error_rc":     {"1"}, // messages that belong to their code
	}
}

// uri escapes the path, so that '?', '#', '%' and their like are part of it.
func uri(path string, q url.Values) string {
	slashed := filepath.ToSlash(path)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed // a drive letter
	}
	u := url.URL{Scheme: "file", Path: slashed, RawQuery: q.Encode()}
	return u.String()
}
