#pragma once

#include "exchange/setup/json_tree.h"
#include "kit/material.h"
#include "roster/days/planned_day.h"
#include "roster/list/roster_columns.h"
#include "roster/program/program_year.h"
#include "roster/team/team.h"

#include <functional>
#include <memory>
#include <optional>

namespace gk::exchange {

/// One thing that a setup document names. What it does not say of it is left as it is.
template <class T>
struct SetupThing {
  std::string at;         ///< JSON Pointer of its place: "/terms/0"
  T value;                ///< what is said, over a blank one
  std::string formerly{}; ///< what the logbook may still know it by
  std::vector<std::string> says{};
  /// What is said, over `value`; with `only`, of that name alone.
  std::function<void(T& value, std::string_view only)> into{};
};

/// How many students a grade of a school has in a term.
struct SetupCount {
  std::string at;
  std::string school; ///< code
  std::string term;   ///< name
  std::string grade;
  int students = 0;
};

struct SetupEligibility {
  std::string at;
  std::string school;
  std::string term;
  int percent = 0;
  std::string source;
};

struct SetupCureTime {
  std::string at;
  std::string light; ///< tag
  std::string material;
  base::Seconds seconds{};
};

/// A day planned ahead; the term is the one that the date is in.
struct SetupPlan {
  SetupThing<roster::PlannedDay> day;
  std::string school;
  bool isConfirmed = false; ///< also on a holiday, a weekend or a day that the team has already
};

struct SetupRoster {
  std::string at;
  std::string file; ///< below the folder of the document
  std::string school;
  std::string term;
  std::optional<roster::DateOrder> dates{};
  std::optional<roster::EarlyGrades> early{};
  bool acceptGood = false;
  bool agesConfirmed = false;
  bool othersConfirmed = false;
};

/// What schema/setup.schema.json describes.
struct SetupDocument {
  std::string reason{}; ///< of all corrections in it
  std::optional<SetupThing<roster::Program>> program{};
  std::vector<SetupThing<roster::School>> schools{};
  std::vector<SetupThing<roster::Term>> terms{};
  std::vector<SetupThing<roster::ProgramYear>> years{};
  std::vector<SetupThing<roster::Member>> team{};
  std::vector<SetupCount> enrollment{};
  std::vector<SetupEligibility> eligibility{};
  std::vector<SetupThing<kit::Lot>> lots{};
  std::vector<SetupThing<kit::Light>> lights{};
  std::vector<SetupCureTime> cureTimes{};
  std::vector<SetupPlan> plans{};
  std::vector<SetupRoster> rosters{};
};

/// No setup is larger (ours): a state's schools with every grade have a tenth of it.
inline constexpr std::size_t mostOfSetup = 4 * std::size_t{1024} * 1024;

/// Fails with `jsonMalformed` as readJson; with `documentMalformed` where a name is not known, is
/// missing or stands twice, a value is of another kind, or two entries are of one thing; with
/// `dateMalformed`, `numberMalformed` and `textMalformed` for a value that cannot be. The detail
/// begins with the JSON Pointer and the line, and repeats no text of the document.
base::Result<SetupDocument> readSetup(std::string_view json);

} // namespace gk::exchange
