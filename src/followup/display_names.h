#pragma once

#include "chairside/display_names.h"
#include "followup/incident.h"
#include "followup/letter.h"
#include "followup/paper_count.h"
#include "followup/referral.h"
#include "followup/retention_check.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::followup::IncidentType> =
    std::to_array<std::string_view>({"etchant on soft tissue", "eye splash", "foreign body", "fall",
                                     "fainting", "allergic reaction", "staff sharps injury",
                                     "privacy", "equipment"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::LetterVariant> =
    std::to_array<std::string_view>({"no obvious problem", "sealed", "sealed, unfinished",
                                     "not treated", "referral, early care", "referral, urgent care",
                                     "recheck, fully retained", "recheck, repaired", "absent",
                                     "stopped"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::LetterState> =
    std::to_array<std::string_view>({"queued", "printed", "handed out", "returned"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::Paper> = std::to_array<std::string_view>(
    {"letters", "runner's list", "nurse's sheets", "other printed lists"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::ReferredTo> =
    std::to_array<std::string_view>({"own dentist", "community clinic", "emergency", "medical",
                                     "none available"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::ReferralState> =
    std::to_array<std::string_view>({"open", "treatment complete", "treatment started",
                                     "seen, no treatment needed", "declined", "moved",
                                     "lost to follow-up"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::Channel> =
    std::to_array<std::string_view>({"phone", "letter", "nurse", "message"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::ContactResult> =
    std::to_array<std::string_view>({"reached", "message left", "no answer", "wrong number",
                                     "letter returned"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::CheckKind> =
    std::to_array<std::string_view>({"short-term sample", "short-term, triggered", "long-term",
                                     "opportunistic", "reported loss"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::Held> = std::to_array<std::string_view>(
    {"not sealed", "fully retained", "partially retained", "missing", "not assessable"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::CannotAssess> =
    std::to_array<std::string_view>({"none", "restored over", "crowned", "extracted", "exfoliated",
                                     "banded", "covered by gingiva", "child unable to cooperate",
                                     "record in question"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::ToothHealth> =
    std::to_array<std::string_view>({"sound", "non-cavitated lesion", "cavitated", "filled"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::LiftTest> =
    std::to_array<std::string_view>({"not tested", "holds", "lifts off"});

template <>
inline constexpr auto gk::base::displayNames<gk::followup::CheckAction> =
    std::to_array<std::string_view>({"none", "repair today", "reseal today", "repair next visit",
                                     "refer", "watch"});
