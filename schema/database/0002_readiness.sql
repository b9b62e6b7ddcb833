-- The morning's readiness. The kinds of entry become rows of a table, so that the next kind is one
-- more row and `entry` need not be built anew for it.
CREATE TABLE entry_kind (
  name TEXT PRIMARY KEY
) STRICT, WITHOUT ROWID;

INSERT INTO entry_kind (name) VALUES
  ('program'),
  ('term'),
  ('school'),
  ('enrolment'),
  ('clinic_day'),
  ('day_closure'),
  ('member'),
  ('child'),
  ('sealed_identity'),
  ('consent'),
  ('consent_override'),
  ('medical_flag'),
  ('light'),
  ('meter_reading'),
  ('lot'),
  ('cure_time'),
  ('seating'),
  ('screening'),
  ('field'),
  ('timer_start'),
  ('step_run'),
  ('wet'),
  ('placement'),
  ('varnish'),
  ('day_outcome'),
  ('retention_check'),
  ('referral'),
  ('contact_attempt'),
  ('readiness_check'),
  ('retraction');

CREATE TRIGGER entry_kind_no_update BEFORE UPDATE ON entry_kind
BEGIN SELECT RAISE(ABORT, 'rows of entry_kind are never changed'); END;

CREATE TRIGGER entry_kind_no_delete BEFORE DELETE ON entry_kind
BEGIN SELECT RAISE(ABORT, 'rows of entry_kind are never changed'); END;

-- So that the rename rewrites nobody who points at entry.
PRAGMA legacy_alter_table = ON;

CREATE TABLE entry_next (
  id BLOB PRIMARY KEY CHECK (length(id) = 16),
  subject BLOB NOT NULL CHECK (length(subject) = 16),
  act BLOB NOT NULL CHECK (length(act) = 16),
  kind TEXT NOT NULL REFERENCES entry_kind (name),
  laptop BLOB NOT NULL CHECK (length(laptop) = 16),
  sequence INTEGER NOT NULL CHECK (sequence > 0),
  author BLOB REFERENCES entry (id) DEFERRABLE INITIALLY DEFERRED,
  recorder BLOB REFERENCES entry (id) DEFERRABLE INITIALLY DEFERRED,
  at INTEGER NOT NULL CHECK (at > 0),
  utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -840 AND 840),
  supersedes BLOB REFERENCES entry (id) DEFERRABLE INITIALLY DEFERRED,
  reason TEXT NOT NULL,
  UNIQUE (laptop, sequence),
  CHECK (supersedes IS NULL OR reason <> ''),
  CHECK (supersedes IS NOT NULL OR subject = id),
  CHECK (kind <> 'retraction' OR supersedes IS NOT NULL)
) STRICT, WITHOUT ROWID;

INSERT INTO entry_next (id, subject, act, kind, laptop, sequence, author, recorder, at, utc_offset, supersedes, reason)
SELECT id, subject, act, kind, laptop, sequence, author, recorder, at, utc_offset, supersedes, reason
FROM entry ORDER BY id;

DROP TABLE entry;

ALTER TABLE entry_next RENAME TO entry;

PRAGMA legacy_alter_table = OFF;

CREATE INDEX entry_subject ON entry (subject);
CREATE INDEX entry_act ON entry (act);
CREATE INDEX entry_supersedes ON entry (supersedes) WHERE supersedes IS NOT NULL;

CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'rows of entry are never changed'); END;

CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'rows of entry are never changed'); END;

CREATE TABLE readiness_check (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  item TEXT NOT NULL CHECK (item IN ('air line', 'curing light', 'lots and expiry', 'sterilizer', 'suction and water', 'eyes', 'emergency kit', 'clock')),
  answer TEXT NOT NULL CHECK (answer IN ('done', 'failed', 'not applicable', 'passed over')),
  reason TEXT NOT NULL,
  detail TEXT NOT NULL,
  CHECK (answer = 'done' OR reason <> '')
) STRICT, WITHOUT ROWID;

CREATE INDEX readiness_check_day ON readiness_check (day);

CREATE TRIGGER readiness_check_no_update BEFORE UPDATE ON readiness_check
BEGIN SELECT RAISE(ABORT, 'rows of readiness_check are never changed'); END;

CREATE TRIGGER readiness_check_no_delete BEFORE DELETE ON readiness_check
BEGIN SELECT RAISE(ABORT, 'rows of readiness_check are never changed'); END;

CREATE TRIGGER readiness_check_kind BEFORE INSERT ON readiness_check
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'readiness_check'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in readiness_check'); END;
