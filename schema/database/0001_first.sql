-- A Groovekeeper book. Rows are added, never changed or removed: a correction is a new row that
-- supersedes, and two laptops' books become one as the union of their rows.
--
-- Every record is a row of `entry` and a row in the table of its kind. An entry's identity is one
-- number: milliseconds since 2020-01-01 UTC, 42 bits; a count within the millisecond, 10 bits; and
-- the laptop that wrote it by its number in `hand`, 11 bits. So the order of identities is the order
-- of entry, and every column that REFERENCES entry is such a number. What an act's rows have in
-- common is said once, in `act`. `every_entry` and `current_entry` say all of it row by row.
--
-- Dates are ISO 8601 text, moments UTC milliseconds, teeth ISO 3950 numbers; sets are bits in the
-- order of docs/data-dictionary.md. Why so: docs/decisions/0011-compact-layout.md.

CREATE TABLE book (
  only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
  id BLOB NOT NULL CHECK (length(id) = 16),
  salt BLOB NOT NULL,
  kdf_passes INTEGER NOT NULL,
  kdf_bytes INTEGER NOT NULL,
  key_nonce BLOB NOT NULL,
  key_box BLOB NOT NULL,
  -- Which key it is, by its name in `book_key`; zeros for the one that the book began with.
  key_name BLOB NOT NULL DEFAULT (zeroblob(16)) CHECK (length(key_name) = 16),
  key_digest BLOB CHECK (length(key_digest) = 32),
  wraps_digest BLOB CHECK (length(wraps_digest) = 32), -- over `key_wrap`; NULL while it was always empty
  -- The book key once more, under the recovery code; all of them or none.
  recovery_salt BLOB,
  recovery_passes INTEGER,
  recovery_bytes INTEGER,
  recovery_nonce BLOB,
  recovery_box BLOB,
  recovery_digest BLOB CHECK (length(recovery_digest) = 32),
  -- 1 from an erasure until the file was rewritten, so that no page keeps bytes of what was taken out.
  to_rewrite INTEGER NOT NULL DEFAULT 0 CHECK (to_rewrite IN (0, 1))
) STRICT;

CREATE TRIGGER book_same_id BEFORE UPDATE OF only_row, id ON book
BEGIN SELECT RAISE(ABORT, 'the identity of a book is never changed'); END;

CREATE TRIGGER book_no_delete BEFORE DELETE ON book
BEGIN SELECT RAISE(ABORT, 'the row of book is never removed'); END;

-- REPLACE removes the row in its way and fires no DELETE trigger, so it must find none in its way.
CREATE TRIGGER book_no_replace BEFORE INSERT ON book
WHEN EXISTS (SELECT 1 FROM book WHERE only_row = NEW.only_row)
BEGIN SELECT RAISE(ABORT, 'rows of book are never replaced'); END;

CREATE TRIGGER migration_no_update BEFORE UPDATE ON migration
BEGIN SELECT RAISE(ABORT, 'rows of migration are never changed'); END;

CREATE TRIGGER migration_no_delete BEFORE DELETE ON migration
BEGIN SELECT RAISE(ABORT, 'rows of migration are never changed'); END;

CREATE TRIGGER migration_no_replace BEFORE INSERT ON migration
WHEN EXISTS (SELECT 1 FROM migration WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'rows of migration are never replaced'); END;

-- The laptops that wrote, by the number that stands in the identities of this file. Another file may
-- number them otherwise.
CREATE TABLE hand (
  number INTEGER PRIMARY KEY CHECK (number BETWEEN 1 AND 2047),
  laptop BLOB NOT NULL UNIQUE CHECK (length(laptop) = 16)
) STRICT;

CREATE TRIGGER hand_no_update BEFORE UPDATE ON hand
BEGIN SELECT RAISE(ABORT, 'rows of hand are never changed'); END;

CREATE TRIGGER hand_no_delete BEFORE DELETE ON hand
BEGIN SELECT RAISE(ABORT, 'rows of hand are never changed'); END;

CREATE TRIGGER hand_no_replace BEFORE INSERT ON hand
WHEN EXISTS (SELECT 1 FROM hand WHERE number = NEW.number) OR EXISTS (SELECT 1 FROM hand WHERE laptop = NEW.laptop)
BEGIN SELECT RAISE(ABORT, 'rows of hand are never replaced'); END;

CREATE TABLE entry_kind (
  number INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE
) STRICT;

INSERT INTO entry_kind (number, name) VALUES
  (1, 'program'),
  (2, 'term'),
  (3, 'school'),
  (4, 'enrolment'),
  (5, 'clinic_day'),
  (6, 'day_closure'),
  (7, 'member'),
  (8, 'child'),
  (9, 'sealed_identity'),
  (10, 'consent'),
  (11, 'consent_override'),
  (12, 'medical_flag'),
  (13, 'light'),
  (14, 'meter_reading'),
  (15, 'lot'),
  (16, 'cure_time'),
  (17, 'seating'),
  (18, 'screening'),
  (19, 'field'),
  (20, 'timer_start'),
  (21, 'step_run'),
  (22, 'wet'),
  (23, 'placement'),
  (24, 'varnish'),
  (25, 'day_outcome'),
  (26, 'retention_check'),
  (27, 'referral'),
  (28, 'contact_attempt'),
  (29, 'retraction'),
  (30, 'readiness_check'),
  (31, 'letter'),
  (32, 'incident'),
  (33, 'paper_count'),
  (34, 'light_pass'),
  (35, 'merge_answer'),
  (36, 'authorization'),
  (37, 'paper_sheet'),
  (38, 'issued_report'),
  (39, 'day_effort'),
  (40, 'lot_count'),
  (41, 'meal_eligibility'),
  (42, 'background'),
  (43, 'backup_note'),
  (44, 'agreement_override'),
  (45, 'after_cure'),
  (46, 'addendum'),
  (47, 'reopening'),
  (48, 'member_pin'),
  (49, 'placements_confirmed'),
  (50, 'personal_key'),
  (51, 'day_signature'),
  (52, 'recovery_code'),
  (60, 'erasure'),
  (75, 'program_year'),
  (76, 'day_cost'),
  (80, 'book_key'),
  (85, 'list_columns'),
  (86, 'card_join'),
  (89, 'form_handout'),
  (90, 'planned_day'),
  (91, 'day_envelope'),
  (92, 'merge_note'),
  (93, 'passphrase_change');

CREATE TRIGGER entry_kind_no_update BEFORE UPDATE ON entry_kind
BEGIN SELECT RAISE(ABORT, 'rows of entry_kind are never changed'); END;

CREATE TRIGGER entry_kind_no_delete BEFORE DELETE ON entry_kind
BEGIN SELECT RAISE(ABORT, 'rows of entry_kind are never changed'); END;

CREATE TRIGGER entry_kind_no_replace BEFORE INSERT ON entry_kind
WHEN EXISTS (SELECT 1 FROM entry_kind WHERE number = NEW.number) OR EXISTS (SELECT 1 FROM entry_kind WHERE name = NEW.name)
BEGIN SELECT RAISE(ABORT, 'rows of entry_kind are never replaced'); END;

-- A row says what is its own; NULL is what stands most often: a new thing, by whom the act is.
-- `nth` counts the rows of an act from 0, and their identities are 2048 apart.
CREATE TABLE entry (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  kind INTEGER NOT NULL REFERENCES entry_kind (number),
  nth INTEGER NOT NULL CHECK (nth >= 0),
  subject INTEGER REFERENCES entry (id) DEFERRABLE INITIALLY DEFERRED,
  supersedes INTEGER REFERENCES entry (id) DEFERRABLE INITIALLY DEFERRED,
  author INTEGER REFERENCES entry (id) DEFERRABLE INITIALLY DEFERRED,
  recorder INTEGER REFERENCES entry (id) DEFERRABLE INITIALLY DEFERRED,
  reason TEXT CHECK (reason <> ''),
  CHECK ((supersedes IS NULL) = (subject IS NULL)),
  CHECK ((supersedes IS NULL) = (reason IS NULL)),
  CHECK (kind <> 29 OR supersedes IS NOT NULL),
  CHECK (author IS NOT NULL OR recorder IS NULL)
) STRICT;

CREATE INDEX entry_subject ON entry (subject) WHERE subject IS NOT NULL;

CREATE INDEX entry_supersedes ON entry (supersedes) WHERE supersedes IS NOT NULL;

-- Of an erased entry the reason goes too, which is a person's words on the student; what was left out
-- of a part gets its own back.
CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.id)
  OR NEW.reason IS NOT 'erased' AND NOT EXISTS (SELECT 1 FROM erased_entry AS x
    JOIN child_elsewhere AS c ON c.child = x.child WHERE x.id = OLD.id)
BEGIN SELECT RAISE(ABORT, 'rows of entry are never changed'); END;

CREATE TRIGGER entry_only_reason BEFORE UPDATE OF id, kind, nth, subject, supersedes, author, recorder ON entry
BEGIN SELECT RAISE(ABORT, 'rows of entry are never changed'); END;

CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'rows of entry are never changed'); END;

CREATE TRIGGER entry_no_replace BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'rows of entry are never replaced'); END;

-- What one person did at once, and the digest over all its rows, chained for each laptop
-- (docs/decisions/0010-digests.md). `sequence` counts the rows of a laptop from 1; it is that of the
-- first row. A row whose author is not the act's says so itself.
CREATE TABLE act (
  first INTEGER PRIMARY KEY REFERENCES entry (id),
  sequence INTEGER NOT NULL CHECK (sequence > 0),
  count INTEGER NOT NULL CHECK (count > 0),
  at INTEGER NOT NULL CHECK (at BETWEEN 1 AND 5975883311103),
  utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -840 AND 840),
  author INTEGER REFERENCES entry (id),
  recorder INTEGER REFERENCES entry (id),
  verb TEXT NOT NULL,
  station TEXT NOT NULL,
  digest BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT;

CREATE UNIQUE INDEX act_hand ON act (first & 2047, sequence);

CREATE TRIGGER act_of_entries BEFORE INSERT ON act
WHEN NOT EXISTS (SELECT 1 FROM entry WHERE id = NEW.first AND nth = 0) OR NOT EXISTS (SELECT 1 FROM entry WHERE id = NEW.first + (NEW.count - 1) * 2048 AND nth = NEW.count - 1)
BEGIN SELECT RAISE(ABORT, 'an act of no entries in act'); END;

CREATE TRIGGER act_no_update BEFORE UPDATE ON act
BEGIN SELECT RAISE(ABORT, 'rows of act are never changed'); END;

CREATE TRIGGER act_no_delete BEFORE DELETE ON act
BEGIN SELECT RAISE(ABORT, 'rows of act are never changed'); END;

CREATE TRIGGER act_no_replace BEFORE INSERT ON act
WHEN EXISTS (SELECT 1 FROM act WHERE first = NEW.first) OR EXISTS (SELECT 1 FROM act WHERE first & 2047 = NEW.first & 2047 AND sequence = NEW.sequence)
BEGIN SELECT RAISE(ABORT, 'rows of act are never replaced'); END;

-- Every row that ever was, with all that is said of it.
CREATE VIEW every_entry AS
SELECT e.id, coalesce(e.subject, e.id) AS subject, a.first AS act, k.name AS kind, h.laptop,
  a.sequence + e.nth AS sequence, coalesce(e.author, a.author) AS author,
  iif(e.author IS NULL, a.recorder, e.recorder) AS recorder, a.at, a.utc_offset, e.supersedes,
  coalesce(e.reason, '') AS reason, a.verb, a.station
FROM entry AS e CROSS JOIN act AS a ON a.first = e.id - e.nth * 2048
CROSS JOIN hand AS h ON h.number = e.id & 2047 CROSS JOIN entry_kind AS k ON k.number = e.kind;

-- Those that nothing supersedes.
CREATE VIEW current_entry AS
SELECT e.id, coalesce(e.subject, e.id) AS subject, a.first AS act, k.name AS kind, h.laptop,
  a.sequence + e.nth AS sequence, coalesce(e.author, a.author) AS author,
  iif(e.author IS NULL, a.recorder, e.recorder) AS recorder, a.at, a.utc_offset, e.supersedes,
  coalesce(e.reason, '') AS reason, a.verb, a.station
FROM entry AS e CROSS JOIN act AS a ON a.first = e.id - e.nth * 2048
CROSS JOIN hand AS h ON h.number = e.id & 2047 CROSS JOIN entry_kind AS k ON k.number = e.kind
WHERE e.kind <> 29
  AND NOT EXISTS (SELECT 1 FROM entry AS later WHERE later.supersedes = e.id);

-- The tables of each kind, and the lists that hang on them. A row stands in the table of its kind;
-- a trigger says so, and keeps a list from having a thing twice.

CREATE TABLE program (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL,
  county TEXT NOT NULL,
  phone TEXT NOT NULL,
  notation TEXT NOT NULL CHECK (notation IN ('universal', 'iso-3950')),
  supervision TEXT NOT NULL CHECK (supervision IN ('direct', 'indirect', 'general', 'public health', 'collaborative', 'independent', 'dentist exam required', 'other')),
  authorizing_dentist TEXT NOT NULL,
  agreement_until TEXT CHECK (agreement_until IS date(agreement_until, '+0 days') AND agreement_until BETWEEN '1900-01-01' AND '2199-12-31'),
  privacy_footing TEXT NOT NULL,
  suppress_below INTEGER NOT NULL CHECK (suppress_below BETWEEN 5 AND 100),
  by_school TEXT NOT NULL CHECK (by_school IN ('all', 'services')),
  varnish_interval_days INTEGER NOT NULL CHECK (varnish_interval_days BETWEEN 0 AND 730),
  primary_teeth_offered INTEGER NOT NULL CHECK (primary_teeth_offered IN (0, 1)),
  etch_seconds INTEGER NOT NULL CHECK (etch_seconds BETWEEN 1 AND 300),
  etch_again_wet_seconds INTEGER NOT NULL CHECK (etch_again_wet_seconds BETWEEN 1 AND 300),
  etch_again_adding_seconds INTEGER NOT NULL CHECK (etch_again_adding_seconds BETWEEN 1 AND 300),
  rinse_seconds INTEGER NOT NULL CHECK (rinse_seconds BETWEEN 1 AND 300),
  authorization_days INTEGER NOT NULL DEFAULT 365 CHECK (authorization_days BETWEEN 1 AND 1100),
  benchmark_consented INTEGER CHECK (benchmark_consented BETWEEN 1 AND 100),
  benchmark_screened INTEGER CHECK (benchmark_screened BETWEEN 1 AND 100),
  benchmark_sealed INTEGER CHECK (benchmark_sealed BETWEEN 1 AND 100),
  benchmark_retained INTEGER CHECK (benchmark_retained BETWEEN 1 AND 100),
  CHECK (name <> '')
) STRICT;

