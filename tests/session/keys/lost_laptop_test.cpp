#include "base/files/files.h"
#include "reports/day/close_out.h"
#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using test::must;

TEST_CASE("A lost laptop's file holds no name, guardian, phone or birth date in the clear",
          "[case-67]") {
  test::Clinic clinic;
  const auto child = clinic.child("Xanthippe", "Quarlesworth");
  clinic.standardVisit(child);
  must(clinic.session.backUp(*clinic.folder / "lost.gkbook"));
  const auto bytes = must(base::readFile(*clinic.folder / "lost.gkbook"));
  CHECK(bytes.find("Resin Fern") != std::string::npos); // it is read as it lies
  for (const std::string word : {"Xanthippe", "Quarlesworth", "Rosa", "000-555-0101", "2019-03-14"})
    CHECK(bytes.find(word) == std::string::npos);
}

TEST_CASE("The cards of a book that is left tell whose records a lost copy had", "[case-67]") {
  test::Clinic clinic;
  clinic.child("Mina", "Tolliver-Reed");
  clinic.child("Wren", "Castlebury");
  // The lost laptop began as a copy of this book: all of these children were on it.
  must(clinic.session.backUp(*clinic.folder / "lost.gkbook"));
  const auto lostAt = clinic.clock.now();
  clinic.clock.advance(std::chrono::minutes(1));
  const auto later = clinic.child("Lupe", "Saltmarsh");
  const auto records =
      must(clinic.session.termRecords(clinic.term, *base::Date::parse("2026-12-18")));
  const auto names = must(clinic.session.names());
  std::vector<std::string> onIt;
  for (const auto& row : records.children)
    if (row.stamp.at <= lostAt) onIt.push_back(names.at(row.id));
  CHECK(onIt == std::vector<std::string>{"Mina Tolliver-Reed", "Wren Castlebury"});
  CHECK(names.contains(later));
}

TEST_CASE("A backup of the day before takes back what another laptop had and the rest is asked for",
          "[case-70]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  const auto lupe = clinic.child("Lupe");
  const auto old = *clinic.folder / "yesterday.gkbook";
  must(clinic.session.backUp(old));
  clinic.clock.advance(std::chrono::minutes(5));
  clinic.standardVisit(mina);
  clinic.standardVisit(wren);
  const auto carried = *clinic.folder / "carried.gkbook";
  must(clinic.session.backUp(carried)); // what the other laptop took in at noon
  clinic.clock.advance(std::chrono::minutes(5));
  clinic.standardVisit(lupe); // on no other disk

  base::SeededRandom random(7);
  auto restored =
      must(session::Session::open(old, clinic.laptop, {clinic.clock, random},
                                  store::Access::readWrite, session::BookKind::throwaway));
  must(restored.unlock(test::Clinic::passphrase));
  CHECK(must(restored.absorb(carried)).newEntries > 0);
  const auto sheet = reports::closeOut(must(restored.dayRecords(clinic.day)));
  std::vector<roster::ChildId> gaps;
  for (const auto& one : sheet.blockers)
    if (one.kind == reports::BlockerKind::noOutcome) gaps.push_back(*one.child);
  CHECK(gaps == std::vector{lupe});
  CHECK(must(restored.place(mina, clinic.day)) == session::Place::done);
}
