#include "reports/report.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/lists/overview_view.h"
#include "ui/totals/totals_page.h"

#include <QComboBox>
#include <QListWidget>
#include <QTableView>

using namespace gk;
using namespace gk::test;

TEST_CASE("Totals open on the headlines, and the tables are one key away", "[case-400]") {
  Desk desk;
  ui::TotalsPage page(desk.context, nullptr);
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.listen(page);
  showActive(page);
  page.resize(1366 - 112, 700);
  page.setFocus();
  const auto wait = [&] { REQUIRE(QTest::qWaitFor([&] { return !page.isCounting(); }, 20000)); };
  wait();
  auto& names = part<QListWidget>(page, u"reportNames"_s);
  auto& overview = *page.findChild<ui::OverviewView*>();
  auto& table = part<QTableView>(page, u"reportTable"_s);
  CHECK(names.currentItem()->text() == u"Overview"_s);
  CHECK(overview.isVisible());
  CHECK(overview.visibleRegion().boundingRect() == overview.rect()); // whole, nothing scrolls
  CHECK_FALSE(table.isVisible());
  const auto key = GENERATE(Qt::Key_Down, Qt::Key_Return, Qt::Key_Right);
  press(page, key);
  CHECK(names.currentItem()->text() == u"Participation"_s);
  CHECK_FALSE(overview.isVisible());
  CHECK(table.isVisible());
  press(page, Qt::Key_Up);
  CHECK(overview.isVisible());
  // A report of another kind has none.
  auto& kind = part<QComboBox>(page, u"totalsKind"_s);
  kind.setCurrentIndex(static_cast<int>(reports::ReportKind::quality));
  Q_EMIT kind.activated(kind.currentIndex());
  wait();
  CHECK_FALSE(overview.isVisible());
  CHECK(names.item(0)->text() != u"Overview"_s);
}
