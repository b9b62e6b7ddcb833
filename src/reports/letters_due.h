#pragma once

#include "reports/letter.h"

namespace gk::reports {

class DayView;

/// How a child's letter stands, by number alone.
enum class LetterStand {
  missing,   ///< none was written
  toReplace, ///< the record says something else since
  queued,
  printed,
  handed,
  returned
};

struct LetterLine {
  roster::ChildId child;
  std::string shown;
  std::string room;
  followup::LetterVariant variant;
  bool wasSeen; ///< absent children may have a letter too, but none is owed
  LetterStand stand;
  std::string languages;              ///< of the letters written
  std::vector<std::string> changes{}; ///< what the letter to replace does not say

  /// A child who was seen goes home without the right letter.
  [[nodiscard]] bool isOwed() const {
    return wasSeen && (stand == LetterStand::missing || stand == LetterStand::toReplace);
  }
};

/// By room, then as shown: the order in which they are handed out.
std::vector<LetterLine> letterLines(const DayView& view);

/// One letter that the day calls for, to one reader, with the newest record of it, if any.
struct DayLetter {
  roster::ChildId child;
  std::string number; ///< of the child
  LetterCard card;
  LetterReader reader;
  bool ownLanguage; ///< else it is in English with the interpreter line
  LetterFacts facts;
  std::optional<base::Recorded<followup::Letter>> written{};
  std::optional<base::Date> replaces{}; ///< the day of the letter that it takes the place of

  /// To be printed now: never written, or written and no longer right.
  [[nodiscard]] bool isDue() const { return !written || replaces.has_value(); }
};

/// Every letter of the day, printed or not, by room and name; children without a card are passed
/// over. A guardian gets one letter; those who read one language share it.
std::vector<DayLetter> dayLetters(const DayRecords& records, const LetterCards& cards,
                                  const LetterTemplates& templates);

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::LetterStand> =
    std::to_array<std::string_view>({"missing", "to replace", "queued", "printed", "handed",
                                     "returned"});
