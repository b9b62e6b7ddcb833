#include "ui/asking/qt_prompter.h"
#include "ui/fixtures/desk_fixture.h"

#include <QApplication>
#include <QDialog>
#include <QTimer>

using namespace gk;
using namespace gk::test;

TEST_CASE("A form of numbers has a field for each, and Enter in any of them answers",
          "[case-301]") {
  QWidget window;
  showActive(window);
  ui::QtPrompter prompter(&window);
  QStringList seen;
  const auto answerBy = [&](Qt::Key last) {
    QTimer::singleShot(0, &window, [&seen, last] {
      auto* dialog = QApplication::activeModalWidget();
      REQUIRE(dialog != nullptr);
      for (auto* field : dialog->findChildren<QLineEdit*>())
        seen += field->accessibleName() + u'=' + field->text();
      QTest::keyClicks(dialog->focusWidget(), u"2"_s); // over what stands there
      QTest::keyClick(dialog->focusWidget(), Qt::Key_Tab);
      QTest::keyClicks(dialog->focusWidget(), u"7"_s);
      QTest::keyClick(dialog->focusWidget(), last);
    });
    return prompter.fill(u"Packages of today"_s, {{u"Opened"_s, u"1"_s}, {u"Left"_s, {}}});
  };
  CHECK(answerBy(Qt::Key_Return) == QStringList{u"2"_s, u"7"_s});
  CHECK(seen == QStringList{u"Opened=1"_s, u"Left="_s});
  CHECK_FALSE(answerBy(Qt::Key_Escape));
}
