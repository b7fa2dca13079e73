-- Lures and the box, each a chain of revisions that only grows. The rules stand here as well as in the program, so that
-- no writer, ours or another, can break them: a chain has no gap, and what was written stays as it was written.

CREATE TABLE lure (
  id          INTEGER PRIMARY KEY AUTOINCREMENT,
  put_away_at TEXT
) STRICT;

CREATE TABLE revision (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  lure       INTEGER NOT NULL REFERENCES lure (id),
  n          INTEGER NOT NULL CHECK (n >= 1),
  parent     INTEGER NOT NULL CHECK (parent = n - 1),
  edit_id    TEXT    NOT NULL UNIQUE CHECK (length(edit_id) BETWEEN 8 AND 64),
  at_utc     TEXT    NOT NULL,
  offset_min INTEGER NOT NULL,
  cause      TEXT    NOT NULL,
  same_as    INTEGER CHECK (same_as BETWEEN 1 AND n - 1),
  name       TEXT    NOT NULL,
  made_by    TEXT    NOT NULL,
  -- Last, so that walking along a chain need not walk through its designs.
  design     TEXT    NOT NULL,
  UNIQUE (lure, n)
) STRICT;

CREATE TRIGGER revision_comes_next BEFORE INSERT ON revision
WHEN new.n <> 1 + (SELECT coalesce(max(n), 0) FROM revision WHERE lure = new.lure)
BEGIN SELECT RAISE(ABORT, 'a revision comes right after the newest'); END;

CREATE TRIGGER revision_is_not_changed BEFORE UPDATE ON revision
BEGIN SELECT RAISE(ABORT, 'a revision stays as it was written'); END;

CREATE TRIGGER revision_is_not_removed BEFORE DELETE ON revision
BEGIN SELECT RAISE(ABORT, 'a revision stays'); END;

CREATE TABLE box_revision (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  box        INTEGER NOT NULL CHECK (box = 1),
  n          INTEGER NOT NULL CHECK (n >= 1),
  parent     INTEGER NOT NULL CHECK (parent = n - 1),
  edit_id    TEXT    NOT NULL UNIQUE CHECK (length(edit_id) BETWEEN 8 AND 64),
  at_utc     TEXT    NOT NULL,
  offset_min INTEGER NOT NULL,
  cause      TEXT    NOT NULL,
  same_as    INTEGER CHECK (same_as BETWEEN 1 AND n - 1),
  name       TEXT    NOT NULL,
  made_by    TEXT    NOT NULL,
  contents   TEXT    NOT NULL,
  UNIQUE (box, n)
) STRICT;

CREATE TRIGGER box_revision_comes_next BEFORE INSERT ON box_revision
WHEN new.n <> 1 + (SELECT coalesce(max(n), 0) FROM box_revision WHERE box = new.box)
BEGIN SELECT RAISE(ABORT, 'a revision comes right after the newest'); END;

CREATE TRIGGER box_revision_is_not_changed BEFORE UPDATE ON box_revision
BEGIN SELECT RAISE(ABORT, 'a revision stays as it was written'); END;

CREATE TRIGGER box_revision_is_not_removed BEFORE DELETE ON box_revision
BEGIN SELECT RAISE(ABORT, 'a revision stays'); END;

-- What happened, in order, for whoever watches. The mark tells a row from one of the same number in a restored store.
CREATE TABLE change (
  id    INTEGER PRIMARY KEY AUTOINCREMENT,
  what  TEXT    NOT NULL,
  owner INTEGER NOT NULL,
  n     INTEGER NOT NULL,
  mark  BLOB    NOT NULL DEFAULT (randomblob(8))
) STRICT;

CREATE TRIGGER revision_is_told AFTER INSERT ON revision
BEGIN INSERT INTO change (what, owner, n) VALUES ('lure', new.lure, new.n); END;

CREATE TRIGGER lure_put_away_is_told AFTER UPDATE OF put_away_at ON lure
BEGIN INSERT INTO change (what, owner, n) VALUES ('shelf', new.id, 0); END;

CREATE TRIGGER box_revision_is_told AFTER INSERT ON box_revision
BEGIN INSERT INTO change (what, owner, n) VALUES ('box', new.box, new.n); END;
