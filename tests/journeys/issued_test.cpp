#include "journeys/told.h"
#include "reports/print/render.h"
#include "session/reporting/issues.h"
#include "support/built_demo.h"

#include <algorithm>

using namespace gk;
using reports::ReportKind;
using test::must;

namespace {

/// The demo county's logbook with a manager who writes in it, a month after its last day.
class Manager {
 public:
  Manager() {
    test::copyDemo(scratch_.path(), demo::Until::closed);
    const base::LaptopId laptop(base::makeUuid7(clock_.now().at, random_));
    book_.emplace(
        must(session::Session::open(scratch_.path() / "demo.gkbook", laptop, {clock_, random_},
                                    store::Access::readWrite, session::BookKind::throwaway)));
    must(book_->unlock(demo::passphrase));
    term_ = must(book_->terms()).back().id;
    for (const auto& member : must(book_->members())) {
      if (member.value.role == roster::Role::manager) by_.author = member.id;
      if (member.value.initials == "OF") hygienist_.author = member.id;
    }
  }

  session::Session& book() { return *book_; }
  [[nodiscard]] base::By hygienist() const { return hygienist_; }
  [[nodiscard]] reports::TermRecords records() {
    return must(book_->termRecords(*term_, clock_.now().date()));
  }
  /// Prints the report and notes that it went out; the page.
  std::string issue(ReportKind kind) {
    reports::ReportOptions options;
    options.earlier = must(session::releases(*book_, *term_));
    const auto made = reports::makeReport(kind, records(), options);
    const auto ready = must(session::readyIssue(*book_, *term_, std::string(base::nameOf(kind)), "",
                                                made, clock_.now().date()));
    must(book_->enterIssue(by_, ready.record));
    return reports::toHtml(reports::reportTitle(kind, records()), made.tables, ready.words);
  }

 private:
  test::Scratch scratch_;
  base::ManualClock clock_{base::atLocal(*base::Date::parse("2026-12-17"), std::chrono::hours(9),
                                         std::chrono::hours(-5))};
  base::SeededRandom random_{72};
  std::optional<session::Session> book_;
  std::optional<roster::TermId> term_;
  base::By by_;
  base::By hygienist_;
};

/// Of Elderbrook, where no finding is hidden: twelve with untreated decay, none urgent.
base::Recorded<chairside::Screening> soundScreening(const reports::TermRecords& records) {
  const auto school =
      std::ranges::find(records.schools, "EB", [](const auto& one) { return one.value.code; });
  REQUIRE(school != records.schools.end());
  for (const auto& row : records.screenings) {
    const auto day =
        std::ranges::find(records.days, row.value.day, &base::Recorded<roster::ClinicDay>::id);
    if (day == records.days.end() || day->value.term != records.id) continue;
    const auto child =
        std::ranges::find(records.children, row.value.child, &base::Recorded<roster::Child>::id);
    if (child != records.children.end() && child->value.school == school->id &&
        row.value.untreatedDecay == chairside::Tri::no)
      return row;
  }
  FAIL("a sound screening");
  return records.screenings.front();
}

bool holds(const std::string& page, const std::string& words) {
  return page.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("The county's summary is issued, a record corrected, and the next one says what differs",
          "[case-72]") {
  Manager manager;
  CHECK(holds(manager.issue(ReportKind::funder), "<p>Version 1</p>"));
  CHECK(holds(manager.issue(ReportKind::funder),
              "<p>Version 1 of December 17, 2026, printed again</p>"));
  const auto screening = soundScreening(manager.records());
  auto corrected = screening.value;
  corrected.untreatedDecay = chairside::Tri::yes;
  corrected.urgency = chairside::Urgency::early;
  must(manager.book().reopenDay(manager.hygienist(), screening.value.day, "a wrong line"));
  must(manager.book().correctScreening(manager.hygienist(), screening, corrected,
                                       "the line of the child before"));
  const auto second = manager.issue(ReportKind::funder);
  INFO(second.substr(0, 3000));
  CHECK(holds(second, "<p>Version 2, differs from version 1 of December 17, 2026 by "));
  CHECK(holds(second, "Untreated decay, of screened, "));
  CHECK(must(manager.book().findings()).empty());
  for (const auto& one : must(manager.book().issuedReports(manager.records().id)))
    CHECK_FALSE(holds(one.value.figures, "Tolliver"));
}
