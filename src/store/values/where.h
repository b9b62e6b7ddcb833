#pragma once

#include "base/identity/entry.h"
#include "base/identity/id.h"
#include "base/time/date.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace gk::store {

/// The children of whom a term's figures may tell: with a form of the term, a record on one of its
/// days, an exception to consent within its dates, or a sealant placed on a day from `from` to
/// `until`, which a look in the term may be of.
struct ChildrenOfTerm {
  base::EntryId term;
  base::Date from;
  base::Date until;
};

/// Children read once (Book::childrenOf) for many questions.
struct ChildList {
  std::string numbers; ///< as the file numbers them, a JSON array
};

/// Which rows of a record's table are meant. `column` is one of its own columns, or `e.subject` or
/// `e.id`; it is the one that is looked up by index, so name the rarer one first.
struct Where {
  std::string_view column{};
  std::optional<std::variant<base::EntryId, std::string>> key{};
  std::string_view andColumn{};
  std::optional<base::EntryId> andId{};
  /// Rows entered after this one, at most `limit` of them.
  std::optional<base::EntryId> after{};
  int limit = 0;
  /// Rows whose `column` is one of those children; where `viaField`, a field of one of them.
  const ChildList* among = nullptr;
  bool viaField = false;
};

/// `children` is looked at only while the question is asked.
inline Where rowsAmong(std::string_view column, const ChildList& children) {
  return {.column = column, .among = &children};
}

inline Where rowsOfFieldsAmong(const ChildList& children) {
  return {.column = "field", .among = &children, .viaField = true};
}

inline Where everything() {
  return {};
}

inline Where pageAfter(base::EntryId entry, int limit) {
  return {.after = entry, .limit = limit};
}

template <class Tag>
Where subjectIs(base::Id<Tag> id) {
  return {.column = "e.subject", .key = base::EntryId(id.uuid())};
}

inline Where numberIs(std::string number) {
  return {.column = "number", .key = std::move(number)};
}

template <class Tag>
Where rowsOf(std::string_view column, base::Id<Tag> id) {
  return {.column = column, .key = base::EntryId(id.uuid())};
}

template <class Tag, class OtherTag>
Where rowsOf(std::string_view column, base::Id<Tag> id, std::string_view andColumn,
             base::Id<OtherTag> andId) {
  return {.column = column,
          .key = base::EntryId(id.uuid()),
          .andColumn = andColumn,
          .andId = base::EntryId(andId.uuid())};
}

} // namespace gk::store