CREATE TRIGGER program_kind BEFORE INSERT ON program
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 1
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in program'); END;

CREATE TRIGGER program_no_update BEFORE UPDATE ON program
BEGIN SELECT RAISE(ABORT, 'rows of program are never changed'); END;

CREATE TRIGGER program_no_delete BEFORE DELETE ON program
BEGIN SELECT RAISE(ABORT, 'rows of program are never changed'); END;

CREATE TRIGGER program_no_replace BEFORE INSERT ON program
WHEN EXISTS (SELECT 1 FROM program WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of program are never replaced'); END;

CREATE TABLE term (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL,
  start_on TEXT NOT NULL CHECK (start_on IS date(start_on, '+0 days') AND start_on BETWEEN '1900-01-01' AND '2199-12-31'),
  end_on TEXT NOT NULL CHECK (end_on IS date(end_on, '+0 days') AND end_on BETWEEN '1900-01-01' AND '2199-12-31'),
  CHECK (end_on > start_on),
  CHECK (name <> '')
) STRICT;

CREATE TRIGGER term_kind BEFORE INSERT ON term
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 2
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in term'); END;

CREATE TRIGGER term_no_update BEFORE UPDATE ON term
BEGIN SELECT RAISE(ABORT, 'rows of term are never changed'); END;

CREATE TRIGGER term_no_delete BEFORE DELETE ON term
BEGIN SELECT RAISE(ABORT, 'rows of term are never changed'); END;

CREATE TRIGGER term_no_replace BEFORE INSERT ON term
WHEN EXISTS (SELECT 1 FROM term WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of term are never replaced'); END;

CREATE TABLE term_holiday (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  holiday TEXT NOT NULL CHECK (holiday IS date(holiday, '+0 days') AND holiday BETWEEN '1900-01-01' AND '2199-12-31'),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER term_holiday_kind BEFORE INSERT ON term_holiday
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 2
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in term_holiday'); END;

CREATE TRIGGER term_holiday_no_update BEFORE UPDATE ON term_holiday
BEGIN SELECT RAISE(ABORT, 'rows of term_holiday are never changed'); END;

CREATE TRIGGER term_holiday_no_delete BEFORE DELETE ON term_holiday
BEGIN SELECT RAISE(ABORT, 'rows of term_holiday are never changed'); END;

CREATE TRIGGER term_holiday_no_replace BEFORE INSERT ON term_holiday
WHEN EXISTS (SELECT 1 FROM term_holiday WHERE entry = NEW.entry AND place = NEW.place)
BEGIN SELECT RAISE(ABORT, 'rows of term_holiday are never replaced'); END;

CREATE TABLE school (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL,
  code TEXT NOT NULL,
  closed_from TEXT CHECK (closed_from IS date(closed_from, '+0 days') AND closed_from BETWEEN '1900-01-01' AND '2199-12-31'),
  CHECK (name <> ''),
  CHECK (code <> '')
) STRICT;

CREATE TRIGGER school_kind BEFORE INSERT ON school
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 3
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in school'); END;

CREATE TRIGGER school_no_update BEFORE UPDATE ON school
BEGIN SELECT RAISE(ABORT, 'rows of school are never changed'); END;

CREATE TRIGGER school_no_delete BEFORE DELETE ON school
BEGIN SELECT RAISE(ABORT, 'rows of school are never changed'); END;

CREATE TRIGGER school_no_replace BEFORE INSERT ON school
WHEN EXISTS (SELECT 1 FROM school WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of school are never replaced'); END;

CREATE TABLE enrolment (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  term INTEGER NOT NULL REFERENCES entry (id),
  school INTEGER NOT NULL REFERENCES entry (id),
  grade TEXT NOT NULL,
  pupils INTEGER NOT NULL CHECK (pupils BETWEEN 0 AND 100000)
) STRICT;

CREATE INDEX enrolment_term ON enrolment (term);

CREATE TRIGGER enrolment_kind BEFORE INSERT ON enrolment
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 4
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in enrolment'); END;

CREATE TRIGGER enrolment_no_update BEFORE UPDATE ON enrolment
BEGIN SELECT RAISE(ABORT, 'rows of enrolment are never changed'); END;

CREATE TRIGGER enrolment_no_delete BEFORE DELETE ON enrolment
BEGIN SELECT RAISE(ABORT, 'rows of enrolment are never changed'); END;

CREATE TRIGGER enrolment_no_replace BEFORE INSERT ON enrolment
WHEN EXISTS (SELECT 1 FROM enrolment WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of enrolment are never replaced'); END;

CREATE TABLE clinic_day (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  term INTEGER NOT NULL REFERENCES entry (id),
  school INTEGER NOT NULL REFERENCES entry (id),
  day_on TEXT NOT NULL CHECK (day_on IS date(day_on, '+0 days') AND day_on BETWEEN '1900-01-01' AND '2199-12-31'),
  team INTEGER NOT NULL CHECK (team BETWEEN 1 AND 9),
  reason TEXT NOT NULL,
  cancelled INTEGER NOT NULL CHECK (cancelled IN (0, 1)),
  CHECK (cancelled = 0 OR reason <> '')
) STRICT;

CREATE INDEX clinic_day_term ON clinic_day (term);

CREATE TRIGGER clinic_day_kind BEFORE INSERT ON clinic_day
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 5
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in clinic_day'); END;

CREATE TRIGGER clinic_day_no_update BEFORE UPDATE ON clinic_day
BEGIN SELECT RAISE(ABORT, 'rows of clinic_day are never changed'); END;

CREATE TRIGGER clinic_day_no_delete BEFORE DELETE ON clinic_day
BEGIN SELECT RAISE(ABORT, 'rows of clinic_day are never changed'); END;

CREATE TRIGGER clinic_day_no_replace BEFORE INSERT ON clinic_day
WHEN EXISTS (SELECT 1 FROM clinic_day WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of clinic_day are never replaced'); END;

CREATE TABLE day_closure (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  clinical INTEGER NOT NULL REFERENCES entry (id),
  coordinator INTEGER NOT NULL REFERENCES entry (id)
) STRICT;

CREATE INDEX day_closure_day ON day_closure (day);

CREATE TRIGGER day_closure_kind BEFORE INSERT ON day_closure
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 6
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_closure'); END;

CREATE TRIGGER day_closure_no_update BEFORE UPDATE ON day_closure
BEGIN SELECT RAISE(ABORT, 'rows of day_closure are never changed'); END;

CREATE TRIGGER day_closure_no_delete BEFORE DELETE ON day_closure
BEGIN SELECT RAISE(ABORT, 'rows of day_closure are never changed'); END;

CREATE TRIGGER day_closure_no_replace BEFORE INSERT ON day_closure
WHEN EXISTS (SELECT 1 FROM day_closure WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_closure are never replaced'); END;

CREATE TABLE member (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL,
  initials TEXT NOT NULL,
  role TEXT NOT NULL CHECK (role IN ('hygienist', 'dentist', 'dental assistant', 'expanded-function assistant', 'coordinator', 'manager', 'student', 'volunteer')),
  licence TEXT NOT NULL,
  licence_until TEXT CHECK (licence_until IS date(licence_until, '+0 days') AND licence_until BETWEEN '1900-01-01' AND '2199-12-31'),
  may INTEGER NOT NULL CHECK (may BETWEEN 0 AND 255),
  CHECK (name <> ''),
  CHECK (initials <> '')
) STRICT;

CREATE TRIGGER member_kind BEFORE INSERT ON member
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 7
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in member'); END;

CREATE TRIGGER member_no_update BEFORE UPDATE ON member
BEGIN SELECT RAISE(ABORT, 'rows of member are never changed'); END;

CREATE TRIGGER member_no_delete BEFORE DELETE ON member
BEGIN SELECT RAISE(ABORT, 'rows of member are never changed'); END;

CREATE TRIGGER member_no_replace BEFORE INSERT ON member
WHEN EXISTS (SELECT 1 FROM member WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of member are never replaced'); END;

CREATE TABLE child (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  number TEXT NOT NULL,
  birth_year INTEGER NOT NULL CHECK (birth_year BETWEEN 1900 AND 2199),
  birth_month INTEGER NOT NULL CHECK (birth_month BETWEEN 1 AND 12),
  sex TEXT NOT NULL CHECK (sex IN ('female', 'male', 'other', 'not stated')),
  school INTEGER NOT NULL REFERENCES entry (id),
  grade TEXT NOT NULL,
  room TEXT NOT NULL,
  provisional INTEGER NOT NULL CHECK (provisional IN (0, 1)),
  note TEXT NOT NULL,
  left_from TEXT CHECK (left_from IS date(left_from, '+0 days') AND left_from BETWEEN '1900-01-01' AND '2199-12-31'),
  left_because TEXT CHECK (left_because IN ('moved away', 'graduated', 'withdrawn', 'other')),
  CHECK (number GLOB '[0-9]*-[0-9]' AND number NOT GLOB '*[^0-9]*-*' AND length(number) <= 19),
  CHECK ((left_from IS NULL) = (left_because IS NULL))
) STRICT;

CREATE INDEX child_number ON child (number);

CREATE INDEX child_school ON child (school);

CREATE TRIGGER child_kind BEFORE INSERT ON child
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 8
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in child'); END;

CREATE TRIGGER child_no_update BEFORE UPDATE ON child
BEGIN SELECT RAISE(ABORT, 'rows of child are never changed'); END;

CREATE TRIGGER child_no_delete BEFORE DELETE ON child
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of child are never changed'); END;

CREATE TRIGGER child_no_replace BEFORE INSERT ON child
WHEN EXISTS (SELECT 1 FROM child WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of child are never replaced'); END;

CREATE TABLE sealed_identity (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  nonce BLOB NOT NULL,
  box BLOB NOT NULL,
  CHECK (length(nonce) = 24),
  CHECK (length(box) > 16)
) STRICT;

CREATE INDEX sealed_identity_child ON sealed_identity (child);

CREATE TRIGGER sealed_identity_kind BEFORE INSERT ON sealed_identity
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 9
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in sealed_identity'); END;

CREATE TRIGGER sealed_identity_no_update BEFORE UPDATE ON sealed_identity
BEGIN SELECT RAISE(ABORT, 'rows of sealed_identity are never changed'); END;

CREATE TRIGGER sealed_identity_no_delete BEFORE DELETE ON sealed_identity
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of sealed_identity are never changed'); END;

CREATE TRIGGER sealed_identity_no_replace BEFORE INSERT ON sealed_identity
WHEN EXISTS (SELECT 1 FROM sealed_identity WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of sealed_identity are never replaced'); END;

CREATE TABLE consent (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  term INTEGER NOT NULL REFERENCES entry (id),
  state TEXT NOT NULL CHECK (state IN ('yes', 'yes with limits', 'no', 'not returned', 'incomplete', 'withdrawn', 'on hold')),
  allowed INTEGER NOT NULL CHECK (allowed BETWEEN 0 AND 1023),
  signer TEXT NOT NULL CHECK (signer IN ('parent', 'legal guardian', 'foster agency', 'self, of age', 'other')),
  signer_reviewed INTEGER NOT NULL CHECK (signer_reviewed IN (0, 1)),
  signed_on TEXT CHECK (signed_on IS date(signed_on, '+0 days') AND signed_on BETWEEN '1900-01-01' AND '2199-12-31'),
  received_on TEXT CHECK (received_on IS date(received_on, '+0 days') AND received_on BETWEEN '1900-01-01' AND '2199-12-31'),
  valid_from TEXT CHECK (valid_from IS date(valid_from, '+0 days') AND valid_from BETWEEN '1900-01-01' AND '2199-12-31'),
  valid_until TEXT CHECK (valid_until IS date(valid_until, '+0 days') AND valid_until BETWEEN '1900-01-01' AND '2199-12-31'),
  history TEXT NOT NULL CHECK (history IN ('yes', 'partly', 'no')),
  note TEXT NOT NULL,
  version TEXT NOT NULL,
  language TEXT NOT NULL,
  CHECK (signed_on IS NULL OR received_on IS NULL OR signed_on <= received_on),
  CHECK (valid_from IS NULL OR valid_until IS NULL OR valid_from <= valid_until),
  CHECK (state NOT IN ('yes', 'yes with limits') OR (signed_on IS NOT NULL AND valid_until IS NOT NULL AND history <> 'no'))
) STRICT;

CREATE INDEX consent_child ON consent (child);

CREATE INDEX consent_term ON consent (term);

CREATE TRIGGER consent_kind BEFORE INSERT ON consent
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 10
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in consent'); END;

CREATE TRIGGER consent_no_update BEFORE UPDATE ON consent
BEGIN SELECT RAISE(ABORT, 'rows of consent are never changed'); END;

CREATE TRIGGER consent_no_delete BEFORE DELETE ON consent
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of consent are never changed'); END;

CREATE TRIGGER consent_no_replace BEFORE INSERT ON consent
WHEN EXISTS (SELECT 1 FROM consent WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of consent are never replaced'); END;

CREATE TABLE consent_override (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  care_on TEXT NOT NULL CHECK (care_on IS date(care_on, '+0 days') AND care_on BETWEEN '1900-01-01' AND '2199-12-31'),
  clinician INTEGER NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL,
  CHECK (reason <> '')
) STRICT;

CREATE INDEX consent_override_child ON consent_override (child);

CREATE TRIGGER consent_override_kind BEFORE INSERT ON consent_override
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 11
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in consent_override'); END;

CREATE TRIGGER consent_override_no_update BEFORE UPDATE ON consent_override
BEGIN SELECT RAISE(ABORT, 'rows of consent_override are never changed'); END;

CREATE TRIGGER consent_override_no_delete BEFORE DELETE ON consent_override
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of consent_override are never changed'); END;

CREATE TRIGGER consent_override_no_replace BEFORE INSERT ON consent_override
WHEN EXISTS (SELECT 1 FROM consent_override WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of consent_override are never replaced'); END;

CREATE TABLE medical_flag (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  flag TEXT NOT NULL CHECK (flag IN ('acrylate allergy', 'latex allergy', 'rosin reaction', 'asthma', 'seizure', 'heart', 'bleeding', 'diabetes', 'immune', 'recent illness', 'mouth sore', 'strong gag', 'sensory or behaviour', 'hearing or language', 'wheelchair', 'shunt', 'pregnancy', 'other')),
  action TEXT NOT NULL CHECK (action IN ('stop', 'ask', 'note')),
  detail TEXT NOT NULL,
  resolved INTEGER NOT NULL CHECK (resolved IN (0, 1)),
  decided TEXT NOT NULL,
  CHECK (resolved = 0 OR decided <> '')
) STRICT;

CREATE INDEX medical_flag_child ON medical_flag (child);

CREATE TRIGGER medical_flag_kind BEFORE INSERT ON medical_flag
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 12
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in medical_flag'); END;

CREATE TRIGGER medical_flag_no_update BEFORE UPDATE ON medical_flag
BEGIN SELECT RAISE(ABORT, 'rows of medical_flag are never changed'); END;

CREATE TRIGGER medical_flag_no_delete BEFORE DELETE ON medical_flag
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of medical_flag are never changed'); END;

CREATE TRIGGER medical_flag_no_replace BEFORE INSERT ON medical_flag
WHEN EXISTS (SELECT 1 FROM medical_flag WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of medical_flag are never replaced'); END;

CREATE TABLE light (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  tag TEXT NOT NULL,
  type TEXT NOT NULL CHECK (type IN ('LED', 'halogen', 'other')),
  makers_least INTEGER NOT NULL CHECK (makers_least BETWEEN 0 AND 5000),
  baseline INTEGER NOT NULL CHECK (baseline BETWEEN 0 AND 5000),
  baseline_with_sleeve INTEGER NOT NULL CHECK (baseline_with_sleeve IN (0, 1)),
  meter TEXT NOT NULL,
  in_service INTEGER NOT NULL CHECK (in_service IN (0, 1)),
  CHECK (tag <> '')
) STRICT;

CREATE TRIGGER light_kind BEFORE INSERT ON light
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 13
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in light'); END;

CREATE TRIGGER light_no_update BEFORE UPDATE ON light
BEGIN SELECT RAISE(ABORT, 'rows of light are never changed'); END;

CREATE TRIGGER light_no_delete BEFORE DELETE ON light
BEGIN SELECT RAISE(ABORT, 'rows of light are never changed'); END;

CREATE TRIGGER light_no_replace BEFORE INSERT ON light
WHEN EXISTS (SELECT 1 FROM light WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of light are never replaced'); END;

CREATE TABLE meter_reading (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  light INTEGER NOT NULL REFERENCES entry (id),
  read_on TEXT NOT NULL CHECK (read_on IS date(read_on, '+0 days') AND read_on BETWEEN '1900-01-01' AND '2199-12-31'),
  value INTEGER NOT NULL CHECK (value BETWEEN 0 AND 5000),
  with_sleeve INTEGER NOT NULL CHECK (with_sleeve IN (0, 1)),
  meter TEXT NOT NULL,
  tip_cleaned INTEGER NOT NULL CHECK (tip_cleaned IN (0, 1))
) STRICT;

CREATE INDEX meter_reading_light ON meter_reading (light);

CREATE TRIGGER meter_reading_kind BEFORE INSERT ON meter_reading
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 14
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in meter_reading'); END;

CREATE TRIGGER meter_reading_no_update BEFORE UPDATE ON meter_reading
BEGIN SELECT RAISE(ABORT, 'rows of meter_reading are never changed'); END;

CREATE TRIGGER meter_reading_no_delete BEFORE DELETE ON meter_reading
BEGIN SELECT RAISE(ABORT, 'rows of meter_reading are never changed'); END;

CREATE TRIGGER meter_reading_no_replace BEFORE INSERT ON meter_reading
WHEN EXISTS (SELECT 1 FROM meter_reading WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of meter_reading are never replaced'); END;

CREATE TABLE lot (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  material_kind TEXT NOT NULL CHECK (material_kind IN ('light-cure sealant', 'self-cure sealant', 'glass ionomer', 'etchant', 'bonding agent', 'varnish')),
  material TEXT NOT NULL,
  lot TEXT NOT NULL,
  expiry TEXT NOT NULL CHECK (expiry IS date(expiry, '+0 days') AND expiry BETWEEN '1900-01-01' AND '2199-12-31'),
  makers_seconds INTEGER NOT NULL CHECK (makers_seconds BETWEEN 0 AND 600),
  contains INTEGER NOT NULL CHECK (contains BETWEEN 0 AND 15),
  quarantined INTEGER NOT NULL CHECK (quarantined IN (0, 1)),
  quarantine_reason TEXT NOT NULL,
  used_up_on TEXT CHECK (used_up_on IS date(used_up_on, '+0 days') AND used_up_on BETWEEN '1900-01-01' AND '2199-12-31'),
  CHECK (material <> ''),
  CHECK (lot <> ''),
  CHECK (quarantined = 0 OR quarantine_reason <> '')
) STRICT;

CREATE TRIGGER lot_kind BEFORE INSERT ON lot
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 15
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in lot'); END;

CREATE TRIGGER lot_no_update BEFORE UPDATE ON lot
BEGIN SELECT RAISE(ABORT, 'rows of lot are never changed'); END;

CREATE TRIGGER lot_no_delete BEFORE DELETE ON lot
BEGIN SELECT RAISE(ABORT, 'rows of lot are never changed'); END;

CREATE TRIGGER lot_no_replace BEFORE INSERT ON lot
WHEN EXISTS (SELECT 1 FROM lot WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of lot are never replaced'); END;

CREATE TABLE cure_time (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  light INTEGER NOT NULL REFERENCES entry (id),
  material TEXT NOT NULL,
  seconds INTEGER NOT NULL CHECK (seconds BETWEEN 1 AND 600)
) STRICT;

CREATE TRIGGER cure_time_kind BEFORE INSERT ON cure_time
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 16
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in cure_time'); END;

CREATE TRIGGER cure_time_no_update BEFORE UPDATE ON cure_time
BEGIN SELECT RAISE(ABORT, 'rows of cure_time are never changed'); END;

CREATE TRIGGER cure_time_no_delete BEFORE DELETE ON cure_time
BEGIN SELECT RAISE(ABORT, 'rows of cure_time are never changed'); END;

CREATE TRIGGER cure_time_no_replace BEFORE INSERT ON cure_time
WHEN EXISTS (SELECT 1 FROM cure_time WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of cure_time are never replaced'); END;

CREATE TABLE seating (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  confirmed INTEGER NOT NULL CHECK (confirmed BETWEEN 1 AND 31),
  assented INTEGER NOT NULL CHECK (assented IN (0, 1)),
  history_unchanged INTEGER NOT NULL CHECK (history_unchanged IN (0, 1)),
  changed TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE INDEX seating_child ON seating (child);

CREATE INDEX seating_day ON seating (day);

CREATE TRIGGER seating_kind BEFORE INSERT ON seating
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 17
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in seating'); END;

CREATE TRIGGER seating_no_update BEFORE UPDATE ON seating
BEGIN SELECT RAISE(ABORT, 'rows of seating are never changed'); END;

CREATE TRIGGER seating_no_delete BEFORE DELETE ON seating
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of seating are never changed'); END;

CREATE TRIGGER seating_no_replace BEFORE INSERT ON seating
WHEN EXISTS (SELECT 1 FROM seating WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of seating are never replaced'); END;

CREATE TABLE screening (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  untreated_decay TEXT NOT NULL CHECK (untreated_decay IN ('no', 'yes', 'cannot tell')),
  treated_decay TEXT NOT NULL CHECK (treated_decay IN ('no', 'yes', 'cannot tell')),
  urgency TEXT NOT NULL CHECK (urgency IN ('none', 'early', 'urgent')),
  urgent_reason TEXT NOT NULL CHECK (urgent_reason IN ('none', 'pain', 'swelling', 'fistula or abscess', 'trauma', 'soft tissue', 'other')),
  note TEXT NOT NULL,
  CHECK (urgency <> 'urgent' OR urgent_reason <> 'none')
) STRICT;

CREATE INDEX screening_child ON screening (child);

CREATE INDEX screening_day ON screening (day);

CREATE TRIGGER screening_kind BEFORE INSERT ON screening
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 18
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in screening'); END;

CREATE TRIGGER screening_no_update BEFORE UPDATE ON screening
BEGIN SELECT RAISE(ABORT, 'rows of screening are never changed'); END;

CREATE TRIGGER screening_no_delete BEFORE DELETE ON screening
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of screening are never changed'); END;

CREATE TRIGGER screening_no_replace BEFORE INSERT ON screening
WHEN EXISTS (SELECT 1 FROM screening WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of screening are never replaced'); END;

CREATE TABLE screening_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  presence TEXT NOT NULL CHECK (presence IN ('unerupted', 'partly erupted', 'erupted', 'extracted', 'never formed', 'shed', 'primary still present', 'cannot see')),
  occlusal TEXT NOT NULL CHECK (occlusal IN ('not looked at', 'sound', 'early lesion', 'cavitated', 'restored', 'sealed whole', 'sealed part', 'crowned', 'banded', 'fractured')),
  occlusal_origin TEXT NOT NULL CHECK (occlusal_origin IN ('not sealed', 'ours', 'other', 'unknown')),
  buccal TEXT NOT NULL CHECK (buccal IN ('not looked at', 'sound', 'early lesion', 'cavitated', 'restored', 'sealed whole', 'sealed part', 'crowned', 'banded', 'fractured')),
  buccal_origin TEXT NOT NULL CHECK (buccal_origin IN ('not sealed', 'ours', 'other', 'unknown')),
  lingual TEXT NOT NULL CHECK (lingual IN ('not looked at', 'sound', 'early lesion', 'cavitated', 'restored', 'sealed whole', 'sealed part', 'crowned', 'banded', 'fractured')),
  lingual_origin TEXT NOT NULL CHECK (lingual_origin IN ('not sealed', 'ours', 'other', 'unknown')),
  enamel TEXT NOT NULL CHECK (enamel IN ('none', 'fluorosis mild', 'fluorosis pitted', 'opacity', 'opacity broken', 'hypoplasia')),
  soft_tissue TEXT NOT NULL CHECK (soft_tissue IN ('none', 'operculum', 'gum over companion')),
  decision TEXT NOT NULL CHECK (decision IN ('none', 'seal', 'interim', 'repair', 'reseal', 'watch', 'refer', 'not allowed by consent', 'cannot isolate', 'child declined', 'not today')),
  to_seal INTEGER NOT NULL CHECK (to_seal BETWEEN 0 AND 7),
  revisit INTEGER NOT NULL CHECK (revisit IN (0, 1)),
  note TEXT NOT NULL,
  reseal_why TEXT NOT NULL DEFAULT 'not said' CHECK (reseal_why IN ('not said', 'lost', 'lifted', 'part gone', 'leaks at the edge', 'interim cover replaced', 'other')),
  CHECK (presence <> 'shed' OR tooth > 50),
  CHECK (decision NOT IN ('seal', 'interim', 'repair', 'reseal') OR (to_seal > 0 AND presence IN ('partly erupted', 'erupted'))),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER screening_tooth_kind BEFORE INSERT ON screening_tooth
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 18
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in screening_tooth'); END;

CREATE TRIGGER screening_tooth_no_update BEFORE UPDATE ON screening_tooth
BEGIN SELECT RAISE(ABORT, 'rows of screening_tooth are never changed'); END;

CREATE TRIGGER screening_tooth_no_delete BEFORE DELETE ON screening_tooth
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of screening_tooth are never changed'); END;

CREATE TRIGGER screening_tooth_no_replace BEFORE INSERT ON screening_tooth
WHEN EXISTS (SELECT 1 FROM screening_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM screening_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of screening_tooth are never replaced'); END;

CREATE TABLE field (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  isolation TEXT NOT NULL CHECK (isolation IN ('cotton rolls', 'cotton rolls with holders', 'cheek pads', 'cotton rolls and cheek pads', 'rubber dam', 'dry field kit', 'suction bite block', 'single tooth', 'retractor', 'other')),
  guards INTEGER NOT NULL CHECK (guards BETWEEN 0 AND 15),
  cheek_held_by TEXT NOT NULL CHECK (cheek_held_by IN ('device', 'operator', 'assistant', 'nobody')),
  tongue_held_by TEXT NOT NULL CHECK (tongue_held_by IN ('device', 'operator', 'assistant', 'nobody')),
  four_handed INTEGER NOT NULL CHECK (four_handed IN (0, 1)),
  assistant INTEGER REFERENCES entry (id),
  sealant INTEGER NOT NULL REFERENCES entry (id),
  etchant INTEGER REFERENCES entry (id),
  adding INTEGER NOT NULL CHECK (adding IN (0, 1)),
  note TEXT NOT NULL,
  cleaned TEXT NOT NULL DEFAULT 'not recorded' CHECK (cleaned IN ('not recorded', 'dry toothbrush', 'handpiece brush', 'gauze', 'other', 'not cleaned')),
  CHECK (guards = 15 OR note <> '')
) STRICT;

CREATE INDEX field_child ON field (child);

CREATE INDEX field_day ON field (day);

CREATE TRIGGER field_kind BEFORE INSERT ON field
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 19
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in field'); END;

CREATE TRIGGER field_no_update BEFORE UPDATE ON field
BEGIN SELECT RAISE(ABORT, 'rows of field are never changed'); END;

CREATE TRIGGER field_no_delete BEFORE DELETE ON field
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of field are never changed'); END;

CREATE TRIGGER field_no_replace BEFORE INSERT ON field
WHEN EXISTS (SELECT 1 FROM field WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of field are never replaced'); END;

CREATE TABLE field_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  surfaces INTEGER NOT NULL CHECK (surfaces BETWEEN 1 AND 7),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER field_tooth_kind BEFORE INSERT ON field_tooth
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 19
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in field_tooth'); END;

CREATE TRIGGER field_tooth_no_update BEFORE UPDATE ON field_tooth
BEGIN SELECT RAISE(ABORT, 'rows of field_tooth are never changed'); END;

CREATE TRIGGER field_tooth_no_delete BEFORE DELETE ON field_tooth
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of field_tooth are never changed'); END;

CREATE TRIGGER field_tooth_no_replace BEFORE INSERT ON field_tooth
WHEN EXISTS (SELECT 1 FROM field_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM field_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of field_tooth are never replaced'); END;

CREATE TABLE timer_start (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  field INTEGER NOT NULL REFERENCES entry (id),
  step TEXT NOT NULL CHECK (step IN ('etch', 'rinse', 'dry', 'flow', 'cure', 'check')),
  target_seconds INTEGER NOT NULL CHECK (target_seconds BETWEEN 0 AND 600),
  light INTEGER REFERENCES entry (id)
) STRICT;

CREATE INDEX timer_start_field ON timer_start (field);

CREATE TRIGGER timer_start_kind BEFORE INSERT ON timer_start
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 20
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in timer_start'); END;

CREATE TRIGGER timer_start_no_update BEFORE UPDATE ON timer_start
BEGIN SELECT RAISE(ABORT, 'rows of timer_start are never changed'); END;

CREATE TRIGGER timer_start_no_delete BEFORE DELETE ON timer_start
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of timer_start are never changed'); END;

CREATE TRIGGER timer_start_no_replace BEFORE INSERT ON timer_start
WHEN EXISTS (SELECT 1 FROM timer_start WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of timer_start are never replaced'); END;

CREATE TABLE timer_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  surfaces INTEGER NOT NULL CHECK (surfaces BETWEEN 1 AND 7),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER timer_tooth_kind BEFORE INSERT ON timer_tooth
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 20
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in timer_tooth'); END;

CREATE TRIGGER timer_tooth_no_update BEFORE UPDATE ON timer_tooth
BEGIN SELECT RAISE(ABORT, 'rows of timer_tooth are never changed'); END;

CREATE TRIGGER timer_tooth_no_delete BEFORE DELETE ON timer_tooth
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of timer_tooth are never changed'); END;

CREATE TRIGGER timer_tooth_no_replace BEFORE INSERT ON timer_tooth
WHEN EXISTS (SELECT 1 FROM timer_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM timer_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of timer_tooth are never replaced'); END;

CREATE TABLE step_run (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  field INTEGER NOT NULL REFERENCES entry (id),
  step TEXT NOT NULL CHECK (step IN ('etch', 'rinse', 'dry', 'flow', 'cure', 'check')),
  result TEXT NOT NULL CHECK (result IN ('done', 'interrupted', 'short accepted', 'frosty', 'not frosty', 'frosty not seen', 'passed', 'added then passed', 'redone then passed', 'not achieved')),
  lasted_ms INTEGER CHECK (lasted_ms BETWEEN 0 AND 3600000),
  target_seconds INTEGER CHECK (target_seconds BETWEEN 0 AND 600),
  source TEXT NOT NULL CHECK (source IN ('none', 'timer', 'typed')),
  timer INTEGER REFERENCES entry (id),
  light INTEGER REFERENCES entry (id),
  lot INTEGER REFERENCES entry (id),
  etch_reason TEXT NOT NULL CHECK (etch_reason IN ('first', 'wet before sealant', 'wet when adding', 'not frosty', 'incomplete earlier')),
  reason TEXT NOT NULL,
  CHECK ((source = 'none') = (lasted_ms IS NULL)),
  CHECK (CASE step WHEN 'etch' THEN result IN ('done', 'interrupted', 'short accepted') AND lasted_ms IS NOT NULL WHEN 'cure' THEN result IN ('done', 'interrupted', 'short accepted') AND lasted_ms IS NOT NULL WHEN 'dry' THEN result IN ('done', 'frosty', 'not frosty', 'frosty not seen') WHEN 'check' THEN result IN ('passed', 'added then passed', 'redone then passed', 'not achieved') ELSE result IN ('done', 'short accepted') END),
  CHECK (result NOT IN ('short accepted', 'frosty not seen') OR reason <> ''),
  CHECK (step <> 'cure' OR result <> 'done' OR lasted_ms >= target_seconds * 1000)
) STRICT;

CREATE INDEX step_run_field ON step_run (field);

CREATE TRIGGER step_run_kind BEFORE INSERT ON step_run
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 21
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in step_run'); END;

CREATE TRIGGER step_run_no_update BEFORE UPDATE ON step_run
BEGIN SELECT RAISE(ABORT, 'rows of step_run are never changed'); END;

CREATE TRIGGER step_run_no_delete BEFORE DELETE ON step_run
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of step_run are never changed'); END;

CREATE TRIGGER step_run_no_replace BEFORE INSERT ON step_run
WHEN EXISTS (SELECT 1 FROM step_run WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of step_run are never replaced'); END;

CREATE TABLE step_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  surfaces INTEGER NOT NULL CHECK (surfaces BETWEEN 1 AND 7),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER step_tooth_kind BEFORE INSERT ON step_tooth
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 21
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in step_tooth'); END;

CREATE TRIGGER step_tooth_no_update BEFORE UPDATE ON step_tooth
BEGIN SELECT RAISE(ABORT, 'rows of step_tooth are never changed'); END;

CREATE TRIGGER step_tooth_no_delete BEFORE DELETE ON step_tooth
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of step_tooth are never changed'); END;

CREATE TRIGGER step_tooth_no_replace BEFORE INSERT ON step_tooth
WHEN EXISTS (SELECT 1 FROM step_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM step_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of step_tooth are never replaced'); END;

CREATE TABLE wet (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  field INTEGER NOT NULL REFERENCES entry (id),
  stage TEXT NOT NULL CHECK (stage IN ('before etch', 'after etch', 'after frosty', 'during flow', 'before cure ends', 'at check')),
  cause TEXT NOT NULL CHECK (cause IN ('saliva', 'blood', 'tongue', 'cough or gag', 'roll slipped', 'air line', 'child moved', 'other')),
  note TEXT NOT NULL
) STRICT;

CREATE INDEX wet_field ON wet (field);

CREATE TRIGGER wet_kind BEFORE INSERT ON wet
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 22
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in wet'); END;

CREATE TRIGGER wet_no_update BEFORE UPDATE ON wet
BEGIN SELECT RAISE(ABORT, 'rows of wet are never changed'); END;

CREATE TRIGGER wet_no_delete BEFORE DELETE ON wet
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of wet are never changed'); END;

CREATE TRIGGER wet_no_replace BEFORE INSERT ON wet
WHEN EXISTS (SELECT 1 FROM wet WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of wet are never replaced'); END;

CREATE TABLE wet_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER wet_tooth_kind BEFORE INSERT ON wet_tooth
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 22
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in wet_tooth'); END;

CREATE TRIGGER wet_tooth_no_update BEFORE UPDATE ON wet_tooth
BEGIN SELECT RAISE(ABORT, 'rows of wet_tooth are never changed'); END;

CREATE TRIGGER wet_tooth_no_delete BEFORE DELETE ON wet_tooth
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of wet_tooth are never changed'); END;

CREATE TRIGGER wet_tooth_no_replace BEFORE INSERT ON wet_tooth
WHEN EXISTS (SELECT 1 FROM wet_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM wet_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of wet_tooth are never replaced'); END;

CREATE TABLE placement (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  field INTEGER NOT NULL REFERENCES entry (id),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  surfaces INTEGER NOT NULL CHECK (surfaces BETWEEN 1 AND 7),
  type TEXT NOT NULL CHECK (type IN ('new', 'repair', 'reseal', 'interim', 'replaces interim')),
  attempt TEXT NOT NULL CHECK (attempt IN ('complete', 'stopped before sealant', 'stopped before cure', 'not achieved')),
  placed_by INTEGER NOT NULL REFERENCES entry (id),
  assistant INTEGER REFERENCES entry (id),
  isolation TEXT NOT NULL CHECK (isolation IN ('cotton rolls', 'cotton rolls with holders', 'cheek pads', 'cotton rolls and cheek pads', 'rubber dam', 'dry field kit', 'suction bite block', 'single tooth', 'retractor', 'other')),
  four_handed INTEGER NOT NULL CHECK (four_handed IN (0, 1)),
  sealant INTEGER NOT NULL REFERENCES entry (id),
  etchant INTEGER REFERENCES entry (id),
  light INTEGER REFERENCES entry (id),
  etched_ms INTEGER CHECK (etched_ms BETWEEN 0 AND 3600000),
  cured_ms INTEGER CHECK (cured_ms BETWEEN 0 AND 3600000),
  cures INTEGER NOT NULL CHECK (cures BETWEEN 0 AND 99),
  interrupted_cures INTEGER NOT NULL CHECK (interrupted_cures BETWEEN 0 AND 99),
  wet_events INTEGER NOT NULL CHECK (wet_events BETWEEN 0 AND 99),
  etches INTEGER NOT NULL CHECK (etches BETWEEN 0 AND 99),
  frosty INTEGER NOT NULL CHECK (frosty IN (0, 1)),
  check_result TEXT NOT NULL CHECK (check_result IN ('done', 'interrupted', 'short accepted', 'frosty', 'not frosty', 'frosty not seen', 'passed', 'added then passed', 'redone then passed', 'not achieved')),
  note TEXT NOT NULL,
  CHECK (attempt <> 'complete' OR (cures > 0 AND check_result IN ('passed', 'added then passed', 'redone then passed')))
) STRICT;

CREATE INDEX placement_child ON placement (child);

CREATE INDEX placement_day ON placement (day);

CREATE INDEX placement_field ON placement (field);

CREATE TRIGGER placement_kind BEFORE INSERT ON placement
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 23
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in placement'); END;

CREATE TRIGGER placement_no_update BEFORE UPDATE ON placement
BEGIN SELECT RAISE(ABORT, 'rows of placement are never changed'); END;

CREATE TRIGGER placement_no_delete BEFORE DELETE ON placement
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of placement are never changed'); END;

CREATE TRIGGER placement_no_replace BEFORE INSERT ON placement
WHEN EXISTS (SELECT 1 FROM placement WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of placement are never replaced'); END;

CREATE TABLE varnish (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  lot INTEGER NOT NULL REFERENCES entry (id)
) STRICT;

CREATE INDEX varnish_child ON varnish (child);

CREATE INDEX varnish_day ON varnish (day);

CREATE TRIGGER varnish_kind BEFORE INSERT ON varnish
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 24
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in varnish'); END;

CREATE TRIGGER varnish_no_update BEFORE UPDATE ON varnish
BEGIN SELECT RAISE(ABORT, 'rows of varnish are never changed'); END;

CREATE TRIGGER varnish_no_delete BEFORE DELETE ON varnish
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of varnish are never changed'); END;

CREATE TRIGGER varnish_no_replace BEFORE INSERT ON varnish
WHEN EXISTS (SELECT 1 FROM varnish WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of varnish are never replaced'); END;

CREATE TABLE day_outcome (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  day_end TEXT NOT NULL CHECK (day_end IN ('sealed, complete', 'sealed, unfinished', 'screened, none needed', 'screened, not treated', 'recheck only', 'absent', 'declined', 'left school', 'withdrawn', 'on hold', 'not reached')),
  reason TEXT NOT NULL,
  varnish_skipped TEXT NOT NULL DEFAULT '',
  CHECK (day_end NOT IN ('sealed, unfinished', 'screened, not treated') OR reason <> '')
) STRICT;

CREATE INDEX day_outcome_child ON day_outcome (child);

CREATE INDEX day_outcome_day ON day_outcome (day);

CREATE TRIGGER day_outcome_kind BEFORE INSERT ON day_outcome
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 25
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_outcome'); END;

CREATE TRIGGER day_outcome_no_update BEFORE UPDATE ON day_outcome
BEGIN SELECT RAISE(ABORT, 'rows of day_outcome are never changed'); END;

CREATE TRIGGER day_outcome_no_delete BEFORE DELETE ON day_outcome
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_outcome are never changed'); END;

CREATE TRIGGER day_outcome_no_replace BEFORE INSERT ON day_outcome
WHEN EXISTS (SELECT 1 FROM day_outcome WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_outcome are never replaced'); END;

CREATE TABLE retention_check (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  placement INTEGER NOT NULL REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  check_kind TEXT NOT NULL CHECK (check_kind IN ('short-term sample', 'short-term triggered', 'long-term', 'opportunistic', 'reported loss')),
  blinded INTEGER NOT NULL CHECK (blinded IN (0, 1)),
  occlusal TEXT NOT NULL CHECK (occlusal IN ('not sealed', 'whole', 'part', 'lost', 'cannot assess')),
  buccal TEXT NOT NULL CHECK (buccal IN ('not sealed', 'whole', 'part', 'lost', 'cannot assess')),
  lingual TEXT NOT NULL CHECK (lingual IN ('not sealed', 'whole', 'part', 'lost', 'cannot assess')),
  why TEXT NOT NULL CHECK (why IN ('none', 'restored over', 'crowned', 'extracted', 'shed', 'banded', 'covered by gum', 'child unable', 'record doubtful')),
  health TEXT NOT NULL CHECK (health IN ('sound', 'early lesion', 'cavitated', 'restored')),
  lift TEXT NOT NULL CHECK (lift IN ('not done', 'held', 'lifted')),
  action TEXT NOT NULL CHECK (action IN ('none', 'repair today', 'reseal today', 'repair next visit', 'refer', 'watch')),
  note TEXT NOT NULL,
  CHECK (why <> 'none' OR 'cannot assess' NOT IN (occlusal, buccal, lingual)),
  CHECK (occlusal <> 'not sealed' OR buccal <> 'not sealed' OR lingual <> 'not sealed')
) STRICT;

CREATE INDEX retention_check_placement ON retention_check (placement);

CREATE INDEX retention_check_child ON retention_check (child);

CREATE INDEX retention_check_day ON retention_check (day);

CREATE TRIGGER retention_check_kind BEFORE INSERT ON retention_check
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 26
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in retention_check'); END;

CREATE TRIGGER retention_check_no_update BEFORE UPDATE ON retention_check
BEGIN SELECT RAISE(ABORT, 'rows of retention_check are never changed'); END;

CREATE TRIGGER retention_check_no_delete BEFORE DELETE ON retention_check
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of retention_check are never changed'); END;

CREATE TRIGGER retention_check_no_replace BEFORE INSERT ON retention_check
WHEN EXISTS (SELECT 1 FROM retention_check WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of retention_check are never replaced'); END;

CREATE TABLE referral (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  urgency TEXT NOT NULL CHECK (urgency IN ('early', 'urgent')),
  reason TEXT NOT NULL,
  due TEXT NOT NULL CHECK (due IS date(due, '+0 days') AND due BETWEEN '1900-01-01' AND '2199-12-31'),
  referred_to TEXT NOT NULL CHECK (referred_to IN ('own dentist', 'community clinic', 'emergency', 'medical', 'none available')),
  state TEXT NOT NULL CHECK (state IN ('open', 'treated, complete', 'treatment started', 'seen, none needed', 'declined', 'moved', 'lost after attempts')),
  CHECK (reason <> '')
) STRICT;

CREATE INDEX referral_child ON referral (child);

CREATE INDEX referral_day ON referral (day);

CREATE TRIGGER referral_kind BEFORE INSERT ON referral
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 27
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in referral'); END;

CREATE TRIGGER referral_no_update BEFORE UPDATE ON referral
BEGIN SELECT RAISE(ABORT, 'rows of referral are never changed'); END;

CREATE TRIGGER referral_no_delete BEFORE DELETE ON referral
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of referral are never changed'); END;

CREATE TRIGGER referral_no_replace BEFORE INSERT ON referral
WHEN EXISTS (SELECT 1 FROM referral WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of referral are never replaced'); END;

CREATE TABLE contact_attempt (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  channel TEXT NOT NULL CHECK (channel IN ('phone', 'letter', 'nurse', 'message')),
  result TEXT NOT NULL CHECK (result IN ('reached', 'message', 'no answer', 'wrong number', 'returned')),
  note TEXT NOT NULL
) STRICT;

CREATE INDEX contact_attempt_child ON contact_attempt (child);

CREATE INDEX contact_attempt_day ON contact_attempt (day);

CREATE TRIGGER contact_attempt_kind BEFORE INSERT ON contact_attempt
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 28
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in contact_attempt'); END;

CREATE TRIGGER contact_attempt_no_update BEFORE UPDATE ON contact_attempt
BEGIN SELECT RAISE(ABORT, 'rows of contact_attempt are never changed'); END;

CREATE TRIGGER contact_attempt_no_delete BEFORE DELETE ON contact_attempt
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of contact_attempt are never changed'); END;

CREATE TRIGGER contact_attempt_no_replace BEFORE INSERT ON contact_attempt
WHEN EXISTS (SELECT 1 FROM contact_attempt WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of contact_attempt are never replaced'); END;

CREATE TABLE readiness_check (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  item TEXT NOT NULL CHECK (item IN ('air line', 'curing light', 'lots and expiry', 'sterilizer', 'suction and water', 'eyes', 'emergency kit', 'clock')),
  answer TEXT NOT NULL CHECK (answer IN ('done', 'failed', 'not applicable', 'passed over')),
  reason TEXT NOT NULL,
  detail TEXT NOT NULL,
  CHECK (answer = 'done' OR reason <> '')
) STRICT;

CREATE INDEX readiness_check_day ON readiness_check (day);

CREATE TRIGGER readiness_check_kind BEFORE INSERT ON readiness_check
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 30
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in readiness_check'); END;

CREATE TRIGGER readiness_check_no_update BEFORE UPDATE ON readiness_check
BEGIN SELECT RAISE(ABORT, 'rows of readiness_check are never changed'); END;

CREATE TRIGGER readiness_check_no_delete BEFORE DELETE ON readiness_check
BEGIN SELECT RAISE(ABORT, 'rows of readiness_check are never changed'); END;

CREATE TRIGGER readiness_check_no_replace BEFORE INSERT ON readiness_check
WHEN EXISTS (SELECT 1 FROM readiness_check WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of readiness_check are never replaced'); END;

-- That a letter was written and what it said; never its text, which holds a name.
CREATE TABLE letter (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  guardian INTEGER NOT NULL CHECK (guardian BETWEEN -1 AND 15),
  language TEXT NOT NULL CHECK (language <> ''),
  interpreter INTEGER NOT NULL CHECK (interpreter IN (0, 1)),
  variant TEXT NOT NULL CHECK (variant IN ('all fine', 'sealed', 'sealed, unfinished', 'not treated', 'referral, early', 'referral, urgent', 'recheck, whole', 'recheck, repaired', 'absent', 'stopped')),
  facts TEXT NOT NULL,
  template_digest TEXT NOT NULL CHECK (length(template_digest) = 64),
  text_digest TEXT NOT NULL CHECK (length(text_digest) = 64),
  written TEXT NOT NULL CHECK (written IS date(written, '+0 days') AND written BETWEEN '1900-01-01' AND '2199-12-31'),
  prints INTEGER NOT NULL CHECK (prints BETWEEN 1 AND 1000000),
  state TEXT NOT NULL CHECK (state IN ('queued', 'printed', 'handed', 'returned')),
  replaces INTEGER REFERENCES entry (id)
) STRICT;

CREATE INDEX letter_child ON letter (child);

CREATE INDEX letter_day ON letter (day);

CREATE TRIGGER letter_kind BEFORE INSERT ON letter
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 31
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in letter'); END;

CREATE TRIGGER letter_no_update BEFORE UPDATE ON letter
BEGIN SELECT RAISE(ABORT, 'rows of letter are never changed'); END;

CREATE TRIGGER letter_no_delete BEFORE DELETE ON letter
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of letter are never changed'); END;

CREATE TRIGGER letter_no_replace BEFORE INSERT ON letter
WHEN EXISTS (SELECT 1 FROM letter WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of letter are never replaced'); END;

-- Free text may name what no export may hold, so this table is in none.
CREATE TABLE incident (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  child INTEGER REFERENCES entry (id),
  type TEXT NOT NULL CHECK (type IN ('etchant on soft tissue', 'eye splash', 'foreign body', 'fall', 'fainting', 'allergic sign', 'staff sharps exposure', 'privacy', 'equipment')),
  happened INTEGER NOT NULL CHECK (happened BETWEEN 1 AND 5975883311103),
  happened_offset INTEGER NOT NULL CHECK (happened_offset BETWEEN -840 AND 840),
  done TEXT NOT NULL CHECK (done <> ''),
  told TEXT NOT NULL,
  follow_up TEXT NOT NULL,
  settled INTEGER NOT NULL CHECK (settled IN (0, 1))
) STRICT;

CREATE INDEX incident_day ON incident (day);

CREATE INDEX incident_child ON incident (child) WHERE child IS NOT NULL;

CREATE TRIGGER incident_kind BEFORE INSERT ON incident
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 32
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in incident'); END;

CREATE TRIGGER incident_no_update BEFORE UPDATE ON incident
BEGIN SELECT RAISE(ABORT, 'rows of incident are never changed'); END;

CREATE TRIGGER incident_no_delete BEFORE DELETE ON incident
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of incident are never changed'); END;

CREATE TRIGGER incident_no_replace BEFORE INSERT ON incident
WHEN EXISTS (SELECT 1 FROM incident WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of incident are never replaced'); END;

CREATE TABLE paper_count (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  paper TEXT NOT NULL CHECK (paper IN ('letters', 'runner''s list', 'nurse''s sheets', 'other sheets')),
  out INTEGER NOT NULL CHECK (out BETWEEN 0 AND 1000000),
  back INTEGER NOT NULL CHECK (back BETWEEN 0 AND 1000000),
  handed INTEGER NOT NULL CHECK (handed BETWEEN 0 AND 1000000),
  shredded INTEGER NOT NULL CHECK (shredded BETWEEN 0 AND 1000000),
  reason TEXT NOT NULL
) STRICT;

CREATE INDEX paper_count_day ON paper_count (day);

CREATE TRIGGER paper_count_kind BEFORE INSERT ON paper_count
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 33
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in paper_count'); END;

CREATE TRIGGER paper_count_no_update BEFORE UPDATE ON paper_count
BEGIN SELECT RAISE(ABORT, 'rows of paper_count are never changed'); END;

CREATE TRIGGER paper_count_no_delete BEFORE DELETE ON paper_count
BEGIN SELECT RAISE(ABORT, 'rows of paper_count are never changed'); END;

CREATE TRIGGER paper_count_no_replace BEFORE INSERT ON paper_count
WHEN EXISTS (SELECT 1 FROM paper_count WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of paper_count are never replaced'); END;

-- The end of the day's reading of a light, passed over.
CREATE TABLE light_pass (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  light INTEGER NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;

CREATE INDEX light_pass_day ON light_pass (day);

CREATE TRIGGER light_pass_kind BEFORE INSERT ON light_pass
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 34
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in light_pass'); END;

CREATE TRIGGER light_pass_no_update BEFORE UPDATE ON light_pass
BEGIN SELECT RAISE(ABORT, 'rows of light_pass are never changed'); END;

CREATE TRIGGER light_pass_no_delete BEFORE DELETE ON light_pass
BEGIN SELECT RAISE(ABORT, 'rows of light_pass are never changed'); END;

CREATE TRIGGER light_pass_no_replace BEFORE INSERT ON light_pass
WHEN EXISTS (SELECT 1 FROM light_pass WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of light_pass are never replaced'); END;

-- A laptop is no entry, so `kept` points at none.
CREATE TABLE merge_answer (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  other INTEGER REFERENCES entry (id),
  kept BLOB CHECK (kept IS NULL OR length(kept) = 16),
  verdict TEXT NOT NULL CHECK (verdict IN ('one is kept', 'both stand')),
  seen INTEGER NOT NULL CHECK (seen BETWEEN 2 AND 1000000),
  note TEXT NOT NULL,
  CHECK ((kept IS NOT NULL) = (verdict = 'one is kept' AND other IS NULL))
) STRICT;

CREATE INDEX merge_answer_day ON merge_answer (day);

CREATE INDEX merge_answer_child ON merge_answer (child);

CREATE TRIGGER merge_answer_kind BEFORE INSERT ON merge_answer
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 35
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in merge_answer'); END;

CREATE TRIGGER merge_answer_no_update BEFORE UPDATE ON merge_answer
BEGIN SELECT RAISE(ABORT, 'rows of merge_answer are never changed'); END;

CREATE TRIGGER merge_answer_no_delete BEFORE DELETE ON merge_answer
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of merge_answer are never changed'); END;

CREATE TRIGGER merge_answer_no_replace BEFORE INSERT ON merge_answer
WHEN EXISTS (SELECT 1 FROM merge_answer WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of merge_answer are never replaced'); END;

CREATE TABLE authorization (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  dentist INTEGER NOT NULL REFERENCES entry (id),
  how TEXT NOT NULL CHECK (how IN ('exam at school', 'record review', 'phone call')),
  given_on TEXT NOT NULL CHECK (given_on IS date(given_on, '+0 days') AND given_on BETWEEN '1900-01-01' AND '2199-12-31'),
  valid_until TEXT NOT NULL CHECK (valid_until IS date(valid_until, '+0 days') AND valid_until BETWEEN '1900-01-01' AND '2199-12-31'),
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
  note TEXT NOT NULL,
  CHECK (valid_until >= given_on)
) STRICT;

CREATE INDEX authorization_child ON authorization (child);

CREATE TRIGGER authorization_kind BEFORE INSERT ON authorization
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 36
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in authorization'); END;

CREATE TRIGGER authorization_no_update BEFORE UPDATE ON authorization
BEGIN SELECT RAISE(ABORT, 'rows of authorization are never changed'); END;

CREATE TRIGGER authorization_no_delete BEFORE DELETE ON authorization
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of authorization are never changed'); END;

CREATE TRIGGER authorization_no_replace BEFORE INSERT ON authorization
WHEN EXISTS (SELECT 1 FROM authorization WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of authorization are never replaced'); END;

CREATE TABLE authorization_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  surfaces INTEGER NOT NULL CHECK (surfaces BETWEEN 1 AND 7),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER authorization_tooth_kind BEFORE INSERT ON authorization_tooth
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 36
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in authorization_tooth'); END;

CREATE TRIGGER authorization_tooth_no_update BEFORE UPDATE ON authorization_tooth
BEGIN SELECT RAISE(ABORT, 'rows of authorization_tooth are never changed'); END;

CREATE TRIGGER authorization_tooth_no_delete BEFORE DELETE ON authorization_tooth
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of authorization_tooth are never changed'); END;

CREATE TRIGGER authorization_tooth_no_replace BEFORE INSERT ON authorization_tooth
WHEN EXISTS (SELECT 1 FROM authorization_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM authorization_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of authorization_tooth are never replaced'); END;

CREATE TABLE paper_sheet (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  number TEXT NOT NULL CHECK (number <> ''),
  checker INTEGER NOT NULL REFERENCES entry (id)
) STRICT;

CREATE INDEX paper_sheet_child ON paper_sheet (child);

CREATE INDEX paper_sheet_day ON paper_sheet (day);

CREATE TRIGGER paper_sheet_kind BEFORE INSERT ON paper_sheet
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 37
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in paper_sheet'); END;

CREATE TRIGGER paper_sheet_no_update BEFORE UPDATE ON paper_sheet
BEGIN SELECT RAISE(ABORT, 'rows of paper_sheet are never changed'); END;

CREATE TRIGGER paper_sheet_no_delete BEFORE DELETE ON paper_sheet
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of paper_sheet are never changed'); END;

CREATE TRIGGER paper_sheet_no_replace BEFORE INSERT ON paper_sheet
WHEN EXISTS (SELECT 1 FROM paper_sheet WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of paper_sheet are never replaced'); END;

-- That a report went out, with which figures. It is made without the vault, so it holds no name.
CREATE TABLE issued_report (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  term INTEGER NOT NULL REFERENCES entry (id),
  report TEXT NOT NULL CHECK (report <> ''),
  choice TEXT NOT NULL,
  version INTEGER NOT NULL CHECK (version BETWEEN 1 AND 1000000),
  issued TEXT NOT NULL CHECK (issued IS date(issued, '+0 days') AND issued BETWEEN '1900-01-01' AND '2199-12-31'),
  figures TEXT NOT NULL,
  digest TEXT NOT NULL CHECK (length(digest) = 64),
  release TEXT NOT NULL
) STRICT;

CREATE INDEX issued_report_term ON issued_report (term);

CREATE TRIGGER issued_report_kind BEFORE INSERT ON issued_report
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 38
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in issued_report'); END;

CREATE TRIGGER issued_report_no_update BEFORE UPDATE ON issued_report
BEGIN SELECT RAISE(ABORT, 'rows of issued_report are never changed'); END;

CREATE TRIGGER issued_report_no_delete BEFORE DELETE ON issued_report
BEGIN SELECT RAISE(ABORT, 'rows of issued_report are never changed'); END;

CREATE TRIGGER issued_report_no_replace BEFORE INSERT ON issued_report
WHEN EXISTS (SELECT 1 FROM issued_report WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of issued_report are never replaced'); END;

CREATE TABLE day_effort (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  chairs INTEGER NOT NULL CHECK (chairs BETWEEN 0 AND 50),
  open_minutes INTEGER NOT NULL CHECK (open_minutes BETWEEN 0 AND 1440),
  taught INTEGER NOT NULL CHECK (taught BETWEEN 0 AND 100000)
) STRICT;

CREATE INDEX day_effort_day ON day_effort (day);

CREATE TRIGGER day_effort_kind BEFORE INSERT ON day_effort
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 39
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_effort'); END;

CREATE TRIGGER day_effort_no_update BEFORE UPDATE ON day_effort
BEGIN SELECT RAISE(ABORT, 'rows of day_effort are never changed'); END;

CREATE TRIGGER day_effort_no_delete BEFORE DELETE ON day_effort
BEGIN SELECT RAISE(ABORT, 'rows of day_effort are never changed'); END;

CREATE TRIGGER day_effort_no_replace BEFORE INSERT ON day_effort
WHEN EXISTS (SELECT 1 FROM day_effort WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_effort are never replaced'); END;

CREATE TABLE day_effort_people (
  entry INTEGER NOT NULL REFERENCES entry (id),
  role TEXT NOT NULL CHECK (role IN ('hygienist', 'dentist', 'dental assistant', 'expanded-function assistant', 'coordinator', 'manager', 'student', 'volunteer')),
  minutes INTEGER NOT NULL CHECK (minutes BETWEEN 1 AND 60000),
  PRIMARY KEY (entry, role)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER day_effort_people_kind BEFORE INSERT ON day_effort_people
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 39
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_effort_people'); END;

CREATE TRIGGER day_effort_people_no_update BEFORE UPDATE ON day_effort_people
BEGIN SELECT RAISE(ABORT, 'rows of day_effort_people are never changed'); END;

CREATE TRIGGER day_effort_people_no_delete BEFORE DELETE ON day_effort_people
BEGIN SELECT RAISE(ABORT, 'rows of day_effort_people are never changed'); END;

CREATE TRIGGER day_effort_people_no_replace BEFORE INSERT ON day_effort_people
WHEN EXISTS (SELECT 1 FROM day_effort_people WHERE entry = NEW.entry AND role = NEW.role)
BEGIN SELECT RAISE(ABORT, 'rows of day_effort_people are never replaced'); END;

CREATE TABLE lot_count (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  lot INTEGER NOT NULL REFERENCES entry (id),
  opened INTEGER NOT NULL CHECK (opened BETWEEN 0 AND 10000),
  remaining INTEGER CHECK (remaining BETWEEN 0 AND 100000)
) STRICT;

CREATE INDEX lot_count_day ON lot_count (day);

CREATE TRIGGER lot_count_kind BEFORE INSERT ON lot_count
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 40
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in lot_count'); END;

CREATE TRIGGER lot_count_no_update BEFORE UPDATE ON lot_count
BEGIN SELECT RAISE(ABORT, 'rows of lot_count are never changed'); END;

CREATE TRIGGER lot_count_no_delete BEFORE DELETE ON lot_count
BEGIN SELECT RAISE(ABORT, 'rows of lot_count are never changed'); END;

CREATE TRIGGER lot_count_no_replace BEFORE INSERT ON lot_count
WHEN EXISTS (SELECT 1 FROM lot_count WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of lot_count are never replaced'); END;

CREATE TABLE meal_eligibility (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  term INTEGER NOT NULL REFERENCES entry (id),
  school INTEGER NOT NULL REFERENCES entry (id),
  percent INTEGER NOT NULL CHECK (percent BETWEEN 0 AND 100),
  source TEXT NOT NULL CHECK (source <> '')
) STRICT;

CREATE INDEX meal_eligibility_term ON meal_eligibility (term);

CREATE TRIGGER meal_eligibility_kind BEFORE INSERT ON meal_eligibility
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 41
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in meal_eligibility'); END;

CREATE TRIGGER meal_eligibility_no_update BEFORE UPDATE ON meal_eligibility
BEGIN SELECT RAISE(ABORT, 'rows of meal_eligibility are never changed'); END;

CREATE TRIGGER meal_eligibility_no_delete BEFORE DELETE ON meal_eligibility
BEGIN SELECT RAISE(ABORT, 'rows of meal_eligibility are never changed'); END;

CREATE TRIGGER meal_eligibility_no_replace BEFORE INSERT ON meal_eligibility
WHEN EXISTS (SELECT 1 FROM meal_eligibility WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of meal_eligibility are never replaced'); END;

-- As the form says it. In no export; published in counts alone.
CREATE TABLE background (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  groups INTEGER NOT NULL CHECK (groups BETWEEN 0 AND 127),
  payer TEXT NOT NULL CHECK (payer IN ('medicaid', 'chip', 'private insurance', 'no insurance', 'not known'))
) STRICT;

CREATE INDEX background_child ON background (child);

CREATE TRIGGER background_kind BEFORE INSERT ON background
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 42
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in background'); END;

CREATE TRIGGER background_no_update BEFORE UPDATE ON background
BEGIN SELECT RAISE(ABORT, 'rows of background are never changed'); END;

CREATE TRIGGER background_no_delete BEFORE DELETE ON background
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of background are never changed'); END;

CREATE TRIGGER background_no_replace BEFORE INSERT ON background
WHEN EXISTS (SELECT 1 FROM background WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of background are never replaced'); END;

-- That a copy was written and read back whole.
CREATE TABLE backup_note (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  file TEXT NOT NULL CHECK (file <> ''),
  same_disk INTEGER NOT NULL DEFAULT 0 CHECK (same_disk IN (0, 1)),
  papers TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE INDEX backup_note_day ON backup_note (day);

CREATE TRIGGER backup_note_kind BEFORE INSERT ON backup_note
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 43
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in backup_note'); END;

CREATE TRIGGER backup_note_no_update BEFORE UPDATE ON backup_note
BEGIN SELECT RAISE(ABORT, 'rows of backup_note are never changed'); END;

CREATE TRIGGER backup_note_no_delete BEFORE DELETE ON backup_note
BEGIN SELECT RAISE(ABORT, 'rows of backup_note are never changed'); END;

CREATE TRIGGER backup_note_no_replace BEFORE INSERT ON backup_note
WHEN EXISTS (SELECT 1 FROM backup_note WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of backup_note are never replaced'); END;

CREATE TABLE agreement_override (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  clinician INTEGER NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL CHECK (trim(reason) <> '')
) STRICT;

CREATE INDEX agreement_override_day ON agreement_override (day);

CREATE TRIGGER agreement_override_kind BEFORE INSERT ON agreement_override
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 44
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in agreement_override'); END;

CREATE TRIGGER agreement_override_no_update BEFORE UPDATE ON agreement_override
BEGIN SELECT RAISE(ABORT, 'rows of agreement_override are never changed'); END;

CREATE TRIGGER agreement_override_no_delete BEFORE DELETE ON agreement_override
BEGIN SELECT RAISE(ABORT, 'rows of agreement_override are never changed'); END;

CREATE TRIGGER agreement_override_no_replace BEFORE INSERT ON agreement_override
WHEN EXISTS (SELECT 1 FROM agreement_override WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of agreement_override are never replaced'); END;

CREATE TABLE seating_alert (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  flag INTEGER NOT NULL REFERENCES entry (id),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER seating_alert_kind BEFORE INSERT ON seating_alert
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 17
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in seating_alert'); END;

CREATE TRIGGER seating_alert_no_update BEFORE UPDATE ON seating_alert
BEGIN SELECT RAISE(ABORT, 'rows of seating_alert are never changed'); END;

CREATE TRIGGER seating_alert_no_delete BEFORE DELETE ON seating_alert
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of seating_alert are never changed'); END;

CREATE TRIGGER seating_alert_no_replace BEFORE INSERT ON seating_alert
WHEN EXISTS (SELECT 1 FROM seating_alert WHERE entry = NEW.entry AND flag = NEW.flag) OR EXISTS (SELECT 1 FROM seating_alert WHERE entry = NEW.entry AND place = NEW.place)
BEGIN SELECT RAISE(ABORT, 'rows of seating_alert are never replaced'); END;

CREATE TABLE after_cure (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  wiped INTEGER NOT NULL CHECK (wiped IN (0, 1)),
  bite TEXT NOT NULL CHECK (bite IN ('fine', 'adjusted, handpiece used', 'not checked')),
  note TEXT NOT NULL,
  CHECK ((wiped = 1 AND bite <> 'not checked') OR note <> '')
) STRICT;

CREATE INDEX after_cure_child ON after_cure (child);

CREATE INDEX after_cure_day ON after_cure (day);

CREATE TRIGGER after_cure_kind BEFORE INSERT ON after_cure
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 45
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in after_cure'); END;

CREATE TRIGGER after_cure_no_update BEFORE UPDATE ON after_cure
BEGIN SELECT RAISE(ABORT, 'rows of after_cure are never changed'); END;

CREATE TRIGGER after_cure_no_delete BEFORE DELETE ON after_cure
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of after_cure are never changed'); END;

CREATE TRIGGER after_cure_no_replace BEFORE INSERT ON after_cure
WHEN EXISTS (SELECT 1 FROM after_cure WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of after_cure are never replaced'); END;

CREATE TABLE addendum (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  child INTEGER REFERENCES entry (id),
  text TEXT NOT NULL CHECK (text <> '')
) STRICT;

CREATE INDEX addendum_day ON addendum (day);

CREATE INDEX addendum_child ON addendum (child) WHERE child IS NOT NULL;

CREATE TRIGGER addendum_kind BEFORE INSERT ON addendum
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 46
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in addendum'); END;

CREATE TRIGGER addendum_no_update BEFORE UPDATE ON addendum
BEGIN SELECT RAISE(ABORT, 'rows of addendum are never changed'); END;

CREATE TRIGGER addendum_no_delete BEFORE DELETE ON addendum
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of addendum are never changed'); END;

CREATE TRIGGER addendum_no_replace BEFORE INSERT ON addendum
WHEN EXISTS (SELECT 1 FROM addendum WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of addendum are never replaced'); END;

CREATE TABLE reopening (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;

CREATE INDEX reopening_day ON reopening (day);

CREATE TRIGGER reopening_kind BEFORE INSERT ON reopening
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 47
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in reopening'); END;

CREATE TRIGGER reopening_no_update BEFORE UPDATE ON reopening
BEGIN SELECT RAISE(ABORT, 'rows of reopening are never changed'); END;

CREATE TRIGGER reopening_no_delete BEFORE DELETE ON reopening
BEGIN SELECT RAISE(ABORT, 'rows of reopening are never changed'); END;

CREATE TRIGGER reopening_no_replace BEFORE INSERT ON reopening
WHEN EXISTS (SELECT 1 FROM reopening WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of reopening are never replaced'); END;

-- Each member's PIN: Argon2id of it, sealed under the book key and bound to her, or empty after a
-- reset. The bounds are vault::SealedPin's.
CREATE TABLE member_pin (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  member INTEGER NOT NULL REFERENCES entry (id),
  salt BLOB NOT NULL,
  passes INTEGER NOT NULL CHECK (passes BETWEEN 0 AND 8),
  memory_bytes INTEGER NOT NULL CHECK (memory_bytes BETWEEN 0 AND 134217728),
  nonce BLOB NOT NULL,
  box BLOB NOT NULL,
  reason TEXT NOT NULL,
  CHECK ((length(salt) = 16 AND passes > 0 AND memory_bytes >= 8192 AND length(nonce) = 24 AND length(box) = 48)
      OR (length(salt) = 0 AND passes = 0 AND memory_bytes = 0 AND length(nonce) = 0 AND length(box) = 0 AND trim(reason) <> ''))
) STRICT;

CREATE INDEX member_pin_member ON member_pin (member);

CREATE TRIGGER member_pin_no_update BEFORE UPDATE ON member_pin
BEGIN SELECT RAISE(ABORT, 'rows of member_pin are never changed'); END;

CREATE TRIGGER member_pin_no_delete BEFORE DELETE ON member_pin
BEGIN SELECT RAISE(ABORT, 'rows of member_pin are never changed'); END;

CREATE TRIGGER member_pin_no_replace BEFORE INSERT ON member_pin
WHEN EXISTS (SELECT 1 FROM member_pin WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of member_pin are never replaced'); END;

CREATE TRIGGER member_pin_kind BEFORE INSERT ON member_pin
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 48
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in member_pin'); END;

-- An operator confirmed her own placements of a day.
CREATE TABLE placements_confirmed (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  member INTEGER NOT NULL REFERENCES entry (id),
  through INTEGER NOT NULL REFERENCES entry (id)
) STRICT;

CREATE INDEX placements_confirmed_day ON placements_confirmed (day);

CREATE TRIGGER placements_confirmed_no_update BEFORE UPDATE ON placements_confirmed
BEGIN SELECT RAISE(ABORT, 'rows of placements_confirmed are never changed'); END;

CREATE TRIGGER placements_confirmed_no_delete BEFORE DELETE ON placements_confirmed
BEGIN SELECT RAISE(ABORT, 'rows of placements_confirmed are never changed'); END;

CREATE TRIGGER placements_confirmed_no_replace BEFORE INSERT ON placements_confirmed
WHEN EXISTS (SELECT 1 FROM placements_confirmed WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of placements_confirmed are never replaced'); END;

CREATE TRIGGER placements_confirmed_kind BEFORE INSERT ON placements_confirmed
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 49
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in placements_confirmed'); END;

-- A member's own signing key: its public half, and its seed sealed under the member's own passphrase.
-- A changed passphrase and a revoking are corrections of it.
CREATE TABLE personal_key (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  member INTEGER NOT NULL REFERENCES entry (id),
  public_key BLOB NOT NULL CHECK (length(public_key) = 32),
  salt BLOB NOT NULL CHECK (length(salt) = 16),
  kdf_passes INTEGER NOT NULL CHECK (kdf_passes BETWEEN 1 AND 16),
  kdf_bytes INTEGER NOT NULL CHECK (kdf_bytes BETWEEN 8192 AND 268435456),
  nonce BLOB NOT NULL CHECK (length(nonce) = 24),
  box BLOB NOT NULL CHECK (length(box) = 48),
  revoked INTEGER NOT NULL CHECK (revoked IN (0, 1))
) STRICT;

CREATE INDEX personal_key_member ON personal_key (member);

CREATE TRIGGER personal_key_no_update BEFORE UPDATE ON personal_key
BEGIN SELECT RAISE(ABORT, 'rows of personal_key are never changed'); END;

CREATE TRIGGER personal_key_no_delete BEFORE DELETE ON personal_key
BEGIN SELECT RAISE(ABORT, 'rows of personal_key are never changed'); END;

CREATE TRIGGER personal_key_no_replace BEFORE INSERT ON personal_key
WHEN EXISTS (SELECT 1 FROM personal_key WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of personal_key are never replaced'); END;

CREATE TRIGGER personal_key_kind BEFORE INSERT ON personal_key
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 50
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in personal_key'); END;

-- What each of the two signers of a closure signed, two rows in the act of the closure. Without a
-- key it is by name only, and says the same.
CREATE TABLE day_signature (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  closure INTEGER NOT NULL REFERENCES entry (id),
  signer INTEGER NOT NULL REFERENCES entry (id),
  capacity TEXT NOT NULL CHECK (capacity IN ('clinical', 'completeness')),
  personal_key INTEGER REFERENCES entry (id),
  consented INTEGER NOT NULL CHECK (consented BETWEEN 0 AND 1000000),
  screened INTEGER NOT NULL CHECK (screened BETWEEN 0 AND 1000000),
  absent INTEGER NOT NULL CHECK (absent BETWEEN 0 AND 1000000),
  declined INTEGER NOT NULL CHECK (declined BETWEEN 0 AND 1000000),
  left_school INTEGER NOT NULL CHECK (left_school BETWEEN 0 AND 1000000),
  withdrawn INTEGER NOT NULL CHECK (withdrawn BETWEEN 0 AND 1000000),
  on_hold INTEGER NOT NULL CHECK (on_hold BETWEEN 0 AND 1000000),
  not_reached INTEGER NOT NULL CHECK (not_reached BETWEEN 0 AND 1000000),
  schema INTEGER NOT NULL CHECK (schema BETWEEN 1 AND 1000000),
  signature BLOB NOT NULL,
  CHECK (length(signature) = CASE WHEN personal_key IS NULL THEN 0 ELSE 64 END)
) STRICT;

CREATE INDEX day_signature_day ON day_signature (day);

CREATE TRIGGER day_signature_no_update BEFORE UPDATE ON day_signature
BEGIN SELECT RAISE(ABORT, 'rows of day_signature are never changed'); END;

CREATE TRIGGER day_signature_no_delete BEFORE DELETE ON day_signature
BEGIN SELECT RAISE(ABORT, 'rows of day_signature are never changed'); END;

CREATE TRIGGER day_signature_no_replace BEFORE INSERT ON day_signature
WHEN EXISTS (SELECT 1 FROM day_signature WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_signature are never replaced'); END;

CREATE TRIGGER day_signature_kind BEFORE INSERT ON day_signature
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 51
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_signature'); END;

-- How far the history went that was signed: the last act of each laptop.
CREATE TABLE day_signature_head (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  laptop BLOB NOT NULL,
  sequence INTEGER NOT NULL CHECK (sequence > 0),
  digest BLOB NOT NULL CHECK (length(digest) = 32),
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
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 51
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_signature_head'); END;

-- That a recovery code was made, or withdrawn. What it opens lies in `book`, so that a withdrawn
-- one opens this file no more.
CREATE TABLE recovery_code (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1))
) STRICT;

CREATE TRIGGER recovery_code_no_update BEFORE UPDATE ON recovery_code
BEGIN SELECT RAISE(ABORT, 'rows of recovery_code are never changed'); END;

CREATE TRIGGER recovery_code_no_delete BEFORE DELETE ON recovery_code
BEGIN SELECT RAISE(ABORT, 'rows of recovery_code are never changed'); END;

CREATE TRIGGER recovery_code_no_replace BEFORE INSERT ON recovery_code
WHEN EXISTS (SELECT 1 FROM recovery_code WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of recovery_code are never replaced'); END;

CREATE TRIGGER recovery_code_kind BEFORE INSERT ON recovery_code
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 52
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in recovery_code'); END;
-- Where copies of one laptop's disk, or of its logbook, were both written on, its history parts: after
-- the act `after`, where there is one. The acts from `first` on are of the line `laptop`, copied from the
-- hand `origin`, and keep the digests that they were written with (docs/decisions/0013-hands-and-erasure.md).
CREATE TABLE hand_branch (
  first INTEGER PRIMARY KEY REFERENCES act (first),
  after INTEGER REFERENCES act (first),
  origin INTEGER NOT NULL REFERENCES hand (number),
  laptop BLOB NOT NULL UNIQUE CHECK (length(laptop) = 16)
) STRICT;

CREATE TRIGGER hand_branch_no_update BEFORE UPDATE ON hand_branch
BEGIN SELECT RAISE(ABORT, 'rows of hand_branch are never changed'); END;

CREATE TRIGGER hand_branch_no_delete BEFORE DELETE ON hand_branch
BEGIN SELECT RAISE(ABORT, 'rows of hand_branch are never changed'); END;

CREATE TRIGGER hand_branch_no_replace BEFORE INSERT ON hand_branch
WHEN EXISTS (SELECT 1 FROM hand_branch WHERE first = NEW.first) OR EXISTS (SELECT 1 FROM hand_branch WHERE laptop = NEW.laptop)
BEGIN SELECT RAISE(ABORT, 'rows of hand_branch are never replaced'); END;

-- Lawful erasure (docs/decisions/0013-hands-and-erasure.md): a listed act takes a student's content
-- out of this file, and the digests of the acts still hold. What an act has of a student enters its
-- digest as one hash with that student's salt; the salt goes with the content, and the hash stays.
CREATE TABLE child_salt (
  child INTEGER PRIMARY KEY REFERENCES entry (id),
  salt BLOB NOT NULL CHECK (length(salt) = 16)
) STRICT;

CREATE TABLE erasure (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  whom INTEGER NOT NULL REFERENCES entry (id),
  number TEXT NOT NULL CHECK (number GLOB '[0-9]*-[0-9]' AND number NOT GLOB '*[^0-9]*-*' AND length(number) <= 19),
  request TEXT NOT NULL CHECK (request <> ''),
  authority TEXT NOT NULL CHECK (authority <> ''),
  reason TEXT NOT NULL CHECK (reason <> ''),
  personal_key INTEGER REFERENCES entry (id),
  signature BLOB NOT NULL,
  CHECK (length(signature) = CASE WHEN personal_key IS NULL THEN 0 ELSE 64 END)
) STRICT;

CREATE INDEX erasure_whom ON erasure (whom);

CREATE TRIGGER erasure_kind BEFORE INSERT ON erasure
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 60
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in erasure'); END;

-- What the digests need of an entry whose content was erased, or left out of a part.
CREATE TABLE erased_entry (
  id INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  content BLOB NOT NULL CHECK (length(content) = 32)
) STRICT;

-- A logbook that was made of another for one school's day (docs/decisions/0017): which school it has,
-- and the highest number of any student, so that a new one gets another. The digest is over both and
-- over whom child_elsewhere lists. A whole logbook has no row.
CREATE TABLE part (
  school INTEGER PRIMARY KEY REFERENCES entry (id),
  highest_number INTEGER NOT NULL CHECK (highest_number >= 0),
  digest BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT;

-- The students whose content stayed in the logbook that the part was made of.
CREATE TABLE child_elsewhere (
  child INTEGER PRIMARY KEY REFERENCES entry (id)
) STRICT;

CREATE TRIGGER part_no_update BEFORE UPDATE OF school, highest_number ON part
BEGIN SELECT RAISE(ABORT, 'rows of part are never changed'); END;

CREATE TRIGGER part_no_replace BEFORE INSERT ON part
WHEN EXISTS (SELECT 1 FROM part)
BEGIN SELECT RAISE(ABORT, 'a part is of one school'); END;

CREATE TRIGGER part_no_delete BEFORE DELETE ON part
WHEN EXISTS (SELECT 1 FROM child_elsewhere)
BEGIN SELECT RAISE(ABORT, 'a part stays one while it leaves students out'); END;

CREATE TRIGGER child_elsewhere_no_replace BEFORE INSERT ON child_elsewhere
WHEN EXISTS (SELECT 1 FROM child_elsewhere WHERE child = NEW.child)
BEGIN SELECT RAISE(ABORT, 'rows of child_elsewhere are never replaced'); END;

-- The content is back, or it was erased lawfully.
CREATE TRIGGER child_elsewhere_no_delete BEFORE DELETE ON child_elsewhere
WHEN EXISTS (SELECT 1 FROM erased_entry WHERE child = OLD.child)
  AND NOT EXISTS (SELECT 1 FROM erasure WHERE whom = OLD.child)
BEGIN SELECT RAISE(ABORT, 'a student who is left out stays listed'); END;

CREATE TRIGGER child_elsewhere_no_update BEFORE UPDATE ON child_elsewhere
BEGIN SELECT RAISE(ABORT, 'rows of child_elsewhere are never changed'); END;

CREATE TRIGGER child_elsewhere_of_part BEFORE INSERT ON child_elsewhere
WHEN NOT EXISTS (SELECT 1 FROM part)
BEGIN SELECT RAISE(ABORT, 'only a part leaves students out'); END;

CREATE TRIGGER erased_entry_listed BEFORE INSERT ON erased_entry
WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE whom = NEW.child)
  AND NOT EXISTS (SELECT 1 FROM child_elsewhere WHERE child = NEW.child)
BEGIN SELECT RAISE(ABORT, 'only what a listed erasure names is erased'); END;

CREATE TRIGGER child_salt_no_delete BEFORE DELETE ON child_salt
WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE whom = OLD.child)
  AND NOT EXISTS (SELECT 1 FROM child_elsewhere WHERE child = OLD.child)
BEGIN SELECT RAISE(ABORT, 'rows of child_salt are never changed'); END;

CREATE TRIGGER erasure_no_update BEFORE UPDATE ON erasure
BEGIN SELECT RAISE(ABORT, 'rows of erasure are never changed'); END;

CREATE TRIGGER erasure_no_delete BEFORE DELETE ON erasure
BEGIN SELECT RAISE(ABORT, 'rows of erasure are never changed'); END;

CREATE TRIGGER erasure_no_replace BEFORE INSERT ON erasure
WHEN EXISTS (SELECT 1 FROM erasure WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of erasure are never replaced'); END;

CREATE TRIGGER erased_entry_no_update BEFORE UPDATE ON erased_entry
BEGIN SELECT RAISE(ABORT, 'rows of erased_entry are never changed'); END;

CREATE TRIGGER erased_entry_no_delete BEFORE DELETE ON erased_entry
WHEN NOT EXISTS (SELECT 1 FROM child_elsewhere WHERE child = OLD.child)
BEGIN SELECT RAISE(ABORT, 'rows of erased_entry are never changed'); END;

CREATE TRIGGER erased_entry_no_replace BEFORE INSERT ON erased_entry
WHEN EXISTS (SELECT 1 FROM erased_entry WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'rows of erased_entry are never replaced'); END;

CREATE TRIGGER child_salt_no_update BEFORE UPDATE ON child_salt
BEGIN SELECT RAISE(ABORT, 'rows of child_salt are never changed'); END;

CREATE TRIGGER child_salt_no_replace BEFORE INSERT ON child_salt
WHEN EXISTS (SELECT 1 FROM child_salt WHERE child = NEW.child)
BEGIN SELECT RAISE(ABORT, 'rows of child_salt are never replaced'); END;

-- A school, grant or fiscal year over which the program counts each child once.
CREATE TABLE program_year (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL CHECK (name <> ''),
  year_kind TEXT NOT NULL CHECK (year_kind IN ('school year', 'grant year', 'fiscal year')),
  start_on TEXT NOT NULL CHECK (start_on IS date(start_on, '+0 days') AND start_on BETWEEN '1900-01-01' AND '2199-12-31'),
  end_on TEXT NOT NULL CHECK (end_on IS date(end_on, '+0 days') AND end_on BETWEEN '1900-01-01' AND '2199-12-31'),
  CHECK (end_on > start_on)
) STRICT;

CREATE TRIGGER program_year_no_update BEFORE UPDATE ON program_year
BEGIN SELECT RAISE(ABORT, 'rows of program_year are never changed'); END;

CREATE TRIGGER program_year_no_delete BEFORE DELETE ON program_year
BEGIN SELECT RAISE(ABORT, 'rows of program_year are never changed'); END;

CREATE TRIGGER program_year_no_replace BEFORE INSERT ON program_year
WHEN EXISTS (SELECT 1 FROM program_year WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of program_year are never replaced'); END;

CREATE TRIGGER program_year_kind BEFORE INSERT ON program_year
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 75
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in program_year'); END;

-- What a school day cost the program, in whole cents; a kind without a line cost nothing.
CREATE TABLE day_cost (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id)
) STRICT;

CREATE INDEX day_cost_day ON day_cost (day);

CREATE TRIGGER day_cost_no_update BEFORE UPDATE ON day_cost
BEGIN SELECT RAISE(ABORT, 'rows of day_cost are never changed'); END;

CREATE TRIGGER day_cost_no_delete BEFORE DELETE ON day_cost
BEGIN SELECT RAISE(ABORT, 'rows of day_cost are never changed'); END;

CREATE TRIGGER day_cost_no_replace BEFORE INSERT ON day_cost
WHEN EXISTS (SELECT 1 FROM day_cost WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_cost are never replaced'); END;

CREATE TRIGGER day_cost_kind BEFORE INSERT ON day_cost
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 76
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_cost'); END;

CREATE TABLE day_cost_line (
  entry INTEGER NOT NULL REFERENCES entry (id),
  cost_kind TEXT NOT NULL CHECK (cost_kind IN ('staff', 'supplies', 'travel', 'equipment', 'other')),
  cents INTEGER NOT NULL CHECK (cents BETWEEN 1 AND 100000000),
  PRIMARY KEY (entry, cost_kind)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER day_cost_line_no_update BEFORE UPDATE ON day_cost_line
BEGIN SELECT RAISE(ABORT, 'rows of day_cost_line are never changed'); END;

CREATE TRIGGER day_cost_line_no_delete BEFORE DELETE ON day_cost_line
BEGIN SELECT RAISE(ABORT, 'rows of day_cost_line are never changed'); END;

CREATE TRIGGER day_cost_line_no_replace BEFORE INSERT ON day_cost_line
WHEN EXISTS (SELECT 1 FROM day_cost_line WHERE entry = NEW.entry AND cost_kind = NEW.cost_kind)
BEGIN SELECT RAISE(ABORT, 'rows of day_cost_line are never replaced'); END;

CREATE TRIGGER day_cost_line_kind BEFORE INSERT ON day_cost_line
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 76
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_cost_line'); END;

-- What somebody said of the columns of a school's lists, by their headings; never a cell of one.
CREATE TABLE list_columns (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  school INTEGER NOT NULL REFERENCES entry (id),
  columns TEXT NOT NULL CHECK (columns <> '')
) STRICT;

CREATE INDEX list_columns_school ON list_columns (school);

CREATE TRIGGER list_columns_no_update BEFORE UPDATE ON list_columns
BEGIN SELECT RAISE(ABORT, 'rows of list_columns are never changed'); END;

CREATE TRIGGER list_columns_no_delete BEFORE DELETE ON list_columns
BEGIN SELECT RAISE(ABORT, 'rows of list_columns are never changed'); END;

CREATE TRIGGER list_columns_no_replace BEFORE INSERT ON list_columns
WHEN EXISTS (SELECT 1 FROM list_columns WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of list_columns are never replaced'); END;

CREATE TRIGGER list_columns_kind BEFORE INSERT ON list_columns
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 85
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in list_columns'); END;

-- A key of the names that took the place of those before it, which it opens: each is sealed under it.
CREATE TABLE book_key (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name BLOB NOT NULL UNIQUE CHECK (length(name) = 16 AND name <> zeroblob(16)),
  reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;

CREATE TRIGGER book_key_no_update BEFORE UPDATE ON book_key
BEGIN SELECT RAISE(ABORT, 'rows of book_key are never changed'); END;

CREATE TRIGGER book_key_no_delete BEFORE DELETE ON book_key
BEGIN SELECT RAISE(ABORT, 'rows of book_key are never changed'); END;

CREATE TRIGGER book_key_no_replace BEFORE INSERT ON book_key
WHEN EXISTS (SELECT 1 FROM book_key WHERE entry = NEW.entry) OR EXISTS (SELECT 1 FROM book_key WHERE name = NEW.name)
BEGIN SELECT RAISE(ABORT, 'rows of book_key are never replaced'); END;

CREATE TRIGGER book_key_kind BEFORE INSERT ON book_key
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 80
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in book_key'); END;

CREATE TABLE book_key_earlier (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  name BLOB NOT NULL CHECK (length(name) = 16),
  nonce BLOB NOT NULL CHECK (length(nonce) = 24),
  box BLOB NOT NULL CHECK (length(box) = 48),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER book_key_earlier_no_update BEFORE UPDATE ON book_key_earlier
BEGIN SELECT RAISE(ABORT, 'rows of book_key_earlier are never changed'); END;

CREATE TRIGGER book_key_earlier_no_delete BEFORE DELETE ON book_key_earlier
BEGIN SELECT RAISE(ABORT, 'rows of book_key_earlier are never changed'); END;

CREATE TRIGGER book_key_earlier_no_replace BEFORE INSERT ON book_key_earlier
WHEN EXISTS (SELECT 1 FROM book_key_earlier WHERE entry = NEW.entry AND place = NEW.place)
BEGIN SELECT RAISE(ABORT, 'rows of book_key_earlier are never replaced'); END;

CREATE TRIGGER book_key_earlier_kind BEFORE INSERT ON book_key_earlier
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 80
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in book_key_earlier'); END;

-- What opens a key of the names besides the row of `book`: people's own passphrases, and the
-- passphrase and recovery code of a newer key, from another laptop, until it is first used here. No
-- records, since what has ended must be gone; `book.wraps_digest` is over all of them.
CREATE TABLE key_wrap (
  key_name BLOB NOT NULL CHECK (length(key_name) = 16),
  opener TEXT NOT NULL CHECK (opener IN ('passphrase', 'recovery code', 'own passphrase')),
  personal_key INTEGER NOT NULL, -- 0 for what is nobody's own
  salt BLOB NOT NULL,
  kdf_passes INTEGER NOT NULL,
  kdf_bytes INTEGER NOT NULL,
  nonce BLOB NOT NULL CHECK (length(nonce) = 24),
  box BLOB NOT NULL CHECK (length(box) = 48),
  PRIMARY KEY (key_name, opener, personal_key),
  CHECK ((opener = 'own passphrase') = (personal_key <> 0)),
  CHECK ((personal_key = 0) = (length(salt) > 0))
) STRICT, WITHOUT ROWID;

-- Those that may be there no longer: of a key that the present one took the place of; the present
-- one's own, which `book` has; a person's whose key was changed or revoked; a withdrawn code. Of two
-- laptops' words the more careful one counts.
CREATE VIEW ended_wrap AS
SELECT w.opener, w.key_name, w.personal_key FROM key_wrap AS w
WHERE w.key_name IN (
    SELECT earlier.name FROM book_key AS present CROSS JOIN book_key_earlier AS earlier
    ON earlier.entry = present.entry WHERE present.name = (SELECT key_name FROM book))
  OR (w.personal_key = 0 AND w.key_name = (SELECT key_name FROM book))
  OR (w.personal_key <> 0 AND NOT EXISTS (
    SELECT 1 FROM personal_key AS p CROSS JOIN entry AS e ON e.id = p.entry
    WHERE p.entry = w.personal_key AND p.revoked = 0
      AND NOT EXISTS (SELECT 1 FROM entry AS later WHERE later.supersedes = e.id)
      AND NOT EXISTS (
        SELECT 1 FROM personal_key AS r CROSS JOIN entry AS revoking ON revoking.id = r.entry
        WHERE r.revoked = 1 AND coalesce(revoking.subject, revoking.id) = coalesce(e.subject, e.id))))
  OR (w.opener = 'recovery code' AND NOT EXISTS (
    SELECT 1 FROM recovery_code AS c CROSS JOIN entry AS e ON e.id = c.entry
    WHERE c.withdrawn = 0
      AND NOT EXISTS (SELECT 1 FROM entry AS later WHERE later.supersedes = e.id)
      AND NOT EXISTS (
        SELECT 1 FROM recovery_code AS w CROSS JOIN entry AS withdrawing ON withdrawing.id = w.entry
        WHERE w.withdrawn = 1 AND coalesce(withdrawing.subject, withdrawing.id) = coalesce(e.subject, e.id)
          AND NOT EXISTS (SELECT 1 FROM entry AS later WHERE later.supersedes = withdrawing.id))));

CREATE TRIGGER key_wrap_no_update BEFORE UPDATE ON key_wrap
BEGIN SELECT RAISE(ABORT, 'rows of key_wrap are never changed'); END;

CREATE TRIGGER key_wrap_no_delete BEFORE DELETE ON key_wrap
WHEN NOT EXISTS (SELECT 1 FROM ended_wrap AS w WHERE w.opener = OLD.opener AND w.key_name = OLD.key_name AND w.personal_key = OLD.personal_key)
BEGIN SELECT RAISE(ABORT, 'only what has ended leaves key_wrap'); END;

CREATE TRIGGER key_wrap_no_replace BEFORE INSERT ON key_wrap
WHEN EXISTS (SELECT 1 FROM key_wrap WHERE opener = NEW.opener AND key_name = NEW.key_name AND personal_key = NEW.personal_key)
BEGIN SELECT RAISE(ABORT, 'rows of key_wrap are never replaced'); END;

-- Somebody said at the desk that two cards are one child's: all of the other is said of the kept one.
CREATE TABLE card_join (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  other INTEGER NOT NULL REFERENCES entry (id),
  CHECK (child <> other)
) STRICT;

CREATE INDEX card_join_child ON card_join (child);

CREATE INDEX card_join_other ON card_join (other);

CREATE TRIGGER card_join_kind BEFORE INSERT ON card_join
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 86
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in card_join'); END;

CREATE TRIGGER card_join_no_update BEFORE UPDATE ON card_join
BEGIN SELECT RAISE(ABORT, 'rows of card_join are never changed'); END;

CREATE TRIGGER card_join_no_delete BEFORE DELETE ON card_join
WHEN NOT EXISTS (SELECT 1 FROM erased_entry WHERE id = OLD.entry)
BEGIN SELECT RAISE(ABORT, 'rows of card_join are never changed'); END;

CREATE TRIGGER card_join_no_replace BEFORE INSERT ON card_join
WHEN EXISTS (SELECT 1 FROM card_join WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of card_join are never replaced'); END;

-- Blank consent forms that went to a room. No copies: the line was a mistake.
CREATE TABLE form_handout (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  term INTEGER NOT NULL REFERENCES entry (id),
  school INTEGER NOT NULL REFERENCES entry (id),
  room TEXT NOT NULL,
  handed_on TEXT NOT NULL CHECK (handed_on IS date(handed_on, '+0 days') AND handed_on BETWEEN '1900-01-01' AND '2199-12-31'),
  copies INTEGER NOT NULL CHECK (copies BETWEEN 0 AND 100000),
  version TEXT NOT NULL,
  language TEXT NOT NULL
) STRICT;

CREATE INDEX form_handout_term ON form_handout (term);

CREATE INDEX form_handout_school ON form_handout (school);

CREATE TRIGGER form_handout_no_update BEFORE UPDATE ON form_handout
BEGIN SELECT RAISE(ABORT, 'rows of form_handout are never changed'); END;

CREATE TRIGGER form_handout_no_delete BEFORE DELETE ON form_handout
BEGIN SELECT RAISE(ABORT, 'rows of form_handout are never changed'); END;

CREATE TRIGGER form_handout_no_replace BEFORE INSERT ON form_handout
WHEN EXISTS (SELECT 1 FROM form_handout WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of form_handout are never replaced'); END;

CREATE TRIGGER form_handout_kind BEFORE INSERT ON form_handout
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 89
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in form_handout'); END;

-- A day that is planned ahead; the school day itself is opened on its date.
CREATE TABLE planned_day (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  term INTEGER NOT NULL REFERENCES entry (id),
  school INTEGER NOT NULL REFERENCES entry (id),
  planned_on TEXT NOT NULL CHECK (planned_on IS date(planned_on, '+0 days') AND planned_on BETWEEN '1900-01-01' AND '2199-12-31'),
  team INTEGER NOT NULL CHECK (team BETWEEN 1 AND 9),
  chairs INTEGER NOT NULL CHECK (chairs BETWEEN 1 AND 20),
  people TEXT NOT NULL,
  note TEXT NOT NULL,
  cancelled INTEGER NOT NULL CHECK (cancelled IN (0, 1))
) STRICT;

CREATE INDEX planned_day_term ON planned_day (term);

CREATE INDEX planned_day_school ON planned_day (school);

CREATE TRIGGER planned_day_no_update BEFORE UPDATE ON planned_day
BEGIN SELECT RAISE(ABORT, 'rows of planned_day are never changed'); END;

CREATE TRIGGER planned_day_no_delete BEFORE DELETE ON planned_day
BEGIN SELECT RAISE(ABORT, 'rows of planned_day are never changed'); END;

CREATE TRIGGER planned_day_no_replace BEFORE INSERT ON planned_day
WHEN EXISTS (SELECT 1 FROM planned_day WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of planned_day are never replaced'); END;

CREATE TRIGGER planned_day_kind BEFORE INSERT ON planned_day
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 90
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in planned_day'); END;

-- A day envelope that was sealed here or merged here, by its own name: it is taken once.
CREATE TABLE day_envelope (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL CHECK (length(name) = 36),
  made_on TEXT NOT NULL CHECK (made_on IS date(made_on, '+0 days') AND made_on BETWEEN '1900-01-01' AND '2199-12-31'),
  merged INTEGER NOT NULL CHECK (merged IN (0, 1))
) STRICT;

CREATE TRIGGER day_envelope_no_update BEFORE UPDATE ON day_envelope
BEGIN SELECT RAISE(ABORT, 'rows of day_envelope are never changed'); END;

CREATE TRIGGER day_envelope_no_delete BEFORE DELETE ON day_envelope
BEGIN SELECT RAISE(ABORT, 'rows of day_envelope are never changed'); END;

CREATE TRIGGER day_envelope_no_replace BEFORE INSERT ON day_envelope
WHEN EXISTS (SELECT 1 FROM day_envelope WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_envelope are never replaced'); END;

CREATE TRIGGER day_envelope_kind BEFORE INSERT ON day_envelope
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 91
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in day_envelope'); END;

-- Another logbook was merged into the one of the laptop that wrote this; by whom and when, says the act.
-- Written in the transaction of the merge, and only where something but such notes came in: so laptops
-- that merge each other in turn come to an end.
CREATE TABLE merge_note (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  entries INTEGER NOT NULL CHECK (entries >= 0),
  erased INTEGER NOT NULL CHECK (erased >= 0)
) STRICT;

CREATE TRIGGER merge_note_no_update BEFORE UPDATE ON merge_note
BEGIN SELECT RAISE(ABORT, 'rows of merge_note are never changed'); END;

CREATE TRIGGER merge_note_no_delete BEFORE DELETE ON merge_note
BEGIN SELECT RAISE(ABORT, 'rows of merge_note are never changed'); END;

CREATE TRIGGER merge_note_no_replace BEFORE INSERT ON merge_note
WHEN EXISTS (SELECT 1 FROM merge_note WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of merge_note are never replaced'); END;

CREATE TRIGGER merge_note_kind BEFORE INSERT ON merge_note
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 92
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in merge_note'); END;

-- Whose acts those were: how many entries, and the number of the last.
CREATE TABLE merge_note_laptop (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  laptop BLOB NOT NULL CHECK (length(laptop) = 16),
  entries INTEGER NOT NULL CHECK (entries > 0),
  sequence INTEGER NOT NULL CHECK (sequence > 0),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER merge_note_laptop_no_update BEFORE UPDATE ON merge_note_laptop
BEGIN SELECT RAISE(ABORT, 'rows of merge_note_laptop are never changed'); END;

CREATE TRIGGER merge_note_laptop_no_delete BEFORE DELETE ON merge_note_laptop
BEGIN SELECT RAISE(ABORT, 'rows of merge_note_laptop are never changed'); END;

CREATE TRIGGER merge_note_laptop_no_replace BEFORE INSERT ON merge_note_laptop
WHEN EXISTS (SELECT 1 FROM merge_note_laptop WHERE entry = NEW.entry AND place = NEW.place)
BEGIN SELECT RAISE(ABORT, 'rows of merge_note_laptop are never replaced'); END;

CREATE TRIGGER merge_note_laptop_kind BEFORE INSERT ON merge_note_laptop
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 92
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in merge_note_laptop'); END;

-- The logbook's passphrase was changed on the laptop that wrote this. What it opens, and with what,
-- lies in `book` alone: that must be removable.
CREATE TABLE passphrase_change (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  key_name BLOB NOT NULL CHECK (length(key_name) = 16)
) STRICT;

CREATE TRIGGER passphrase_change_no_update BEFORE UPDATE ON passphrase_change
BEGIN SELECT RAISE(ABORT, 'rows of passphrase_change are never changed'); END;

CREATE TRIGGER passphrase_change_no_delete BEFORE DELETE ON passphrase_change
BEGIN SELECT RAISE(ABORT, 'rows of passphrase_change are never changed'); END;

CREATE TRIGGER passphrase_change_no_replace BEFORE INSERT ON passphrase_change
WHEN EXISTS (SELECT 1 FROM passphrase_change WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of passphrase_change are never replaced'); END;

CREATE TRIGGER passphrase_change_kind BEFORE INSERT ON passphrase_change
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 93
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in passphrase_change'); END;
