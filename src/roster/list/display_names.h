#pragma once

#include "roster/list/roster_columns.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

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
                                     "insurance",
                                     "enrollment status",
                                     "guardian first name",
                                     "guardian last name",
                                     "second guardian first name",
                                     "second guardian last name",
                                     "school"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::DateOrder> =
    std::to_array<std::string_view>({"not said", "month first", "day first"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::EarlyGrades> =
    std::to_array<std::string_view>({"wait for a correction", "kindergarten", "left out"});
