#pragma once

#include "store/audit.h"
#include "store/book_file.h"

#include <vector>

namespace gk::test {

/// After which numbers of rows the book of this laptop stands between two acts.
inline std::vector<std::int64_t> actEnds(store::Connection& book) {
  auto statement = book.prepare(
      "SELECT max(sequence) AS last FROM every_entry WHERE laptop = (SELECT laptop FROM "
      "every_entry ORDER BY id LIMIT 1) GROUP BY act ORDER BY last");
  std::vector<std::int64_t> ends;
  while (statement.step())
    ends.push_back(statement.column<std::int64_t>(0));
  return ends;
}

struct Found {
  bool isRefused = false; ///< said to be damaged
  std::string why{};      ///< how it was refused
  std::vector<std::int64_t> ends{};
};

/// As a person finds it the next time: opened for writing, and looked through.
inline Found lookAgain(const base::Path& path) {
  auto book = store::openBook(path, store::Access::readWrite, store::Durability::everyAct,
                              {base::Milliseconds(1)});
  if (!book) return {true, std::string(base::errorName(book.error().code)) + book.error().detail};
  const auto wrong = store::integrity(*book);
  if (!wrong || !wrong->empty()) return {true, "integrity"};
  if (!store::historyFaults(*book, "main", store::newestSchema()).empty()) return {true, "history"};
  return {false, {}, actEnds(*book)};
}

} // namespace gk::test
