-- Whether a club wants replies in the program's own words only.

-- +goose Up
ALTER TABLE clubs ADD COLUMN plain INTEGER NOT NULL DEFAULT 0 CHECK (plain IN (0, 1));
