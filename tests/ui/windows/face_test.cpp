#include "reports/day/close_out_tables.h"
#include "ui/close_out/close_out_page.h"
#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/fixtures/window_keys.h"
#include "ui/keys/cap_button.h"
#include "ui/lists/report_browser.h"
#include "ui/look/style.h"
#include "ui/mouth/tooth_tile.h"

#include <QListWidget>
#include <QShortcut>

#include <array>
#include <map>

using namespace gk;
using namespace gk::test;
using ui::Scheme;

namespace {

constexpr std::array allPlaces{Qt::Key_F1, Qt::Key_F2, Qt::Key_F3, Qt::Key_F4, Qt::Key_F5,
                               Qt::Key_F6, Qt::Key_F7, Qt::Key_F8, Qt::Key_F9, Qt::Key_F10};

struct PlainAfter {
  ~PlainAfter() { ui::dress(); }
};

/// What a hand on the keyboard can do now: looked for here by itself, and not as the list does.
QStringList keysBound(const QWidget& window) {
  QStringList keys;
  for (const auto* shortcut : window.findChildren<QShortcut*>()) {
    const auto* owner = qobject_cast<const QWidget*>(shortcut->parent());
    if (owner && owner->isVisible() && owner->isEnabled() && shortcut->isEnabled())
      keys += shortcut->key().toString(QKeySequence::NativeText).replace(u"Return"_s, u"Enter"_s);
  }
  for (const auto* button : window.findChildren<ui::CapButton*>())
    if (button->isVisible() && button->isEnabled() && !button->key().isEmpty())
      keys += button->key();
  keys.removeDuplicates();
  return keys;
}

QStringList keysListed(const QWidget& window) {
  QStringList keys;
  for (const auto* cap : window.findChildren<QLabel*>(u"helpKey"_s))
    if (cap->isVisible()) keys += cap->text();
  return keys;
}

std::map<QString, QRect> placesOf(const QWidget& page) {
  std::map<QString, QRect> found;
  const auto take = [&](const QWidget* widget) {
    if (widget->isVisible())
      found[widget->objectName()] = {widget->mapTo(&page, QPoint()), widget->size()};
  };
  for (const auto* tile : page.findChildren<ui::ToothTile*>())
    take(tile);
  for (const auto* key : part<QWidget>(page, u"alwaysBar"_s).findChildren<ui::CapButton*>())
    take(key);
  take(&part<QWidget>(page, u"messageStrip"_s));
  take(&part<QWidget>(page, u"chairHead"_s));
  return found;
}

} // namespace

TEST_CASE("A question mark lists every key that the page binds, and the same key closes it") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  for (const auto place : allPlaces) {
    test::press(*desk.window, place);
    QCoreApplication::processEvents();
    const auto bound = keysBound(part<QWidget>(*desk.window, u"bookView"_s));
    test::press(*desk.window, Qt::Key_F1, Qt::ShiftModifier);
    INFO(QKeySequence(place).toString().toStdString());
    REQUIRE(desk.shows(u"helpOverlay"_s));
    QCoreApplication::processEvents();
    const auto listed = keysListed(*desk.window);
    for (const auto& key : bound) {
      INFO(key.toStdString());
      CHECK(listed.contains(key));
    }
    // A key of the page does nothing while it is not seen, but closes the list.
    test::press(*desk.window, Qt::Key_Tab);
    CHECK(part<QLabel>(*desk.window, u"helpWords"_s).isVisible());
    test::press(*desk.window, Qt::Key_A, Qt::AltModifier);
    CHECK_FALSE(desk.shows(u"helpOverlay"_s));
    CHECK(desk.prompter->asked.isEmpty());
  }
}

TEST_CASE("No cap on a page shows a key that the window takes for itself", "[case-446]") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  const auto look = [&](const QString& place) {
    QCoreApplication::processEvents();
    INFO(place.toStdString());
    CHECK(keysTakenAway(*desk.window).join(u", "_s) == QString());
  };
  for (const auto place : allPlaces) {
    test::press(*desk.window, place);
    look(QKeySequence(place).toString());
  }
  test::press(*desk.window, Qt::Key_F8);
  auto& areas = part<QListWidget>(*desk.window, u"deskAreas"_s);
  for (int row = 0; row < areas.count(); ++row) {
    areas.setCurrentRow(row);
    look(areas.item(row)->text());
  }
  for (const auto key : {Qt::Key_F, Qt::Key_P, Qt::Key_T}) {
    test::press(*desk.window, key, Qt::ControlModifier);
    look(QKeySequence(Qt::CTRL | key).toString());
  }
}

