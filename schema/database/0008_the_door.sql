-- A signed day changes only in sight of everyone: it is opened again with a reason, or words are
-- added to it.
INSERT INTO entry_kind (name) VALUES
  ('addendum'),
  ('reopening');

CREATE TABLE addendum (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  child BLOB REFERENCES entry (id),
  text TEXT NOT NULL CHECK (text <> '')
) STRICT, WITHOUT ROWID;

CREATE INDEX addendum_day ON addendum (day);

CREATE INDEX addendum_child ON addendum (child) WHERE child IS NOT NULL;

CREATE TRIGGER addendum_no_update BEFORE UPDATE ON addendum
BEGIN SELECT RAISE(ABORT, 'rows of addendum are never changed'); END;

CREATE TRIGGER addendum_no_delete BEFORE DELETE ON addendum
BEGIN SELECT RAISE(ABORT, 'rows of addendum are never changed'); END;

CREATE TRIGGER addendum_kind BEFORE INSERT ON addendum
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'addendum'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in addendum'); END;

CREATE TABLE reopening (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL CHECK (reason <> '')
) STRICT, WITHOUT ROWID;

CREATE INDEX reopening_day ON reopening (day);

CREATE TRIGGER reopening_no_update BEFORE UPDATE ON reopening
BEGIN SELECT RAISE(ABORT, 'rows of reopening are never changed'); END;

CREATE TRIGGER reopening_no_delete BEFORE DELETE ON reopening
BEGIN SELECT RAISE(ABORT, 'rows of reopening are never changed'); END;

CREATE TRIGGER reopening_kind BEFORE INSERT ON reopening
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'reopening'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in reopening'); END;

-- A copy on the disk of the logbook itself is lost with it.
ALTER TABLE backup_note ADD COLUMN same_disk INTEGER NOT NULL DEFAULT 0 CHECK (same_disk IN (0, 1));
