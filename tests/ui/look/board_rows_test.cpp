#include "ui/board/day_board_page.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/models/board_model.h"

#include <QHeaderView>
#include <QLabel>
#include <QTableView>

using namespace gk;
using namespace gk::test;

namespace {

/// The whole window on a small laptop: three students were seen, nine wait.
class FullBoard : public Window {
 public:
  explicit FullBoard(int percent) {
    {
      Clinic clinic(book(), session::BookKind::throwaway);
      for (const auto* name : {"Ada", "Bea", "Cleo"}) {
        clinic.standardVisit(clinic.child(name));
        clinic.clock.advance(std::chrono::minutes(20));
      }
      for (const auto* name : {"Dot", "Eva", "Fay", "Gus", "Hal", "Ida", "Jon", "Kit", "Liv"})
        clinic.child(name, "Tolliver-Reed");
      must(clinic.session.finish());
    }
    clock.advance(std::chrono::hours(3));
    openAndUnlock();
    ui::dress({ui::Scheme::light, percent});
    QCoreApplication::processEvents();
    window->resize(1366, 700);
    QTest::qWait(1);
  }
  ~FullBoard() { ui::dress(); }

  /// Students whose rows are whole on the screen, without scrolling.
  [[nodiscard]] int inSight() const {
    QTest::qWait(1);
    const auto& table = part<QTableView>(*window, u"boardTable"_s);
    const auto& model = *window->findChild<ui::BoardModel*>();
    const auto seen = table.viewport()->visibleRegion().boundingRect();
    int count = 0;
    for (int row = 0; row < model.rowCount(); ++row) {
      const auto box = table.visualRect(model.index(row, 0));
      if (model.lineAt(row) && box.top() >= seen.top() && box.bottom() <= seen.bottom()) ++count;
    }
    return count;
  }
};

} // namespace

TEST_CASE("At least six students of the day board are in sight on a small laptop, also below the "
          "reminder of a backup") {
  const int percent = GENERATE(100, 150);
  const FullBoard desk(percent);
  CHECK(desk.window->size() == QSize(1366, 700));
  CHECK(desk.inSight() >= 6);
  auto& backup = part<QLabel>(*desk.window, u"boardBackup"_s);
  backup.setText(u"⚠ No backup since the school day of November 12, 2026. Back up now: F10, then "
                 "Alt+U."_s);
  backup.show();
  CHECK(desk.inSight() >= 6);
  // Six of nine: the others are scrolled to, and nothing of the rows in sight is cut.
  const auto& table = part<QTableView>(*desk.window, u"boardTable"_s);
  const QFontMetrics letters(table.font());
  CHECK(table.rowHeight(1) >= letters.height() + 4);
  CHECK(table.horizontalHeader()->height() >= letters.height() + 4);
}

TEST_CASE("The pace of the day is told at every size of letters, once") {
  const int percent = GENERATE(100, 150);
  const FullBoard desk(percent);
  const auto& counts = part<QLabel>(*desk.window, u"boardCounts"_s);
  CHECK(counts.text().contains(u"Waiting 9"_s));
  const auto pace = u"min a student; at today's pace done about "_s;
  const auto& line = part<QLabel>(*desk.window, u"boardPace"_s);
  CHECK(line.isVisible() == (percent == 100));
  CHECK(line.text().contains(pace));
  CHECK(counts.accessibleName().contains(pace) == (percent == 150));
  CHECK(counts.height() >= counts.heightForWidth(counts.width()));
}
