#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/lists/report_browser.h"
#include "ui/mouth/mouth_map.h"

#include <QAccessible>

using namespace gk;
using namespace gk::test;

namespace {

QAccessibleInterface* reader(QObject* of) {
  return QAccessible::queryAccessibleInterface(of);
}

/// Everything that a reader of the screen can come to from here and that is in sight.
void walk(QAccessibleInterface* here, std::vector<QAccessibleInterface*>& into) {
  if (!here || !here->isValid() || here->state().invisible) return;
  into.push_back(here);
  // The cells of a table are words, as many as there are children.
  if (here->role() == QAccessible::Table) return;
  for (int i = 0; i < here->childCount(); ++i)
    walk(here->child(i), into);
}

bool isControl(QAccessible::Role role) {
  constexpr std::array controls{
      QAccessible::Button,       QAccessible::CheckBox, QAccessible::RadioButton,
      QAccessible::EditableText, QAccessible::ComboBox, QAccessible::SpinBox,
      QAccessible::List,         QAccessible::Table,    QAccessible::Clock};
  return std::ranges::find(controls, role) != controls.end();
}

/// Every control has a name; whatever takes the keyboard is a control, or a page with a name.
void checkNamed(QWidget& window, const char* stage) {
  QCoreApplication::processEvents();
  std::vector<QAccessibleInterface*> all;
  walk(reader(&window), all);
  REQUIRE(all.size() > 5);
  for (auto* one : all) {
    const auto* object = one->object();
    INFO(stage << ": " << (object ? object->metaObject()->className() : "no object") << ' '
               << (object ? object->objectName().toStdString() : ""));
    const bool control = isControl(one->role());
    // A box of a list inside a combo box belongs to it.
    if (control && !(object && object->inherits("QComboBoxListView")))
      CHECK_FALSE(one->text(QAccessible::Name).isEmpty());
    const auto* widget = qobject_cast<const QWidget*>(object);
    if (!widget || !(widget->focusPolicy() & Qt::TabFocus) || control) continue;
    CHECK((one->role() == QAccessible::Client || one->role() == QAccessible::StaticText));
    CHECK_FALSE(one->text(QAccessible::Name).isEmpty());
  }
}

/// Names of what Tab goes to, from the first, until it comes round.
QStringList tabOrder(QWidget& window) {
  QStringList names;
  for (int i = 0; i < 60; ++i) {
    auto* focus = window.focusWidget();
    if (!focus) break;
    if (!names.isEmpty() && focus->objectName() == names.front()) break;
    names += focus->objectName();
    QTest::keyClick(focus, Qt::Key_Tab);
  }
  return names;
}

/// Whether these come in this order, whatever is between.
bool comeInOrder(const QStringList& names, const QStringList& wanted) {
  qsizetype from = 0;
  for (const auto& name : wanted) {
    const auto at = names.indexOf(name, from);
    if (at < 0) return false;
    from = at + 1;
  }
  return true;
}

} // namespace

TEST_CASE("Every control of every page has a name and a role for who cannot see it") {
  Window desk;
  desk.open();
  checkNamed(*desk.window, "start");
  desk.fill();
  desk.openAndUnlock();
  for (const auto page : {Qt::Key_F1, Qt::Key_F2, Qt::Key_F3, Qt::Key_F4, Qt::Key_F5, Qt::Key_F6}) {
    test::press(*desk.window, page);
    checkNamed(*desk.window, QKeySequence(page).toString().toLatin1().constData());
  }
  test::press(*desk.window, Qt::Key_F1);
  test::press(*desk.window, Qt::Key_N, Qt::AltModifier);
  checkNamed(*desk.window, "late form");
  test::press(*desk.window, Qt::Key_F12);
  checkNamed(*desk.window, "cover");
}

TEST_CASE("Every stage of a visit has names for who cannot see it") {
  Chair chair;
  REQUIRE(chair.page->take(chair.clinic.child("Mina", "Tolliver-Reed"), chair.clinic.day));
  checkNamed(*chair.page, "identity");
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  checkNamed(*chair.page, "screening");
  chair.press("N");
  checkNamed(*chair.page, "a question");
  chair.press(Qt::Key_Escape);
  chair.screenFour();
  checkNamed(*chair.page, "keep dry");
  chair.press(Qt::Key_Return);
  checkNamed(*chair.page, "etch");
}

