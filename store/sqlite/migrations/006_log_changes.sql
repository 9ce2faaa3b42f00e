-- How often a tank's log changed, so that lists of a club tell what was worked out of
-- which log without counting its entries.

-- +goose Up
ALTER TABLE tanks ADD COLUMN changes INTEGER NOT NULL DEFAULT 0; -- entries added and taken back

UPDATE tanks SET changes = (SELECT count(*) + count(undone_ms) FROM entries WHERE tank = tanks.id);

-- +goose StatementBegin
CREATE TRIGGER log_added AFTER INSERT ON entries BEGIN
    UPDATE tanks SET changes = changes + 1 WHERE id = NEW.tank;
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER log_taken_back AFTER UPDATE OF undone_ms ON entries BEGIN
    UPDATE tanks SET changes = changes + 1 WHERE id = NEW.tank;
END;
-- +goose StatementEnd
