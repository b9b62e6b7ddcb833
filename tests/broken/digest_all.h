#pragma once

#include "store/digest/lines.h"
#include "store/digest/sweep.h"
#include "store/erasing.h"

#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <vector>

namespace gk::test {

/// A line is called by the digest of its first act, which is known only once it is made.
inline void nameLines(store::Connection& book) {
  for (const auto* table : {"hand", "hand_branch"})
    book.execute("DROP TRIGGER " + std::string(table) + "_no_update");
  for (const auto& branch : store::branchesOf(book, "main")) {
    auto row = book.prepare("SELECT digest FROM act WHERE first = ?1");
    row.bind(1, branch.first);
    REQUIRE(row.step());
    const auto name = store::lineName(book.hands().originLaptop(branch.origin),
                                      store::hashIn(row, 0).value_or(crypto::Hash{}));
    book.prepare("UPDATE hand SET laptop = ?1 WHERE laptop = ?2").bindAll(name, branch.name).run();
    book.prepare("UPDATE hand_branch SET laptop = ?1 WHERE first = ?2")
        .bindAll(name, branch.first)
        .run();
  }
  for (const auto* table : {"hand", "hand_branch"})
    book.execute("CREATE TRIGGER " + std::string(table) + "_no_update BEFORE UPDATE ON " + table +
                 "\nBEGIN SELECT RAISE(ABORT, 'rows of " + table + " are never changed'); END");
  book.forgetHands();
}

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
  nameLines(book);
}

} // namespace gk::test
