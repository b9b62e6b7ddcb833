#pragma once

#include "reports/letters/letter.h"

namespace gk::reports {

class DayView;

/// How a child's letter stands, by number alone; what is further behind comes first.
enum class LetterStand {
  missing,       ///< none was written
  toReplace,     ///< the record says something else since
  handedInError, ///< the record calls for none any more, and the guardian does not know
  keepBack,      ///< the same, but it has not been handed over
  queued,
  printed,
  handed,
  returned,
  told ///< handed in error, and the guardian was told
};

struct LetterLine {
  roster::ChildId child;
  std::string shown;
  std::string room;
  followup::LetterVariant variant; ///< of the letter that is due, else of the one in error
  bool isDue;                      ///< else there is one that the record calls for no more
  bool wasSeen;
  LetterStand stand;
  std::string languages; ///< of the letters written
  int printed = 0;       ///< letters, not sheets, that no other replaced
  int handed = 0;
  int returned = 0;
  std::optional<base::Date> replaced{}; ///< the day of the letter to replace
  std::vector<std::string> changes{};   ///< what that letter does not say

  /// A letter was written that the record calls for no more.
  [[nodiscard]] bool isInError() const {
    return stand == LetterStand::handedInError || stand == LetterStand::keepBack;
  }
  /// A child who was seen, or was absent, has not the right letter.
  [[nodiscard]] bool isOwed() const {
    return stand == LetterStand::missing || stand == LetterStand::toReplace;
  }
  /// In plain words; empty when nothing is.
  [[nodiscard]] std::string toDo() const;
};

/// By room, then as shown: the order in which they are handed out. Children who have a letter that
/// the record calls for no more stay: it is in error until it is returned or a guardian is told,
/// that is reached, not by the nurse, after the last word on the letter and on the outcome.
std::vector<LetterLine> letterLines(const DayView& view);

/// The children of these lines that a letter is due for, and how many of them have the right one.
struct LetterSums {
  int seen = 0;
  int seenWith = 0;
  int absent = 0;
  int absentWith = 0;

  [[nodiscard]] int missing() const { return seen + absent - seenWith - absentWith; }
  /// "15 of 15 children seen and 1 of 1 absent".
  [[nodiscard]] std::string words() const;
};
LetterSums letterSums(const std::vector<LetterLine>& lines);

/// The letters of a day that the record calls for no more and that did not come back.
Rows<followup::Letter> lettersInError(const DayRecords& records);

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
    std::to_array<std::string_view>({"missing", "to replace", "given out by mistake",
                                     "do not hand out", "queued", "printed", "handed", "returned",
                                     "guardian told"});
