-- Small texts of front ends: a form half filled, what was last registered.

-- +goose Up
CREATE TABLE notes (
    club TEXT NOT NULL,
    name TEXT NOT NULL,
    text TEXT NOT NULL,
    PRIMARY KEY (club, name)
) STRICT, WITHOUT ROWID;
