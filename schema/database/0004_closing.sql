-- What the end of a school day asks for: incidents, paper, the lights, and what a merge left open.
INSERT INTO entry_kind (name) VALUES
  ('incident'),
  ('paper_count'),
  ('light_pass'),
  ('merge_answer');

-- Free text may name what no export may hold, so this table is in none.
CREATE TABLE incident (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  child BLOB REFERENCES entry (id),
  type TEXT NOT NULL CHECK (type IN ('etchant on soft tissue', 'eye splash', 'foreign body', 'fall', 'fainting', 'allergic sign', 'staff sharps exposure', 'privacy', 'equipment')),
  happened INTEGER NOT NULL CHECK (happened > 0),
  happened_offset INTEGER NOT NULL CHECK (happened_offset BETWEEN -840 AND 840),
  done TEXT NOT NULL CHECK (done <> ''),
  told TEXT NOT NULL,
  follow_up TEXT NOT NULL,
  settled INTEGER NOT NULL CHECK (settled IN (0, 1))
) STRICT, WITHOUT ROWID;

CREATE INDEX incident_day ON incident (day);

CREATE INDEX incident_child ON incident (child) WHERE child IS NOT NULL;

CREATE TRIGGER incident_no_update BEFORE UPDATE ON incident
BEGIN SELECT RAISE(ABORT, 'rows of incident are never changed'); END;

CREATE TRIGGER incident_no_delete BEFORE DELETE ON incident
BEGIN SELECT RAISE(ABORT, 'rows of incident are never changed'); END;

CREATE TRIGGER incident_kind BEFORE INSERT ON incident
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'incident'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in incident'); END;

CREATE TABLE paper_count (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  paper TEXT NOT NULL CHECK (paper IN ('letters', 'runner''s list', 'nurse''s sheets', 'other sheets')),
  out INTEGER NOT NULL CHECK (out >= 0),
  back INTEGER NOT NULL CHECK (back >= 0),
  handed INTEGER NOT NULL CHECK (handed >= 0),
  shredded INTEGER NOT NULL CHECK (shredded >= 0),
  reason TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX paper_count_day ON paper_count (day);

CREATE TRIGGER paper_count_no_update BEFORE UPDATE ON paper_count
BEGIN SELECT RAISE(ABORT, 'rows of paper_count are never changed'); END;

CREATE TRIGGER paper_count_no_delete BEFORE DELETE ON paper_count
BEGIN SELECT RAISE(ABORT, 'rows of paper_count are never changed'); END;

CREATE TRIGGER paper_count_kind BEFORE INSERT ON paper_count
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'paper_count'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in paper_count'); END;

-- The end of the day's reading of a light, passed over.
CREATE TABLE light_pass (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  light BLOB NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL CHECK (reason <> '')
) STRICT, WITHOUT ROWID;

CREATE INDEX light_pass_day ON light_pass (day);

CREATE TRIGGER light_pass_no_update BEFORE UPDATE ON light_pass
BEGIN SELECT RAISE(ABORT, 'rows of light_pass are never changed'); END;

CREATE TRIGGER light_pass_no_delete BEFORE DELETE ON light_pass
BEGIN SELECT RAISE(ABORT, 'rows of light_pass are never changed'); END;

CREATE TRIGGER light_pass_kind BEFORE INSERT ON light_pass
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'light_pass'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in light_pass'); END;

-- A laptop is no entry, so `kept` points at none.
CREATE TABLE merge_answer (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  child BLOB NOT NULL REFERENCES entry (id),
  other BLOB REFERENCES entry (id),
  kept BLOB CHECK (kept IS NULL OR length(kept) = 16),
  verdict TEXT NOT NULL CHECK (verdict IN ('one is kept', 'both stand')),
  seen INTEGER NOT NULL CHECK (seen >= 2),
  note TEXT NOT NULL,
  CHECK ((kept IS NOT NULL) = (verdict = 'one is kept' AND other IS NULL))
) STRICT, WITHOUT ROWID;

CREATE INDEX merge_answer_day ON merge_answer (day);

CREATE INDEX merge_answer_child ON merge_answer (child);

CREATE TRIGGER merge_answer_no_update BEFORE UPDATE ON merge_answer
BEGIN SELECT RAISE(ABORT, 'rows of merge_answer are never changed'); END;

CREATE TRIGGER merge_answer_no_delete BEFORE DELETE ON merge_answer
BEGIN SELECT RAISE(ABORT, 'rows of merge_answer are never changed'); END;

CREATE TRIGGER merge_answer_kind BEFORE INSERT ON merge_answer
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'merge_answer'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in merge_answer'); END;
