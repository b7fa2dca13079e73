-- Photos to trace over, and where each lies behind the outline. A photo stays as it came; where it lies, and whether it was
-- taken away, are lines that only grow: the newest counts.

CREATE TABLE photo (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  edit_id    TEXT    NOT NULL UNIQUE CHECK (length(edit_id) BETWEEN 8 AND 64),
  lure       INTEGER NOT NULL REFERENCES lure (id),
  view       TEXT    NOT NULL CHECK (view IN ('side', 'plan')),
  type       TEXT    NOT NULL CHECK (type IN ('jpeg', 'png')),
  width      INTEGER NOT NULL CHECK (width > 0),
  height     INTEGER NOT NULL CHECK (height > 0),
  at_utc     TEXT    NOT NULL,
  offset_min INTEGER NOT NULL,
  bytes      BLOB    NOT NULL,
  seal       BLOB
) STRICT;

CREATE INDEX photo_of_lure ON photo (lure);

CREATE TABLE photo_place (
  id    INTEGER PRIMARY KEY AUTOINCREMENT,
  photo INTEGER NOT NULL REFERENCES photo (id),
  away  INTEGER NOT NULL CHECK (away IN (0, 1)),
  place TEXT    NOT NULL CHECK (json_valid(place)),
  seal  BLOB
) STRICT;

CREATE INDEX photo_place_of_photo ON photo_place (photo);

CREATE TRIGGER photo_is_not_changed BEFORE UPDATE ON photo
BEGIN SELECT RAISE(ABORT, 'a photo stays as it came'); END;

CREATE TRIGGER photo_is_not_removed BEFORE DELETE ON photo
BEGIN SELECT RAISE(ABORT, 'a photo stays'); END;

CREATE TRIGGER photo_place_is_not_changed BEFORE UPDATE ON photo_place
BEGIN SELECT RAISE(ABORT, 'a place stays as it was written'); END;

CREATE TRIGGER photo_place_is_not_removed BEFORE DELETE ON photo_place
BEGIN SELECT RAISE(ABORT, 'a place stays'); END;

CREATE TRIGGER photo_place_is_told AFTER INSERT ON photo_place
BEGIN INSERT INTO change (what, owner, n) SELECT 'photo', lure, id FROM photo WHERE id = new.photo; END;
