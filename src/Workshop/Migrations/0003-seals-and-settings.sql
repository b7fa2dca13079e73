-- A seal for each row: SQLite keeps no checksum of what it stores, so a bit that flips on the disk would come back as another
-- text. seal_of is the program's own (RowSeal). And what the maker chose for the page, by name.

DROP TRIGGER revision_is_not_changed;
DROP TRIGGER box_revision_is_not_changed;
DROP TRIGGER log_entry_is_not_changed;

ALTER TABLE revision ADD COLUMN seal BLOB;
ALTER TABLE box_revision ADD COLUMN seal BLOB;
ALTER TABLE batch ADD COLUMN seal BLOB;
ALTER TABLE build ADD COLUMN seal BLOB;
ALTER TABLE log_entry ADD COLUMN seal BLOB;

UPDATE revision SET seal = seal_of(lure, n, edit_id, at_utc, offset_min, cause, same_as, name, made_by, design);
UPDATE box_revision SET seal = seal_of(box, n, edit_id, at_utc, offset_min, cause, same_as, name, made_by, contents);
UPDATE batch SET seal = seal_of(edit_id, lure, n, name, at_utc, offset_min);
UPDATE build SET seal = seal_of(edit_id, lure, n, batch, label, at_utc, offset_min);
UPDATE log_entry SET seal = seal_of(build, edit_id, at_utc, offset_min, kind, strikes, entry);

CREATE TRIGGER revision_is_not_changed BEFORE UPDATE ON revision
BEGIN SELECT RAISE(ABORT, 'a revision stays as it was written'); END;

CREATE TRIGGER box_revision_is_not_changed BEFORE UPDATE ON box_revision
BEGIN SELECT RAISE(ABORT, 'a revision stays as it was written'); END;

CREATE TRIGGER log_entry_is_not_changed BEFORE UPDATE ON log_entry
BEGIN SELECT RAISE(ABORT, 'an entry stays as it was written'); END;

CREATE TABLE setting (
  name  TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT;

CREATE TRIGGER setting_is_told AFTER INSERT ON setting
BEGIN INSERT INTO change (what, owner, n) VALUES ('setting', 0, 0); END;

CREATE TRIGGER setting_changed_is_told AFTER UPDATE ON setting
BEGIN INSERT INTO change (what, owner, n) VALUES ('setting', 0, 0); END;
