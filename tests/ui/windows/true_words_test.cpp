#include "ui/board/late_form.h"
#include "ui/board/today_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/lists/cell_delegate.h"
#include "ui/totals/totals_page.h"
#include "ui/widgets/message_strip.h"

#include <QComboBox>
#include <QListWidget>
#include <QPainter>
#include <QScrollArea>
#include <QStandardItemModel>
#include <QTableView>

using namespace gk;
using namespace gk::test;

namespace {

/// The strip above the pages, not the chair's own.
ui::MessageStrip& stripOf(const Window& desk) {
  auto* pages = desk.window->findChild<QScrollArea*>(u"pagesScroll"_s);
  REQUIRE(pages != nullptr);
  for (auto* strip : pages->parentWidget()->findChildren<ui::MessageStrip*>(
           u"messageStrip"_s, Qt::FindDirectChildrenOnly))
    return *strip;
  FAIL("no strip");
  return *desk.window->findChild<ui::MessageStrip*>();
}

QPoint placeOf(const Window& desk) {
  return part<QScrollArea>(*desk.window, u"pagesScroll"_s).mapTo(desk.window.get(), QPoint(0, 0));
}

ui::Message troubleOf(int words) {
  return {QStringLiteral("Something happened. ").repeated(words), u"Nothing is lost."_s,
          u"Go on."_s};
}

} // namespace

TEST_CASE("Esc takes away a trouble that says so before it leaves the page", "[case-420]") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  press(*desk.window, Qt::Key_F1);
  press(*desk.window, Qt::Key_O, Qt::AltModifier);
  auto& date = part<QLineEdit>(*desk.window, u"dayDate"_s);
  date.setText(u"2026-11-14"_s); // a Saturday, without a reason
  press(*desk.window, Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(desk.reads(u"(Esc)"_s));
  press(*desk.window, Qt::Key_Escape);
  CHECK_FALSE(desk.reads(u"(Esc)"_s));
  CHECK(date.isVisible());
  press(*desk.window, Qt::Key_Escape);
  CHECK_FALSE(date.isVisible());
}

TEST_CASE("The words of the cover have the room that they need", "[case-420]") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  auto& title = part<QLabel>(*desk.window, u"coverTitle"_s);
  press(*desk.window, Qt::Key_F12);
  title.setText(u"Locked for inactivity. Unlock to continue where you were."_s);
  QTest::qWait(1);
  CHECK(title.height() >= title.heightForWidth(title.width()));
}

TEST_CASE("A message of any length leaves the page where it is under the mouse", "[case-125]") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  auto& strip = stripOf(desk);
  QTest::qWait(50); // until all is laid out
  const auto before = placeOf(desk);
  strip.say(u"News."_s);
  QTest::qWait(20);
  CHECK(placeOf(desk) == before);
  strip.post(troubleOf(30));
  QTest::qWait(20);
  CHECK(placeOf(desk) == before);
  const auto labels =
      strip.parentWidget()->findChildren<QLabel*>(u"messageText"_s, Qt::FindDirectChildrenOnly);
  REQUIRE(labels.size() == 1);
  const auto* label = labels.front();
  CHECK(label->isVisible());
  CHECK(label->height() > strip.height()); // all of it can be read, over the page
  CHECK(label->height() >= label->heightForWidth(label->width()));
  CHECK(label->testAttribute(Qt::WA_TransparentForMouseEvents));
  strip.settle();
  CHECK_FALSE(label->isVisible());
  CHECK(placeOf(desk) == before);
}

TEST_CASE("An old error goes when an act succeeds without a word, and when the page is left",
          "[case-125]") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  auto& strip = stripOf(desk);
  strip.post(troubleOf(1));
  REQUIRE(strip.hasTrouble());
  auto& book = desk.window->book()->session();
  const auto day = must(book.openDayNow());
  must(book.countPaper({must(book.members()).front().id, {}},
                       {.day = day.id, .paper = followup::Paper::other}));
  CHECK_FALSE(strip.hasTrouble());
  strip.post(troubleOf(1));
  press(*desk.window, Qt::Key_F6);
  CHECK_FALSE(strip.hasTrouble());
}

