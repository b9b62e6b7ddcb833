#include "session/reporting/recall.h"

#include "base/text/text.h"
#include "reports/records/inputs.h"
#include "session/chair/visit_history.h"
#include "support/clinic.h"

using namespace gk;
using namespace gk::session;
using namespace gk::test;

TEST_CASE("A recalled lot lists each child once, with teeth, guardian and phone", "[case-306]") {
  Clinic clinic;
  const auto mina = clinic.child("Mina", "Tolliver");
  clinic.standardVisit(mina);
  clinic.child("Lupe"); // not treated
  const auto today = clinic.clock.now().date();
  const auto records = must(clinic.session.termRecords(clinic.term, today, Reach::program));
  const auto resin = must(clinic.session.lots()).front().value;
  for (const auto& what :
       {reports::Recalled{.lot = resin.lot, .material = resin.material},
        reports::Recalled{.lot = resin.lot}, reports::Recalled{.light = "L-1"}}) {
    const auto list = must(recallList(clinic.session, records, what));
    REQUIRE(list.rows.size() == 1);
    const auto& row = list.rows.front();
    CHECK(row.at(0) == "Mina Tolliver");
    CHECK(row.at(1) == must(clinic.session.child(mina)).value.number);
    CHECK(std::ranges::count(row.at(4).text(), ';') == 3);
    CHECK(row.at(5) == today.iso());
    CHECK(row.at(6) == "Rosa Tolliver");
    CHECK(row.at(7) == "000-555-0101");
    CHECK(row.at(8) == "English");
  }
  CHECK(must(recallList(clinic.session, records, {.lot = "none such"})).rows.empty());
  clinic.session.lock();
  CHECK(codeOf(recallList(clinic.session, records, {.lot = resin.lot})) ==
        base::ErrorCode::vaultLocked);
}

TEST_CASE("A child's card has every visit of every day, the newest first", "[case-305]") {
  Clinic clinic;
  const auto mina = clinic.child("Mina", "Tolliver");
  CHECK(must(pastVisits(clinic.session, mina)).empty());
  clinic.standardVisit(mina);
  const auto visits = must(pastVisits(clinic.session, mina));
  REQUIRE(visits.size() == 1);
  CHECK(visits.front().on == clinic.clock.now().date());
  CHECK(visits.front().outcome == "sealed, complete");
  CHECK(visits.front().done.starts_with("screened; sealed 4: 3, "));
  CHECK_FALSE(visits.front().who.empty());
  const auto lupe = clinic.child("Lupe");
  clinic.end(lupe, chairside::DayEnd::absent);
  CHECK(must(pastVisits(clinic.session, lupe)).front().outcome == "absent");
  // Locked, the card has the number and no name.
  clinic.session.lock();
  const auto number = must(clinic.session.child(mina)).value.number;
  CHECK(must(visitCard(clinic.session, mina)).title == "Visits of " + number);
}
