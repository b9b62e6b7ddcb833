#include "support/long_checks.h"
#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/eyes.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/look/style.h"
#include "ui/mouth/tooth_marks.h"
#include "ui/mouth/tooth_tile.h"

#include <QKeySequence>
#include <QPainter>

#include <map>

using namespace gk;
using namespace gk::test;
using dentition::Surface;
using ui::Mark;
using ui::Scheme;

namespace {

constexpr double atTheChair = 7.0; // WCAG 2.1, 1.4.6 AAA
constexpr double atTheDesk = 4.5;  // WCAG 2.1, 1.4.3 AA
constexpr double forShapes = 3.0;  // WCAG 2.1, 1.4.11

constexpr std::array allSchemes{Scheme::light, Scheme::dark, Scheme::highContrast};
constexpr int marks = static_cast<int>(Mark::stopped) + 1;

/// The usual look again, whatever a test wore.
struct Undress {
  ~Undress() { ui::dress(); }
};

QImage tileOf(Mark mark) {
  ui::ToothTile tile;
  tile.resize(200, 230);
  tile.setFace({dentition::toothAt(16), {}, mark}, false);
  return tile.grab().toImage();
}

/// Words against the ground they stand on, as drawn: the commonest color and the one farthest from
/// it.
double drawnContrast(const QImage& picture, const QRect& box) {
  std::map<QRgb, int> counts;
  for (int y = box.top(); y <= box.bottom(); ++y)
    for (int x = box.left(); x <= box.right(); ++x)
      if (picture.valid(x, y)) ++counts[picture.pixel(x, y)];
  if (counts.empty()) return 21;
  const QColor ground(
      std::ranges::max_element(counts, {}, [](const auto& one) { return one.second; })->first);
  double most = 1;
  for (const auto& [pixel, count] : counts)
    most = std::max(most, contrast(QColor(pixel), ground));
  return most;
}

void checkWords(QWidget& page, double least, const char* stage) {
  QCoreApplication::processEvents();
  const auto plain = page.grab().toImage();
  for (const auto eyes : allEyes) {
    const auto picture = seen(plain, eyes);
    for (const auto* widget : page.findChildren<QWidget*>()) {
      const auto* label = qobject_cast<const QLabel*>(widget);
      const auto* button = qobject_cast<const QPushButton*>(widget);
      const auto words = label ? label->text() : button ? button->text() : QString();
      if (words.isEmpty() || !widget->isVisible() || widget->visibleRegion().isEmpty()) continue;
      const QRect box(widget->mapTo(&page, QPoint(6, 6)), widget->size() - QSize(12, 12));
      INFO(stage << ", " << eyesNames[static_cast<std::size_t>(eyes)] << ": "
                 << words.toStdString());
      CHECK(drawnContrast(picture, box) >= least);
    }
  }
}

} // namespace

TEST_CASE("White stays white and black stays black to every eye, and red is not green") {
  for (const auto eyes :
       {Eyes::plain, Eyes::gray, Eyes::protanopia, Eyes::deuteranopia, Eyes::tritanopia}) {
    CHECK(seen(QColor(255, 255, 255), eyes).name() == u"#ffffff"_s);
    CHECK(seen(QColor(0, 0, 0), eyes).name() == u"#000000"_s);
  }
  CHECK(contrast(QColor(255, 255, 255), QColor(0, 0, 0)) == Approx(21)); // WCAG 2.1
  CHECK(seen(QColor(0, 0, 255), Eyes::amber).lightness() < 30);
}

TEST_CASE("Words stand out 7 to 1 from their ground in each scheme and through each filter") {
  for (const auto scheme : allSchemes) {
    const auto& worn = ui::style::colors(scheme);
    const std::array pairs{
        std::pair(worn.ink, worn.ground),      std::pair(worn.ink, worn.card),
        std::pair(worn.ink, worn.sunk),        std::pair(worn.ink, worn.soft),
        std::pair(worn.ink, worn.hand),        std::pair(worn.ink, worn.ask),
        std::pair(worn.quiet, worn.ground),    std::pair(worn.quiet, worn.card),
        std::pair(worn.onStrong, worn.strong), std::pair(worn.onAlarm, worn.alarm),
        std::pair(worn.onRail, worn.rail),     std::pair(worn.onRailOn, worn.railOn),
        std::pair(worn.onCured, worn.cured),   std::pair(worn.ink, worn.alarmSoft)};
    for (const auto eyes : allEyes) {
      INFO(static_cast<int>(scheme) << ' ' << eyesNames[static_cast<std::size_t>(eyes)]);
      for (std::size_t i = 0; i < pairs.size(); ++i) {
        INFO("pair " << i);
        CHECK(contrast(seen(pairs[i].first, eyes), seen(pairs[i].second, eyes)) >= atTheChair);
      }
      for (const auto& shape : {worn.alarm, worn.strong, worn.edge, worn.focus})
        for (const auto& ground : {worn.ground, worn.card})
          CHECK(contrast(seen(shape, eyes), seen(ground, eyes)) >= forShapes);
      for (const auto& drawn : {worn.chart, worn.chartOdd, worn.chartQuiet})
        CHECK(contrast(seen(drawn, eyes), seen(worn.card, eyes)) >= forShapes);
    }
  }
}

