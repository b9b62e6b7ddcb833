-- What a dentist lets a team place, where the program waits for a dentist's exam.
INSERT INTO entry_kind (name) VALUES ('authorization');

ALTER TABLE program ADD COLUMN authorization_days INTEGER NOT NULL DEFAULT 365 CHECK (authorization_days BETWEEN 1 AND 1100);

CREATE TABLE authorization (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  child BLOB NOT NULL REFERENCES entry (id),
  dentist BLOB NOT NULL REFERENCES entry (id),
  how TEXT NOT NULL CHECK (how IN ('exam at school', 'record review', 'phone call')),
  given_on TEXT NOT NULL CHECK (given_on IS date(given_on)),
  valid_until TEXT NOT NULL CHECK (valid_until IS date(valid_until)),
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
  note TEXT NOT NULL,
  CHECK (valid_until >= given_on)
) STRICT, WITHOUT ROWID;

CREATE INDEX authorization_child ON authorization (child);

CREATE TABLE authorization_tooth (
  entry BLOB NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  surfaces INTEGER NOT NULL CHECK (surfaces BETWEEN 1 AND 7),
  UNIQUE (entry, tooth),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER authorization_no_update BEFORE UPDATE ON authorization
BEGIN SELECT RAISE(ABORT, 'rows of authorization are never changed'); END;

CREATE TRIGGER authorization_no_delete BEFORE DELETE ON authorization
BEGIN SELECT RAISE(ABORT, 'rows of authorization are never changed'); END;

CREATE TRIGGER authorization_kind BEFORE INSERT ON authorization
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'authorization'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in authorization'); END;

CREATE TRIGGER authorization_tooth_no_update BEFORE UPDATE ON authorization_tooth
BEGIN SELECT RAISE(ABORT, 'rows of authorization_tooth are never changed'); END;

CREATE TRIGGER authorization_tooth_no_delete BEFORE DELETE ON authorization_tooth
BEGIN SELECT RAISE(ABORT, 'rows of authorization_tooth are never changed'); END;

CREATE TRIGGER authorization_tooth_kind BEFORE INSERT ON authorization_tooth
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'authorization'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in authorization_tooth'); END;

-- Visits that were typed from paper.
INSERT INTO entry_kind (name) VALUES ('paper_sheet');

CREATE TABLE paper_sheet (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  child BLOB NOT NULL REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  number TEXT NOT NULL CHECK (number <> ''),
  checker BLOB NOT NULL REFERENCES entry (id)
) STRICT, WITHOUT ROWID;

CREATE INDEX paper_sheet_child ON paper_sheet (child);

CREATE INDEX paper_sheet_day ON paper_sheet (day);

CREATE TRIGGER paper_sheet_no_update BEFORE UPDATE ON paper_sheet
BEGIN SELECT RAISE(ABORT, 'rows of paper_sheet are never changed'); END;

CREATE TRIGGER paper_sheet_no_delete BEFORE DELETE ON paper_sheet
BEGIN SELECT RAISE(ABORT, 'rows of paper_sheet are never changed'); END;

CREATE TRIGGER paper_sheet_kind BEFORE INSERT ON paper_sheet
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'paper_sheet'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in paper_sheet'); END;
