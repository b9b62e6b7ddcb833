#include "ui/fixtures/chair_fixture.h"

#include "reports/records/inputs.h"
#include "ui/look/style.h"
#include "ui/widgets/message_strip.h"

#include <QSignalSpy>

using namespace gk;
using chairside::TimeSource;
using test::must;

namespace {

/// A field that waits for its first cure.
class Curing : public test::Chair {
 public:
  roster::ChildId child = clinic.child("Mina");
  ui::TimerView* timer = page->findChild<ui::TimerView*>();

  Curing() {
    seat(child);
    screenFour();
    press(Qt::Key_Return);
    etchToFrosty();
  }
  [[nodiscard]] chairside::ToothProgress first() {
    const auto fields = must(clinic.session.fields(child, clinic.day));
    return *fields.back().protocol.find(dentition::toothAt(16));
  }
  void hold(Qt::Key key, base::Milliseconds how) {
    QTest::keyPress(page.get(), key);
    for (base::Milliseconds held{0}; held < how; held += base::Milliseconds(100)) {
      clinic.clock.advance(base::Milliseconds(100));
      timer->tick();
      QKeyEvent again(QEvent::KeyPress, key, Qt::NoModifier, {}, true);
      QCoreApplication::sendEvent(page.get(), &again);
    }
    QTest::keyRelease(page.get(), key);
  }
};

} // namespace

TEST_CASE("The numerals are read across a room and the bar fills with them") {
  CHECK(ui::style::timerText >= 96);
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(9),
                                        std::chrono::hours(-5))};
  ui::TimerView timer(clock);
  timer.resize(560, timer.sizeHint().height());
  timer.flashes(false);
  timer.start(QStringLiteral("Etch"), base::Seconds(20));
  const auto dark = [&] {
    const auto image = timer.grab().toImage();
    int count = 0;
    for (int x = 0; x < image.width(); ++x)
      count += image.pixelColor(x, 145).lightness() < 128 ? 1 : 0;
    return count;
  };
  const int atStart = dark();
  clock.advance(base::Seconds(4));
  clock.advance(base::Seconds(4));
  const int later = dark();
  CHECK(later > atStart + 150);
  CHECK(timer.text() == QStringLiteral("8.0"));
  timer.stop();
}

TEST_CASE("The timer counts up through its target") {
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(9),
                                        std::chrono::hours(-5))};
  ui::TimerView timer(clock);
  timer.start(QStringLiteral("Etch"), base::Seconds(20));
  for (int second = 0; second < 34; ++second) {
    clock.advance(base::Seconds(1));
    timer.tick();
  }
  CHECK(timer.text() == QStringLiteral("34.0"));
  CHECK(timer.isReached());
  timer.stop();
}

TEST_CASE("Looks that come late, early or not at all lose no time of a run") {
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(9),
                                        std::chrono::hours(-5))};
  ui::TimerView timer(clock);
  const QSignalSpy reached(&timer, &ui::TimerView::reachedTarget);
  timer.start(QStringLiteral("Etch"), base::Seconds(60));
  base::Milliseconds gone{0};
  for (int i = 0; gone < base::Seconds(60); ++i) {
    const base::Milliseconds late(1 + (i * 977) % 4900); // a busy window looks when it can
    clock.advance(late);
    gone += late;
    if (i % 3 != 2 || gone >= base::Seconds(60) || late > base::Milliseconds(100)) timer.tick();
  }
  CHECK(timer.elapsed() == gone);
  CHECK(reached.count() == 1);
  CHECK(timer.stop() == gone);
}

TEST_CASE("A run says its cues once each and flashes to the same rhythm") {
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(9),
                                        std::chrono::hours(-5))};
  ui::TimerView timer(clock);
  std::vector<ui::Cue> heard;
  QObject::connect(&timer, &ui::TimerView::cue, &timer,
                   [&](ui::Cue what) { heard.push_back(what); });
  timer.start(QStringLiteral("Cure"), base::Seconds(10));
  CHECK(timer.isFlashing());
  for (int tenth = 0; tenth < 100; ++tenth) {
    clock.advance(base::Milliseconds(100));
    timer.tick();
  }
  using ui::Cue;
  CHECK(heard ==
        std::vector{Cue::start, Cue::tick, Cue::nearEnd, Cue::nearEnd, Cue::nearEnd, Cue::target});
  CHECK(timer.isFlashing());
  clock.advance(base::Milliseconds(800));
  CHECK_FALSE(timer.isFlashing()); // between its two notes
  clock.advance(base::Milliseconds(200));
  CHECK(timer.isFlashing());
  timer.flashes(false);
  CHECK_FALSE(timer.isFlashing());
  timer.stop();
}

