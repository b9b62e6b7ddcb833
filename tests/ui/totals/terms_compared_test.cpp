#include "reports/report.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/pictures.h"
#include "ui/lists/report_browser.h"
#include "ui/totals/totals_page.h"

#include <QComboBox>

using namespace gk;
using namespace gk::test;

TEST_CASE("Terms side by side are counted in the window, every term up to the chosen one") {
  Desk desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.clinic.clock.setWall(base::atLocal(*base::Date::parse("2027-11-16"), std::chrono::hours(9),
                                          std::chrono::hours(-5)));
  desk.clinic.session.confirmClock();
  must(desk.clinic.session.enterTerm(
      desk.clinic.by,
      {"Fall 2027", *base::Date::parse("2027-09-07"), *base::Date::parse("2027-12-17"), {}}));
  ui::TotalsPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  const auto wait = [&] { REQUIRE(QTest::qWaitFor([&] { return !page.isCounting(); }, 20000)); };
  wait();
  auto& kind = part<QComboBox>(page, u"totalsKind"_s);
  kind.setCurrentIndex(static_cast<int>(reports::ReportKind::terms));
  Q_EMIT kind.activated(kind.currentIndex());
  wait();
  const auto& table = page.findChild<ui::ReportBrowser*>()->tables().at(0);
  CHECK(table.title == "Terms side by side");
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows.front().front() == "Fall 2026");
  page.resize(1366, 700);
  savePicture(page, u"terms-compared"_s);
}
