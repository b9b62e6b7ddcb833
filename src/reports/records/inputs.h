#pragma once

#include "base/identity/entry.h"
#include "chairside/placement.h"
#include "followup/copies/backup_note.h"
#include "followup/copies/merge_answer.h"
#include "followup/incident.h"
#include "followup/letter.h"
#include "followup/paper_count.h"
#include "followup/referral.h"
#include "followup/retention_check.h"
#include "kit/light.h"
#include "kit/lot_count.h"
#include "kit/material.h"
#include "kit/readiness.h"
#include "reports/records/names.h"
#include "roster/child/background.h"
#include "roster/consent/consent.h"
#include "roster/days/addendum.h"
#include "roster/days/clinic_day.h"
#include "roster/days/day_cost.h"
#include "roster/days/day_effort.h"
#include "roster/keys/keys.h"
#include "roster/program/meal_eligibility.h"
#include "roster/team/team.h"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace gk::reports {

template <class T>
using Rows = std::vector<base::Recorded<T>>;

/// What came for a card after it was joined to another, from a laptop that did not know of it yet.
struct LateOnCard {
  roster::ChildId kept;
  roster::ChildId other;
  std::string number; ///< of the kept card
  std::string otherNumber;
  std::size_t entries = 0;

  [[nodiscard]] std::string words() const; ///< a clause
};

/// What two laptops said of one thing while apart, each word by its fields.
struct RivalWords {
  struct Word {
    base::Stamp stamp;
    std::vector<std::pair<std::string, std::string>> fields; ///< what, and what it says
    bool counts = false;                                     ///< until a person says
    bool isNarrowed = false; ///< and then only as far as the others go too
  };
  std::string thing; ///< "lot"
  std::optional<roster::ChildId> child;
  std::vector<Word> words; ///< two or more
};

/// The records of one clinic day, current rows only.
struct DayRecords {
  roster::DayId id;
  roster::ClinicDay day;
  roster::School school;
  dentition::Notation notation = dentition::Notation::universal;

  /// Children of this school with any form that can count on this day, and any other child with a
  /// record on this day.
  Rows<roster::Child> children{};
  Rows<roster::Consent> consents{}; ///< all forms of those children that can count on this day
  Rows<roster::MedicalFlag> flags{};
  Rows<roster::ConsentOverride> overrides{}; ///< of those children; other dates are passed over

  /// Of this day; rows of other days are passed over.
  Rows<chairside::Seating> seatings{};
  Rows<chairside::Screening> screenings{};
  Rows<chairside::Placement> placements{};
  Rows<chairside::Varnish> varnishes{};
  Rows<chairside::DayOutcome> outcomes{};
  Rows<followup::RetentionCheck> checks{};
  Rows<chairside::Placement> checkedPlacements{}; ///< of other days, that these checks are of
  Rows<chairside::Field> fields{};
  Rows<chairside::StepRun> steps{}; ///< of those fields
  Rows<chairside::Wet> wets{};      ///< of those fields

  /// Of those children, this day or later.
  Rows<followup::Referral> referrals{};
  Rows<followup::ContactAttempt> contacts{};
  Rows<followup::Letter> letters{}; ///< about this day

  Rows<kit::Lot> lots{};
  Rows<kit::Light> lights{};
  Rows<kit::MeterReading> readings{}; ///< the last one up to this date is what counts
  Rows<roster::Member> members{};
  std::set<base::EntryId> confirmed{};        ///< words of placements, by who placed them
  Rows<roster::DayClosure> closures{};        ///< of this day; none while it is open
  Rows<roster::DayClosure> signatures{};      ///< of this day, those taken back too
  Rows<roster::DaySignature> daySignatures{}; ///< of all of those
  std::map<roster::ClosureId, std::string> sheetCodes{};
  Rows<roster::Reopening> reopenings{};                 ///< of this day
  Rows<roster::Addendum> addenda{};                     ///< of this day
  Rows<roster::AgreementOverride> agreementOverrides{}; ///< of this day
  Rows<kit::ReadinessCheck> readiness{};                ///< of this day
  Rows<kit::LightPass> lightPasses{};                   ///< of this day
  Rows<followup::Incident> incidents{};       ///< of this day, and open ones of earlier days
  Rows<followup::PaperCount> papers{};        ///< of this day
  Rows<roster::DayEffort> efforts{};          ///< of this day; the newest counts
  Rows<roster::DayCost> costs{};              ///< likewise
  Rows<followup::BackupNote> backups{};       ///< of this day; the newest of each laptop counts
  Rows<kit::LotCount> lotCounts{};            ///< of this day; the newest of each lot counts
  Rows<followup::MergeAnswer> mergeAnswers{}; ///< of whatever day
  std::vector<RivalWords> rivals{};           ///< of this day, or of no day
  std::vector<LateOnCard> lateOnCards{};      ///< of whatever day

