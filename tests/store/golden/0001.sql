PRAGMA application_id = 1196114507;
PRAGMA user_version = 1;
BEGIN;
CREATE TABLE migration (number INTEGER NOT NULL PRIMARY KEY,name TEXT NOT NULL,checksum TEXT NOT NULL,applied_at INTEGER NOT NULL) STRICT;
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
CREATE TABLE hand (
  number INTEGER PRIMARY KEY CHECK (number BETWEEN 1 AND 2047),
  laptop BLOB NOT NULL UNIQUE CHECK (length(laptop) = 16)
) STRICT;
CREATE TABLE entry_kind (
  number INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE
) STRICT;
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
CREATE TABLE term (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL,
  start_on TEXT NOT NULL CHECK (start_on IS date(start_on, '+0 days') AND start_on BETWEEN '1900-01-01' AND '2199-12-31'),
  end_on TEXT NOT NULL CHECK (end_on IS date(end_on, '+0 days') AND end_on BETWEEN '1900-01-01' AND '2199-12-31'),
  CHECK (end_on > start_on),
  CHECK (name <> '')
) STRICT;
CREATE TABLE term_holiday (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  holiday TEXT NOT NULL CHECK (holiday IS date(holiday, '+0 days') AND holiday BETWEEN '1900-01-01' AND '2199-12-31'),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;
CREATE TABLE school (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL,
  code TEXT NOT NULL,
  closed_from TEXT CHECK (closed_from IS date(closed_from, '+0 days') AND closed_from BETWEEN '1900-01-01' AND '2199-12-31'),
  CHECK (name <> ''),
  CHECK (code <> '')
) STRICT;
CREATE TABLE enrolment (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  term INTEGER NOT NULL REFERENCES entry (id),
  school INTEGER NOT NULL REFERENCES entry (id),
  grade TEXT NOT NULL,
  pupils INTEGER NOT NULL CHECK (pupils BETWEEN 0 AND 100000)
) STRICT;
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
CREATE TABLE day_closure (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  clinical INTEGER NOT NULL REFERENCES entry (id),
  coordinator INTEGER NOT NULL REFERENCES entry (id)
) STRICT;
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
CREATE TABLE sealed_identity (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  nonce BLOB NOT NULL,
  box BLOB NOT NULL,
  CHECK (length(nonce) = 24),
  CHECK (length(box) > 16)
) STRICT;
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
CREATE TABLE consent_override (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  care_on TEXT NOT NULL CHECK (care_on IS date(care_on, '+0 days') AND care_on BETWEEN '1900-01-01' AND '2199-12-31'),
  clinician INTEGER NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL,
  CHECK (reason <> '')
) STRICT;
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
CREATE TABLE meter_reading (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  light INTEGER NOT NULL REFERENCES entry (id),
  read_on TEXT NOT NULL CHECK (read_on IS date(read_on, '+0 days') AND read_on BETWEEN '1900-01-01' AND '2199-12-31'),
  value INTEGER NOT NULL CHECK (value BETWEEN 0 AND 5000),
  with_sleeve INTEGER NOT NULL CHECK (with_sleeve IN (0, 1)),
  meter TEXT NOT NULL,
  tip_cleaned INTEGER NOT NULL CHECK (tip_cleaned IN (0, 1))
) STRICT;
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
CREATE TABLE cure_time (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  light INTEGER NOT NULL REFERENCES entry (id),
  material TEXT NOT NULL,
  seconds INTEGER NOT NULL CHECK (seconds BETWEEN 1 AND 600)
) STRICT;
CREATE TABLE seating (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  confirmed INTEGER NOT NULL CHECK (confirmed BETWEEN 1 AND 31),
  assented INTEGER NOT NULL CHECK (assented IN (0, 1)),
  history_unchanged INTEGER NOT NULL CHECK (history_unchanged IN (0, 1)),
  changed TEXT NOT NULL DEFAULT ''
) STRICT;
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
CREATE TABLE field_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  surfaces INTEGER NOT NULL CHECK (surfaces BETWEEN 1 AND 7),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;
CREATE TABLE timer_start (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  field INTEGER NOT NULL REFERENCES entry (id),
  step TEXT NOT NULL CHECK (step IN ('etch', 'rinse', 'dry', 'flow', 'cure', 'check')),
  target_seconds INTEGER NOT NULL CHECK (target_seconds BETWEEN 0 AND 600),
  light INTEGER REFERENCES entry (id)
) STRICT;
CREATE TABLE timer_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  surfaces INTEGER NOT NULL CHECK (surfaces BETWEEN 1 AND 7),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;
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
CREATE TABLE step_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  surfaces INTEGER NOT NULL CHECK (surfaces BETWEEN 1 AND 7),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;
CREATE TABLE wet (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  field INTEGER NOT NULL REFERENCES entry (id),
  stage TEXT NOT NULL CHECK (stage IN ('before etch', 'after etch', 'after frosty', 'during flow', 'before cure ends', 'at check')),
  cause TEXT NOT NULL CHECK (cause IN ('saliva', 'blood', 'tongue', 'cough or gag', 'roll slipped', 'air line', 'child moved', 'other')),
  note TEXT NOT NULL
) STRICT;
CREATE TABLE wet_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;
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
CREATE TABLE varnish (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  lot INTEGER NOT NULL REFERENCES entry (id)
) STRICT;
CREATE TABLE day_outcome (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  day_end TEXT NOT NULL CHECK (day_end IN ('sealed, complete', 'sealed, unfinished', 'screened, none needed', 'screened, not treated', 'recheck only', 'absent', 'declined', 'left school', 'withdrawn', 'on hold', 'not reached')),
  reason TEXT NOT NULL,
  varnish_skipped TEXT NOT NULL DEFAULT '',
  CHECK (day_end NOT IN ('sealed, unfinished', 'screened, not treated') OR reason <> '')
) STRICT;
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
CREATE TABLE contact_attempt (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  channel TEXT NOT NULL CHECK (channel IN ('phone', 'letter', 'nurse', 'message')),
  result TEXT NOT NULL CHECK (result IN ('reached', 'message', 'no answer', 'wrong number', 'returned')),
  note TEXT NOT NULL
) STRICT;
CREATE TABLE readiness_check (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  item TEXT NOT NULL CHECK (item IN ('air line', 'curing light', 'lots and expiry', 'sterilizer', 'suction and water', 'eyes', 'emergency kit', 'clock')),
  answer TEXT NOT NULL CHECK (answer IN ('done', 'failed', 'not applicable', 'passed over')),
  reason TEXT NOT NULL,
  detail TEXT NOT NULL,
  CHECK (answer = 'done' OR reason <> '')
) STRICT;
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
CREATE TABLE light_pass (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  light INTEGER NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;
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
CREATE TABLE authorization_tooth (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  tooth INTEGER NOT NULL CHECK (tooth / 10 BETWEEN 1 AND 8 AND tooth % 10 BETWEEN 1 AND iif(tooth / 10 <= 4, 8, 5)),
  surfaces INTEGER NOT NULL CHECK (surfaces BETWEEN 1 AND 7),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;
CREATE TABLE paper_sheet (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  number TEXT NOT NULL CHECK (number <> ''),
  checker INTEGER NOT NULL REFERENCES entry (id)
) STRICT;
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
CREATE TABLE day_effort (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  chairs INTEGER NOT NULL CHECK (chairs BETWEEN 0 AND 50),
  open_minutes INTEGER NOT NULL CHECK (open_minutes BETWEEN 0 AND 1440),
  taught INTEGER NOT NULL CHECK (taught BETWEEN 0 AND 100000)
) STRICT;
CREATE TABLE day_effort_people (
  entry INTEGER NOT NULL REFERENCES entry (id),
  role TEXT NOT NULL CHECK (role IN ('hygienist', 'dentist', 'dental assistant', 'expanded-function assistant', 'coordinator', 'manager', 'student', 'volunteer')),
  minutes INTEGER NOT NULL CHECK (minutes BETWEEN 1 AND 60000),
  PRIMARY KEY (entry, role)
) STRICT, WITHOUT ROWID;
CREATE TABLE lot_count (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  lot INTEGER NOT NULL REFERENCES entry (id),
  opened INTEGER NOT NULL CHECK (opened BETWEEN 0 AND 10000),
  remaining INTEGER CHECK (remaining BETWEEN 0 AND 100000)
) STRICT;
CREATE TABLE meal_eligibility (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  term INTEGER NOT NULL REFERENCES entry (id),
  school INTEGER NOT NULL REFERENCES entry (id),
  percent INTEGER NOT NULL CHECK (percent BETWEEN 0 AND 100),
  source TEXT NOT NULL CHECK (source <> '')
) STRICT;
CREATE TABLE background (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  groups INTEGER NOT NULL CHECK (groups BETWEEN 0 AND 127),
  payer TEXT NOT NULL CHECK (payer IN ('medicaid', 'chip', 'private insurance', 'no insurance', 'not known'))
) STRICT;
CREATE TABLE backup_note (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  file TEXT NOT NULL CHECK (file <> ''),
  same_disk INTEGER NOT NULL DEFAULT 0 CHECK (same_disk IN (0, 1)),
  papers TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE TABLE agreement_override (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  clinician INTEGER NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL CHECK (trim(reason) <> '')
) STRICT;
CREATE TABLE seating_alert (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  flag INTEGER NOT NULL REFERENCES entry (id),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;
CREATE TABLE after_cure (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  wiped INTEGER NOT NULL CHECK (wiped IN (0, 1)),
  bite TEXT NOT NULL CHECK (bite IN ('fine', 'adjusted, handpiece used', 'not checked')),
  note TEXT NOT NULL,
  CHECK ((wiped = 1 AND bite <> 'not checked') OR note <> '')
) STRICT;
CREATE TABLE addendum (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  child INTEGER REFERENCES entry (id),
  text TEXT NOT NULL CHECK (text <> '')
) STRICT;
CREATE TABLE reopening (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;
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
CREATE TABLE placements_confirmed (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id),
  member INTEGER NOT NULL REFERENCES entry (id),
  through INTEGER NOT NULL REFERENCES entry (id)
) STRICT;
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
CREATE TABLE day_signature_head (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  laptop BLOB NOT NULL,
  sequence INTEGER NOT NULL CHECK (sequence > 0),
  digest BLOB NOT NULL CHECK (length(digest) = 32),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;
CREATE TABLE recovery_code (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1))
) STRICT;
CREATE TABLE hand_branch (
  first INTEGER PRIMARY KEY REFERENCES act (first),
  after INTEGER REFERENCES act (first),
  origin INTEGER NOT NULL REFERENCES hand (number),
  laptop BLOB NOT NULL UNIQUE CHECK (length(laptop) = 16)
) STRICT;
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
CREATE TABLE erased_entry (
  id INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  content BLOB NOT NULL CHECK (length(content) = 32)
) STRICT;
CREATE TABLE part (
  school INTEGER PRIMARY KEY REFERENCES entry (id),
  highest_number INTEGER NOT NULL CHECK (highest_number >= 0),
  digest BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT;
CREATE TABLE child_elsewhere (
  child INTEGER PRIMARY KEY REFERENCES entry (id)
) STRICT;
CREATE TABLE program_year (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL CHECK (name <> ''),
  year_kind TEXT NOT NULL CHECK (year_kind IN ('school year', 'grant year', 'fiscal year')),
  start_on TEXT NOT NULL CHECK (start_on IS date(start_on, '+0 days') AND start_on BETWEEN '1900-01-01' AND '2199-12-31'),
  end_on TEXT NOT NULL CHECK (end_on IS date(end_on, '+0 days') AND end_on BETWEEN '1900-01-01' AND '2199-12-31'),
  CHECK (end_on > start_on)
) STRICT;
CREATE TABLE day_cost (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  day INTEGER NOT NULL REFERENCES entry (id)
) STRICT;
CREATE TABLE day_cost_line (
  entry INTEGER NOT NULL REFERENCES entry (id),
  cost_kind TEXT NOT NULL CHECK (cost_kind IN ('staff', 'supplies', 'travel', 'equipment', 'other')),
  cents INTEGER NOT NULL CHECK (cents BETWEEN 1 AND 100000000),
  PRIMARY KEY (entry, cost_kind)
) STRICT, WITHOUT ROWID;
CREATE TABLE list_columns (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  school INTEGER NOT NULL REFERENCES entry (id),
  columns TEXT NOT NULL CHECK (columns <> '')
) STRICT;
CREATE TABLE book_key (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name BLOB NOT NULL UNIQUE CHECK (length(name) = 16 AND name <> zeroblob(16)),
  reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;
CREATE TABLE book_key_earlier (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  name BLOB NOT NULL CHECK (length(name) = 16),
  nonce BLOB NOT NULL CHECK (length(nonce) = 24),
  box BLOB NOT NULL CHECK (length(box) = 48),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;
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
CREATE TABLE card_join (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  child INTEGER NOT NULL REFERENCES entry (id),
  other INTEGER NOT NULL REFERENCES entry (id),
  CHECK (child <> other)
) STRICT;
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
CREATE TABLE day_envelope (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL CHECK (length(name) = 36),
  made_on TEXT NOT NULL CHECK (made_on IS date(made_on, '+0 days') AND made_on BETWEEN '1900-01-01' AND '2199-12-31'),
  merged INTEGER NOT NULL CHECK (merged IN (0, 1))
) STRICT;
CREATE TABLE merge_note (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  entries INTEGER NOT NULL CHECK (entries >= 0),
  erased INTEGER NOT NULL CHECK (erased >= 0)
) STRICT;
CREATE TABLE merge_note_laptop (
  entry INTEGER NOT NULL REFERENCES entry (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  laptop BLOB NOT NULL CHECK (length(laptop) = 16),
  entries INTEGER NOT NULL CHECK (entries > 0),
  sequence INTEGER NOT NULL CHECK (sequence > 0),
  PRIMARY KEY (entry, place)
) STRICT, WITHOUT ROWID;
CREATE TABLE passphrase_change (
  entry INTEGER PRIMARY KEY REFERENCES entry (id),
  key_name BLOB NOT NULL CHECK (length(key_name) = 16)
) STRICT;
INSERT INTO "act" VALUES (455264855656497153, 1, 3, 1794924000002, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'0A08AB8767281CA5486542263318B3FC01329D9B3D5088EAA2251FAF75973D9E');
INSERT INTO "act" VALUES (455264855658594306, 1, 3, 1794924000003, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'ACAECB14027B1211E3A405243F239FE5C8C9C7EA06ABBB5E077AAF9C76201A91');
INSERT INTO "act" VALUES (455264855660691457, 4, 2, 1794924000004, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'2E4F38715C2D3ABA09F7402F0CD713868D0FCE413CA24053EE0F62842D4235E1');
INSERT INTO "act" VALUES (455264855662788610, 4, 2, 1794924000005, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'04E999C71F6F7FB358FC0D15E63AF8203F65826381403FF59E8E0E6D1B08388B');
INSERT INTO "act" VALUES (455264855664885761, 6, 3, 1794924000006, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'8CE2820EF856EFAB06B161E593F11F71759271C9B85BCE4AB425A442B8336EB5');
INSERT INTO "act" VALUES (455264855666982914, 6, 3, 1794924000007, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'4F4764E732A64A3F0FAE91742888E21DD4540029E11BC7D79C38CA3D2A59AE99');
INSERT INTO "act" VALUES (455264855669080065, 9, 3, 1794924000008, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'E63BBBB5EF02ECD551C9B2E6C617F75C5253274420C5C55EEC440D0215BFE644');
INSERT INTO "act" VALUES (455264855671177218, 9, 3, 1794924000009, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'5C886912B054A8D9A0DB4E5104349EDCE141F4D691F79C45200FC085F2ACD31B');
INSERT INTO "act" VALUES (455264855673274369, 12, 3, 1794924000010, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'76879C71E6A1E4DC249C4567AB8EAFA77DB5F6FFF35A050D09227DF1E7E7C901');
INSERT INTO "act" VALUES (455264855675371522, 12, 3, 1794924000011, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'E6B14B16C394B72CB7BD342C5B082EE6115295879C8CD6912AF39D96AB482AA2');
INSERT INTO "act" VALUES (455264855677468673, 15, 3, 1794924000012, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'A0805712ADC52D4AF6D3AC971D9A01197560F0AF5DBEDA2B35E14D2A13BAF57E');
INSERT INTO "act" VALUES (455264855679565826, 15, 3, 1794924000013, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'12F5EB89E29EE7A897A937D813E523754A8A27F650E0B04318DCAF424BD71AF5');
INSERT INTO "act" VALUES (455264855681662977, 18, 3, 1794924000014, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'724C90B79E0F2586C84B538DA2F9609F5274029151574116C3FFE68CEE8CA88C');
INSERT INTO "act" VALUES (455264855683760130, 18, 3, 1794924000015, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'95D722BC787D02DF744FB062C7A9A54F5D8EDD6FC798877193F9A537C51072D4');
INSERT INTO "act" VALUES (455264855685857281, 21, 3, 1794924000016, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'DA0AC6E1ABF3C33AB9BD8E56D71B3F36D0F15EA92D8E84EA1F0C340C5B9BF100');
INSERT INTO "act" VALUES (455264855687954434, 21, 3, 1794924000017, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'6AF449D794ABC22AEA9AF5CDCEF4672C4AEFFE4F638AEA4E51EB496A7BBDA144');
INSERT INTO "act" VALUES (455264855690051585, 24, 3, 1794924000018, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'47CC94AB076CC3ACE861316087233EB0A576258528FEF96F618EC7A39FBE5D8D');
INSERT INTO "act" VALUES (455264855692148738, 24, 3, 1794924000019, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'54FB14E69B488FC218F9ED36F0F6D43A7F4667E4540614FB1C69B2FE512559A4');
INSERT INTO "act" VALUES (455264855694245889, 27, 3, 1794924000020, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'DD523C5686F49217B2D6A07D0D701FC323ABBCF16EBB47E38ED27032011091ED');
INSERT INTO "act" VALUES (455264855696343042, 27, 3, 1794924000021, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'2953B55FB5EF64B995298343540F3C0F3B11EAD61E4A9C3464FE9329AF8FC596');
INSERT INTO "act" VALUES (455264855698440193, 30, 3, 1794924000022, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'47D4D60AD845D095EB6FA378007CF5FE67B6328D59B6D921CABCACEB29730726');
INSERT INTO "act" VALUES (455264855700537346, 30, 3, 1794924000023, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'99DBB580CA8B2C06AA0804928BE69C4C26460EA730BBB961FA94E1A262C75BF5');
INSERT INTO "act" VALUES (455264855702634497, 33, 3, 1794924000024, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'23B196102D8FA22535394D93EC2F5CE206460C92DF842E2580EDBE92DE600307');
INSERT INTO "act" VALUES (455264855704731650, 33, 3, 1794924000025, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'699716F0AD72748BC01DE019F4329B303196C4B0A9A7943153022E2511BE9AEE');
INSERT INTO "act" VALUES (455264855706828801, 36, 3, 1794924000026, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'E0442ED2FFCE8D3BA79B331738E17F4C1360209282CBC0BDB92A6321457C9D12');
INSERT INTO "act" VALUES (455264855708925954, 36, 3, 1794924000027, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'BBFCE8FEAAA2B803CFF8C2B66CAD93A611A782598DE7B1C3BF352961C4DDAB48');
INSERT INTO "act" VALUES (455264855711023105, 39, 3, 1794924000028, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'242B6CEFD5867607E4312C8DA0B873293929405478EC0E10F4D5C8007BDA2200');
INSERT INTO "act" VALUES (455264855713120258, 39, 3, 1794924000029, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'539600EF3DED83508AF7F40A787F2BCDA4CFDF9D5D092530B38D360CB70C4645');
INSERT INTO "act" VALUES (455264855715217409, 42, 3, 1794924000030, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'1982347747DF87D6E21A9D8BDE706DE9E99A69FD77B91FFFF5D6C5482FB659BC');
INSERT INTO "act" VALUES (455264855717314562, 42, 3, 1794924000031, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'8B0ACC3B91D45017EEE972E5964F8975AC367DF9C02B41627EBD369EBFB9B09A');
INSERT INTO "act" VALUES (455264855719411713, 45, 3, 1794924000032, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'AC56A8965C087BF0B39B68DDD8C2DA4EA939872F09AF3027275653674CBA892A');
INSERT INTO "act" VALUES (455264855721508866, 45, 3, 1794924000033, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'AFF04791184D5CAD6BF55C9D18A8545B2F5F14CD2F78A8FEBABD4D261BAEE2D4');
INSERT INTO "act" VALUES (455264855723606017, 48, 3, 1794924000034, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'7D78B8A3811F5FC930948F58BAF7B41C82F9980B56D25211E0BDAAE29D27DA92');
INSERT INTO "act" VALUES (455264855725703170, 48, 3, 1794924000035, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'2C2AB3429D8851ED1A38B93AA6A2AD7E72A090D40B5BBF4599185684493C016B');
INSERT INTO "act" VALUES (455264855727800321, 51, 3, 1794924000036, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'6CF5F4EC9E95E29D7BB398B604001B99D36E46317725356D9EE071B4AC893252');
INSERT INTO "act" VALUES (455264855729897474, 51, 3, 1794924000037, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'8B9B26D879AB6570EF2863AA0701B48C7C62CC84F5407CB536F49744F53FEA7F');
INSERT INTO "act" VALUES (455264855731994625, 54, 3, 1794924000038, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'4365E707A911EDFA266900034CEFDE43961F65AE585D235DD25FF9E035084161');
INSERT INTO "act" VALUES (455264855734091778, 54, 3, 1794924000039, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'352C5AA435B3AA056EB8CCE88CDF0C16E012946678DDDED1768E54F33C35ADC0');
INSERT INTO "act" VALUES (455264855736188929, 57, 3, 1794924000040, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'CCF6B9C114DB7EDA077059946D79164212C51BC233BDA36B5955E846C2F76A01');
INSERT INTO "act" VALUES (455264855738286082, 57, 3, 1794924000041, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'B36612A98C1459015BAA9039A45131CB051829A715E521ED389BB1FBBC0E6B26');
INSERT INTO "act" VALUES (455264855740383233, 60, 3, 1794924000042, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'3D64257D1AC86E916DAAD610836BAA86CE9971A19214CF07EA410137178A41C9');
INSERT INTO "act" VALUES (455264855742480386, 60, 3, 1794924000043, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'47029937684AF2FEABE3D7ADE8F0FA0F1567C16CD70FB225D818075A2D8EBAE3');
INSERT INTO "act" VALUES (455264855744577537, 63, 3, 1794924000044, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'7A9FE1213748FBBE3BE84E7A7714FA4D1C65D3FCC5DC36DA67F6B50F71D8EEA0');
INSERT INTO "act" VALUES (455264855746674690, 63, 3, 1794924000044, -300, 455264855656501249, 455264855658598402, 'verb', 'chair', X'AEC4A78E08F14D1AB63E5147AAD020FA0B865CE7B56C0149DC7537E0050DE8FE');
INSERT INTO "act" VALUES (455264855748771843, 63, 1, 1794924000045, -300, NULL, NULL, 'verb', 'chair', X'7EEC2E209FFDC005B8885A8C11018FE6062BA201AA3D212BCC7380661839E2A0');
INSERT INTO "act" VALUES (455424239206400001, 66, 2, 1795000000000, -300, NULL, NULL, '', '', X'87E8672019E217840256FDCA4489153D59811B6E9488348160FD00E47B4A5337');
INSERT INTO "act" VALUES (455424239206404098, 66, 2, 1795000000000, -300, NULL, NULL, '', '', X'60B547E9E1B04A465A0B16E2B37D0E6EFE19EAD06CED3F1A0EAA8FAE57639C5D');
INSERT INTO "act" VALUES (455424239206408193, 68, 3, 1795000000000, -300, NULL, NULL, '', '', X'EDDD6B18FB4E5C23CCB1AD1E9B1426C08E364475A3891BC999201CA91DAAA08B');
INSERT INTO "act" VALUES (455424239206414337, 71, 3, 1795000000000, -300, NULL, NULL, '', '', X'631A2F81B0761D09089BD16B183EFFCBE161757AF3CD341A1EEC719CAD629DE9');
INSERT INTO "act" VALUES (455424239206420481, 74, 1, 1795000000000, -300, NULL, NULL, '', '', X'EDA1B66EF9B299D5F66D818AD94809308D2A977BDD1B840D7BD3F974EE6211B6');
INSERT INTO "addendum" VALUES (455264855719411713, 455264855664885761, 455264855660693505, 'words 1');
INSERT INTO "addendum" VALUES (455264855721508866, 455264855666982914, 455264855662790658, 'words 2');
INSERT INTO "after_cure" VALUES (455264855698440193, 455264855660693505, 455264855664885761, 1, 'fine', 'note 1');
INSERT INTO "after_cure" VALUES (455264855700537346, 455264855662790658, 455264855666982914, 1, 'fine', 'note 2');
INSERT INTO "agreement_override" VALUES (455264855685857281, 455264855664885761, 455264855656501249, 'reason 1');
INSERT INTO "agreement_override" VALUES (455264855687954434, 455264855666982914, 455264855658598402, 'reason 2');
INSERT INTO "authorization" VALUES (455264855685859329, 455264855660693505, 455264855656501249, 'record review', '2026-11-01', '2027-11-01', 0, 'n 1');
INSERT INTO "authorization" VALUES (455264855687956482, 455264855662790658, 455264855658598402, 'record review', '2026-11-02', '2027-11-02', 0, 'n 2');
INSERT INTO "authorization_tooth" VALUES (455264855685859329, 0, 11, 1);
INSERT INTO "authorization_tooth" VALUES (455264855685859329, 1, 21, 3);
INSERT INTO "authorization_tooth" VALUES (455264855687956482, 0, 12, 1);
INSERT INTO "authorization_tooth" VALUES (455264855687956482, 1, 22, 3);
INSERT INTO "background" VALUES (455264855673274369, 455264855660693505, 1, 'chip');
INSERT INTO "background" VALUES (455264855675371522, 455264855662790658, 2, 'chip');
INSERT INTO "backup_note" VALUES (455264855711025153, 455264855664885761, 'copy-1.gkbook', 1, 'copy-1.gkpapers');
INSERT INTO "backup_note" VALUES (455264855713122306, 455264855666982914, 'copy-2.gkbook', 1, 'copy-2.gkpapers');
INSERT INTO "book" VALUES (1, X'00000000000000000000000000000900', X'0102', 3, 65536, X'0304', X'0506', X'00000000000000000000000000000000', X'7E9241DFA688E6361B47B8B183460C4ECE2BF3D044A7E7119DCFD6BEEE762DB3', X'241C7ECCD4BE9AB133DF08D553E8A25768AE3817F8B55E163DA6C5F67D6E13ED', X'02020202020202020202020202020202', 3, 65536, X'020202020202020202020202020202020202020202020202', X'020202020202020202020202020202020202020202020202020202020202020202020202020202020202020202020202', X'6389633AAE60FD7199B53DDA5D2AD8D1A6B8B5538234DC790F84CA390AE51A19', 0);
INSERT INTO "book_key" VALUES (455264855736188929, X'77777777777777777777777777777771', 'reason 1');
INSERT INTO "book_key" VALUES (455264855738286082, X'77777777777777777777777777777772', 'reason 2');
INSERT INTO "book_key_earlier" VALUES (455264855736188929, 0, X'88888888888888888888888888888881', X'111111111111111111111111111111111111111111111101', X'222222222222222222222222222222222222222222222222222222222222222222222222222222222222222222222201');
INSERT INTO "book_key_earlier" VALUES (455264855736188929, 1, X'99999999999999999999999999999991', X'333333333333333333333333333333333333333333333301', X'444444444444444444444444444444444444444444444444444444444444444444444444444444444444444444444401');
INSERT INTO "book_key_earlier" VALUES (455264855738286082, 0, X'88888888888888888888888888888882', X'111111111111111111111111111111111111111111111102', X'222222222222222222222222222222222222222222222222222222222222222222222222222222222222222222222202');
INSERT INTO "book_key_earlier" VALUES (455264855738286082, 1, X'99999999999999999999999999999992', X'333333333333333333333333333333333333333333333302', X'444444444444444444444444444444444444444444444444444444444444444444444444444444444444444444444402');
INSERT INTO "card_join" VALUES (455264855723610113, 455264855660693505, 455264855656497153);
INSERT INTO "card_join" VALUES (455264855725707266, 455264855662790658, 455264855658594306);
INSERT INTO "child" VALUES (455264855660693505, '1041-0', 2018, 1, 'female', 455264855656497153, '2', 'R1', 0, 'note 1', '2027-06-11', 'moved away');
INSERT INTO "child" VALUES (455264855662790658, '1042-0', 2018, 2, 'female', 455264855656497153, '2', 'R2', 0, 'note 2', '2027-06-12', 'moved away');
INSERT INTO "child" VALUES (455264855736190977, '1041-0', 2017, 5, 'male', 455264855658594306, '3', 'R9', 0, '', NULL, NULL);
INSERT INTO "child_elsewhere" VALUES (455264855744577537);
INSERT INTO "child_elsewhere" VALUES (455264855746674690);
INSERT INTO "child_salt" VALUES (455264855660693505, X'9B11B115E929060C6397506BCE662D55');
INSERT INTO "child_salt" VALUES (455264855662790658, X'EC6077A9FDBF99ABFB0EA6B784AE5241');
INSERT INTO "clinic_day" VALUES (455264855664885761, 455264855656499201, 455264855656497153, '2026-11-11', 1, '', 0);
INSERT INTO "clinic_day" VALUES (455264855666982914, 455264855656499201, 455264855658594306, '2026-11-12', 2, '', 0);
INSERT INTO "consent" VALUES (455264855673278465, 455264855660693505, 455264855656499201, 'yes', 16, 'parent', 1, '2026-09-01', '2026-09-11', '2026-09-11', '2027-09-01', 'yes', 'form 1', 'v1', 'English');
INSERT INTO "consent" VALUES (455264855675375618, 455264855662790658, 455264855656499201, 'yes', 17, 'parent', 1, '2026-09-02', '2026-09-12', '2026-09-12', '2027-09-02', 'yes', 'form 2', 'v2', 'English');
INSERT INTO "consent_override" VALUES (455264855677468673, 455264855660693505, '2026-11-11', 455264855656501249, 'reason 1');
INSERT INTO "consent_override" VALUES (455264855679565826, 455264855662790658, '2026-11-12', 455264855658598402, 'reason 2');
INSERT INTO "contact_attempt" VALUES (455264855706828801, 455264855660693505, 455264855664885761, 'phone', 'message', 'note 1');
INSERT INTO "contact_attempt" VALUES (455264855708925954, 455264855662790658, 455264855666982914, 'phone', 'message', 'note 2');
INSERT INTO "cure_time" VALUES (455264855677472769, 455264855664887809, 'Resin 1', 21);
INSERT INTO "cure_time" VALUES (455264855679569922, 455264855666984962, 'Resin 2', 22);
INSERT INTO "day_closure" VALUES (455424239206408193, 455264855664885761, 455264855656501249, 455264855658598402);
INSERT INTO "day_closure" VALUES (455424239206414337, 455264855666982914, 455264855656501249, 455264855658598402);
INSERT INTO "day_cost" VALUES (455264855731998721, 455264855664885761);
INSERT INTO "day_cost" VALUES (455264855734095874, 455264855666982914);
INSERT INTO "day_cost_line" VALUES (455264855731998721, 'staff', 41251);
INSERT INTO "day_cost_line" VALUES (455264855731998721, 'travel', 2001);
INSERT INTO "day_cost_line" VALUES (455264855734095874, 'staff', 41252);
INSERT INTO "day_cost_line" VALUES (455264855734095874, 'travel', 2002);
INSERT INTO "day_effort" VALUES (455264855715219457, 455264855664885761, 2, 300, 11);
INSERT INTO "day_effort" VALUES (455264855717316610, 455264855666982914, 2, 300, 12);
INSERT INTO "day_effort_people" VALUES (455264855715219457, 'coordinator', 201);
INSERT INTO "day_effort_people" VALUES (455264855715219457, 'hygienist', 301);
INSERT INTO "day_effort_people" VALUES (455264855717316610, 'coordinator', 202);
INSERT INTO "day_effort_people" VALUES (455264855717316610, 'hygienist', 302);
INSERT INTO "day_envelope" VALUES (455264855727804417, '00000000-0000-4000-8000-000000000001', '2026-11-11', 1);
INSERT INTO "day_envelope" VALUES (455264855729901570, '00000000-0000-4000-8000-000000000002', '2026-11-12', 1);
INSERT INTO "day_outcome" VALUES (455264855698444289, 455264855660693505, 455264855664885761, 'sealed, complete', 'r 1', 'late bus');
INSERT INTO "day_outcome" VALUES (455264855700541442, 455264855662790658, 455264855666982914, 'sealed, complete', 'r 2', 'late bus');
INSERT INTO "day_signature" VALUES (455424239206410241, 455264855664885761, 455424239206408193, 455264855656501249, 'clinical', 455424239206400001, 2, 2, 0, 0, 0, 0, 0, 0, 1, X'1C3D10FCEE5F735F3C0ADB177D6B84AA02D68D9942E2ADE704866A9A5BD0DBF12511C4D78F48F2DFD07A152BAB1E34C398898197B3D05A33F743CC69DC81D40B');
INSERT INTO "day_signature" VALUES (455424239206412289, 455264855664885761, 455424239206408193, 455264855658598402, 'completeness', 455424239206404098, 2, 2, 0, 0, 0, 0, 0, 0, 1, X'7E5C99F779B5F18A0AA195D2CCBBAA5D0B8321FD7B29A4E9559496B779B6EFDF67FD46E879273E318010C30C9649801C64990073C894054D63403D527948DD09');
INSERT INTO "day_signature" VALUES (455424239206416385, 455264855666982914, 455424239206414337, 455264855656501249, 'clinical', 455424239206400001, 2, 2, 0, 0, 0, 0, 0, 0, 1, X'FEC72C7FF5240A2844D522055A3A3A188C8EEE799845EF5AF91C455A06DCE1C13B2130E5CDB220813A4F5017BED8A947E056F7BCF441B5E811B525F828A1680A');
INSERT INTO "day_signature" VALUES (455424239206418433, 455264855666982914, 455424239206414337, 455264855658598402, 'completeness', 455424239206404098, 2, 2, 0, 0, 0, 0, 0, 0, 1, X'F533660748E13C47B8063837FF4F591B6E0F7AD89387E0F482AA3AFB7CE7A7D00665E09A40BFB49D23B1129B76782E78E6B0AF3C8F8C7E36FBF9A91AC294690B');
INSERT INTO "day_signature_head" VALUES (455424239206410241, 0, X'00000000000000000000000000000801', 67, X'87E8672019E217840256FDCA4489153D59811B6E9488348160FD00E47B4A5337');
INSERT INTO "day_signature_head" VALUES (455424239206410241, 1, X'00000000000000000000000000000802', 67, X'60B547E9E1B04A465A0B16E2B37D0E6EFE19EAD06CED3F1A0EAA8FAE57639C5D');
INSERT INTO "day_signature_head" VALUES (455424239206410241, 2, X'99E12E0AFA938A0AA375302BE692FE80', 63, X'7EEC2E209FFDC005B8885A8C11018FE6062BA201AA3D212BCC7380661839E2A0');
INSERT INTO "day_signature_head" VALUES (455424239206412289, 0, X'99E12E0AFA938A0AA375302BE692FE80', 63, X'7EEC2E209FFDC005B8885A8C11018FE6062BA201AA3D212BCC7380661839E2A0');
INSERT INTO "day_signature_head" VALUES (455424239206412289, 1, X'00000000000000000000000000000802', 67, X'60B547E9E1B04A465A0B16E2B37D0E6EFE19EAD06CED3F1A0EAA8FAE57639C5D');
INSERT INTO "day_signature_head" VALUES (455424239206412289, 2, X'00000000000000000000000000000801', 67, X'87E8672019E217840256FDCA4489153D59811B6E9488348160FD00E47B4A5337');
INSERT INTO "day_signature_head" VALUES (455424239206416385, 0, X'00000000000000000000000000000801', 70, X'EDDD6B18FB4E5C23CCB1AD1E9B1426C08E364475A3891BC999201CA91DAAA08B');
INSERT INTO "day_signature_head" VALUES (455424239206416385, 1, X'00000000000000000000000000000802', 67, X'60B547E9E1B04A465A0B16E2B37D0E6EFE19EAD06CED3F1A0EAA8FAE57639C5D');
INSERT INTO "day_signature_head" VALUES (455424239206416385, 2, X'99E12E0AFA938A0AA375302BE692FE80', 63, X'7EEC2E209FFDC005B8885A8C11018FE6062BA201AA3D212BCC7380661839E2A0');
INSERT INTO "day_signature_head" VALUES (455424239206418433, 0, X'99E12E0AFA938A0AA375302BE692FE80', 63, X'7EEC2E209FFDC005B8885A8C11018FE6062BA201AA3D212BCC7380661839E2A0');
INSERT INTO "day_signature_head" VALUES (455424239206418433, 1, X'00000000000000000000000000000802', 67, X'60B547E9E1B04A465A0B16E2B37D0E6EFE19EAD06CED3F1A0EAA8FAE57639C5D');
INSERT INTO "day_signature_head" VALUES (455424239206418433, 2, X'00000000000000000000000000000801', 70, X'EDDD6B18FB4E5C23CCB1AD1E9B1426C08E364475A3891BC999201CA91DAAA08B');
INSERT INTO "enrolment" VALUES (455264855669082113, 455264855656499201, 455264855656497153, '2', 61);
INSERT INTO "enrolment" VALUES (455264855671179266, 455264855656499201, 455264855658594306, '2', 62);
INSERT INTO "entry" VALUES (455264855656497153, 3, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855656499201, 2, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855656501249, 7, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855658594306, 3, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855658596354, 2, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855658598402, 7, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855660691457, 1, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855660693505, 8, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855662788610, 1, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855662790658, 8, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855664885761, 5, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855664887809, 13, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855664889857, 15, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855666982914, 5, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855666984962, 13, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855666987010, 15, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855669080065, 12, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855669082113, 4, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855669084161, 41, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855671177218, 12, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855671179266, 4, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855671181314, 41, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855673274369, 42, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855673276417, 9, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855673278465, 10, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855675371522, 42, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855675373570, 9, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855675375618, 10, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855677468673, 11, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855677470721, 14, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855677472769, 16, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855679565826, 11, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855679567874, 14, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855679569922, 16, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855681662977, 40, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855681665025, 30, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855681667073, 34, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855683760130, 40, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855683762178, 30, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855683764226, 34, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855685857281, 44, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855685859329, 36, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855685861377, 17, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855687954434, 44, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855687956482, 36, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855687958530, 17, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855690051585, 18, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855690053633, 19, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855690055681, 20, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855692148738, 18, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855692150786, 19, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855692152834, 20, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855694245889, 21, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855694247937, 22, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855694249985, 23, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855696343042, 21, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855696345090, 22, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855696347138, 23, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855698440193, 45, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855698442241, 24, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855698444289, 25, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855700537346, 45, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855700539394, 24, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855700541442, 25, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855702634497, 37, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855702636545, 26, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855702638593, 27, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855704731650, 37, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855704733698, 26, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855704735746, 27, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855706828801, 28, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855706830849, 31, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855706832897, 32, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855708925954, 28, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855708928002, 31, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855708930050, 32, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855711023105, 33, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855711025153, 43, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855711027201, 35, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855713120258, 33, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855713122306, 43, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855713124354, 35, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855715217409, 38, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855715219457, 39, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855715221505, 47, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855717314562, 38, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855717316610, 39, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855717318658, 47, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855719411713, 46, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855719413761, 48, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855719415809, 49, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855721508866, 46, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855721510914, 48, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855721512962, 49, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855723606017, 75, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855723608065, 85, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855723610113, 86, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855725703170, 75, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855725705218, 85, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855725707266, 86, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855727800321, 89, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855727802369, 90, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855727804417, 91, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855729897474, 89, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855729899522, 90, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855729901570, 91, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855731994625, 92, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855731996673, 93, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855731998721, 76, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855734091778, 92, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855734093826, 93, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855734095874, 76, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855736188929, 80, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855736190977, 8, 1, 455264855660693505, 455264855660693505, 455264855658598402, 455264855656501249, 'typed wrong');
INSERT INTO "entry" VALUES (455264855736193025, 8, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855738286082, 80, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855738288130, 29, 1, 455264855700539394, 455264855700539394, NULL, NULL, 'wrong child');
INSERT INTO "entry" VALUES (455264855738290178, 8, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855740383233, 12, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855740385281, 12, 1, 455264855740383233, 455264855740383233, NULL, NULL, 'erased');
INSERT INTO "entry" VALUES (455264855740387329, 60, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855742480386, 12, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855742482434, 12, 1, 455264855742480386, 455264855742480386, NULL, NULL, 'erased');
INSERT INTO "entry" VALUES (455264855742484482, 60, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855744577537, 8, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855744579585, 12, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855744581633, 12, 2, 455264855744579585, 455264855744579585, NULL, NULL, 'erased');
INSERT INTO "entry" VALUES (455264855746674690, 8, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855746676738, 12, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455264855746678786, 12, 2, 455264855746676738, 455264855746676738, NULL, NULL, 'erased');
INSERT INTO "entry" VALUES (455264855748771843, 3, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206400001, 50, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206402049, 52, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206404098, 50, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206406146, 52, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206408193, 6, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206410241, 51, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206412289, 51, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206414337, 6, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206416385, 51, 1, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206418433, 51, 2, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry" VALUES (455424239206420481, 3, 0, NULL, NULL, NULL, NULL, NULL);
INSERT INTO "entry_kind" VALUES (1, 'program');
INSERT INTO "entry_kind" VALUES (10, 'consent');
INSERT INTO "entry_kind" VALUES (11, 'consent_override');
INSERT INTO "entry_kind" VALUES (12, 'medical_flag');
INSERT INTO "entry_kind" VALUES (13, 'light');
INSERT INTO "entry_kind" VALUES (14, 'meter_reading');
INSERT INTO "entry_kind" VALUES (15, 'lot');
INSERT INTO "entry_kind" VALUES (16, 'cure_time');
INSERT INTO "entry_kind" VALUES (17, 'seating');
INSERT INTO "entry_kind" VALUES (18, 'screening');
INSERT INTO "entry_kind" VALUES (19, 'field');
INSERT INTO "entry_kind" VALUES (2, 'term');
INSERT INTO "entry_kind" VALUES (20, 'timer_start');
INSERT INTO "entry_kind" VALUES (21, 'step_run');
INSERT INTO "entry_kind" VALUES (22, 'wet');
INSERT INTO "entry_kind" VALUES (23, 'placement');
INSERT INTO "entry_kind" VALUES (24, 'varnish');
INSERT INTO "entry_kind" VALUES (25, 'day_outcome');
INSERT INTO "entry_kind" VALUES (26, 'retention_check');
INSERT INTO "entry_kind" VALUES (27, 'referral');
INSERT INTO "entry_kind" VALUES (28, 'contact_attempt');
INSERT INTO "entry_kind" VALUES (29, 'retraction');
INSERT INTO "entry_kind" VALUES (3, 'school');
INSERT INTO "entry_kind" VALUES (30, 'readiness_check');
INSERT INTO "entry_kind" VALUES (31, 'letter');
INSERT INTO "entry_kind" VALUES (32, 'incident');
INSERT INTO "entry_kind" VALUES (33, 'paper_count');
INSERT INTO "entry_kind" VALUES (34, 'light_pass');
INSERT INTO "entry_kind" VALUES (35, 'merge_answer');
INSERT INTO "entry_kind" VALUES (36, 'authorization');
INSERT INTO "entry_kind" VALUES (37, 'paper_sheet');
INSERT INTO "entry_kind" VALUES (38, 'issued_report');
INSERT INTO "entry_kind" VALUES (39, 'day_effort');
INSERT INTO "entry_kind" VALUES (4, 'enrolment');
INSERT INTO "entry_kind" VALUES (40, 'lot_count');
INSERT INTO "entry_kind" VALUES (41, 'meal_eligibility');
INSERT INTO "entry_kind" VALUES (42, 'background');
INSERT INTO "entry_kind" VALUES (43, 'backup_note');
INSERT INTO "entry_kind" VALUES (44, 'agreement_override');
INSERT INTO "entry_kind" VALUES (45, 'after_cure');
INSERT INTO "entry_kind" VALUES (46, 'addendum');
INSERT INTO "entry_kind" VALUES (47, 'reopening');
INSERT INTO "entry_kind" VALUES (48, 'member_pin');
INSERT INTO "entry_kind" VALUES (49, 'placements_confirmed');
INSERT INTO "entry_kind" VALUES (5, 'clinic_day');
INSERT INTO "entry_kind" VALUES (50, 'personal_key');
INSERT INTO "entry_kind" VALUES (51, 'day_signature');
INSERT INTO "entry_kind" VALUES (52, 'recovery_code');
INSERT INTO "entry_kind" VALUES (6, 'day_closure');
INSERT INTO "entry_kind" VALUES (60, 'erasure');
INSERT INTO "entry_kind" VALUES (7, 'member');
INSERT INTO "entry_kind" VALUES (75, 'program_year');
INSERT INTO "entry_kind" VALUES (76, 'day_cost');
INSERT INTO "entry_kind" VALUES (8, 'child');
INSERT INTO "entry_kind" VALUES (80, 'book_key');
INSERT INTO "entry_kind" VALUES (85, 'list_columns');
INSERT INTO "entry_kind" VALUES (86, 'card_join');
INSERT INTO "entry_kind" VALUES (89, 'form_handout');
INSERT INTO "entry_kind" VALUES (9, 'sealed_identity');
INSERT INTO "entry_kind" VALUES (90, 'planned_day');
INSERT INTO "entry_kind" VALUES (91, 'day_envelope');
INSERT INTO "entry_kind" VALUES (92, 'merge_note');
INSERT INTO "entry_kind" VALUES (93, 'passphrase_change');
INSERT INTO "erased_entry" VALUES (455264855736193025, 455264855736193025, X'33A68DEA3F1178C6656916798C39D0218D1F8FFB68502BD60FF78EF91AED3B74');
INSERT INTO "erased_entry" VALUES (455264855738290178, 455264855738290178, X'1EC28882DC59A7E39F54F809C590ADCD321306A3A6CAD39EA14745BD650A6FCE');
INSERT INTO "erased_entry" VALUES (455264855740383233, 455264855736193025, X'62AE30C6000B029079391B584AF1B8165F436851DC7607E6B3145750AADAA432');
INSERT INTO "erased_entry" VALUES (455264855740385281, 455264855736193025, X'6934885BA2400A4F938DA72DD0F5B39BF5062B479A654FBF1DE2FEE38485D7FA');
INSERT INTO "erased_entry" VALUES (455264855742480386, 455264855738290178, X'28E69B025009B1E34641606B941BFFC697F597D00C80AF92E4393E6509AD2497');
INSERT INTO "erased_entry" VALUES (455264855742482434, 455264855738290178, X'B7D10311728DF4FADAC5D89E7961731E2A84DE7649F4EE0AC7D693D2A7505AE1');
INSERT INTO "erased_entry" VALUES (455264855744577537, 455264855744577537, X'5AF04D31EEAB9E80056BF20470D20A27848E0D56C1EF5C0E6DA39740D5C8908D');
INSERT INTO "erased_entry" VALUES (455264855744579585, 455264855744577537, X'198C341E1D27A25F3134ABD7F7DE3BF59BC291DA82459B2D8CEC1728E98EC542');
INSERT INTO "erased_entry" VALUES (455264855744581633, 455264855744577537, X'6088B92320D0B24848C2291FB5311978CE7C361EE71513AC06A200EE6514B581');
INSERT INTO "erased_entry" VALUES (455264855746674690, 455264855746674690, X'3813A01EC6119DD6443E7C8B52805917F5C040AB082823B6D08B7A1B18FB60FD');
INSERT INTO "erased_entry" VALUES (455264855746676738, 455264855746674690, X'86BF38D1D801570EC64B404DF136149A865180A2F06378D424345970FC532B33');
INSERT INTO "erased_entry" VALUES (455264855746678786, 455264855746674690, X'96F27A6FDF8F52FCE297579994550930D6197CA2A46FBA03B9486593841937AD');
INSERT INTO "erasure" VALUES (455264855740387329, 455264855736193025, '2041-0', 'a letter', 'a rule', 'asked for', NULL, X'');
INSERT INTO "erasure" VALUES (455264855742484482, 455264855738290178, '2042-0', 'a letter', 'a rule', 'asked for', NULL, X'');
INSERT INTO "field" VALUES (455264855690053633, 455264855660693505, 455264855664885761, 'cotton rolls', 15, 'operator', 'assistant', 1, 455264855658598402, 455264855664889857, 455264855666987010, 0, 'note 1', 'gauze');
INSERT INTO "field" VALUES (455264855692150786, 455264855662790658, 455264855666982914, 'cotton rolls', 15, 'operator', 'assistant', 1, 455264855658598402, 455264855664889857, 455264855666987010, 0, 'note 2', 'gauze');
INSERT INTO "field_tooth" VALUES (455264855690053633, 0, 11, 1);
INSERT INTO "field_tooth" VALUES (455264855690053633, 1, 21, 3);
INSERT INTO "field_tooth" VALUES (455264855692150786, 0, 12, 1);
INSERT INTO "field_tooth" VALUES (455264855692150786, 1, 22, 3);
INSERT INTO "form_handout" VALUES (455264855727800321, 455264855656499201, 455264855656497153, 'R1', '2026-09-11', 21, 'v1', 'English');
INSERT INTO "form_handout" VALUES (455264855729897474, 455264855656499201, 455264855658594306, 'R2', '2026-09-12', 22, 'v2', 'English');
INSERT INTO "hand" VALUES (1, X'00000000000000000000000000000801');
INSERT INTO "hand" VALUES (2, X'00000000000000000000000000000802');
INSERT INTO "hand" VALUES (3, X'99E12E0AFA938A0AA375302BE692FE80');
INSERT INTO "hand_branch" VALUES (455264855744577537, 455264855740383233, 1, X'D846523DE4E48F03A659F162CC8DA4FC');
INSERT INTO "hand_branch" VALUES (455264855748771843, 455264855740383233, 1, X'99E12E0AFA938A0AA375302BE692FE80');
INSERT INTO "incident" VALUES (455264855706832897, 455264855664885761, 455264855660693505, 'eye splash', 1794900000001, -300, 'done 1', 'told', '', 0);
INSERT INTO "incident" VALUES (455264855708930050, 455264855666982914, 455264855662790658, 'eye splash', 1794900000002, -300, 'done 2', 'told', '', 0);
INSERT INTO "issued_report" VALUES (455264855715217409, 455264855656499201, 'funder', 'all', 1, '2026-12-11', '1,2', 'cccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccc', 'lines');
INSERT INTO "issued_report" VALUES (455264855717314562, 455264855656499201, 'funder', 'all', 2, '2026-12-12', '1,2', 'cccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccc', 'lines');
INSERT INTO "key_wrap" VALUES (X'00000000000000000000000000000000', 'own passphrase', 455424239206400001, X'', 0, 0, X'010101010101010101010101010101010101010101010101', X'010101010101010101010101010101010101010101010101010101010101010101010101010101010101010101010101');
INSERT INTO "key_wrap" VALUES (X'00000000000000000000000000000000', 'own passphrase', 455424239206404098, X'', 0, 0, X'020202020202020202020202020202020202020202020202', X'020202020202020202020202020202020202020202020202020202020202020202020202020202020202020202020202');
INSERT INTO "key_wrap" VALUES (X'77777777777777777777777777777771', 'passphrase', 0, X'01010101010101010101010101010101', 3, 65536, X'010101010101010101010101010101010101010101010101', X'010101010101010101010101010101010101010101010101010101010101010101010101010101010101010101010101');
INSERT INTO "key_wrap" VALUES (X'77777777777777777777777777777771', 'recovery code', 0, X'01010101010101010101010101010101', 3, 65536, X'010101010101010101010101010101010101010101010101', X'010101010101010101010101010101010101010101010101010101010101010101010101010101010101010101010101');
INSERT INTO "key_wrap" VALUES (X'77777777777777777777777777777772', 'passphrase', 0, X'02020202020202020202020202020202', 3, 65536, X'020202020202020202020202020202020202020202020202', X'020202020202020202020202020202020202020202020202020202020202020202020202020202020202020202020202');
INSERT INTO "key_wrap" VALUES (X'77777777777777777777777777777772', 'recovery code', 0, X'02020202020202020202020202020202', 3, 65536, X'020202020202020202020202020202020202020202020202', X'020202020202020202020202020202020202020202020202020202020202020202020202020202020202020202020202');
INSERT INTO "letter" VALUES (455264855706830849, 455264855660693505, 455264855664885761, 1, 'English', 0, 'sealed', 'facts 1', 'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa', 'bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb', '2026-11-11', 1, 'printed', NULL);
INSERT INTO "letter" VALUES (455264855708928002, 455264855662790658, 455264855666982914, 2, 'English', 0, 'sealed', 'facts 2', 'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa', 'bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb', '2026-11-12', 2, 'printed', NULL);
INSERT INTO "light" VALUES (455264855664887809, 'L-1', 'LED', 800, 1001, 1, 'M-1', 1);
INSERT INTO "light" VALUES (455264855666984962, 'L-2', 'LED', 800, 1002, 1, 'M-2', 1);
INSERT INTO "light_pass" VALUES (455264855681667073, 455264855664885761, 455264855664887809, 'reason 1');
INSERT INTO "light_pass" VALUES (455264855683764226, 455264855666982914, 455264855666984962, 'reason 2');
INSERT INTO "list_columns" VALUES (455264855723608065, 455264855656497153, 'dob=birth date;1');
INSERT INTO "list_columns" VALUES (455264855725705218, 455264855658594306, 'dob=birth date;2');
INSERT INTO "lot" VALUES (455264855664889857, 'light-cure sealant', 'Resin 1', 'A1', '2027-03-01', 20, 3, 0, '', NULL);
INSERT INTO "lot" VALUES (455264855666987010, 'light-cure sealant', 'Resin 2', 'A2', '2027-03-02', 20, 3, 0, '', NULL);
INSERT INTO "lot_count" VALUES (455264855681662977, 455264855664885761, 455264855664889857, 1, 11);
INSERT INTO "lot_count" VALUES (455264855683760130, 455264855666982914, 455264855666987010, 1, 12);
INSERT INTO "meal_eligibility" VALUES (455264855669084161, 455264855656499201, 455264855656497153, 51, 'state list');
INSERT INTO "meal_eligibility" VALUES (455264855671181314, 455264855656499201, 455264855658594306, 52, 'state list');
INSERT INTO "medical_flag" VALUES (455264855669080065, 455264855660693505, 'asthma', 'note', 'detail 1', 0, '');
INSERT INTO "medical_flag" VALUES (455264855671177218, 455264855662790658, 'asthma', 'note', 'detail 2', 0, '');
INSERT INTO "member" VALUES (455264855656501249, 'Member 1', 'M1', 'hygienist', 'L1', '2027-06-11', 251);
INSERT INTO "member" VALUES (455264855658598402, 'Member 2', 'M2', 'hygienist', 'L2', '2027-06-12', 252);
INSERT INTO "member_pin" VALUES (455264855719413761, 455264855656501249, X'44444444444444444444444444444441', 3, 67108864, X'555555555555555555555555555555555555555555555551', X'666666666666666666666666666666666666666666666666666666666666666666666666666666666666666666666661', '');
INSERT INTO "member_pin" VALUES (455264855721510914, 455264855658598402, X'44444444444444444444444444444442', 3, 67108864, X'555555555555555555555555555555555555555555555552', X'666666666666666666666666666666666666666666666666666666666666666666666666666666666666666666666662', '');
INSERT INTO "merge_answer" VALUES (455264855711027201, 455264855664885761, 455264855660693505, NULL, X'33333333333333333333333333333301', 'one is kept', 2, 'note 1');
INSERT INTO "merge_answer" VALUES (455264855713124354, 455264855666982914, 455264855662790658, NULL, X'33333333333333333333333333333302', 'one is kept', 2, 'note 2');
INSERT INTO "merge_note" VALUES (455264855731994625, 11, 1);
INSERT INTO "merge_note" VALUES (455264855734091778, 12, 2);
INSERT INTO "merge_note_laptop" VALUES (455264855731994625, 0, X'55555555555555555555555555555551', 7, 31);
INSERT INTO "merge_note_laptop" VALUES (455264855731994625, 1, X'66666666666666666666666666666661', 3, 41);
INSERT INTO "merge_note_laptop" VALUES (455264855734091778, 0, X'55555555555555555555555555555552', 7, 32);
INSERT INTO "merge_note_laptop" VALUES (455264855734091778, 1, X'66666666666666666666666666666662', 3, 42);
INSERT INTO "meter_reading" VALUES (455264855677470721, 455264855664887809, '2026-11-11', 901, 1, 'M-1', 1);
INSERT INTO "meter_reading" VALUES (455264855679567874, 455264855666984962, '2026-11-12', 902, 1, 'M-2', 1);
INSERT INTO "migration" VALUES (1, 'first', 'efba8e89747cf720', 1794900000000);
INSERT INTO "paper_count" VALUES (455264855711023105, 455264855664885761, 'letters', 5, 4, 3, 1, '');
INSERT INTO "paper_count" VALUES (455264855713120258, 455264855666982914, 'letters', 5, 4, 3, 2, '');
INSERT INTO "paper_sheet" VALUES (455264855702634497, 455264855660693505, 455264855664885761, 'P-1', 455264855658598402);
INSERT INTO "paper_sheet" VALUES (455264855704731650, 455264855662790658, 455264855666982914, 'P-2', 455264855658598402);
INSERT INTO "part" VALUES (455264855656497153, 2069, X'DF715862D20A26F11ACDE3126BC9FCD6E68A67489925A916DE97B83257855E04');
INSERT INTO "passphrase_change" VALUES (455264855731996673, X'77777777777777777777777777777771');
INSERT INTO "passphrase_change" VALUES (455264855734093826, X'77777777777777777777777777777772');
INSERT INTO "personal_key" VALUES (455424239206400001, 455264855656501249, X'19D0790BE932990B8AF2CF9F567F46F011DEF0A7CF0C4E24B1A021CBC96A2FDB', X'01010101010101010101010101010101', 3, 65536, X'010101010101010101010101010101010101010101010101', X'010101010101010101010101010101010101010101010101010101010101010101010101010101010101010101010101', 0);
INSERT INTO "personal_key" VALUES (455424239206404098, 455264855658598402, X'76640392DFAC92A82505B5DFAACAB8348EF170089BF82D4B8CC25B7BF1AAB2F3', X'02020202020202020202020202020202', 3, 65536, X'020202020202020202020202020202020202020202020202', X'020202020202020202020202020202020202020202020202020202020202020202020202020202020202020202020202', 0);
INSERT INTO "placement" VALUES (455264855694249985, 455264855660693505, 455264855664885761, 455264855690053633, 11, 1, 'new', 'complete', 455264855656501249, 455264855658598402, 'cotton rolls', 1, 455264855664889857, 455264855666987010, 455264855664887809, 21000, 20001, 1, 0, 0, 1, 1, 'passed', 'note 1');
INSERT INTO "placement" VALUES (455264855696347138, 455264855662790658, 455264855666982914, 455264855692150786, 12, 1, 'new', 'complete', 455264855656501249, 455264855658598402, 'cotton rolls', 1, 455264855664889857, 455264855666987010, 455264855664887809, 21000, 20002, 1, 0, 0, 1, 1, 'passed', 'note 2');
INSERT INTO "placements_confirmed" VALUES (455264855719415809, 455264855664885761, 455264855656501249, 455264855694249985);
INSERT INTO "placements_confirmed" VALUES (455264855721512962, 455264855666982914, 455264855658598402, 455264855696347138);
INSERT INTO "planned_day" VALUES (455264855727802369, 455264855656499201, 455264855656497153, '2026-11-11', 1, 1, 'OF', 'note 1', 0);
INSERT INTO "planned_day" VALUES (455264855729899522, 455264855656499201, 455264855658594306, '2026-11-12', 1, 2, 'OF', 'note 2', 0);
INSERT INTO "program" VALUES (455264855660691457, 'Program 1', 'County 1', '000-555-0101', 'universal', 'general', 'Dr. 1', '2027-07-01', 'law 1', 11, 'all', 90, 0, 20, 20, 10, 6, 301, 51, 61, 71, 81);
INSERT INTO "program" VALUES (455264855662788610, 'Program 2', 'County 2', '000-555-0102', 'universal', 'general', 'Dr. 2', '2027-07-02', 'law 2', 12, 'all', 90, 0, 20, 20, 10, 7, 302, 52, 62, 72, 82);
INSERT INTO "program_year" VALUES (455264855723606017, '2026-21', 'grant year', '2026-10-01', '2027-09-30');
INSERT INTO "program_year" VALUES (455264855725703170, '2026-22', 'grant year', '2026-10-02', '2027-09-30');
INSERT INTO "readiness_check" VALUES (455264855681665025, 455264855664885761, 'clock', 'done', '', 'detail 1');
INSERT INTO "readiness_check" VALUES (455264855683762178, 455264855666982914, 'clock', 'done', '', 'detail 2');
INSERT INTO "recovery_code" VALUES (455424239206402049, 1);
INSERT INTO "recovery_code" VALUES (455424239206406146, 0);
INSERT INTO "referral" VALUES (455264855702638593, 455264855660693505, 455264855664885761, 'early', 'reason 1', '2026-12-01', 'own dentist', 'open');
INSERT INTO "referral" VALUES (455264855704735746, 455264855662790658, 455264855666982914, 'early', 'reason 2', '2026-12-02', 'own dentist', 'open');
INSERT INTO "reopening" VALUES (455264855715221505, 455264855664885761, 'reason 1');
INSERT INTO "reopening" VALUES (455264855717318658, 455264855666982914, 'reason 2');
INSERT INTO "retention_check" VALUES (455264855702636545, 455264855694249985, 455264855660693505, 455264855664885761, 'short-term sample', 1, 'whole', 'not sealed', 'not sealed', 'none', 'sound', 'held', 'none', 'note 1');
INSERT INTO "retention_check" VALUES (455264855704733698, 455264855696347138, 455264855662790658, 455264855666982914, 'short-term sample', 1, 'whole', 'not sealed', 'not sealed', 'none', 'sound', 'held', 'none', 'note 2');
INSERT INTO "school" VALUES (455264855656497153, 'School 1', 'S1', '2031-06-11');
INSERT INTO "school" VALUES (455264855658594306, 'School 2', 'S2', '2031-06-12');
INSERT INTO "school" VALUES (455264855748771843, 'Copied', 'C', NULL);
INSERT INTO "school" VALUES (455424239206420481, 'After it', 'AFTER', NULL);
INSERT INTO "screening" VALUES (455264855690051585, 455264855660693505, 455264855664885761, 'no', 'no', 'none', 'none', 'note 1');
INSERT INTO "screening" VALUES (455264855692148738, 455264855662790658, 455264855666982914, 'no', 'no', 'none', 'none', 'note 2');
INSERT INTO "screening_tooth" VALUES (455264855690051585, 0, 11, 'erupted', 'sound', 'not sealed', 'sound', 'not sealed', 'sound', 'not sealed', 'none', 'none', 'seal', 1, 0, 'a 1', 'not said');
INSERT INTO "screening_tooth" VALUES (455264855690051585, 1, 21, 'erupted', 'sound', 'not sealed', 'sound', 'not sealed', 'sound', 'not sealed', 'none', 'none', 'reseal', 1, 1, 'b 1', 'lost');
INSERT INTO "screening_tooth" VALUES (455264855692148738, 0, 12, 'erupted', 'sound', 'not sealed', 'sound', 'not sealed', 'sound', 'not sealed', 'none', 'none', 'seal', 1, 0, 'a 2', 'not said');
INSERT INTO "screening_tooth" VALUES (455264855692148738, 1, 22, 'erupted', 'sound', 'not sealed', 'sound', 'not sealed', 'sound', 'not sealed', 'none', 'none', 'reseal', 1, 1, 'b 2', 'lost');
INSERT INTO "sealed_identity" VALUES (455264855673276417, 455264855660693505, X'111111111111111111111111111111111111111111111101', X'22222222222222222222222222222222222222222222222222222222222201');
INSERT INTO "sealed_identity" VALUES (455264855675373570, 455264855662790658, X'111111111111111111111111111111111111111111111102', X'22222222222222222222222222222222222222222222222222222222222202');
INSERT INTO "seating" VALUES (455264855685861377, 455264855660693505, 455264855664885761, 3, 1, 0, 'new inhaler 1');
INSERT INTO "seating" VALUES (455264855687958530, 455264855662790658, 455264855666982914, 3, 1, 0, 'new inhaler 2');
INSERT INTO "seating_alert" VALUES (455264855685861377, 0, 455264855669080065);
INSERT INTO "seating_alert" VALUES (455264855687958530, 0, 455264855671177218);
INSERT INTO "step_run" VALUES (455264855694245889, 455264855690053633, 'etch', 'done', 21001, 20, 'timer', 455264855690055681, 455264855664887809, 455264855666987010, 'first', 'r 1');
INSERT INTO "step_run" VALUES (455264855696343042, 455264855692150786, 'etch', 'done', 21002, 20, 'timer', 455264855692152834, 455264855664887809, 455264855666987010, 'first', 'r 2');
INSERT INTO "step_tooth" VALUES (455264855694245889, 0, 11, 1);
INSERT INTO "step_tooth" VALUES (455264855694245889, 1, 21, 3);
INSERT INTO "step_tooth" VALUES (455264855696343042, 0, 12, 1);
INSERT INTO "step_tooth" VALUES (455264855696343042, 1, 22, 3);
INSERT INTO "term" VALUES (455264855656499201, 'Term 1', '2026-09-01', '2026-12-18');
INSERT INTO "term" VALUES (455264855658596354, 'Term 2', '2026-09-02', '2026-12-18');
INSERT INTO "term_holiday" VALUES (455264855656499201, 0, '2026-10-11');
INSERT INTO "term_holiday" VALUES (455264855656499201, 1, '2026-11-21');
INSERT INTO "term_holiday" VALUES (455264855658596354, 0, '2026-10-12');
INSERT INTO "term_holiday" VALUES (455264855658596354, 1, '2026-11-22');
INSERT INTO "timer_start" VALUES (455264855690055681, 455264855690053633, 'etch', 21, 455264855664887809);
INSERT INTO "timer_start" VALUES (455264855692152834, 455264855692150786, 'etch', 22, 455264855666984962);
INSERT INTO "timer_tooth" VALUES (455264855690055681, 0, 11, 1);
INSERT INTO "timer_tooth" VALUES (455264855690055681, 1, 21, 3);
INSERT INTO "timer_tooth" VALUES (455264855692152834, 0, 12, 1);
INSERT INTO "timer_tooth" VALUES (455264855692152834, 1, 22, 3);
INSERT INTO "varnish" VALUES (455264855698442241, 455264855660693505, 455264855664885761, 455264855664889857);
INSERT INTO "varnish" VALUES (455264855700539394, 455264855662790658, 455264855666982914, 455264855666987010);
INSERT INTO "wet" VALUES (455264855694247937, 455264855690053633, 'after etch', 'saliva', 'note 1');
INSERT INTO "wet" VALUES (455264855696345090, 455264855692150786, 'after etch', 'saliva', 'note 2');
INSERT INTO "wet_tooth" VALUES (455264855694247937, 0, 11);
INSERT INTO "wet_tooth" VALUES (455264855694247937, 1, 21);
INSERT INTO "wet_tooth" VALUES (455264855696345090, 0, 12);
INSERT INTO "wet_tooth" VALUES (455264855696345090, 1, 22);
CREATE INDEX entry_subject ON entry (subject) WHERE subject IS NOT NULL;
CREATE INDEX entry_supersedes ON entry (supersedes) WHERE supersedes IS NOT NULL;
CREATE UNIQUE INDEX act_hand ON act (first & 2047, sequence);
CREATE INDEX enrolment_term ON enrolment (term);
CREATE INDEX clinic_day_term ON clinic_day (term);
CREATE INDEX day_closure_day ON day_closure (day);
CREATE INDEX child_number ON child (number);
CREATE INDEX child_school ON child (school);
CREATE INDEX sealed_identity_child ON sealed_identity (child);
CREATE INDEX consent_child ON consent (child);
CREATE INDEX consent_term ON consent (term);
CREATE INDEX consent_override_child ON consent_override (child);
CREATE INDEX medical_flag_child ON medical_flag (child);
CREATE INDEX meter_reading_light ON meter_reading (light);
CREATE INDEX seating_child ON seating (child);
CREATE INDEX seating_day ON seating (day);
CREATE INDEX screening_child ON screening (child);
CREATE INDEX screening_day ON screening (day);
CREATE INDEX field_child ON field (child);
CREATE INDEX field_day ON field (day);
CREATE INDEX timer_start_field ON timer_start (field);
CREATE INDEX step_run_field ON step_run (field);
CREATE INDEX wet_field ON wet (field);
CREATE INDEX placement_child ON placement (child);
CREATE INDEX placement_day ON placement (day);
CREATE INDEX placement_field ON placement (field);
CREATE INDEX varnish_child ON varnish (child);
CREATE INDEX varnish_day ON varnish (day);
CREATE INDEX day_outcome_child ON day_outcome (child);
CREATE INDEX day_outcome_day ON day_outcome (day);
CREATE INDEX retention_check_placement ON retention_check (placement);
CREATE INDEX retention_check_child ON retention_check (child);
CREATE INDEX retention_check_day ON retention_check (day);
CREATE INDEX referral_child ON referral (child);
CREATE INDEX referral_day ON referral (day);
CREATE INDEX contact_attempt_child ON contact_attempt (child);
CREATE INDEX contact_attempt_day ON contact_attempt (day);
CREATE INDEX readiness_check_day ON readiness_check (day);
CREATE INDEX letter_child ON letter (child);
CREATE INDEX letter_day ON letter (day);
CREATE INDEX incident_day ON incident (day);
CREATE INDEX incident_child ON incident (child) WHERE child IS NOT NULL;
CREATE INDEX paper_count_day ON paper_count (day);
CREATE INDEX light_pass_day ON light_pass (day);
CREATE INDEX merge_answer_day ON merge_answer (day);
CREATE INDEX merge_answer_child ON merge_answer (child);
CREATE INDEX authorization_child ON authorization (child);
CREATE INDEX paper_sheet_child ON paper_sheet (child);
CREATE INDEX paper_sheet_day ON paper_sheet (day);
CREATE INDEX issued_report_term ON issued_report (term);
CREATE INDEX day_effort_day ON day_effort (day);
CREATE INDEX lot_count_day ON lot_count (day);
CREATE INDEX meal_eligibility_term ON meal_eligibility (term);
CREATE INDEX background_child ON background (child);
CREATE INDEX backup_note_day ON backup_note (day);
CREATE INDEX agreement_override_day ON agreement_override (day);
CREATE INDEX after_cure_child ON after_cure (child);
CREATE INDEX after_cure_day ON after_cure (day);
CREATE INDEX addendum_day ON addendum (day);
CREATE INDEX addendum_child ON addendum (child) WHERE child IS NOT NULL;
CREATE INDEX reopening_day ON reopening (day);
CREATE INDEX member_pin_member ON member_pin (member);
CREATE INDEX placements_confirmed_day ON placements_confirmed (day);
CREATE INDEX personal_key_member ON personal_key (member);
CREATE INDEX day_signature_day ON day_signature (day);
CREATE INDEX erasure_whom ON erasure (whom);
CREATE INDEX day_cost_day ON day_cost (day);
CREATE INDEX list_columns_school ON list_columns (school);
CREATE INDEX card_join_child ON card_join (child);
CREATE INDEX card_join_other ON card_join (other);
CREATE INDEX form_handout_term ON form_handout (term);
CREATE INDEX form_handout_school ON form_handout (school);
CREATE INDEX planned_day_term ON planned_day (term);
CREATE INDEX planned_day_school ON planned_day (school);
CREATE TRIGGER book_same_id BEFORE UPDATE OF only_row, id ON book
BEGIN SELECT RAISE(ABORT, 'the identity of a book is never changed'); END;
CREATE TRIGGER book_no_delete BEFORE DELETE ON book
BEGIN SELECT RAISE(ABORT, 'the row of book is never removed'); END;
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
CREATE TRIGGER hand_no_delete BEFORE DELETE ON hand
BEGIN SELECT RAISE(ABORT, 'rows of hand are never changed'); END;
CREATE TRIGGER hand_no_replace BEFORE INSERT ON hand
WHEN EXISTS (SELECT 1 FROM hand WHERE number = NEW.number) OR EXISTS (SELECT 1 FROM hand WHERE laptop = NEW.laptop)
BEGIN SELECT RAISE(ABORT, 'rows of hand are never replaced'); END;
CREATE TRIGGER entry_kind_no_update BEFORE UPDATE ON entry_kind
BEGIN SELECT RAISE(ABORT, 'rows of entry_kind are never changed'); END;
CREATE TRIGGER entry_kind_no_delete BEFORE DELETE ON entry_kind
BEGIN SELECT RAISE(ABORT, 'rows of entry_kind are never changed'); END;
CREATE TRIGGER entry_kind_no_replace BEFORE INSERT ON entry_kind
WHEN EXISTS (SELECT 1 FROM entry_kind WHERE number = NEW.number) OR EXISTS (SELECT 1 FROM entry_kind WHERE name = NEW.name)
BEGIN SELECT RAISE(ABORT, 'rows of entry_kind are never replaced'); END;
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
CREATE TRIGGER act_of_entries BEFORE INSERT ON act
WHEN NOT EXISTS (SELECT 1 FROM entry WHERE id = NEW.first AND nth = 0) OR NOT EXISTS (SELECT 1 FROM entry WHERE id = NEW.first + (NEW.count - 1) * 2048 AND nth = NEW.count - 1)
BEGIN SELECT RAISE(ABORT, 'an act of no entries in act'); END;
CREATE TRIGGER act_no_delete BEFORE DELETE ON act
BEGIN SELECT RAISE(ABORT, 'rows of act are never changed'); END;
CREATE TRIGGER act_no_replace BEFORE INSERT ON act
WHEN EXISTS (SELECT 1 FROM act WHERE first = NEW.first) OR EXISTS (SELECT 1 FROM act WHERE first & 2047 = NEW.first & 2047 AND sequence = NEW.sequence)
BEGIN SELECT RAISE(ABORT, 'rows of act are never replaced'); END;
CREATE VIEW every_entry AS
SELECT e.id, coalesce(e.subject, e.id) AS subject, a.first AS act, k.name AS kind, h.laptop,
  a.sequence + e.nth AS sequence, coalesce(e.author, a.author) AS author,
  iif(e.author IS NULL, a.recorder, e.recorder) AS recorder, a.at, a.utc_offset, e.supersedes,
  coalesce(e.reason, '') AS reason, a.verb, a.station
FROM entry AS e CROSS JOIN act AS a ON a.first = e.id - e.nth * 2048
CROSS JOIN hand AS h ON h.number = e.id & 2047 CROSS JOIN entry_kind AS k ON k.number = e.kind;
CREATE VIEW current_entry AS
SELECT e.id, coalesce(e.subject, e.id) AS subject, a.first AS act, k.name AS kind, h.laptop,
  a.sequence + e.nth AS sequence, coalesce(e.author, a.author) AS author,
  iif(e.author IS NULL, a.recorder, e.recorder) AS recorder, a.at, a.utc_offset, e.supersedes,
  coalesce(e.reason, '') AS reason, a.verb, a.station
FROM entry AS e CROSS JOIN act AS a ON a.first = e.id - e.nth * 2048
CROSS JOIN hand AS h ON h.number = e.id & 2047 CROSS JOIN entry_kind AS k ON k.number = e.kind
WHERE e.kind <> 29
  AND NOT EXISTS (SELECT 1 FROM entry AS later WHERE later.supersedes = e.id);
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
CREATE TRIGGER hand_branch_no_delete BEFORE DELETE ON hand_branch
BEGIN SELECT RAISE(ABORT, 'rows of hand_branch are never changed'); END;
CREATE TRIGGER hand_branch_no_replace BEFORE INSERT ON hand_branch
WHEN EXISTS (SELECT 1 FROM hand_branch WHERE first = NEW.first) OR EXISTS (SELECT 1 FROM hand_branch WHERE laptop = NEW.laptop)
BEGIN SELECT RAISE(ABORT, 'rows of hand_branch are never replaced'); END;
CREATE TRIGGER erasure_kind BEFORE INSERT ON erasure
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 60
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in erasure'); END;
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
CREATE TRIGGER act_no_update BEFORE UPDATE ON act
BEGIN SELECT RAISE(ABORT, 'rows of act are never changed'); END;
CREATE TRIGGER hand_no_update BEFORE UPDATE ON hand
BEGIN SELECT RAISE(ABORT, 'rows of hand are never changed'); END;
CREATE TRIGGER hand_branch_no_update BEFORE UPDATE ON hand_branch
BEGIN SELECT RAISE(ABORT, 'rows of hand_branch are never changed'); END;
COMMIT;
