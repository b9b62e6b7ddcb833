#pragma once

#include "dentition/display_names.h"
#include "roster/child.h"
#include "roster/consent.h"
#include "roster/day_cost.h"
#include "roster/keys.h"
#include "roster/member_pin.h"
#include "roster/program.h"
#include "roster/program_year.h"
#include "roster/roster_columns.h"
#include "roster/team.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::dentition::Sex> =
    std::to_array<std::string_view>({"female", "male", "other", "not stated"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::LeftBecause> =
    std::to_array<std::string_view>({"moved away", "graduated", "withdrawn by family", "other"});

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

template <>
inline constexpr auto gk::base::displayNames<gk::roster::PinState> =
    std::to_array<std::string_view>({"none", "set", "to be chosen"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::Supervision> =
    std::to_array<std::string_view>({"direct", "indirect", "general", "public health",
                                     "collaborative", "independent", "dentist exam required",
                                     "other"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::Role> = std::to_array<std::string_view>(
    {"hygienist", "dentist", "dental assistant", "expanded-function assistant", "coordinator",
     "manager", "student", "volunteer"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::Task> = std::to_array<std::string_view>(
    {"screen", "choose treatment", "place sealants", "check retention", "apply varnish", "sign",
     "enter records", "clinician override"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::YearKind> =
    std::to_array<std::string_view>({"school year", "grant year", "fiscal year"});

template <>
inline constexpr std::array gk::base::displayNames<gk::roster::RosterColumn> =
    std::to_array<std::string_view>({"left out",
                                     "number",
                                     "student ID",
                                     "name",
                                     "first name",
                                     "middle name",
                                     "last name",
                                     "suffix",
                                     "goes by",
                                     "birth date",
                                     "grade",
                                     "room",
                                     "teacher",
                                     "sex",
                                     "guardian",
                                     "relation",
                                     "phone",
                                     "second guardian",
                                     "second relation",
                                     "second phone",
                                     "language",
                                     "allergies",
                                     "health",
                                     "consent",
                                     "signed on",
                                     "received on",
                                     "valid until",
                                     "services",
                                     "health history answered",
                                     "race and ethnicity",
                                     "insurance"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::DateOrder> =
    std::to_array<std::string_view>({"not said", "month first", "day first"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::EarlyGrades> =
    std::to_array<std::string_view>({"wait for a correction", "kindergarten", "left out"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::Capacity> =
    std::to_array<std::string_view>({"clinical", "completeness"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::CostKind> =
    std::to_array<std::string_view>({"staff", "supplies", "travel", "equipment", "other"});
