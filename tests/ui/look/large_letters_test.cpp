#include "ui/chair/chair_page.h"
#include "ui/fixtures/pictures.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/widgets/timer_view.h"

#include <QListWidget>
#include <QPushButton>

#include <algorithm>

using namespace gk;
using namespace gk::test;

namespace {

constexpr QSize laptopScreen(1366, 700); // of 768 lines, what the desktop leaves
constexpr auto longName = "Saint Brendan Regional Elementary and Middle School of Larkmere";

/// The whole window on a small laptop in letters of some size.
class InLetters : public Window {
 public:
  explicit InLetters(int percent) {
    {
      Clinic clinic(book(), session::BookKind::throwaway);
      clinic.child("Mina", "Tolliver-Reed");
      must(clinic.session.correctSchool(clinic.by, clinic.school, {longName, "CL"}, "whole name"));
      setup.author = clinic.hygienist;
      setup.assistant = clinic.assistant;
      setup.sealant = clinic.resin;
      setup.etchant = clinic.etchant;
      setup.varnish = clinic.varnish;
      setup.light = clinic.light;
      must(clinic.session.finish());
    }
    openAndUnlock();
    window->book()->acting().change(setup);
    ui::dress({ui::Scheme::light, percent});
    QCoreApplication::processEvents();
    window->resize(laptopScreen);
    QCoreApplication::processEvents();
    chair = window->findChild<ui::ChairPage*>();
  }
  ~InLetters() { ui::dress(); }

  void keys(const char* letters) const {
    for (const char* letter = letters; *letter != 0; ++letter)
      key(static_cast<Qt::Key>(*letter));
  }
  void key(Qt::Key which) const {
    const_cast<base::ManualClock&>(clock).advance(std::chrono::milliseconds(300)); // as hands
    QTest::keyClick(chair, which);
    QTest::keyClick(chair, Qt::Key_CapsLock);
    QCoreApplication::processEvents();
  }
  void run(int seconds) {
    auto* timer = chair->findChild<ui::TimerView*>();
    for (int i = 0; i < seconds; ++i) {
      clock.advance(std::chrono::seconds(1));
      timer->tick();
    }
  }
  /// All of it is seen, and no word of it is cut.
  void inSight(const QString& name) const {
    QTest::qWait(1); // what is brought into sight is, once it is laid out
    CHECK(window->size() == laptopScreen);
    const auto all = window->findChildren<QWidget*>(name);
    const auto shown = std::ranges::find_if(all, &QWidget::isVisible);
    INFO(ui::lookNow().percent << " %, " << name.toStdString());
    REQUIRE(shown != all.end());
    const auto& widget = **shown;
    CHECK(widget.visibleRegion().boundingRect() == widget.rect());
    if (const auto* label = qobject_cast<const QLabel*>(&widget)) {
      INFO(label->text().toStdString());
      CHECK((label->wordWrap() ? label->heightForWidth(label->width())
                               : label->sizeHint().height()) <= label->height());
      if (!label->wordWrap()) CHECK(label->sizeHint().width() <= label->width());
    }
  }
  void seat() const {
    press(*window, Qt::Key_Return);
    REQUIRE(chair->isOccupied());
    key(Qt::Key_PageDown);
    key(Qt::Key_Left);
    key(Qt::Key_Return);
  }
  /// Both teeth of a side, from the isolation to the check.
  void sealSide() {
    key(Qt::Key_Return);
    key(Qt::Key_Space);
    run(20);
    key(Qt::Key_Space);
    run(10);
    keys("5");
    for (int exposure = 0; exposure < 4; ++exposure) {
      key(Qt::Key_Space);
      run(20);
    }
    keys("55");
  }

  ui::ChairPage* chair = nullptr;

 private:
  ui::Setup setup;
};

} // namespace

