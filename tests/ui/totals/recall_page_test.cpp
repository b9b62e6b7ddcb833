#include "reports/report.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/lists/report_browser.h"
#include "ui/totals/totals_page.h"

#include <QComboBox>
#include <QTableView>

#include <algorithm>

using namespace gk;
using namespace gk::test;

TEST_CASE("From the list of lots one key shows whom to phone, and one prints it", "[case-306]") {
  Desk desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina", "Tolliver"));
  ui::TotalsPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  const auto counted = [&] { return !page.isCounting(); };
  REQUIRE(QTest::qWaitFor(counted, 20000));
  auto& recall = part<QPushButton>(page, u"totalsRecall"_s);
  CHECK_FALSE(recall.isVisible()); // nothing is traced yet
  auto& kinds = part<QComboBox>(page, u"totalsKind"_s);
  kinds.setCurrentIndex(static_cast<int>(reports::ReportKind::trace));
  Q_EMIT kinds.activated(kinds.currentIndex());
  REQUIRE(QTest::qWaitFor(counted, 20000));
  REQUIRE(recall.isVisible());
  auto& browser = *page.findChild<ui::ReportBrowser*>();
  const auto lots = browser.tables().front().rows;
  const auto resin = std::ranges::find_if(lots, [](const auto& row) { return row.at(5) != "0"; });
  REQUIRE(resin != lots.end());
  browser.findChild<QTableView*>()->selectRow(static_cast<int>(resin - lots.begin()));
  press(page, Qt::Key_L, Qt::AltModifier);
  REQUIRE(QTest::qWaitFor(counted, 20000));
  CHECK(desk.troubles.join(u'|') == QString());
  const auto& list = browser.tables().back();
  CHECK(list.title == "Recall list of " + resin->at(1).text() + " lot " + resin->at(0).text());
  REQUIRE(list.rows.size() == 1);
  CHECK(list.rows.front().at(0) == "Mina Tolliver");
  CHECK(list.rows.front().at(7) == "000-555-0101");
  desk.prompter.prints = {true};
  press(page, Qt::Key_P, Qt::AltModifier);
  CHECK(desk.prompter.printed.startsWith("%PDF-"));
  CHECK(desk.news == u"Printed and counted out with the day's other lists."_s);
  // Locked, no name is left on the page.
  page.letGo();
  CHECK(browser.tables().empty());
}
