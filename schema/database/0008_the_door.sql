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

-- At the chair from now on: what the teeth were cleaned with, the surface and the bite after the
-- cure, what changed since the form, alerts read, a varnish left out, why a sealant is renewed.
INSERT INTO entry_kind (name) VALUES ('after_cure');

ALTER TABLE field ADD COLUMN cleaned TEXT NOT NULL DEFAULT 'not recorded' CHECK (cleaned IN ('not recorded', 'dry toothbrush', 'handpiece brush', 'gauze', 'other', 'not cleaned'));

ALTER TABLE seating ADD COLUMN changed TEXT NOT NULL DEFAULT '';

ALTER TABLE screening_tooth ADD COLUMN reseal_why TEXT NOT NULL DEFAULT 'not said' CHECK (reseal_why IN ('not said', 'lost', 'lifted', 'part gone', 'leaks at the edge', 'interim cover replaced', 'other'));

ALTER TABLE day_outcome ADD COLUMN varnish_skipped TEXT NOT NULL DEFAULT '';

CREATE TABLE seating_alert (
  entry BLOB NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  flag BLOB NOT NULL REFERENCES entry (id),
  UNIQUE (entry, flag),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER seating_alert_no_update BEFORE UPDATE ON seating_alert
BEGIN SELECT RAISE(ABORT, 'rows of seating_alert are never changed'); END;

CREATE TRIGGER seating_alert_no_delete BEFORE DELETE ON seating_alert
BEGIN SELECT RAISE(ABORT, 'rows of seating_alert are never changed'); END;

CREATE TRIGGER seating_alert_kind BEFORE INSERT ON seating_alert
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'seating'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in seating_alert'); END;

CREATE TABLE after_cure (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  child BLOB NOT NULL REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  wiped INTEGER NOT NULL CHECK (wiped IN (0, 1)),
  bite TEXT NOT NULL CHECK (bite IN ('fine', 'adjusted, handpiece used', 'not checked')),
  note TEXT NOT NULL,
  CHECK ((wiped = 1 AND bite <> 'not checked') OR note <> '')
) STRICT, WITHOUT ROWID;

CREATE INDEX after_cure_child ON after_cure (child);

CREATE INDEX after_cure_day ON after_cure (day);

CREATE TRIGGER after_cure_no_update BEFORE UPDATE ON after_cure
BEGIN SELECT RAISE(ABORT, 'rows of after_cure are never changed'); END;

CREATE TRIGGER after_cure_no_delete BEFORE DELETE ON after_cure
BEGIN SELECT RAISE(ABORT, 'rows of after_cure are never changed'); END;

CREATE TRIGGER after_cure_kind BEFORE INSERT ON after_cure
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'after_cure'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in after_cure'); END;