TEST_CASE("Every two states of a tooth differ in grey by their shape") {
  std::vector<QImage> pictures;
  for (int mark = 0; mark < marks; ++mark)
    pictures.push_back(seen(tileOf(static_cast<Mark>(mark)), Eyes::gray));
  for (int one = 0; one < marks; ++one)
    for (int other = one + 1; other < marks; ++other) {
      int differing = 0;
      const auto& a = pictures[static_cast<std::size_t>(one)];
      const auto& b = pictures[static_cast<std::size_t>(other)];
      for (int y = 0; y < a.height(); ++y)
        for (int x = 0; x < a.width(); ++x)
          if (std::abs(qGray(a.pixel(x, y)) - qGray(b.pixel(x, y))) > 80) ++differing;
      INFO("marks " << one << " and " << other);
      CHECK(differing >= 100);
    }
}

TEST_CASE("The words of the chair as drawn stand out 7 to 1 through each filter") {
  const Undress after;
  for (const auto scheme : allSchemes) {
    if (scheme != allSchemes.back() && test::oneOf(1) > 1) continue; // the same paths
    ui::dress({scheme, 100});
    Chair chair;
    const auto mina = chair.clinic.child("Mina", "Tolliver-Reed");
    must(chair.clinic.session.enterFlag(chair.clinic.by,
                                        {mina, roster::FlagKind::latexAllergy,
                                         roster::FlagAction::stop, "rash from gloves", false, ""}));
    REQUIRE(chair.page->take(mina, chair.clinic.day));
    checkWords(*chair.page, atTheChair, "identity");
    chair.press(Qt::Key_PageDown);
    chair.press(Qt::Key_Left);
    chair.press(Qt::Key_Return);
    chair.press("ZSE");
    checkWords(*chair.page, atTheChair, "screening");
    chair.press("SS444");
    chair.press(Qt::Key_Return);
    chair.press(Qt::Key_Return);
    chair.etchToFrosty();
    chair.press(Qt::Key_Space);
    chair.run(7);
    checkWords(*chair.page, atTheChair, "curing");
  }
}

TEST_CASE("What a field says before anything is typed stands out 4.5 to 1") {
  const Undress after;
  for (const auto scheme : allSchemes) {
    ui::dress({scheme, 100});
    Window desk;
    desk.fill();
    desk.openAndUnlock();
    ui::dress({scheme, 100});
    const auto& line = part<QLineEdit>(*desk.window, u"boardSearch"_s);
    REQUIRE(line.text().isEmpty());
    REQUIRE_FALSE(line.placeholderText().isEmpty());
    QCoreApplication::processEvents();
    const auto plain = desk.window->grab().toImage();
    const QRect box(line.mapTo(desk.window.get(), QPoint(30, 10)),
                    line.size() - QSize(110, 20)); // without the cursor and the clear key
    for (const auto eyes : allEyes) {
      INFO(static_cast<int>(scheme) << ' ' << eyesNames[static_cast<std::size_t>(eyes)]);
      CHECK(drawnContrast(seen(plain, eyes), box) >= atTheDesk);
    }
  }
}

TEST_CASE("The words of the other pages as drawn stand out 4.5 to 1 through each filter") {
  const Undress after;
  for (const auto scheme : allSchemes) {
    if (scheme != allSchemes.back() && test::oneOf(1) > 1) continue; // the same paths
    Window desk;
    desk.fill();
    desk.openAndUnlock();
    ui::dress({scheme, 100});
    for (const auto page : {Qt::Key_F1, Qt::Key_F3, Qt::Key_F4, Qt::Key_F5, Qt::Key_F6, Qt::Key_F7,
                            Qt::Key_F8, Qt::Key_F9, Qt::Key_F10}) {
      INFO(QKeySequence(page).toString().toStdString());
      test::press(*desk.window, page);
      checkWords(*desk.window, atTheDesk, "desk");
    }
    desk.window.reset();
  }
}
