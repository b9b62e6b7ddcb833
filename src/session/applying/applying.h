#pragma once

#include "exchange/setup/setup_document.h"
#include "session/session.h"

namespace gk::session {

// A face knows the session and not the exchange.
using exchange::mostOfSetup;
using exchange::readSetup;
using exchange::SetupDocument;

/// What a setup document is about, in the order in which it is entered: what refers to another
/// thing comes after it.
enum class SetupKind {
  program,
  schools,
  terms,
  years,
  team,
  enrollment,
  eligibility,
  lots,
  lights,
  cureTimes,
  plannedDays,
  students
};

enum class SetupChange { added, corrected };

/// How many things of a kind were, or would be, written.
struct SetupCounts {
  std::size_t added = 0;
  std::size_t corrected = 0;
  std::size_t unchanged = 0;
};

struct SetupLine {
  std::string at; ///< JSON Pointer into the document
  SetupChange change;
  std::string what;                 ///< "school Cobble Lantern Elementary"; names no child
  std::vector<std::string> names{}; ///< what of it changes, as the document calls it
};

struct SetupApplied {
  std::array<SetupCounts, static_cast<std::size_t>(SetupKind::students) + 1> counts{};
  std::vector<SetupLine> lines{}; ///< what is unchanged has none
  std::size_t held = 0;           ///< rows of lists that wait, where the document lets them

  [[nodiscard]] bool isUnchanged() const { return lines.empty(); }
};

struct SetupAim {
  By by{};
  /// Whose acts the later ones are where no one is yet: one whom the document itself enters.
  std::string initials{};
  base::Path folder{}; ///< where the document's files lie
  base::Date today;
  bool isNew = false; ///< the logbook was just made, with the document's program
};

/// Brings the logbook to what the document says, by the verbs of the desk, all of it or none: each
/// keeps its right, its author, its reason and its undo. What the document does not name, or does
/// not say, stays. A second time nothing is written. Fails as exchange::readSetup where a new thing
/// lacks what it needs, with `ruleReason` where something is corrected and no reason is given, with
/// `notFound` where something named is nowhere, and as the verbs and RosterDraft do; the detail
/// begins with the JSON Pointer. Lists of students need the names open.
Result<SetupApplied> applySetup(Session& session, const SetupDocument& document,
                                const SetupAim& aim);

/// Whether the document enters or renames someone to these initials.
bool entersMember(const SetupDocument& document, const std::string& initials);

/// A new logbook that `make` makes under a hidden name, whole or not at all, as
/// store::makeInPlace.
Result<base::Done> makeLogbook(const base::Path& path,
                               const std::function<Result<bool>(const base::Path& draft)>& make);

} // namespace gk::session

template <>
inline constexpr auto gk::base::enumNames<gk::session::SetupKind> = std::to_array<std::string_view>(
    {"program", "schools", "terms", "years", "team", "enrollment", "meal_eligibility", "materials",
     "lights", "cure_times", "planned_days", "students"});
template <>
inline constexpr auto gk::base::displayNames<gk::session::SetupKind> =
    std::to_array<std::string_view>({"program", "schools", "terms", "years", "team members",
                                     "enrollment counts", "meal eligibility", "lots of materials",
                                     "lights", "cure times", "planned days", "students"});
template <>
inline constexpr auto gk::base::enumNames<gk::session::SetupChange> =
    std::to_array<std::string_view>({"added", "corrected"});
