-- What is asked for beside the care: time and people, supplies, backups, who the pupils are.
INSERT INTO entry_kind (name) VALUES
  ('day_effort'),
  ('lot_count'),
  ('meal_eligibility'),
  ('background'),
  ('backup_note');

ALTER TABLE lot ADD COLUMN used_up_on TEXT CHECK (used_up_on IS date(used_up_on));

CREATE TABLE day_effort (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  chairs INTEGER NOT NULL CHECK (chairs BETWEEN 0 AND 50),
  open_minutes INTEGER NOT NULL CHECK (open_minutes BETWEEN 0 AND 1440),
  taught INTEGER NOT NULL CHECK (taught BETWEEN 0 AND 100000)
) STRICT, WITHOUT ROWID;

CREATE INDEX day_effort_day ON day_effort (day);

CREATE TABLE day_effort_people (
  entry BLOB NOT NULL REFERENCES entry (id),
  role TEXT NOT NULL CHECK (role IN ('hygienist', 'dentist', 'dental assistant', 'expanded-function assistant', 'coordinator', 'manager', 'student', 'volunteer')),
  minutes INTEGER NOT NULL CHECK (minutes BETWEEN 1 AND 60000),
  PRIMARY KEY (entry, role)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER day_effort_no_update BEFORE UPDATE ON day_effort
BEGIN SELECT RAISE(ABORT, 'rows of day_effort are never changed'); END;

CREATE TRIGGER day_effort_no_delete BEFORE DELETE ON day_effort
BEGIN SELECT RAISE(ABORT, 'rows of day_effort are never changed'); END;

CREATE TRIGGER day_effort_kind BEFORE INSERT ON day_effort
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'day_effort'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_effort'); END;

CREATE TRIGGER day_effort_people_no_update BEFORE UPDATE ON day_effort_people
BEGIN SELECT RAISE(ABORT, 'rows of day_effort_people are never changed'); END;

CREATE TRIGGER day_effort_people_no_delete BEFORE DELETE ON day_effort_people
BEGIN SELECT RAISE(ABORT, 'rows of day_effort_people are never changed'); END;

CREATE TRIGGER day_effort_people_kind BEFORE INSERT ON day_effort_people
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'day_effort'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_effort_people'); END;

CREATE TABLE lot_count (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  lot BLOB NOT NULL REFERENCES entry (id),
  opened INTEGER NOT NULL CHECK (opened BETWEEN 0 AND 10000),
  remaining INTEGER CHECK (remaining BETWEEN 0 AND 100000)
) STRICT, WITHOUT ROWID;

CREATE INDEX lot_count_day ON lot_count (day);

CREATE TRIGGER lot_count_no_update BEFORE UPDATE ON lot_count
BEGIN SELECT RAISE(ABORT, 'rows of lot_count are never changed'); END;

CREATE TRIGGER lot_count_no_delete BEFORE DELETE ON lot_count
BEGIN SELECT RAISE(ABORT, 'rows of lot_count are never changed'); END;

CREATE TRIGGER lot_count_kind BEFORE INSERT ON lot_count
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'lot_count'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in lot_count'); END;

CREATE TABLE meal_eligibility (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  term BLOB NOT NULL REFERENCES entry (id),
  school BLOB NOT NULL REFERENCES entry (id),
  percent INTEGER NOT NULL CHECK (percent BETWEEN 0 AND 100),
  source TEXT NOT NULL CHECK (source <> '')
) STRICT, WITHOUT ROWID;

CREATE INDEX meal_eligibility_term ON meal_eligibility (term);

CREATE TRIGGER meal_eligibility_no_update BEFORE UPDATE ON meal_eligibility
BEGIN SELECT RAISE(ABORT, 'rows of meal_eligibility are never changed'); END;

CREATE TRIGGER meal_eligibility_no_delete BEFORE DELETE ON meal_eligibility
BEGIN SELECT RAISE(ABORT, 'rows of meal_eligibility are never changed'); END;

CREATE TRIGGER meal_eligibility_kind BEFORE INSERT ON meal_eligibility
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'meal_eligibility'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in meal_eligibility'); END;

-- As the form says it. In no export; published in counts alone.
CREATE TABLE background (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  child BLOB NOT NULL REFERENCES entry (id),
  groups INTEGER NOT NULL CHECK (groups BETWEEN 0 AND 127),
  payer TEXT NOT NULL CHECK (payer IN ('medicaid', 'chip', 'private insurance', 'no insurance', 'not known'))
) STRICT, WITHOUT ROWID;

CREATE INDEX background_child ON background (child);

CREATE TRIGGER background_no_update BEFORE UPDATE ON background
BEGIN SELECT RAISE(ABORT, 'rows of background are never changed'); END;

CREATE TRIGGER background_no_delete BEFORE DELETE ON background
BEGIN SELECT RAISE(ABORT, 'rows of background are never changed'); END;

CREATE TRIGGER background_kind BEFORE INSERT ON background
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'background'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in background'); END;

-- That a copy was written and read back whole.
CREATE TABLE backup_note (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  file TEXT NOT NULL CHECK (file <> '')
) STRICT, WITHOUT ROWID;

CREATE INDEX backup_note_day ON backup_note (day);

CREATE TRIGGER backup_note_no_update BEFORE UPDATE ON backup_note
BEGIN SELECT RAISE(ABORT, 'rows of backup_note are never changed'); END;

CREATE TRIGGER backup_note_no_delete BEFORE DELETE ON backup_note
BEGIN SELECT RAISE(ABORT, 'rows of backup_note are never changed'); END;

CREATE TRIGGER backup_note_kind BEFORE INSERT ON backup_note
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'backup_note'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in backup_note'); END;
