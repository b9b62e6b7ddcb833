#pragma once

#include "kit/material.h"
#include "roster/days/clinic_day.h"
#include "roster/program/program.h"
#include "roster/program/program_year.h"
#include "roster/team/team.h"

#include <span>
#include <string>
#include <vector>

namespace gk::session {

/// What a program is set up with, in the order in which it is entered.
enum class Area { program, schools, terms, team, lights, lots, rosters, years };

/// `ask` keeps no first day from being worked; `missing` does.
enum class AreaStanding { ready, ask, missing };

struct AreaState {
  Area area;
  AreaStanding standing;
  std::string words;             ///< of the whole area, for a list: "3 schools"
  std::vector<std::string> open; ///< a sentence for each thing to do, the gravest first
};

/// What of a book the check list is made from.
struct SetupRecords {
  base::Date on; ///< the day that is prepared
  std::optional<roster::Program> program{};
  std::vector<base::Recorded<roster::School>> schools{};
  std::vector<base::Recorded<roster::Term>> terms{};
  std::vector<base::Recorded<roster::Enrollment>> enrollments{}; ///< of the term of that day
  std::vector<base::Recorded<roster::ClinicDay>> days{};         ///< likewise
  std::vector<base::Recorded<roster::Member>> members{};
  std::vector<base::Recorded<kit::Light>> lights{};
  std::vector<base::Recorded<kit::CureTime>> cureTimes{};
  std::vector<base::Recorded<kit::Lot>> lots{};
  std::vector<base::Recorded<roster::ProgramYear>> years{};
  std::vector<std::string> lateOnCards{}; ///< clauses
  bool hasStudents = false;
  std::size_t withForm = 0; ///< students whose form has not run out by that day
};

/// The term that a day is of: the one that it is in, or else the next to begin, or the newest.
const base::Recorded<roster::Term>* termFor(std::span<const base::Recorded<roster::Term>> terms,
                                            base::Date on);

/// One for each area, in order.
std::vector<AreaState> setupOf(const SetupRecords& records);

/// Whether anything keeps the day from being worked.
bool isSetUp(std::span<const AreaState> areas);

} // namespace gk::session

template <>
inline constexpr auto gk::base::enumNames<gk::session::Area> = std::to_array<std::string_view>(
    {"program", "schools", "terms", "team", "lights", "lots", "students", "years"});
template <>
inline constexpr auto gk::base::enumNames<gk::session::AreaStanding> =
    std::to_array<std::string_view>({"ready", "to do", "missing"});

template <>
inline constexpr auto gk::base::displayNames<gk::session::AreaStanding> =
    std::to_array<std::string_view>({"ready", "to do", "missing"});
