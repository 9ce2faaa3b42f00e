-- What a club's moderators chose.

-- +goose Up
CREATE TABLE clubs (
    club    TEXT    NOT NULL PRIMARY KEY,
    channel TEXT    NOT NULL,
    day     TEXT    NOT NULL,
    time    TEXT    NOT NULL,
    zone    TEXT    NOT NULL,
    digest  INTEGER NOT NULL CHECK (digest IN (0, 1)),
    share   INTEGER NOT NULL CHECK (share IN (0, 1))
) STRICT, WITHOUT ROWID;
