#include "session/cards/card_fold.h"

#include "base/text/text.h"

#include <algorithm>

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
  if (ever->empty()) return base::Error{base::ErrorCode::notFound, "no such student"};
  return CardThen{std::move(ever->back()), false};
}

namespace {

/// Where a card was joined to, step by step, ends within so many: two laptops may say it in a ring.
constexpr int mostJoins = 16;

std::optional<roster::ChildId> keptAfter(const std::vector<Recorded<roster::CardJoin>>& joins,
                                         roster::ChildId card) {
  const auto at =
      std::ranges::find_if(joins, [&](const auto& join) { return join.value.other == card; });
  if (at == joins.end()) return std::nullopt;
  return at->value.child;
}

/// Rows that a fold would move or take away.
Result<std::size_t> rowsToFold(store::Book& book, roster::ChildId card) {
  MergeEdits reading(book);
  std::size_t rows = 0;
  const auto count = [&](const auto&) { ++rows; };
  forEachAboutChild<toOtherCard>(
      [&]<class T>() { reading.forEach<T>(store::rowsOf("child", card), count); });
  forEachAboutChild<ofCard>(
      [&]<class T>() { reading.forEach<T>(store::rowsOf("child", card), count); });
  reading.forEach<roster::Child>(store::subjectIs(card), count);
  if (reading.failure()) return *reading.failure();
  return rows;
}

} // namespace

Result<bool> leadsTo(store::Book& book, roster::ChildId card, roster::ChildId kept) {
  const auto joins = book.current<roster::CardJoin>(store::everything());
  if (!joins) return joins.error();
  auto at = std::optional(card);
  for (int step = 0; at && step < mostJoins; ++step) {
    at = keptAfter(*joins, *at);
    if (at == kept) return true;
  }
  return false;
}

Result<std::vector<reports::LateOnCard>> lateOnCards(store::Book& book) {
  const auto joins = book.current<roster::CardJoin>(store::everything());
  if (!joins) return joins.error();
  std::vector<reports::LateOnCard> late;
  std::set<roster::ChildId> seen;
  for (const auto& join : *joins) {
    const auto card = join.value.other;
    if (!seen.insert(card).second) continue;
    const auto rows = rowsToFold(book, card);
    if (!rows) return rows.error();
    if (*rows == 0) continue;
    auto kept = join.value.child;
    for (int step = 0; step < mostJoins; ++step)
      if (const auto next = keptAfter(*joins, kept)) kept = *next;
    const auto one = cardThen(book, kept);
    if (!one) return one.error();
    const auto other = cardThen(book, card);
    if (!other) return other.error();
    late.push_back({kept, card, one->row.value.number, other->row.value.number, *rows});
  }
  return late;
}

Result<std::optional<std::string>> keptFor(store::Book& book, std::string_view number) {
  const auto typed = roster::parseChildNumber(base::trim(number));
  if (!typed) return std::optional<std::string>();
  const auto joins = book.current<roster::CardJoin>(store::everything());
  if (!joins) return joins.error();
  // From card to card, as the kept one may have been joined to another since; each once, as another
  // laptop's words may lead back.
  std::vector<roster::ChildId> cards;
  for (const auto& join : *joins) {
    const auto other = cardThen(book, join.value.other);
    if (!other) return other.error();
    if (other->row.value.number == *typed) cards.push_back(join.value.other);
  }
  for (std::size_t at = 0; at < cards.size(); ++at)
    for (const auto& join : *joins) {
      if (join.value.other != cards[at]) continue;
      const auto next = join.value.child;
      const auto kept = cardThen(book, next);
      if (!kept) return kept.error();
      if (kept->stands) return std::optional(kept->row.value.number);
      if (std::ranges::find(cards, next) == cards.end()) cards.push_back(next);
    }
  return std::optional<std::string>();
}

} // namespace gk::session
