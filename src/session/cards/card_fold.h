#pragma once

#include "reports/records/inputs.h"
#include "session/cards/merge_edits.h"

namespace gk::session {

/// Why rows were moved, in the history.
inline constexpr auto sameChild = "two cards of one child";

/// Calls `visit.operator()<T>()` for each record type about a child whose rule says so.
template <auto chosen, class Visit>
void forEachAboutChild(Visit visit) {
  store::forEachRecord([&]<class T>() {
    if constexpr (AboutChild<T>)
      if constexpr (chosen(MergeRule<T>())) visit.template operator()<T>();
  });
}

inline constexpr auto ofVisit = [](auto rule) { return rule.drop == OnDrop::retract; };
inline constexpr auto ofCard = [](auto rule) { return rule.fold == OnFold::retract; };
inline constexpr auto toOtherCard = [](auto rule) {
  return rule.fold == OnFold::move || rule.fold == OnFold::combine;
};

/// Everything about the other card is said of the kept one, and the other is retracted.
void foldCards(MergeEdits& edits, roster::ChildId from, roster::ChildId to);
/// The other card and what was said of it, as far as `edits` is undoing it.
void unfoldCards(MergeEdits& edits, roster::ChildId from, roster::ChildId to);

/// School days of which a record of care tells that the child was seen.
Result<std::set<base::DayId>> daysSeen(store::Book& book, roster::ChildId child);

/// The card as it stands, or where it is joined to another as it stood last.
struct CardThen {
  Recorded<roster::Child> row;
  bool stands = true;
};
Result<CardThen> cardThen(store::Book& book, roster::ChildId child);

/// Whether the card was joined to that one, or to one that was joined to it.
Result<bool> leadsTo(store::Book& book, roster::ChildId card, roster::ChildId kept);

/// What lies on joined cards and not on the kept ones, so that no one sees it.
Result<std::vector<reports::LateOnCard>> lateOnCards(store::Book& book);

/// The number of the card to which the one of this number was joined, if it was.
Result<std::optional<std::string>> keptFor(store::Book& book, std::string_view number);

} // namespace gk::session
