-- Each member's PIN: Argon2id of it, sealed under the book key and bound to her, or empty after a
-- reset. The bounds are vault::SealedPin's.
INSERT INTO entry_kind (name) VALUES ('member_pin');

CREATE TABLE member_pin (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  member BLOB NOT NULL REFERENCES entry (id),
  salt BLOB NOT NULL,
  passes INTEGER NOT NULL CHECK (passes BETWEEN 0 AND 8),
  memory_bytes INTEGER NOT NULL CHECK (memory_bytes BETWEEN 0 AND 134217728),
  nonce BLOB NOT NULL,
  box BLOB NOT NULL,
  reason TEXT NOT NULL,
  CHECK ((length(salt) = 16 AND passes > 0 AND memory_bytes >= 8192 AND length(nonce) = 24 AND length(box) = 48)
      OR (length(salt) = 0 AND passes = 0 AND memory_bytes = 0 AND length(nonce) = 0 AND length(box) = 0 AND trim(reason) <> ''))
) STRICT, WITHOUT ROWID;

CREATE INDEX member_pin_member ON member_pin (member);

CREATE TRIGGER member_pin_no_update BEFORE UPDATE ON member_pin
BEGIN SELECT RAISE(ABORT, 'rows of member_pin are never changed'); END;

CREATE TRIGGER member_pin_no_delete BEFORE DELETE ON member_pin
BEGIN SELECT RAISE(ABORT, 'rows of member_pin are never changed'); END;

CREATE TRIGGER member_pin_no_replace BEFORE INSERT ON member_pin
WHEN EXISTS (SELECT 1 FROM member_pin WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of member_pin are never replaced'); END;

CREATE TRIGGER member_pin_kind BEFORE INSERT ON member_pin
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'member_pin'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in member_pin'); END;

-- An operator confirmed her own placements of a day.
INSERT INTO entry_kind (name) VALUES ('placements_confirmed');

CREATE TABLE placements_confirmed (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  day BLOB NOT NULL REFERENCES entry (id),
  member BLOB NOT NULL REFERENCES entry (id),
  through BLOB NOT NULL REFERENCES entry (id)
) STRICT, WITHOUT ROWID;

CREATE INDEX placements_confirmed_day ON placements_confirmed (day);

CREATE TRIGGER placements_confirmed_no_update BEFORE UPDATE ON placements_confirmed
BEGIN SELECT RAISE(ABORT, 'rows of placements_confirmed are never changed'); END;

CREATE TRIGGER placements_confirmed_no_delete BEFORE DELETE ON placements_confirmed
BEGIN SELECT RAISE(ABORT, 'rows of placements_confirmed are never changed'); END;

CREATE TRIGGER placements_confirmed_no_replace BEFORE INSERT ON placements_confirmed
WHEN EXISTS (SELECT 1 FROM placements_confirmed WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of placements_confirmed are never replaced'); END;

CREATE TRIGGER placements_confirmed_kind BEFORE INSERT ON placements_confirmed
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'placements_confirmed'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in placements_confirmed'); END;
