#pragma once

#include "session/values/setup.h"

namespace gk::session {

/// What a team has ready before its first child is charted, in the order in which it is done.
enum class FirstDayItem {
  program,
  schools,
  term,
  team,
  lights,
  lots,
  roster,
  consent,
  pins,
  recoveryCode,
  backup
};

/// One line of the check list. `missing` keeps a day from being worked, `ask` should be done.
struct FirstDayState {
  FirstDayItem item;
  AreaStanding standing;
  std::string words;             ///< how it is now: "3 schools"
  std::string why;               ///< why it matters, in a sentence
  std::vector<std::string> open; ///< a sentence for each thing to do, the gravest first
};

/// What the check list asks besides the areas of the desk.
struct FirstDayRecords {
  SetupRecords setup;
  std::size_t mayWork = 0; ///< people with any right left
  std::size_t withPin = 0; ///< of them
  bool hasRecoveryCode = false;
  bool hasBackupPlace = false; ///< of this laptop, which the book does not keep
};

/// One for each item, in order; remade from what the book says whenever it is asked.
std::vector<FirstDayState> firstDayOf(const FirstDayRecords& records);

/// The first that keeps a day from being worked, or else the first that should be done.
const FirstDayState* nextOf(std::span<const FirstDayState> list);

/// Where an item is entered; none for what this laptop keeps and not the book.
std::optional<Area> areaOf(FirstDayItem item);

} // namespace gk::session

template <>
inline constexpr auto gk::base::enumNames<gk::session::FirstDayItem> =
    std::to_array<std::string_view>({"program", "schools", "term", "team", "lights", "lots",
                                     "roster", "consent", "pins", "recovery code", "backup"});
template <>
inline constexpr auto gk::base::displayNames<gk::session::FirstDayItem> =
    std::to_array<std::string_view>({"Program and rules", "Schools", "Term and holidays",
                                     "Team and licenses", "Curing lights", "Materials and lots",
                                     "Roster of students", "Consent forms", "PINs of the team",
                                     "Recovery code for the passphrase", "Place for backups"});