TEST_CASE("What no act puts right stays until it is dismissed", "[case-125]") {
  Window desk;
  desk.fill();
  desk.clock.setWall(base::atLocal(*base::Date::parse("2025-01-01"), std::chrono::hours(9),
                                   std::chrono::hours(-5)));
  desk.openAndUnlock();
  auto& strip = stripOf(desk);
  press(*desk.window, Qt::Key_F6);
  strip.settle();
  CHECK(strip.text().contains(u"Jan 1, 2025"_s));
  strip.dismiss();
  CHECK_FALSE(strip.hasTrouble());
}

TEST_CASE("What was said of one report is gone when another is chosen", "[case-125]") {
  Desk desk;
  ui::TotalsPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  REQUIRE(QTest::qWaitFor([&] { return !page.isCounting(); }, 20000));
  const Scratch folder;
  desk.prompter.files = {ui::toQt((folder / "term.txt").string())};
  press(page, Qt::Key_S, Qt::AltModifier);
  REQUIRE(desk.news.startsWith(u"Draft saved as"_s));
  auto& kind = part<QComboBox>(page, u"totalsKind"_s);
  kind.setFocus();
  QTest::keyClick(&kind, Qt::Key_Down);
  REQUIRE(QTest::qWaitFor([&] { return !page.isCounting(); }, 20000));
  CHECK(desk.news == QString());
}

TEST_CASE("A lot says which of the three refusals it is", "[case-124]") {
  Desk desk;
  must(desk.clinic.session.countLot(desk.clinic.by,
                                    {.day = desk.clinic.day, .lot = desk.clinic.resin, .left = 0}));
  must(desk.clinic.session.quarantineLot(desk.clinic.by, desk.clinic.etchant, "recalled"));
  desk.clinic.clock.advance(std::chrono::hours(24));
  must(desk.clinic.session.openDay(desk.clinic.by, {.term = desk.clinic.term,
                                                    .school = desk.clinic.school,
                                                    .date = desk.clinic.clock.now().date(),
                                                    .reason = {}}));
  ui::TodayPage page(desk.context, nullptr);
  showActive(page);
  const auto words = [&](const QString& box) {
    QStringList all;
    const auto& choices = part<QComboBox>(page, box);
    for (int i = 0; i < choices.count(); ++i)
      all += choices.itemText(i);
    return all.join(u'|');
  };
  CHECK(words(u"todaySealant"_s).contains(u", USED UP"_s));
  CHECK(words(u"todayEtchant"_s).contains(u", SET ASIDE"_s));
  CHECK_FALSE(words(u"todaySealant"_s).contains(u"EXPIRED"_s));
}

TEST_CASE("A late form that is refused leaves neither child nor alert, as its message says",
          "[case-125]") {
  Desk desk;
  ui::LateForm form(desk.context, nullptr);
  QStringList said;
  QObject::connect(&form, &ui::Page::failed, &form,
                   [&](const ui::Message& message) { said += ui::inOneLine(message); });
  showActive(form);
  form.begin(must(desk.clinic.session.day(desk.clinic.day)));
  part<QLineEdit>(form, u"lateFirst"_s).setText(u"Ada"_s);
  part<QLineEdit>(form, u"lateLast"_s).setText(u"Quill"_s);
  part<QLineEdit>(form, u"lateBirth"_s).setText(u"2019-03-14"_s);
  part<QLineEdit>(form, u"lateGrade"_s).setText(u"2"_s);
  part<QComboBox>(form, u"lateFlag"_s).setCurrentIndex(2);
  press(form, Qt::Key_Return, Qt::ControlModifier); // a yes that ticks nothing
  REQUIRE(said.size() == 1);
  CHECK(said.front().contains(u"Not saved; your entry is still here."_s));
  CHECK(must(desk.clinic.session.findChildren("quill")).empty());
  form.hide(); // or its field loses the keyboard while it goes
}

