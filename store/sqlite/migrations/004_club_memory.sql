-- What a club remembers: outlooks as they were given, so that they can be held
-- against what came; what was last worked out of each open tank; and which
-- weekly summaries were posted.

-- +goose Up
CREATE TABLE outlooks (
    id       INTEGER PRIMARY KEY,
    tank     INTEGER NOT NULL REFERENCES tanks (id),
    asked    TEXT    NOT NULL, -- the command that asked
    own      INTEGER NOT NULL CHECK (own IN (0, 1)), -- the tank's member asked, not a moderator
    at_ms    INTEGER NOT NULL,
    day      REAL    NOT NULL, -- of the tank, then
    stage    TEXT    NOT NULL,
    readings INTEGER NOT NULL,
    p2_5     REAL,             -- day on which it is done; NULL past the horizon
    p10      REAL,
    p25      REAL,
    p50      REAL,
    p75      REAL,
    p90      REAL,
    p97_5    REAL,
    engine   TEXT    NOT NULL, -- version that made it
    prior    TEXT    NOT NULL, -- and what it believed beforehand
    UNIQUE (tank, at_ms, asked, own)
) STRICT;

CREATE TABLE verdicts (
    tank     INTEGER NOT NULL PRIMARY KEY REFERENCES tanks (id),
    revision TEXT    NOT NULL, -- of the log that it is about
    at_ms    INTEGER NOT NULL, -- the moment that it is about
    data     TEXT    NOT NULL
) STRICT;

CREATE TABLE weeks (
    club       TEXT    NOT NULL,
    week       TEXT    NOT NULL, -- "2026-W10"
    turn       INTEGER NOT NULL, -- counts its changes
    claimed_ms INTEGER NOT NULL,
    sent_ms    INTEGER,          -- NULL until it is on its way
    ended_ms   INTEGER,          -- NULL until the outcome is known
    trouble    TEXT    NOT NULL, -- why it was not posted, '' if it was
    PRIMARY KEY (club, week)
) STRICT, WITHOUT ROWID;
