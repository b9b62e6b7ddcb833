#pragma once

#include "roster/days/clinic_day.h"
#include "session/rights/confirmation.h"
#include "session/rights/verbs.h"

namespace gk::session {

/// What an act is about, for its row of the table to be held against.
struct About {
  std::optional<roster::DayId> day{};
  std::optional<roster::ChildId> child{};
  std::optional<std::string_view> reason{}; ///< asked for where the row says so
  std::optional<base::Date> on{};           ///< the care date; the day's, or else today
  OwnPin pin{};                             ///< of the author
};

/// That an act may be done: by whom, on which date. Only Door::admit makes one, and nothing is
/// written without.
class Admission {
 public:
  [[nodiscard]] Verb verb() const { return verb_; }
  [[nodiscard]] base::By by() const { return by_; }
  [[nodiscard]] base::Date on() const { return on_; }
  /// Precondition: the act is not one of the setup by no one.
  [[nodiscard]] const base::Recorded<roster::Member>& author() const { return *author_; }
  [[nodiscard]] const std::optional<base::Recorded<roster::ClinicDay>>& day() const { return day_; }

  /// It spends the author's PIN when it is written.
  [[nodiscard]] bool usesPin() const { return usesPin_; }

 private:
  friend class Door;
  Admission(Verb verb, base::By by, base::Date on) : verb_(verb), by_(by), on_(on) {}

  Verb verb_;
  base::By by_;
  base::Date on_;
  std::optional<base::Recorded<roster::Member>> author_{};
  std::optional<base::Recorded<roster::ClinicDay>> day_{};
  bool usesPin_ = false;
};

} // namespace gk::session
