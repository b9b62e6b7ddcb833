#include "ui/fixtures/cells.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/lists/report_browser.h"
#include "ui/totals/totals_page.h"

using namespace gk;
using namespace gk::test;

TEST_CASE("No heading and no cell is cut in any part of the close-out and of the totals") {
  const int percent = GENERATE(100, 150);
  const QSize small(1366, 700);
  Window desk;
  {
    Clinic clinic(desk.book(), session::BookKind::throwaway);
    clinic.standardVisit(clinic.child("Mina", "Tolliver-Reed"));
    clinic.child("Lupe", "Saltmarsh");
    must(clinic.session.finish());
    desk.clock.setWall(clinic.clock.now());
  }
  desk.openAndUnlock();
  ui::dress({ui::Scheme::light, percent});
  QCoreApplication::processEvents();
  desk.window->resize(small);
  const auto lookAtAll = [&](ui::ReportBrowser& browser) {
    for (int section = 0; section < static_cast<int>(browser.tables().size()); ++section) {
      browser.choose(section);
      QCoreApplication::processEvents();
      QTest::qWait(1); // columns are fitted once a page stands
      INFO(percent << " %, " << browser.tables().at(static_cast<std::size_t>(section)).title);
      checkTablesWhole(browser);
    }
  };
  press(*desk.window, Qt::Key_F3);
  lookAtAll(*part<QWidget>(*desk.window, u"closeOutPage"_s).findChild<ui::ReportBrowser*>());
  press(*desk.window, Qt::Key_F4);
  auto& totals = part<ui::TotalsPage>(*desk.window, u"totalsPage"_s);
  REQUIRE(QTest::qWaitFor([&] { return !totals.isCounting(); }, 60000));
  lookAtAll(*totals.findChild<ui::ReportBrowser*>());
  ui::dress();
}
