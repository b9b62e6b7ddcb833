#pragma once

#include "reports/records/inputs.h"

#include <optional>

namespace gk::reports {

/// An incident of the day, or one of an earlier day of which something is still to be done.
struct IncidentLine {
  followup::IncidentId id;
  followup::Incident incident;
  std::string shown; ///< the child; empty without one
  bool isEarlier = false;
  std::string who; ///< initials of whose word it is
};

/// Sheets of one sort: what went out, and what is known of it.
struct PaperLine {
  followup::PaperCount count;
  int known = 0; ///< of them, handed over or back by the letters' own records

  /// Nothing is missing, or someone said why.
  [[nodiscard]] bool isSettled() const { return count.missing() == 0 || !count.reason.empty(); }
};

struct Call {
  base::LocalInstant at;
  followup::Channel channel;
  followup::ContactResult result;
  std::string note;
};

/// Of one operator's own placements of the day, how many she has confirmed.
struct ConfirmedLine {
  base::MemberId member;
  std::string who; ///< initials
  int placed = 0;
  int confirmed = 0;

  [[nodiscard]] int open() const { return placed - confirmed; }
};

/// A light that is read once more before leaving.
struct LightToRead {
  kit::LightId light;
  std::string tag;
  std::string why;
};

/// What one laptop has of a child's day, one of two cards, or one of two words on a thing.
struct MergeSide {
  std::optional<base::LaptopId> laptop; ///< of a visit
  std::optional<roster::ChildId> card;  ///< of two cards
  std::string words;
  std::string heading{}; ///< "9:05 AM OF", or the card's number
  /// What the other visits found and would be lost with them, as followup::moreSerious; then the
  /// session asks before it keeps this one.
  std::vector<std::string> wouldLose{};
  std::optional<base::EntryId> word{}; ///< of two words
};

/// One line of what the sides say: of a tooth, of the visit or of the cards.
struct MergeLine {
  std::string what;
  std::vector<std::string> said; ///< of each side
  bool differs = false;
};

/// What only a person can say after two laptops' records became one.
struct MergeQuestion {
  std::optional<roster::ChildId> child; ///< none for a thing of no child, such as a lot
  std::string shown;
  std::optional<roster::ChildId> other; ///< with it, two cards that may be one child's
  std::string what;
  std::vector<MergeSide> sides; ///< two or more
  std::vector<MergeLine> lines; ///< what each side says, one under another
};

/// What a person said to such a question, so that it can be found and asked again.
struct AnsweredQuestion {
  base::Recorded<followup::MergeAnswer> answer;
  std::string shown;
  std::string what;  ///< "two visits", "two cards"
  std::string words; ///< "kept: 9:00 AM OF: screened; the other is in the history"
  std::string who;   ///< initials
};

/// The day was signed, or opened again.
struct SigningLine {
  bool reopened;
  base::LocalInstant at;
  std::string who;      ///< initials; of a signature both, for what, and whether with a key
  std::string reason{}; ///< of a reopening
  std::string code{};   ///< of a signature, as its sheet has it
};

/// What was added to the signed day.
struct LateEntry {
  base::LocalInstant at;
  std::optional<roster::ChildId> child;
  std::string shown; ///< the child; empty when it is about the whole day
  std::string text;
  std::string who; ///< initials
};

} // namespace gk::reports
