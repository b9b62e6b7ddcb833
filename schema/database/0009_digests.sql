-- Nothing forged unseen: a digest of each act over all its rows, chained for each laptop
-- (docs/decisions/0010-digests.md), and one of the key that opens the names.
CREATE TABLE act_digest (
  act BLOB PRIMARY KEY REFERENCES entry (id),
  digest BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER act_digest_no_update BEFORE UPDATE ON act_digest
BEGIN SELECT RAISE(ABORT, 'rows of act_digest are never changed'); END;

CREATE TRIGGER act_digest_no_delete BEFORE DELETE ON act_digest
BEGIN SELECT RAISE(ABORT, 'rows of act_digest are never changed'); END;

CREATE TRIGGER act_digest_of_act BEFORE INSERT ON act_digest
WHEN NOT EXISTS (SELECT 1 FROM entry WHERE id = NEW.act AND act = NEW.act)
BEGIN SELECT RAISE(ABORT, 'a digest of no act in act_digest'); END;

ALTER TABLE book ADD COLUMN key_digest BLOB CHECK (length(key_digest) = 32);

CREATE TRIGGER book_same_id BEFORE UPDATE OF only_row, id ON book
BEGIN SELECT RAISE(ABORT, 'the identity of a book is never changed'); END;

CREATE TRIGGER book_no_delete BEFORE DELETE ON book
BEGIN SELECT RAISE(ABORT, 'the row of book is never removed'); END;

CREATE TRIGGER migration_no_update BEFORE UPDATE ON migration
BEGIN SELECT RAISE(ABORT, 'rows of migration are never changed'); END;

CREATE TRIGGER migration_no_delete BEFORE DELETE ON migration
BEGIN SELECT RAISE(ABORT, 'rows of migration are never changed'); END;

-- REPLACE removes the row in its way and fires no DELETE trigger, so it must find none in its way.

CREATE TRIGGER act_digest_no_replace BEFORE INSERT ON act_digest
WHEN EXISTS (SELECT 1 FROM act_digest WHERE act = NEW.act)
BEGIN SELECT RAISE(ABORT, 'rows of act_digest are never replaced'); END;

CREATE TRIGGER addendum_no_replace BEFORE INSERT ON addendum
WHEN EXISTS (SELECT 1 FROM addendum WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of addendum are never replaced'); END;

CREATE TRIGGER after_cure_no_replace BEFORE INSERT ON after_cure
WHEN EXISTS (SELECT 1 FROM after_cure WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of after_cure are never replaced'); END;

CREATE TRIGGER agreement_override_no_replace BEFORE INSERT ON agreement_override
WHEN EXISTS (SELECT 1 FROM agreement_override WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of agreement_override are never replaced'); END;

CREATE TRIGGER authorization_no_replace BEFORE INSERT ON authorization
WHEN EXISTS (SELECT 1 FROM authorization WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of authorization are never replaced'); END;

CREATE TRIGGER authorization_tooth_no_replace BEFORE INSERT ON authorization_tooth
WHEN EXISTS (SELECT 1 FROM authorization_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM authorization_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of authorization_tooth are never replaced'); END;

CREATE TRIGGER background_no_replace BEFORE INSERT ON background
WHEN EXISTS (SELECT 1 FROM background WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of background are never replaced'); END;

CREATE TRIGGER backup_note_no_replace BEFORE INSERT ON backup_note
WHEN EXISTS (SELECT 1 FROM backup_note WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of backup_note are never replaced'); END;

CREATE TRIGGER book_no_replace BEFORE INSERT ON book
WHEN EXISTS (SELECT 1 FROM book WHERE only_row = NEW.only_row)
BEGIN SELECT RAISE(ABORT, 'rows of book are never replaced'); END;

CREATE TRIGGER child_no_replace BEFORE INSERT ON child
WHEN EXISTS (SELECT 1 FROM child WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of child are never replaced'); END;

CREATE TRIGGER clinic_day_no_replace BEFORE INSERT ON clinic_day
WHEN EXISTS (SELECT 1 FROM clinic_day WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of clinic_day are never replaced'); END;

CREATE TRIGGER consent_no_replace BEFORE INSERT ON consent
WHEN EXISTS (SELECT 1 FROM consent WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of consent are never replaced'); END;

CREATE TRIGGER consent_override_no_replace BEFORE INSERT ON consent_override
WHEN EXISTS (SELECT 1 FROM consent_override WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of consent_override are never replaced'); END;

CREATE TRIGGER contact_attempt_no_replace BEFORE INSERT ON contact_attempt
WHEN EXISTS (SELECT 1 FROM contact_attempt WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of contact_attempt are never replaced'); END;

CREATE TRIGGER cure_time_no_replace BEFORE INSERT ON cure_time
WHEN EXISTS (SELECT 1 FROM cure_time WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of cure_time are never replaced'); END;

CREATE TRIGGER day_closure_no_replace BEFORE INSERT ON day_closure
WHEN EXISTS (SELECT 1 FROM day_closure WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_closure are never replaced'); END;

CREATE TRIGGER day_effort_no_replace BEFORE INSERT ON day_effort
WHEN EXISTS (SELECT 1 FROM day_effort WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_effort are never replaced'); END;

CREATE TRIGGER day_effort_people_no_replace BEFORE INSERT ON day_effort_people
WHEN EXISTS (SELECT 1 FROM day_effort_people WHERE entry = NEW.entry AND role = NEW.role)
BEGIN SELECT RAISE(ABORT, 'rows of day_effort_people are never replaced'); END;

CREATE TRIGGER day_outcome_no_replace BEFORE INSERT ON day_outcome
WHEN EXISTS (SELECT 1 FROM day_outcome WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of day_outcome are never replaced'); END;

CREATE TRIGGER enrolment_no_replace BEFORE INSERT ON enrolment
WHEN EXISTS (SELECT 1 FROM enrolment WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of enrolment are never replaced'); END;

CREATE TRIGGER entry_no_replace BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id) OR EXISTS (SELECT 1 FROM entry WHERE laptop = NEW.laptop AND sequence = NEW.sequence)
BEGIN SELECT RAISE(ABORT, 'rows of entry are never replaced'); END;

CREATE TRIGGER entry_kind_no_replace BEFORE INSERT ON entry_kind
WHEN EXISTS (SELECT 1 FROM entry_kind WHERE name = NEW.name)
BEGIN SELECT RAISE(ABORT, 'rows of entry_kind are never replaced'); END;

CREATE TRIGGER field_no_replace BEFORE INSERT ON field
WHEN EXISTS (SELECT 1 FROM field WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of field are never replaced'); END;

CREATE TRIGGER field_tooth_no_replace BEFORE INSERT ON field_tooth
WHEN EXISTS (SELECT 1 FROM field_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM field_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of field_tooth are never replaced'); END;

CREATE TRIGGER incident_no_replace BEFORE INSERT ON incident
WHEN EXISTS (SELECT 1 FROM incident WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of incident are never replaced'); END;

CREATE TRIGGER issued_report_no_replace BEFORE INSERT ON issued_report
WHEN EXISTS (SELECT 1 FROM issued_report WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of issued_report are never replaced'); END;

CREATE TRIGGER letter_no_replace BEFORE INSERT ON letter
WHEN EXISTS (SELECT 1 FROM letter WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of letter are never replaced'); END;

CREATE TRIGGER light_no_replace BEFORE INSERT ON light
WHEN EXISTS (SELECT 1 FROM light WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of light are never replaced'); END;

CREATE TRIGGER light_pass_no_replace BEFORE INSERT ON light_pass
WHEN EXISTS (SELECT 1 FROM light_pass WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of light_pass are never replaced'); END;

CREATE TRIGGER lot_no_replace BEFORE INSERT ON lot
WHEN EXISTS (SELECT 1 FROM lot WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of lot are never replaced'); END;

CREATE TRIGGER lot_count_no_replace BEFORE INSERT ON lot_count
WHEN EXISTS (SELECT 1 FROM lot_count WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of lot_count are never replaced'); END;

CREATE TRIGGER meal_eligibility_no_replace BEFORE INSERT ON meal_eligibility
WHEN EXISTS (SELECT 1 FROM meal_eligibility WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of meal_eligibility are never replaced'); END;

CREATE TRIGGER medical_flag_no_replace BEFORE INSERT ON medical_flag
WHEN EXISTS (SELECT 1 FROM medical_flag WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of medical_flag are never replaced'); END;

CREATE TRIGGER member_no_replace BEFORE INSERT ON member
WHEN EXISTS (SELECT 1 FROM member WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of member are never replaced'); END;

CREATE TRIGGER merge_answer_no_replace BEFORE INSERT ON merge_answer
WHEN EXISTS (SELECT 1 FROM merge_answer WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of merge_answer are never replaced'); END;

CREATE TRIGGER meter_reading_no_replace BEFORE INSERT ON meter_reading
WHEN EXISTS (SELECT 1 FROM meter_reading WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of meter_reading are never replaced'); END;

CREATE TRIGGER migration_no_replace BEFORE INSERT ON migration
WHEN EXISTS (SELECT 1 FROM migration WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'rows of migration are never replaced'); END;

CREATE TRIGGER paper_count_no_replace BEFORE INSERT ON paper_count
WHEN EXISTS (SELECT 1 FROM paper_count WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of paper_count are never replaced'); END;

CREATE TRIGGER paper_sheet_no_replace BEFORE INSERT ON paper_sheet
WHEN EXISTS (SELECT 1 FROM paper_sheet WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of paper_sheet are never replaced'); END;

CREATE TRIGGER placement_no_replace BEFORE INSERT ON placement
WHEN EXISTS (SELECT 1 FROM placement WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of placement are never replaced'); END;

CREATE TRIGGER program_no_replace BEFORE INSERT ON program
WHEN EXISTS (SELECT 1 FROM program WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of program are never replaced'); END;

CREATE TRIGGER readiness_check_no_replace BEFORE INSERT ON readiness_check
WHEN EXISTS (SELECT 1 FROM readiness_check WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of readiness_check are never replaced'); END;

CREATE TRIGGER referral_no_replace BEFORE INSERT ON referral
WHEN EXISTS (SELECT 1 FROM referral WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of referral are never replaced'); END;

CREATE TRIGGER reopening_no_replace BEFORE INSERT ON reopening
WHEN EXISTS (SELECT 1 FROM reopening WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of reopening are never replaced'); END;

CREATE TRIGGER retention_check_no_replace BEFORE INSERT ON retention_check
WHEN EXISTS (SELECT 1 FROM retention_check WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of retention_check are never replaced'); END;

CREATE TRIGGER school_no_replace BEFORE INSERT ON school
WHEN EXISTS (SELECT 1 FROM school WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of school are never replaced'); END;

CREATE TRIGGER screening_no_replace BEFORE INSERT ON screening
WHEN EXISTS (SELECT 1 FROM screening WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of screening are never replaced'); END;

CREATE TRIGGER screening_tooth_no_replace BEFORE INSERT ON screening_tooth
WHEN EXISTS (SELECT 1 FROM screening_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM screening_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of screening_tooth are never replaced'); END;

CREATE TRIGGER sealed_identity_no_replace BEFORE INSERT ON sealed_identity
WHEN EXISTS (SELECT 1 FROM sealed_identity WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of sealed_identity are never replaced'); END;

CREATE TRIGGER seating_no_replace BEFORE INSERT ON seating
WHEN EXISTS (SELECT 1 FROM seating WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of seating are never replaced'); END;

CREATE TRIGGER seating_alert_no_replace BEFORE INSERT ON seating_alert
WHEN EXISTS (SELECT 1 FROM seating_alert WHERE entry = NEW.entry AND flag = NEW.flag) OR EXISTS (SELECT 1 FROM seating_alert WHERE entry = NEW.entry AND place = NEW.place)
BEGIN SELECT RAISE(ABORT, 'rows of seating_alert are never replaced'); END;

CREATE TRIGGER step_run_no_replace BEFORE INSERT ON step_run
WHEN EXISTS (SELECT 1 FROM step_run WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of step_run are never replaced'); END;

CREATE TRIGGER step_tooth_no_replace BEFORE INSERT ON step_tooth
WHEN EXISTS (SELECT 1 FROM step_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM step_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of step_tooth are never replaced'); END;

CREATE TRIGGER term_no_replace BEFORE INSERT ON term
WHEN EXISTS (SELECT 1 FROM term WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of term are never replaced'); END;

CREATE TRIGGER term_holiday_no_replace BEFORE INSERT ON term_holiday
WHEN EXISTS (SELECT 1 FROM term_holiday WHERE entry = NEW.entry AND place = NEW.place)
BEGIN SELECT RAISE(ABORT, 'rows of term_holiday are never replaced'); END;

CREATE TRIGGER timer_start_no_replace BEFORE INSERT ON timer_start
WHEN EXISTS (SELECT 1 FROM timer_start WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of timer_start are never replaced'); END;

CREATE TRIGGER timer_tooth_no_replace BEFORE INSERT ON timer_tooth
WHEN EXISTS (SELECT 1 FROM timer_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM timer_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of timer_tooth are never replaced'); END;

CREATE TRIGGER varnish_no_replace BEFORE INSERT ON varnish
WHEN EXISTS (SELECT 1 FROM varnish WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of varnish are never replaced'); END;

CREATE TRIGGER wet_no_replace BEFORE INSERT ON wet
WHEN EXISTS (SELECT 1 FROM wet WHERE entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'rows of wet are never replaced'); END;

CREATE TRIGGER wet_tooth_no_replace BEFORE INSERT ON wet_tooth
WHEN EXISTS (SELECT 1 FROM wet_tooth WHERE entry = NEW.entry AND place = NEW.place) OR EXISTS (SELECT 1 FROM wet_tooth WHERE entry = NEW.entry AND tooth = NEW.tooth)
BEGIN SELECT RAISE(ABORT, 'rows of wet_tooth are never replaced'); END;
