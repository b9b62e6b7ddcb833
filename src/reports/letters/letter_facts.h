#pragma once

#include "reports/records/inputs.h"

#include <optional>

namespace gk::reports {

class DayView;

enum class Phoned { no, tried, reached };

/// All that a letter may say of a child's day, without a name. Teeth each once, in order.
struct LetterFacts {
  followup::LetterVariant variant = followup::LetterVariant::allFine;
  std::vector<dentition::Tooth> sealed{};     ///< for the first time, or after an interim cover
  std::vector<dentition::Tooth> resealed{};   ///< again, on a tooth that had lost it
  std::vector<dentition::Tooth> repaired{};   ///< added to one that holds
  std::vector<dentition::Tooth> covered{};    ///< for now, until the tooth is up
  std::vector<dentition::Tooth> unfinished{}; ///< meant or begun today, and not finished
  int kept = 0;                               ///< earlier sealants found whole
  std::vector<dentition::Tooth> mayHaveDecay{};
  bool decay = false; ///< untreated decay was seen, on whatever tooth
  bool varnish = false;
  chairside::Urgency urgency = chairside::Urgency::none;
  chairside::UrgentReason reason = chairside::UrgentReason::none;
  std::optional<base::Date> dentistBy; ///< with an urgency
  Phoned phoned = Phoned::no;          ///< a guardian, about an urgent finding

  bool operator==(const LetterFacts&) const = default;

  [[nodiscard]] bool didAnything() const {
    return !sealed.empty() || !resealed.empty() || !repaired.empty() || !covered.empty() || varnish;
  }
};

/// None when no letter is due: a letter goes home with every child that was seen, and one that
/// gives no reason to whom was absent.
std::optional<LetterFacts> letterFacts(const DayView& view, const roster::ChildId& child);

/// One fact a line, the same for the same facts: what a letter's record keeps.
std::string toLines(const LetterFacts& facts);

/// What two such texts do not say alike, in words: "sealed: 16 26 instead of 16". A call made since
/// is no difference: it needs no other letter.
std::vector<std::string> changedFacts(std::string_view earlier, std::string_view now);

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::Phoned> =
    std::to_array<std::string_view>({"no", "tried", "reached"});
