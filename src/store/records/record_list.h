#pragma once

#include "chairside/after_cure.h"
#include "chairside/authorization.h"
#include "chairside/paper.h"
#include "chairside/placement.h"
#include "followup/copies/backup_note.h"
#include "followup/copies/day_envelope.h"
#include "followup/copies/issued_report.h"
#include "followup/copies/merge_answer.h"
#include "followup/copies/merge_note.h"
#include "followup/incident.h"
#include "followup/letter.h"
#include "followup/paper_count.h"
#include "followup/placements_confirmed.h"
#include "followup/referral.h"
#include "followup/retention_check.h"
#include "kit/light.h"
#include "kit/lot_count.h"
#include "kit/material.h"
#include "kit/readiness.h"
#include "roster/child/background.h"
#include "roster/child/card_join.h"
#include "roster/consent/consent.h"
#include "roster/consent/form_handout.h"
#include "roster/days/addendum.h"
#include "roster/days/clinic_day.h"
#include "roster/days/day_cost.h"
#include "roster/days/day_effort.h"
#include "roster/days/planned_day.h"
#include "roster/keys/book_key.h"
#include "roster/keys/erasure.h"
#include "roster/keys/keys.h"
#include "roster/list/list_columns.h"
#include "roster/program/meal_eligibility.h"
#include "roster/program/program_year.h"
#include "roster/team/member_pin.h"
#include "roster/team/team.h"
#include "store/values/identity_row.h"

#include <type_traits>

namespace gk::store {

template <class... T>
struct TypeList {};

/// Every record type of the book, once: whoever does something with all of them walks this list, so
/// that a new one is nowhere forgotten.
using RecordTypes = TypeList<
    roster::Program, roster::Term, roster::School, roster::Enrollment, roster::MealEligibility,
    roster::ClinicDay, roster::DayEffort, roster::DayClosure, roster::Addendum, roster::Reopening,
    roster::AgreementOverride, roster::Member, roster::Child, roster::Background, SealedIdentity,
    roster::Consent, roster::ConsentOverride, roster::MedicalFlag, kit::Light, kit::MeterReading,
    kit::Lot, kit::LotCount, kit::CureTime, kit::ReadinessCheck, chairside::Authorization,
    chairside::Seating, chairside::Screening, chairside::Field, chairside::TimerStart,
    chairside::StepRun, chairside::Wet, chairside::Placement, chairside::AfterCure,
    chairside::Varnish, chairside::DayOutcome, chairside::PaperSheet, followup::RetentionCheck,
    followup::Referral, followup::ContactAttempt, followup::Letter, followup::Incident,
    followup::PaperCount, followup::BackupNote, followup::MergeAnswer, kit::LightPass,
    followup::IssuedReport, roster::MemberPin, followup::PlacementsConfirmed, roster::PersonalKey,
    roster::DaySignature, roster::RecoveryCode, roster::Erasure, roster::ProgramYear,
    roster::DayCost, roster::BookKey, roster::ListColumns, roster::CardJoin, roster::FormHandout,
    roster::PlannedDay, followup::DayEnvelope, followup::MergeNote, roster::PassphraseChange>;

template <class T, class List>
inline constexpr bool isListed = false;
template <class T, class... Each>
inline constexpr bool isListed<T, TypeList<Each...>> = (std::is_same_v<T, Each> || ...);

/// Calls `visit.operator()<T>()` for each type of the list, in its order.
template <class... T, class Visit>
constexpr void forEachRecord(TypeList<T...>, Visit&& visit) {
  (visit.template operator()<T>(), ...);
}
template <class Visit>
constexpr void forEachRecord(Visit&& visit) {
  forEachRecord(RecordTypes{}, visit);
}

} // namespace gk::store
