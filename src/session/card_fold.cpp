#include "session/card_fold.h"

#include "base/text.h"

namespace gk::session {

namespace {

/// What two forms say of one child: every group named, and the payer of the one that knows it.
void join(roster::Background& into, const roster::Background& kept) {
  for (const auto group : kept.groups.values())
    into.groups.add(group);
  if (kept.payer != roster::Payer::unknown) into.payer = kept.payer;
}

} // namespace

void foldCards(MergeEdits& edits, roster::ChildId from, roster::ChildId to) {
  forEachAboutChild<toOtherCard>([&]<class T>() {
    std::vector<T> alreadyThere;
    if constexpr (MergeRule<T>::fold == OnFold::combine)
      edits.forEach<T>(store::rowsOf("child", to),
                       [&](const auto& row) { alreadyThere.push_back(row.value); });
    edits.move<T>(
        from, to,
        [&](T& value) {
          if constexpr (MergeRule<T>::fold == OnFold::combine)
            for (const auto& one : alreadyThere)
              join(value, one);
        },
        sameChild);
  });
  forEachAboutChild<ofCard>([&]<class T>() { edits.retractAll<T>(store::rowsOf("child", from)); });
  edits.retractAll<roster::Child>(store::subjectIs(from));
}

void unfoldCards(MergeEdits& edits, roster::ChildId from, roster::ChildId to) {
  forEachAboutChild<ofCard>([&]<class T>() { edits.reinstate<T>(store::rowsOf("child", from)); });
  edits.reinstate<roster::Child>(store::subjectIs(from));
  forEachAboutChild<toOtherCard>([&]<class T>() { edits.moveBack<T>(from, to); });
}

Result<std::set<base::DayId>> daysSeen(store::Book& book, roster::ChildId child) {
  std::set<base::DayId> days;
  MergeEdits reading(book);
  forEachAboutChild<ofVisit>([&]<class T>() {
    reading.forEach<T>(store::rowsOf("child", child),
                       [&](const auto& row) { days.insert(row.value.day); });
  });
  if (reading.failure()) return *reading.failure();
  return days;
}

Result<CardThen> cardThen(store::Book& book, roster::ChildId child) {
  auto now = book.current<roster::Child>(store::subjectIs(child));
  if (!now) return now.error();
  if (!now->empty()) return CardThen{std::move(now->back())};
  auto ever = book.history<roster::Child>(store::subjectIs(child));
  if (!ever) return ever.error();
  if (ever->empty()) return base::Error{base::ErrorCode::notFound, "no such child"};
  return CardThen{std::move(ever->back()), false};
}

Result<std::optional<std::string>> keptFor(store::Book& book, std::string_view number) {
  const auto typed = roster::parseChildNumber(base::trim(number));
  if (!typed) return std::optional<std::string>();
  const auto joins = book.current<roster::CardJoin>(store::everything());
  if (!joins) return joins.error();
  for (const auto& join : *joins) {
    const auto other = cardThen(book, join.value.other);
    if (!other) return other.error();
    if (other->row.value.number != *typed) continue;
    const auto kept = cardThen(book, join.value.child);
    if (!kept) return kept.error();
    if (kept->stands) return std::optional(kept->row.value.number);
  }
  return std::optional<std::string>();
}

} // namespace gk::session