TEST_CASE("The mouth is read as teeth with their surfaces, in the words of the chair") {
  Chair chair;
  chair.seat(chair.clinic.child("Mina", "Tolliver-Reed"));
  chair.press("ZSSSS");
  auto* mouth = reader(chair.page->findChild<ui::MouthMap*>());
  REQUIRE(mouth != nullptr);
  CHECK(mouth->role() == QAccessible::List);
  auto* tooth = reader(chair.page->findChild<QWidget*>(u"tile16"_s));
  CHECK(tooth->role() == QAccessible::ListItem);
  CHECK(tooth->text(QAccessible::Name) ==
        u"Upper right first: sound, seal occlusal and lingual."_s);
  CHECK(mouth->indexOfChild(tooth) >= 0);
  REQUIRE(tooth->childCount() == 2);
  auto* groove = tooth->child(1);
  CHECK(groove->role() == QAccessible::CheckBox);
  CHECK(groove->text(QAccessible::Name) == u"Lingual groove of upper right first molar, to seal"_s);
  CHECK(groove->state().checked);
  groove->actionInterface()->doAction(QAccessibleActionInterface::pressAction());
  CHECK(chair.text("screeningCursor").contains(u"lingual groove only"_s));
}

TEST_CASE("The timer is a clock whose value is its numerals") {
  Chair chair;
  auto* timer = chair.page->findChild<ui::TimerView*>();
  auto* clock = reader(timer);
  CHECK(clock->role() == QAccessible::Clock);
  CHECK(clock->text(QAccessible::Value) == u"stopped"_s);
  timer->start(u"Etch"_s, base::Seconds(20));
  chair.run(7);
  CHECK(clock->text(QAccessible::Value) == u"7.0 seconds"_s);
  timer->stop();
}

TEST_CASE("Tab goes through a page as it is read") {
  Window desk;
  desk.open();
  const auto start = tabOrder(*desk.window);
  INFO(start.join(u' ').toStdString());
  CHECK(start == QStringList({u"startOpen"_s, u"startEnvelope"_s, u"startRestore"_s,
                              u"startPassphrase"_s, u"startAgain"_s, u"startNew"_s}));
  desk.fill();
  desk.openAndUnlock();
  test::press(*desk.window, Qt::Key_F1);
  part<QWidget>(*desk.window, u"boardSearch"_s).setFocus();
  const auto board = tabOrder(*desk.window);
  INFO(board.join(u' ').toStdString());
  CHECK(comeInOrder(board, {u"boardSearch"_s, u"boardTable"_s, u"boardTake"_s, u"boardAbsent"_s,
                            u"boardDeclined"_s, u"boardLate"_s, u"boardUndo"_s}));
  test::press(*desk.window, Qt::Key_F3);
  const auto closeOut = tabOrder(*desk.window);
  INFO(closeOut.join(u' ').toStdString());
  CHECK(comeInOrder(closeOut, {u"closeOutOutcome"_s, u"closeOutCall"_s, u"closeOutRefer"_s,
                               u"closeOutSave"_s, u"closeOutPack"_s}));
  test::press(*desk.window, Qt::Key_F5);
  const auto today = tabOrder(*desk.window);
  INFO(today.join(u' ').toStdString());
  CHECK(comeInOrder(today, {u"todayAssistant"_s, u"todaySealant"_s}));
  test::press(*desk.window, Qt::Key_F4);
  part<QWidget>(*desk.window, u"totalsPage"_s).findChild<ui::ReportBrowser*>()->choose(0);
  part<QWidget>(*desk.window, u"totalsTerm"_s).setFocus();
  const auto totals = tabOrder(*desk.window);
  INFO(totals.join(u' ').toStdString());
  CHECK(comeInOrder(totals, {u"totalsTerm"_s, u"totalsKind"_s, u"totalsSchool"_s,
                             u"totalsOperator"_s, u"totalsFactor"_s, u"totalsSave"_s,
                             u"totalsIssue"_s, u"reportNames"_s, u"reportTable"_s}));
  test::press(*desk.window, Qt::Key_F1);
  test::press(*desk.window, Qt::Key_N, Qt::AltModifier);
  const auto late = tabOrder(*desk.window);
  INFO(late.join(u' ').toStdString());
  CHECK(comeInOrder(late, {u"lateNumber"_s, u"lateFirst"_s, u"lateLast"_s, u"lateBirth"_s,
                           u"lateRoom"_s, u"latePhone"_s, u"lateProvisional"_s, u"lateState"_s,
                           u"lateSigner"_s, u"lateSigned"_s, u"lateService0"_s, u"lateService1"_s,
                           u"lateFlag"_s, u"lateNote"_s, u"lateSave"_s, u"lateBack"_s}));
}
