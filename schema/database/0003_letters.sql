-- Letters to guardians.
INSERT INTO entry_kind (name) VALUES ('letter');

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
