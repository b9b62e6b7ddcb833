#pragma once

#include "roster/consent/consent.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::roster::ConsentState> =
    std::to_array<std::string_view>({"yes", "yes with limits", "no", "not returned", "incomplete",
                                     "withdrawn", "on hold"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::Relation> =
    std::to_array<std::string_view>({"parent", "legal guardian", "foster agency", "self, of age",
                                     "other"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::HistoryAnswered> =
    std::to_array<std::string_view>({"yes", "partly", "no"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::Service> = std::to_array<std::string_view>(
    {"screening", "sealants", "fluoride varnish", "glass ionomer sealants", "recheck and reseal",
     "share with nurse", "share with dentist", "billing", "photos", "data for reports"});

template <>
inline constexpr std::array
    gk::base::displayNames<gk::roster::FlagKind> = std::to_array<std::string_view>(
        {"acrylate allergy", "latex allergy", "rosin reaction", "asthma", "seizures",
         "heart condition", "bleeding disorder", "diabetes", "immune condition", "recent illness",
         "mouth sores", "strong gag reflex", "sensory or behavior", "hearing or language",
         "wheelchair", "shunt", "pregnancy", "other"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::FlagAction> =
    std::to_array<std::string_view>({"stop", "ask", "note"});
