#pragma once

#include "desk_fixture.h"
#include "ui/pages/day_board_page.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>

namespace gk::test {

/// The board, driven by keys.
class Board : public Desk {
 public:
  ui::DayBoardPage page{context, nullptr};
  std::vector<roster::ChildId> taken;

  void open() {
    listen(page);
    QObject::connect(&page, &ui::DayBoardPage::childChosen, &page,
                     [this](roster::ChildId child, roster::DayId) { taken.push_back(child); });
    showActive(page);
    page.setFocus();
  }
  void type(const QString& text) const {
    auto& search = part<QLineEdit>(page, u"boardSearch"_s);
    search.setFocus();
    search.clear();
    QTest::keyClicks(&search, text);
  }
  ui::BoardModel& model() { return *page.findChild<ui::BoardModel*>(); }
  std::optional<session::BoardLine> lineOf(roster::ChildId child) {
    const auto row = model().rowOf(child);
    return row ? model().lineAt(*row) : std::nullopt;
  }
  QString number(roster::ChildId child) {
    return ui::toQt(must(clinic.session.child(child)).value.number);
  }
  void fill(const QString& field, const QString& text) const {
    part<QLineEdit>(page, field).setText(text);
  }
  void tick(int service) const {
    part<QCheckBox>(page, u"lateService%1"_s.arg(service)).setChecked(true);
  }
  /// Screening, sealants and varnish, as most forms.
  void tickUsual() const {
    for (int service : {0, 1, 2})
      tick(service);
  }
};

} // namespace gk::test
