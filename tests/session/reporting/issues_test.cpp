#include "session/reporting/issues.h"

#include "reports/records/inputs.h"
#include "support/clinic.h"

using namespace gk;
using reports::ReportKind;
using test::must;

namespace {

class IssueDesk : public test::Clinic {
 public:
  session::ReadyIssue ready(session::Session& book, ReportKind kind = ReportKind::funder) {
    const auto today = clock.now().date();
    const auto records = must(book.termRecords(term, today));
    reports::ReportOptions options;
    options.earlier = must(session::releases(book, term));
    return must(session::readyIssue(book, term, std::string(base::nameOf(kind)), "",
                                    reports::makeReport(kind, records, options), today));
  }
  std::string issue(session::Session& book, ReportKind kind = ReportKind::funder) {
    const auto made = ready(book, kind);
    must(book.enterIssue(by, made.record));
    return made.words;
  }
};

} // namespace

TEST_CASE("A report issued after a correction names what the correction changed", "[case-72]") {
  IssueDesk desk;
  const auto mina = desk.child("Mina");
  desk.standardVisit(mina);
  CHECK(desk.issue(desk.session, ReportKind::findings) == "Version 1");
  CHECK(desk.issue(desk.session, ReportKind::findings) ==
        "Version 1 of November 17, 2026, printed again");
  const auto screening = must(desk.session.screenings(mina)).front();
  auto corrected = screening.value;
  corrected.untreatedDecay = chairside::Tri::yes;
  corrected.urgency = chairside::Urgency::early;
  must(desk.session.correctScreening(desk.by, screening, corrected, "typed on the wrong line"));
  const auto words = desk.issue(desk.session, ReportKind::findings);
  CHECK(words.starts_with("Version 2, differs from version 1 of November 17, 2026 by "));
  INFO(words);
  CHECK(words.find(" -> ") != std::string::npos);
  const auto kept = must(desk.session.issuedReports(desk.term));
  REQUIRE(kept.size() == 3);
  CHECK(kept.back().value.version == 2);
  CHECK(kept.back().stamp.by.author == desk.by.author);
  for (const auto& one : kept)
    CHECK(one.value.figures.find("Mina") == std::string::npos);
}

TEST_CASE("What went out stays out: undo does not reach it", "[case-72]") {
  IssueDesk desk;
  desk.issue(desk.session);
  CHECK(test::codeOf(desk.session.undo(desk.by, {base::Station::totals})) ==
        base::ErrorCode::notFound);
  CHECK(desk.ready(desk.session).words == "Version 1 of November 17, 2026, printed again");
  CHECK(must(session::releases(desk.session, desk.term)).size() == 1);
}

TEST_CASE("Two laptops' versions become one list and keep their numbers", "[case-72]") {
  IssueDesk desk;
  const auto mina = desk.child("Mina");
  desk.issue(desk.session);
  const auto path = *desk.folder / "second.gkbook";
  must(desk.session.backUp(path));
  {
    base::SeededRandom random(2);
    auto second = must(session::Session::open(
        path, base::LaptopId(base::makeUuid7(desk.clock.now().at, random)), {desk.clock, random},
        store::Access::readWrite, session::BookKind::throwaway));
    must(second.enterEnrollment(desk.by, {desk.term, desk.school, "2", 142}));
    desk.clock.advance(base::Seconds(60));
    CHECK(desk.issue(second).starts_with("Version 2, differs from version 1"));
    must(second.backUp(*desk.folder / "carried.gkbook"));
  }
  desk.standardVisit(mina);
  CHECK(desk.issue(desk.session).starts_with("Version 2, differs from version 1"));
  must(desk.session.absorb(*desk.folder / "carried.gkbook"));
  CHECK(must(desk.session.issuedReports(desk.term)).size() == 3);
  const auto words = desk.issue(desk.session);
  INFO(words);
  CHECK(words.starts_with("Version 3, differs from version 2 of November 17, 2026 by "));
  CHECK(words.find("takes the place of another version 2") != std::string::npos);
}
