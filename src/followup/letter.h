#pragma once

#include "base/enum_names.h"
#include "base/identity/id.h"
#include "base/time/date.h"
#include "roster/child/child.h"
#include "roster/days/clinic_day.h"

#include <optional>
#include <string>

namespace gk::followup {

using LetterId = base::Id<struct LetterTag>;

/// What a letter is mainly about; the gravest first wins where several fit.
enum class LetterVariant {
  allFine,
  sealed,
  sealedUnfinished,
  notTreated,
  referralEarly,
  referralUrgent,
  recheckWhole,
  recheckRepaired,
  absent,
  stopped ///< consent was withdrawn while care went on
};

/// `queued` is written out to be printed elsewhere; `returned` came back undelivered.
enum class LetterState { queued, printed, handed, returned };

/// That a letter about one child's day was written, and what it said. Never the text, which holds
/// a name: `facts` are all that was said of the mouth, and the digests prove a text written again.
struct Letter {
  using Key = LetterId;
  roster::ChildId child;
  roster::DayId day;
  int guardian = 0;         ///< place on the child's card, from 0; `toStudent` for a student of age
  std::string language;     ///< of the template
  bool interpreter = false; ///< the guardian's own language had no template
  LetterVariant variant = LetterVariant::allFine;
  std::string facts;          ///< one a line, no name
  std::string templateDigest; ///< of the template's file
  std::string textDigest;     ///< of the letter as plain text
  base::Date written;
  int prints = 1;
  LetterState state = LetterState::printed;
  std::optional<LetterId> replaces{};
  bool operator==(const Letter&) const = default;
};

inline constexpr int toStudent = -1;

/// The letter after one more act on it: printed again counts up, any other state is noted.
Letter moved(Letter letter, LetterState to);

} // namespace gk::followup

template <>
inline constexpr auto gk::base::enumNames<gk::followup::LetterVariant> =
    std::to_array<std::string_view>({"all fine", "sealed", "sealed, unfinished", "not treated",
                                     "referral, early", "referral, urgent", "recheck, whole",
                                     "recheck, repaired", "absent", "stopped"});
template <>
inline constexpr auto gk::base::enumNames<gk::followup::LetterState> =
    std::to_array<std::string_view>({"queued", "printed", "handed", "returned"});