  /// The first stamp of cards and of a visit's rows that are here in a later word.
  std::map<base::EntryId, base::Stamp> firstWords{};
  /// Of children with an unfinished tooth or a doubtful record today: those of other days up to
  /// this one, and the dates of those days.
  Rows<chairside::Screening> earlierScreenings{};
  Rows<chairside::Placement> earlierPlacements{};
  std::map<roster::DayId, base::Date> earlierDays{};

  /// Those of them with a seating, screening or outcome on another day of this term, so that
  /// no one asks for them again today.
  std::vector<roster::ChildId> seenOnOtherDays{};
  /// No later day, not canceled, is planned at this school this term: then whoever is still to be
  /// seen needs an outcome today.
  bool lastDayHere = false;
  std::optional<base::Date> nextDayHere{}; ///< the next day that is planned at this school
};

/// The records of one term, current rows only, with last year's placements that are due now.
struct TermRecords {
  roster::TermId id;
  roster::Term term;
  /// Nothing after this date counts: today, or the end of the term for a finished one.
  base::Date asOf;
  dentition::Notation notation = dentition::Notation::universal;
  roster::Benchmarks benchmarks{}; ///< the program's own
  /// Of a year read as one term (`asOneTerm`): the terms that its forms are of.
  std::set<roster::TermId> formsOf{};
  /// The last end of a term that ended before this one began: its report counts up to then.
  std::optional<base::Date> earlierTermsEnd{};

  [[nodiscard]] bool isFormOf(roster::TermId ofForm) const {
    return ofForm == id || formsOf.contains(ofForm);
  }

  Rows<roster::School> schools{}; ///< all, also those without a single form
  Rows<roster::Enrollment> enrollments{};
  /// Of this term and of every term whose placements or checks are here; `term` tells them apart.
  Rows<roster::ClinicDay> days{};
  Rows<roster::Child> children{};   ///< every child named by another record
  Rows<roster::Consent> consents{}; ///< of this term, and older ones whose own dates reach into it
  Rows<roster::ConsentOverride> overrides{};

  Rows<chairside::Seating> seatings{}; ///< of this term's days
  /// Of all days up to the date of the report: a child's first is its first with the program.
  Rows<chairside::Screening> screenings{};
  Rows<chairside::Varnish> varnishes{};   ///< of this term's days
  Rows<chairside::DayOutcome> outcomes{}; ///< of this term's days
  /// This term's, and earlier ones whose check window touches this term (placed about 15 months
  /// before its start to 9 months before its end). More does no harm.
  Rows<chairside::Placement> placements{};
  Rows<followup::RetentionCheck> checks{};     ///< all checks of those placements, whenever made
  Rows<chairside::Field> fields{};             ///< of those placements
  Rows<followup::Referral> referrals{};        ///< of this term's days
  Rows<followup::ContactAttempt> contacts{};   ///< about those children, whenever made
  Rows<followup::Incident> incidents{};        ///< of this term's days
  Rows<chairside::Wet> wets{};                 ///< of those fields, and others
  Rows<kit::ReadinessCheck> readiness{};       ///< of this term's days
  Rows<roster::DayEffort> efforts{};           ///< of this term's days; the newest of each counts
  Rows<roster::DayCost> costs{};               ///< likewise
  Rows<roster::MealEligibility> eligibility{}; ///< of this term; the newest of each school counts
  Rows<roster::Background> backgrounds{};      ///< of those children

  Rows<roster::DayClosure> closures{};
  Rows<kit::Lot> lots{};
  Rows<kit::Light> lights{};
  Rows<kit::MeterReading> readings{};
  Rows<roster::Member> members{};
  int erased = 0; ///< students whose records were erased, of whatever term: no count has them
};

} // namespace gk::reports
