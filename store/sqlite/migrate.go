package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"

	"github.com/pressly/goose/v3"
)

// embedded holds one file per migration, in the order of their numbers. A
// migration that was ever released stays as it is.
//
//go:embed migrations/*.sql
var embedded embed.FS

// migrations returns the files of embedded.
func migrations() fs.FS {
	files, err := fs.Sub(embedded, "migrations")
	if err != nil {
		panic(err) // the name above is not the folder's
	}
	return files
}

// migrate brings the schema up to date, each migration in a transaction of its
// own. ErrNewer if the database is ahead of this program.
func migrate(ctx context.Context, pool *sql.DB, files fs.FS) error {
	p, err := goose.NewProvider(goose.DialectSQLite3, pool, files,
		goose.WithDisableGlobalRegistry(true), goose.WithLogger(goose.NopLogger()))
	if err != nil {
		return fmt.Errorf("read migrations: %w", err)
	}
	for {
		has, known, err := p.GetVersions(ctx)
		if err != nil {
			return fmt.Errorf("read schema version: %w", err)
		}
		if has == known {
			return nil
		}
		if has > known {
			return fmt.Errorf("%w: its schema is %d, this version knows up to %d; install the newer version", ErrNewer, has, known)
		}
		if _, err := p.Up(ctx); err != nil {
			// Another process may have been first with the same migration.
			if now, _, err2 := p.GetVersions(ctx); err2 != nil || now <= has {
				return fmt.Errorf("migrate from schema %d: %w", has, err)
			}
		}
	}
}
