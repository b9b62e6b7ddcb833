#include "ui/fixtures/desk_fixture.h"
#include "ui/look/look.h"

#include <QVBoxLayout>

using namespace gk;
using namespace gk::test;

namespace {

/// Where the ring should be: about the control, and no farther from it than its own line and gap.
void isAbout(QWidget& window, const QWidget& control, const char* when) {
  QCoreApplication::processEvents();
  QTest::qWait(5); // it is placed once the layout has settled
  INFO(when);
  const auto& ring = part<QWidget>(window, u"focusRing"_s);
  const QRect box(control.mapTo(&window, QPoint()), control.size());
  CHECK(ring.isVisible());
  CHECK(ring.geometry() == (box.adjusted(-5, -5, 5, 5) & window.rect()));
}

} // namespace

TEST_CASE("The ring about the keyboard goes where its control goes, however it was moved there") {
  ui::dress();
  QWidget window;
  auto* column = new QVBoxLayout(&window);
  column->setContentsMargins(20, 20, 20, 20);
  auto* words = new QLabel(u"Number"_s);
  auto* line = new QLineEdit;
  column->addWidget(words);
  column->addWidget(line);
  column->addStretch();
  showActive(window);
  line->setFocus();
  isAbout(window, *line, "at first");
  words->setText(u"Number\nor name\nor both"_s);
  isAbout(window, *line, "after longer words above it");
  words->hide();
  isAbout(window, *line, "after they went");
  // Into a page of its own, which moves from then on.
  auto* page = new QWidget(&window);
  auto* inside = new QVBoxLayout(page);
  column->insertWidget(0, page);
  inside->addWidget(line);
  QCoreApplication::processEvents(); // it is shown there first
  line->setFocus();
  isAbout(window, *line, "in another page");
  column->setContentsMargins(60, 90, 60, 20);
  isAbout(window, *line, "after that page moved");
}
