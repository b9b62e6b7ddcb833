#pragma once

#include "store/sweep.h"

#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <vector>

namespace gk::test {

/// Gives each act the digest of its rows as they are now, as a forger would.
inline void digestAll(store::Connection& book) {
  std::vector<std::pair<std::int64_t, crypto::Hash>> digests;
  store::sweep(book, "main", store::newestSchema(),
               {[&](const store::SweptAct& act) {
                  digests.emplace_back(act.first, act.digest);
                  return act.digest;
                },
                [](const store::Flaw&) {}});
  std::string guard;
  {
    auto row = book.prepare("SELECT sql FROM sqlite_schema WHERE name = 'act_no_update'");
    REQUIRE(row.step());
    guard = row.column<std::string>(0);
  }
  book.execute("DROP TRIGGER act_no_update");
  for (const auto& [first, digest] : digests)
    book.prepare("UPDATE act SET digest = ? WHERE first = ?")
        .bindAll(std::span<const std::uint8_t>(digest), first)
        .run();
  book.execute(guard);
}

} // namespace gk::test