TEST_CASE("A wall clock that is set during a run is said and changes no time of it") {
  Curing chair;
  chair.press(Qt::Key_Space);
  chair.run(3);
  chair.clinic.clock.setWall(base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(14),
                                           std::chrono::hours(-5)));
  chair.run(3);
  CHECK(chair.page->isTiming());
  CHECK(chair.timer->text() == QStringLiteral("6.0"));
  CHECK(chair.message().contains(QStringLiteral("clock changed during a timed step")));
}

TEST_CASE("A press within 300 ms of the start is its bounce") {
  Curing chair;
  chair.press("W3"); // back to etch: the whole half
  chair.press(Qt::Key_Space);
  REQUIRE(chair.page->isTiming());
  chair.clinic.clock.advance(base::Milliseconds(250));
  chair.press(Qt::Key_Space);
  CHECK(chair.page->isTiming());
  CHECK_FALSE(chair.shows("askQuestion"));
}

TEST_CASE("A start held for a second during a cure interrupts it and begins a full one") {
  Curing chair;
  chair.press(Qt::Key_Space);
  chair.run(8);
  chair.hold(Qt::Key_Space, base::Milliseconds(600));
  CHECK(chair.timer->elapsed() > base::Seconds(8)); // too short: nothing happened
  chair.hold(Qt::Key_Space, base::Milliseconds(1200));
  REQUIRE(chair.page->isTiming());
  CHECK(chair.timer->elapsed() < base::Seconds(1));
  CHECK(chair.first().interruptedCures == 1);
  CHECK(chair.first().cures == 0);
  chair.run(20);
  CHECK(chair.first().cures == 1);
}

TEST_CASE("The press that started a cure may be held down without harm") {
  Curing chair;
  chair.hold(Qt::Key_Space, base::Milliseconds(3000));
  CHECK(chair.page->isTiming());
  CHECK(chair.first().interruptedCures == 0);
}

TEST_CASE("Seconds from another clock are taken and marked as typed") {
  Curing chair;
  chair.press("T");
  chair.type(QStringLiteral("22"));
  const auto records = must(chair.clinic.session.dayRecords(chair.clinic.day));
  const auto& run = records.steps.back().value;
  CHECK(run.step == chairside::Step::cure);
  CHECK(run.source == TimeSource::typed);
  CHECK(run.lasted == base::Seconds(22));
  CHECK(chair.first().cures == 1);
  CHECK_FALSE(chair.page->isTiming());
}

TEST_CASE("Typed seconds under the least are taken only with a reason") {
  Curing chair;
  chair.press("T");
  chair.type(QStringLiteral("12"));
  REQUIRE(chair.text("askQuestion").contains(QStringLiteral("Under minimum")));
  chair.press(Qt::Key_Escape);
  CHECK(chair.first().cures == 0);
  chair.press("T");
  chair.type(QStringLiteral("twelve"));
  CHECK(chair.message().contains(QStringLiteral("whole seconds")));
  CHECK(chair.first().cures == 0);
}

TEST_CASE(
    "Eye protection is reminded of before the first cure of each child and not before the next") {
  Curing chair;
  const auto reminds = [&] {
    return chair.timer->note().contains(QStringLiteral("eye protection"));
  };
  CHECK(reminds());
  chair.cure();
  CHECK_FALSE(reminds());
  for (int exposure = 0; exposure < 3; ++exposure)
    chair.cure();
  chair.press("55");
  chair.press("P");
  const auto other = chair.clinic.child("Pia", "Lindenholt");
  chair.seat(other);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  CHECK(reminds()); // each child wears its own
}

TEST_CASE("Messages wait in their strip and leave the running timer in sight") {
  Curing chair;
  chair.press(Qt::Key_Space);
  chair.run(2);
  auto* strip = chair.page->findChild<ui::MessageStrip*>();
  for (int i = 0; i < 5; ++i)
    strip->post({QStringLiteral("Trouble %1.").arg(i), QStringLiteral("Nothing is lost."),
                 QStringLiteral("Go on.")});
  CHECK(strip->text().contains(QStringLiteral("4 more")));
  REQUIRE(chair.timer->isVisible());
  const QRect here(chair.timer->mapTo(chair.page.get(), QPoint()), chair.timer->size());
  for (const auto point :
       {here.topLeft() + QPoint(5, 5), here.center(), here.bottomRight() - QPoint(5, 5)})
    CHECK(chair.page->childAt(point) == chair.timer);
  CHECK(here.height() == chair.timer->sizeHint().height());
  CHECK(QApplication::activeModalWidget() == nullptr);
  chair.run(18); // the cure ends by itself; none of the messages asked for an answer
  CHECK(chair.first().cures == 1);
}
