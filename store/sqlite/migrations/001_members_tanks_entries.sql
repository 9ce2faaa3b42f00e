-- What members told, as they typed it. The club leads every key.
--
-- Times are milliseconds since 1970-01-01T00:00:00Z, in columns that end in
-- _ms. Whatever can be computed from the entries is not kept, with one
-- exception: name, start, closing and hidden of a tank repeat what its standing
-- entries set, so that the index on open names can hold.

-- +goose Up
CREATE TABLE members (
    club        TEXT NOT NULL,
    id          TEXT NOT NULL,
    volume_unit TEXT NOT NULL,
    temp_unit   TEXT NOT NULL,
    kh_unit     TEXT NOT NULL,
    scale       TEXT NOT NULL,
    PRIMARY KEY (club, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE tanks (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    club        TEXT    NOT NULL,
    member      TEXT    NOT NULL,
    name        TEXT    NOT NULL,
    name_folded TEXT    NOT NULL, -- name in the form in which names are compared
    started_ms  INTEGER NOT NULL,
    closed_ms   INTEGER,          -- NULL while open
    hidden      INTEGER NOT NULL DEFAULT 0 CHECK (hidden IN (0, 1)), -- its setup was taken back
    UNIQUE (club, member, id)
) STRICT;

CREATE UNIQUE INDEX tanks_open_name ON tanks (club, member, name_folded)
    WHERE closed_ms IS NULL AND hidden = 0;

CREATE TABLE entries (
    id              INTEGER PRIMARY KEY AUTOINCREMENT,
    club            TEXT    NOT NULL,
    member          TEXT    NOT NULL,
    tank            INTEGER NOT NULL,
    kind            TEXT    NOT NULL,
    at_ms           INTEGER NOT NULL,
    recorded_ms     INTEGER NOT NULL,
    key             TEXT,    -- of the delivery that added it; NULL if it had none
    undone_ms       INTEGER, -- NULL while it stands
    undone_key      TEXT,    -- of the delivery that took it back
    sets_name       TEXT,    -- what it sets of its tank, NULL where nothing
    sets_started_ms INTEGER,
    sets_closed_ms  INTEGER,
    FOREIGN KEY (club, member, tank) REFERENCES tanks (club, member, id)
) STRICT;

CREATE UNIQUE INDEX entries_key ON entries (club, key) WHERE key IS NOT NULL;
CREATE UNIQUE INDEX entries_undone_key ON entries (club, member, undone_key) WHERE undone_key IS NOT NULL;
CREATE INDEX entries_of_tank ON entries (tank, at_ms, id) WHERE undone_ms IS NULL;
CREATE INDEX entries_last ON entries (club, member, recorded_ms, id) WHERE undone_ms IS NULL;

CREATE TABLE entry_values (
    entry    INTEGER NOT NULL REFERENCES entries (id),
    position INTEGER NOT NULL, -- from 0, in the order typed
    name     TEXT    NOT NULL,
    typed    TEXT    NOT NULL,
    unit     TEXT    NOT NULL, -- what a bare number meant, '' where that is fixed
    PRIMARY KEY (entry, position)
) STRICT, WITHOUT ROWID;
