#pragma once

#include "base/enum_names.h"
#include "base/identity/entry.h"
#include "roster/child/child.h"

#include <optional>
#include <span>
#include <string>

namespace gk::roster {

using ConsentId = base::Id<struct ConsentTag>;
using FlagId = base::Id<struct FlagTag>;
using OverrideId = base::Id<struct OverrideTag>;

enum class ConsentState { yes, yesWithLimits, no, notReturned, incomplete, withdrawn, onHold };
enum class Relation { parent, legalGuardian, fosterAgency, selfOfAge, other };
enum class HistoryAnswered { yes, partly, no };

/// What a form can allow. Silence is no.
enum class Service {
  screening,
  sealants,
  varnish,
  interimMaterial,
  recheckAndReplace,
  shareWithNurse,
  shareWithDentist,
  billing,
  photo,
  dataForReports
};
using ServiceSet = base::EnumSet<Service>;

/// One form, or one word about it (a withdrawal supersedes the form it withdraws).
struct Consent {
  using Key = ConsentId;
  ChildId child;
  TermId term; ///< the term for which the form came back
  ConsentState state;
  ServiceSet allowed;
  Relation signer = Relation::parent;
  bool signerReviewed = false; ///< needed when the relation is `other`
  std::optional<base::Date> signedOn;
  std::optional<base::Date> receivedOn;
  std::optional<base::Date> validFrom;
  std::optional<base::Date> validUntil;
  HistoryAnswered history = HistoryAnswered::yes;
  std::string note;       ///< tooth or material limits; how and by whom it was withdrawn
  std::string version{};  ///< printed on the form; empty where no one said
  std::string language{}; ///< in which the form is printed
  bool operator==(const Consent&) const = default;
};

/// Fails with `ruleConsentForm`: a yes without signature date or with dates out of order, a
/// blank health history, nothing ticked, sealants without screening, an unreviewed `other` signer.
/// Such a form is entered as `incomplete`.
base::Result<base::Done> checkForm(const Consent& form, base::Date today);

/// What the forms of one child say about one service on one day.
struct Standing {
  ConsentState state = ConsentState::notReturned;
  bool allows = false;
  bool historyOverAYearOld = false;        ///< ask "any change?"
  std::string why;                         ///< one clause for the person at the chair
  std::optional<base::LocalInstant> since; ///< when it was withdrawn
};

/// `forms` are the current rows of one child, any order. Forms that disagree on the same days are
/// on hold: neither wins by date; where all say yes, a service needs the tick of each. A form
/// signed last year counts only while its own dates say so. A no that gives no last day answers for
/// twelve months, or until a form signed later says yes for another term.
Standing standing(std::span<const base::Recorded<Consent>> forms, Service service, base::Date on);

/// A named clinician takes it on herself to go on without a valid consent. Shown in every report.
struct ConsentOverride {
  using Key = OverrideId;
  ChildId child;
  base::Date on;
  base::MemberId clinician;
  std::string reason;
  bool operator==(const ConsentOverride&) const = default;
};

enum class FlagKind {
  acrylateAllergy,
  latexAllergy,
  rosinReaction,
  asthma,
  seizure,
  heart,
  bleeding,
  diabetes,
  immune,
  recentIllness,
  mouthSore,
  strongGag,
  sensoryOrBehavior,
  hearingOrLanguage,
  wheelchair,
  shunt,
  pregnancy,
  other
};
enum class FlagAction { stop, ask, note };

struct MedicalFlag {
  using Key = FlagId;
  ChildId child;
  FlagKind kind;
  FlagAction action;
  std::string detail;
  bool resolved = false;
  std::string decided; ///< what was decided, when resolved
  bool operator==(const MedicalFlag&) const = default;
};

} // namespace gk::roster

template <>
inline constexpr auto gk::base::enumNames<gk::roster::ConsentState> =
    std::to_array<std::string_view>({"yes", "yes with limits", "no", "not returned", "incomplete",
                                     "withdrawn", "on hold"});
template <>
inline constexpr auto gk::base::enumNames<gk::roster::Relation> = std::to_array<std::string_view>(
    {"parent", "legal guardian", "foster agency", "self, of age", "other"});
template <>
inline constexpr auto gk::base::enumNames<gk::roster::HistoryAnswered> =
    std::to_array<std::string_view>({"yes", "partly", "no"});
template <>
inline constexpr auto gk::base::enumNames<gk::roster::Service> = std::to_array<std::string_view>(
    {"screening", "sealants", "varnish", "interim material", "recheck and replace",
     "share with nurse", "share with dentist", "billing", "photo", "data for reports"});
template <>
inline constexpr auto gk::base::enumNames<gk::roster::FlagKind> = std::to_array<std::string_view>(
    {"acrylate allergy", "latex allergy", "rosin reaction", "asthma", "seizure", "heart",
     "bleeding", "diabetes", "immune", "recent illness", "mouth sore", "strong gag",
     "sensory or behaviour", "hearing or language", "wheelchair", "shunt", "pregnancy", "other"});
template <>
inline constexpr auto gk::base::enumNames<gk::roster::FlagAction> =
    std::to_array<std::string_view>({"stop", "ask", "note"});
