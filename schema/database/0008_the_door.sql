-- Each entry keeps which act of the session wrote it and where in the program: that bounds what undo
-- takes back. Empty in entries that are older.
ALTER TABLE entry ADD COLUMN verb TEXT NOT NULL DEFAULT '';
ALTER TABLE entry ADD COLUMN station TEXT NOT NULL DEFAULT '';

-- A lapsed agreement is gone on with by a clinician, for a day and with a reason.
INSERT INTO entry_kind (name) VALUES ('agreement_override');

CREATE TABLE agreement_override (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  clinician BLOB NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL CHECK (trim(reason) <> '')
) STRICT, WITHOUT ROWID;

CREATE INDEX agreement_override_day ON agreement_override (day);

CREATE TRIGGER agreement_override_no_update BEFORE UPDATE ON agreement_override
BEGIN SELECT RAISE(ABORT, 'rows of agreement_override are never changed'); END;

CREATE TRIGGER agreement_override_no_delete BEFORE DELETE ON agreement_override
BEGIN SELECT RAISE(ABORT, 'rows of agreement_override are never changed'); END;

CREATE TRIGGER agreement_override_kind BEFORE INSERT ON agreement_override
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'agreement_override'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in agreement_override'); END;
