#include "plan/names.h"
#include "plan/plan.h"
#include "support/clinic.h"

#include <numeric>
#include <set>

using namespace gk;

TEST_CASE("dealt parts add up and differ by one at most") {
  for (int total : {0, 7, 130, 166}) {
    const auto parts = demo::deal(total, 36);
    CHECK(std::accumulate(parts.begin(), parts.end(), 0) == total);
    CHECK(parts.front() - parts.back() <= 1);
  }
}

TEST_CASE("invented children have names of their own and ages that fit the grade") {
  std::set<std::string> names;
  for (std::size_t i = 0; i < 1200; ++i) {
    const auto child = demo::inventedIdentity(i, 2019, "2a");
    names.insert(child.shownName());
    const auto verdict = roster::judgeBirthDate(child.birth, "2", demo::on(2026, 10, 1));
    CHECK(verdict == roster::BirthVerdict::fine);
  }
  CHECK(names.size() == 1200);
}

TEST_CASE("the sealed children of 2025 carry the teeth that were placed and those found later") {
  for (const auto& school : demo::county()) {
    const auto shares = demo::sharesOf2025(school);
    REQUIRE(std::ssize(shares) == school.oneYear.sealed);
    int placed = 0;
    int examined = 0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
      const int teeth = shares.at(i).firsts + shares.at(i).seconds;
      placed += teeth;
      examined += i < static_cast<std::size_t>(school.oneYear.found) ? teeth : 0;
    }
    INFO(school.name);
    CHECK(placed == school.oneYear.placed);
    CHECK(examined == school.oneYear.examined);
  }
}
