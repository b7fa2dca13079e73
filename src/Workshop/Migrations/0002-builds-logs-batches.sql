-- Builds of a revision, what was measured on each, and batches. Entries of a log only grow as revisions do: a mistake is
-- struck out by a later entry.

CREATE TABLE batch (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  edit_id    TEXT    NOT NULL UNIQUE CHECK (length(edit_id) BETWEEN 8 AND 64),
  lure       INTEGER NOT NULL,
  n          INTEGER NOT NULL,
  name       TEXT    NOT NULL,
  at_utc     TEXT    NOT NULL,
  offset_min INTEGER NOT NULL,
  FOREIGN KEY (lure, n) REFERENCES revision (lure, n)
) STRICT;

CREATE TABLE build (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  edit_id    TEXT    NOT NULL UNIQUE CHECK (length(edit_id) BETWEEN 8 AND 64),
  lure       INTEGER NOT NULL,
  n          INTEGER NOT NULL,
  batch      INTEGER REFERENCES batch (id),
  label      TEXT    NOT NULL,
  at_utc     TEXT    NOT NULL,
  offset_min INTEGER NOT NULL,
  FOREIGN KEY (lure, n) REFERENCES revision (lure, n)
) STRICT;

CREATE INDEX build_of_lure ON build (lure);

CREATE TABLE log_entry (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  build      INTEGER NOT NULL REFERENCES build (id),
  edit_id    TEXT    NOT NULL UNIQUE CHECK (length(edit_id) BETWEEN 8 AND 64),
  at_utc     TEXT    NOT NULL,
  offset_min INTEGER NOT NULL,
  kind       TEXT    NOT NULL,
  strikes    INTEGER REFERENCES log_entry (id),
  entry      TEXT    NOT NULL CHECK (json_valid(entry))
) STRICT;

CREATE INDEX log_entry_of_build ON log_entry (build);

CREATE TRIGGER log_entry_is_not_changed BEFORE UPDATE ON log_entry
BEGIN SELECT RAISE(ABORT, 'an entry stays as it was written'); END;

CREATE TRIGGER log_entry_is_not_removed BEFORE DELETE ON log_entry
BEGIN SELECT RAISE(ABORT, 'an entry stays'); END;

CREATE TRIGGER log_entry_strikes_its_own BEFORE INSERT ON log_entry
WHEN new.strikes IS NOT NULL AND NOT EXISTS (SELECT 1 FROM log_entry WHERE id = new.strikes AND build = new.build)
BEGIN SELECT RAISE(ABORT, 'an entry strikes out one of the same build'); END;

CREATE TRIGGER batch_is_told AFTER INSERT ON batch
BEGIN INSERT INTO change (what, owner, n) VALUES ('batch', new.lure, new.id); END;

CREATE TRIGGER build_is_told AFTER INSERT ON build
BEGIN INSERT INTO change (what, owner, n) VALUES ('build', new.lure, new.id); END;

CREATE TRIGGER log_entry_is_told AFTER INSERT ON log_entry
BEGIN INSERT INTO change (what, owner, n) VALUES ('log', new.build, new.id); END;