TEST_CASE("The plan that is read aloud, its tooth and what records it are in sight together",
          "[case-437]") {
  const InLetters desk(GENERATE(100, 150));
  desk.seat();
  desk.keys("ZSEC");
  desk.keys("S45");
  for (const auto& name : {u"screeningCursor"_s, u"pauseLine"_s, u"recordScreeningButton"_s})
    desk.inSight(name);
}

TEST_CASE("What is not said yet of a visit and what ends it are in sight together", "[case-437]") {
  InLetters desk(GENERATE(100, 150));
  desk.seat();
  desk.keys("ZSSSS444");
  desk.key(Qt::Key_Return);
  desk.sealSide();
  desk.sealSide();
  for (const auto& name : {u"finishTitle"_s, u"finishState"_s, u"finishButton"_s, u"wipedButton"_s})
    desk.inSight(name);
}

TEST_CASE("The supplies in use are read whole at every step", "[case-438]") {
  InLetters desk(GENERATE(100, 150));
  const auto read = [&](const char* step) {
    INFO(step);
    REQUIRE(words(*desk.chair, u"messageText"_s) == QString()); // it lies over the line
    desk.inSight(u"fieldInUse"_s);
    CHECK(words(*desk.chair, u"fieldInUse"_s).startsWith(u"In use: etch ET-"_s));
  };
  desk.seat();
  desk.keys("ZSSSS444");
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_Return);
  read("before the etch");
  desk.key(Qt::Key_Space);
  desk.run(5);
  read("etching");
  desk.run(15);
  desk.key(Qt::Key_Space);
  desk.run(3);
  read("rinsing");
  desk.run(7);
  read("frosty");
  desk.keys("5");
  read("place");
  for (int exposure = 0; exposure < 4; ++exposure) {
    desk.key(Qt::Key_Space);
    desk.run(7);
    read("curing");
    desk.run(13);
    read("cured");
  }
  read("check");
}

TEST_CASE("What signs the day is in sight on a small laptop", "[case-439]") {
  const InLetters desk(GENERATE(100, 150));
  press(*desk.window, Qt::Key_F3);
  for (const auto& name : {u"closeOutSign"_s, u"closeOutSave"_s, u"closeOutPack"_s})
    desk.inSight(name);
}

TEST_CASE("The name of a school is never cut at the top of the window", "[case-440]") {
  const InLetters desk(GENERATE(100, 150));
  REQUIRE(words(*desk.window, u"boardTitle"_s) == QString::fromLatin1(longName));
  desk.inSight(u"boardTitle"_s);
}

TEST_CASE("Every area of the desk is in sight without scrolling, also while it is set up",
          "[case-441]") {
  const InLetters desk(100);
  press(*desk.window, Qt::Key_F8);
  const auto& areas = part<QListWidget>(*desk.window, u"deskAreas"_s);
  for (int row = 0; row < areas.count(); ++row) {
    INFO(areas.item(row)->text().toStdString());
    CHECK(areas.viewport()->rect().contains(areas.visualItemRect(areas.item(row))));
  }
}

TEST_CASE("Pictures of the steps of a tooth on a small laptop", "[.pictures]") {
  const int percent = GENERATE(100, 150);
  InLetters desk(percent);
  const auto picture = [&](const char* step) {
    savePicture(*desk.window, u"steps-%1-%2"_s.arg(percent).arg(QString::fromLatin1(step)));
  };
  desk.seat();
  desk.keys("ZSSSS444");
  desk.key(Qt::Key_Return);
  picture("dry");
  desk.key(Qt::Key_Return);
  picture("etch");
  desk.key(Qt::Key_Space);
  desk.run(20);
  desk.key(Qt::Key_Space);
  desk.run(10);
  desk.keys("5");
  picture("place");
  desk.key(Qt::Key_Space);
  desk.run(7);
  picture("cure");
  desk.run(13);
  for (int exposure = 0; exposure < 3; ++exposure) {
    desk.key(Qt::Key_Space);
    desk.run(20);
  }
  picture("check");
}
