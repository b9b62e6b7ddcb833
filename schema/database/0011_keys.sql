-- A member's own signing key: its public half, and its seed sealed under the member's own passphrase.
-- A changed passphrase and a revoking are corrections of it.
INSERT INTO entry_kind (name) VALUES
  ('personal_key'),
  ('day_signature'),
  ('recovery_code');

CREATE TABLE personal_key (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  member BLOB NOT NULL REFERENCES entry (id),
  public_key BLOB NOT NULL CHECK (length(public_key) = 32),
  salt BLOB NOT NULL CHECK (length(salt) = 16),
  kdf_passes INTEGER NOT NULL CHECK (kdf_passes BETWEEN 1 AND 64),
  kdf_bytes INTEGER NOT NULL CHECK (kdf_bytes BETWEEN 8192 AND 1073741824),
  nonce BLOB NOT NULL CHECK (length(nonce) = 24),
  box BLOB NOT NULL CHECK (length(box) = 48),
  revoked INTEGER NOT NULL CHECK (revoked IN (0, 1))
) STRICT, WITHOUT ROWID;

CREATE INDEX personal_key_member ON personal_key (member);

CREATE TRIGGER personal_key_no_update BEFORE UPDATE ON personal_key
BEGIN SELECT RAISE(ABORT, 'rows of personal_key are never changed'); END;

CREATE TRIGGER personal_key_no_delete BEFORE DELETE ON personal_key
BEGIN SELECT RAISE(ABORT, 'rows of personal_key are never changed'); END;

CREATE TRIGGER personal_key_no_replace BEFORE INSERT ON personal_key
WHEN EXISTS (SELECT 1 FROM personal_key WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of personal_key are never replaced'); END;

CREATE TRIGGER personal_key_kind BEFORE INSERT ON personal_key
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'personal_key'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in personal_key'); END;

-- What each of the two signers of a closure signed, two rows in the act of the closure. Without a
-- key it is by name only, and says the same.
CREATE TABLE day_signature (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  closure BLOB NOT NULL REFERENCES entry (id),
  signer BLOB NOT NULL REFERENCES entry (id),
  capacity TEXT NOT NULL CHECK (capacity IN ('clinical', 'completeness')),
  personal_key BLOB REFERENCES entry (id),
  consented INTEGER NOT NULL CHECK (consented >= 0),
  screened INTEGER NOT NULL CHECK (screened >= 0),
  absent INTEGER NOT NULL CHECK (absent >= 0),
  declined INTEGER NOT NULL CHECK (declined >= 0),
  left_school INTEGER NOT NULL CHECK (left_school >= 0),
  withdrawn INTEGER NOT NULL CHECK (withdrawn >= 0),
  on_hold INTEGER NOT NULL CHECK (on_hold >= 0),
  not_reached INTEGER NOT NULL CHECK (not_reached >= 0),
  schema INTEGER NOT NULL CHECK (schema > 0),
  signature BLOB NOT NULL,
  CHECK (length(signature) = CASE WHEN personal_key IS NULL THEN 0 ELSE 64 END)
) STRICT, WITHOUT ROWID;

CREATE INDEX day_signature_day ON day_signature (day);

CREATE TRIGGER day_signature_no_update BEFORE UPDATE ON day_signature
BEGIN SELECT RAISE(ABORT, 'rows of day_signature are never changed'); END;

CREATE TRIGGER day_signature_no_delete BEFORE DELETE ON day_signature
BEGIN SELECT RAISE(ABORT, 'rows of day_signature are never changed'); END;

CREATE TRIGGER day_signature_no_replace BEFORE INSERT ON day_signature
WHEN EXISTS (SELECT 1 FROM day_signature WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_signature are never replaced'); END;

CREATE TRIGGER day_signature_kind BEFORE INSERT ON day_signature
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'day_signature'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_signature'); END;

-- How far the history went that was signed: the last act of each laptop.
CREATE TABLE day_signature_head (
  entry BLOB NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  laptop BLOB NOT NULL,
  sequence INTEGER NOT NULL CHECK (sequence > 0),
  digest BLOB NOT NULL CHECK (length(digest) = 32),
  UNIQUE (entry, laptop),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER day_signature_head_no_update BEFORE UPDATE ON day_signature_head
BEGIN SELECT RAISE(ABORT, 'rows of day_signature_head are never changed'); END;

CREATE TRIGGER day_signature_head_no_delete BEFORE DELETE ON day_signature_head
BEGIN SELECT RAISE(ABORT, 'rows of day_signature_head are never changed'); END;

CREATE TRIGGER day_signature_head_no_replace BEFORE INSERT ON day_signature_head
WHEN EXISTS (SELECT 1 FROM day_signature_head WHERE entry = NEW.entry AND laptop = NEW.laptop) OR EXISTS (SELECT 1 FROM day_signature_head WHERE entry = NEW.entry AND place = NEW.place)
BEGIN SELECT RAISE(ABORT, 'rows of day_signature_head are never replaced'); END;

CREATE TRIGGER day_signature_head_kind BEFORE INSERT ON day_signature_head
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'day_signature'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_signature_head'); END;

-- That a recovery code was made, or withdrawn. What it opens lies in `book`, so that a withdrawn
-- one opens this file no more.
CREATE TABLE recovery_code (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1))
) STRICT, WITHOUT ROWID;

CREATE TRIGGER recovery_code_no_update BEFORE UPDATE ON recovery_code
BEGIN SELECT RAISE(ABORT, 'rows of recovery_code are never changed'); END;

CREATE TRIGGER recovery_code_no_delete BEFORE DELETE ON recovery_code
BEGIN SELECT RAISE(ABORT, 'rows of recovery_code are never changed'); END;

CREATE TRIGGER recovery_code_no_replace BEFORE INSERT ON recovery_code
WHEN EXISTS (SELECT 1 FROM recovery_code WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of recovery_code are never replaced'); END;

CREATE TRIGGER recovery_code_kind BEFORE INSERT ON recovery_code
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'recovery_code'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in recovery_code'); END;

-- The book key once more, under the recovery code; all of them or none.
ALTER TABLE book ADD COLUMN recovery_salt BLOB;
ALTER TABLE book ADD COLUMN recovery_passes INTEGER;
ALTER TABLE book ADD COLUMN recovery_bytes INTEGER;
ALTER TABLE book ADD COLUMN recovery_nonce BLOB;
ALTER TABLE book ADD COLUMN recovery_box BLOB;
ALTER TABLE book ADD COLUMN recovery_digest BLOB CHECK (length(recovery_digest) = 32);