TEST_CASE("The cell that the keyboard is in shows the whole of its text", "[case-125]") {
  ui::dress();
  QStandardItemModel model(1, 1);
  model.setItem(0, 0, new QStandardItem(u"Fully retained"_s)); // the model's
  QTableView table;
  table.setModel(&model);
  table.setItemDelegate(new ui::CellDelegate(&table));
  table.setSelectionBehavior(QAbstractItemView::SelectRows);
  table.setColumnWidth(0, table.fontMetrics().horizontalAdvance(u"Fully retained"_s) + 9);
  showActive(table);
  table.selectRow(0);
  const auto paint = [&](bool focused) {
    QStyleOptionViewItem option;
    option.initFrom(&table);
    option.widget = &table;
    option.font = table.font();
    option.rect = QRect(0, 0, table.columnWidth(0), table.rowHeight(0));
    option.state = QStyle::State_Enabled | QStyle::State_Active | QStyle::State_Selected;
    if (focused) option.state |= QStyle::State_HasFocus;
    option.showDecorationSelected = true;
    QImage image(option.rect.size(), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    table.itemDelegate()->paint(&painter, option, model.index(0, 0));
    return image;
  };
  const auto plain = paint(false);
  const auto focused = paint(true);
  CHECK(plain != focused); // it is marked
  const auto inner = QRect(2, 0, plain.width() - 4, plain.height());
  CHECK(plain.copy(inner) == focused.copy(inner));
}

TEST_CASE("An incident is written while no day is open, on the newest day or another",
          "[case-126]") {
  Window desk;
  {
    Clinic clinic(desk.book(), session::BookKind::throwaway);
    must(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator}));
    must(clinic.session.finish());
  }
  desk.clock.setWall(base::atLocal(*base::Date::parse("2026-11-18"), std::chrono::hours(7),
                                   std::chrono::hours(-5)));
  desk.openAndUnlock();
  auto& book = desk.window->book()->session();
  REQUIRE_FALSE(book.openDayNow().has_value());
  ui::Setup setup;
  setup.author = must(book.members()).front().id;
  desk.window->book()->acting().change(setup);
  const auto key = [&](Qt::Key which) {
    press(*desk.window, which);
    QTest::qWait(150); // a sign waits a little, as it might be a scanner's first
  };
  const auto type = [&](const QString& text) {
    const auto focus = [&] { return qobject_cast<QLineEdit*>(desk.window->focusWidget()); };
    REQUIRE(QTest::qWaitFor([&] { return focus() != nullptr; }));
    if (!text.isEmpty()) focus()->setText(text);
    QTest::keyClick(focus(), Qt::Key_Return);
  };
  key(Qt::Key_F7);
  CHECK(words(*desk.window, u"incidentAbout"_s).contains(u"On the day November 17, 2026"_s));
  SECTION("with a date of its own") {
    key(Qt::Key_8); // a lost laptop
    type({});       // as suggested: now
    type(u"laptop left on the bus"_s);
    key(Qt::Key_5);
    key(Qt::Key_1);
  }
  SECTION("on the day that is chosen") {
    key(Qt::Key_D);
    key(Qt::Key_1);
    key(Qt::Key_8);
    type(u"2026-11-18 06:30"_s);
    type(u"laptop left on the bus"_s);
    key(Qt::Key_5);
    key(Qt::Key_1);
  }
  const auto day = must(book.days(must(book.terms()).front().id)).front().id;
  const auto incidents = must(book.incidents(day));
  REQUIRE(incidents.size() == 1);
  CHECK(incidents.front().value.happened.text().starts_with("2026-11-18"));
  CHECK(incidents.front().value.done == "laptop left on the bus");
}