TEST_CASE("The ring about what has the keyboard is one, and moves nothing") {
  const PlainAfter after;
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  auto& search = part<QLineEdit>(*desk.window, u"boardSearch"_s);
  auto& table = part<QWidget>(*desk.window, u"boardTable"_s);
  for (const auto scheme : {Scheme::light, Scheme::dark, Scheme::highContrast}) {
    ui::dress({scheme, 100});
    for (auto* widget : {static_cast<QWidget*>(&search), &table}) {
      const auto placed = search.geometry();
      widget->setFocus();
      QCoreApplication::processEvents();
      CHECK(search.geometry() == placed);
      const auto rings = desk.window->findChildren<QWidget*>(u"focusRing"_s);
      REQUIRE(rings.size() == 1);
      CHECK(rings.front()->isVisible());
      const QRect box(widget->mapTo(desk.window.get(), QPoint()), widget->size());
      CHECK(rings.front()->geometry().contains(box));
      const auto picture = rings.front()->grab().toImage();
      const auto drawn = QColor(picture.pixel(picture.width() / 2, 1));
      CHECK(drawn == ui::style::colors(scheme).focus);
    }
  }
}

TEST_CASE("Tiles, the line of messages and the keys that are always there keep their place over a "
          "whole visit") {
  Chair chair;
  chair.page->resize(1366, 700);
  const auto mina = chair.clinic.child("Mina", "Tolliver-Reed");
  must(chair.clinic.session.enterFlag(chair.clinic.by,
                                      {mina, roster::FlagKind::latexAllergy,
                                       roster::FlagAction::stop, "rash from gloves", false, ""}));
  REQUIRE(chair.page->take(mina, chair.clinic.day));
  chair.press(Qt::Key_PageDown);
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  QCoreApplication::processEvents();
  const auto first = placesOf(*chair.page);
  REQUIRE(first.size() >= 18);
  const auto check = [&](const char* stage) {
    QCoreApplication::processEvents();
    const auto now = placesOf(*chair.page);
    for (const auto& [name, box] : first) {
      INFO(stage << ' ' << name.toStdString());
      REQUIRE(now.contains(name));
      CHECK(now.at(name) == box);
    }
    // All of it is on the screen, whatever is said and alerted.
    const auto& always = part<QWidget>(*chair.page, u"alwaysBar"_s);
    CHECK(always.mapTo(chair.page.get(), QPoint(0, always.height())).y() <= 700);
  };
  chair.press("ZSSSS444");
  check("screened");
  chair.press(Qt::Key_Return);
  check("keep dry");
  chair.press(Qt::Key_Return);
  check("etch");
  chair.press(Qt::Key_Space);
  chair.run(7);
  check("etching");
  chair.run(13);
  chair.press(Qt::Key_Space);
  chair.run(10);
  check("rinsed");
  chair.press("5");
  chair.press(Qt::Key_Space);
  chair.run(7);
  check("curing");
  chair.press("U");
  check("a message");
}

TEST_CASE("Students whom no one saw are one line of the close-out and answered together") {
  Desk desk;
  for (const auto* name : {"Mina", "Lupe", "Wren"})
    desk.clinic.child(name);
  ui::CloseOutPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  page.setFocus();
  auto& browser = *page.findChild<ui::ReportBrowser*>();
  using namespace reports::close_out;
  const auto& shown = browser.tables().at(blockers).rows;
  REQUIRE(shown.size() == 1);
  CHECK(shown.front().front() == "3 students");
  press(page, Qt::Key_Return);
  desk.prompter.choices = {1}; // all of them: absent
  press(page, Qt::Key_Return);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(partText(page, blockers) == u"Fix before signing  none"_s);
  CHECK(words(page, u"closeOutEquation"_s).contains(u"absent 3"_s));
  // Whoever is absent is seen again: the list says so, and is not "none".
  CHECK(partText(page, toSee) == u"Return visits  3"_s);
  CHECK(browser.tables().at(toSee).rows.size() == 3);
}
