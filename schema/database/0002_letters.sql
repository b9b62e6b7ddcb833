-- Letters to guardians. The list of kinds stands in a CHECK, so entry is built anew with one more;
-- legacy_alter_table keeps the rename from rewriting who points at it.
PRAGMA legacy_alter_table = ON;

CREATE TABLE entry_next (
  id BLOB PRIMARY KEY CHECK (length(id) = 16),
  subject BLOB NOT NULL CHECK (length(subject) = 16),
  act BLOB NOT NULL CHECK (length(act) = 16),
  kind TEXT NOT NULL CHECK (kind IN (
    'program',
    'term',
    'school',
    'enrolment',
    'clinic_day',
    'day_closure',
    'member',
    'child',
    'sealed_identity',
    'consent',
    'consent_override',
    'medical_flag',
    'light',
    'meter_reading',
    'lot',
    'cure_time',
    'seating',
    'screening',
    'field',
    'timer_start',
    'step_run',
    'wet',
    'placement',
    'varnish',
    'day_outcome',
    'retention_check',
    'referral',
    'contact_attempt',
    'letter',
    'retraction'
  )),
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
SELECT id, subject, act, kind, laptop, sequence, author, recorder, at, utc_offset, supersedes, reason FROM entry;

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

-- That a letter was written and what it said; never its text, which holds a name.
CREATE TABLE letter (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  child BLOB NOT NULL REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  guardian INTEGER NOT NULL CHECK (guardian BETWEEN -1 AND 15),
  language TEXT NOT NULL CHECK (language <> ''),
  interpreter INTEGER NOT NULL CHECK (interpreter IN (0, 1)),
  variant TEXT NOT NULL CHECK (variant IN ('all fine', 'sealed', 'sealed, unfinished', 'not treated', 'referral, early', 'referral, urgent', 'recheck, whole', 'recheck, repaired', 'absent', 'stopped')),
  facts TEXT NOT NULL,
  template_digest TEXT NOT NULL CHECK (length(template_digest) = 64),
  text_digest TEXT NOT NULL CHECK (length(text_digest) = 64),
  written TEXT NOT NULL CHECK (written IS date(written)),
  prints INTEGER NOT NULL CHECK (prints >= 1),
  state TEXT NOT NULL CHECK (state IN ('queued', 'printed', 'handed', 'returned')),
  replaces BLOB REFERENCES entry (id)
) STRICT, WITHOUT ROWID;

CREATE INDEX letter_child ON letter (child);

CREATE INDEX letter_day ON letter (day);

CREATE TRIGGER letter_no_update BEFORE UPDATE ON letter
BEGIN SELECT RAISE(ABORT, 'rows of letter are never changed'); END;

CREATE TRIGGER letter_no_delete BEFORE DELETE ON letter
BEGIN SELECT RAISE(ABORT, 'rows of letter are never changed'); END;

CREATE TRIGGER letter_kind BEFORE INSERT ON letter
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'letter'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in letter'); END;
