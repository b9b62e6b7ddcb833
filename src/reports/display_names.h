#pragma once

#include "estimates/display_names.h"
#include "followup/display_names.h"
#include "reports/close_out.h"
#include "reports/day_exception.h"
#include "reports/letter_facts.h"
#include "reports/letters_due.h"
#include "reports/report.h"
#include "reports/retention_facts.h"
#include "reports/retention_totals.h"
#include "reports/rows_behind.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::reports::BlockerKind> =
    std::to_array<std::string_view>({"no outcome", "two outcomes", "outcome disagrees",
                                     "no consent", "urgent, not called", "no referral",
                                     "tooth without a reason", "isolated teeth unfinished",
                                     "light not read", "printed list missing"});

template <>
inline constexpr std::array
    gk::base::displayNames<gk::reports::ExceptionKind> = std::to_array<std::string_view>(
        {"short step", "interrupted cure", "contamination", "frosty not checked",
         "consent override", "light reads red", "not on the roster", "isolation item missing",
         "equipment not ready", "letter missing", "letter given in error", "record in question",
         "light reading skipped", "printed list missing", "printed lists not counted",
         "agreement override"});

template <>
inline constexpr auto gk::base::displayNames<gk::reports::Fixer> =
    std::to_array<std::string_view>({"no action needed", "clinician", "coordinator"});

template <>
inline constexpr auto gk::base::displayNames<gk::reports::Phoned> =
    std::to_array<std::string_view>({"no", "tried", "reached"});

template <>
inline constexpr auto gk::base::displayNames<gk::reports::LetterStand> =
    std::to_array<std::string_view>({"missing", "to replace", "given out by mistake",
                                     "do not hand out", "queued", "printed", "handed out",
                                     "returned", "parent told"});

template <>
inline constexpr auto gk::base::displayNames<gk::reports::ReportKind> =
    std::to_array<std::string_view>({"term totals", "retention", "quality", "findings",
                                     "prevention", "referral follow-up", "lot and light trace",
                                     "payers", "terms compared", "cost", "state", "funder summary",
                                     "funder annex"});

template <>
inline constexpr std::array
    gk::base::displayNames<gk::reports::Factor> = std::to_array<std::string_view>(
        {"school", "curing light", "upper or lower", "tooth", "isolation", "two or four hands",
         "operator", "sealant lot", "operator and assistant", "contamination",
         "who retracted cheek and tongue", "isolation items", "eruption at placement",
         "hypomineralized enamel", "grade now"});

template <>
inline constexpr auto gk::base::displayNames<gk::reports::ClusterUnit> =
    std::to_array<std::string_view>({"children", "schools"});

template <>
inline constexpr auto gk::base::displayNames<gk::reports::SealantCount> =
    std::to_array<std::string_view>({"placed", "due", "examined", "assessable", "fully retained",
                                     "partially retained", "missing", "not assessable"});
