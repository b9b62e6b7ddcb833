#include "ui/asking/long_work.h"
#include "ui/fixtures/pictures.h"
#include "ui/fixtures/window_fixture.h"

#include <atomic>
#include <thread>

using namespace gk;
using namespace gk::test;

namespace {

/// A window whose logbook is moved from under it, as by a program that synchronizes folders.
class Moved : public Window {
 public:
  Scratch elsewhere;
  base::Path away = elsewhere / "moved.gkbook";
  base::Path saved = elsewhere / "saved.gkbook";

  Moved() {
    {
      Clinic clinic(book(), session::BookKind::throwaway); // it has the file to itself
      clinic.child("Mina", "Tolliver-Reed");
      must(clinic.session.finish());
      clock.setWall(clinic.clock.now());
    }
    openAndUnlock();
  }
  void move() const { std::filesystem::rename(book(), away); }
  [[nodiscard]] bool isToldOf() const {
    return QTest::qWaitFor([&] { return reads(u"moved, deleted or replaced"_s); }, 5000);
  }
};

} // namespace

TEST_CASE("A logbook whose file goes is said within seconds, though nothing is entered, and saved "
          "under a new name at once",
          "[case-323]") {
  Moved desk;
  desk.move();
  SECTION("the offer is taken") {
    desk.prompter->files = {ui::toQt(desk.saved.string())};
    CHECK(QTest::qWaitFor([&] { return std::filesystem::exists(desk.saved); }, 10000));
    CHECK(QTest::qWaitFor([&] { return desk.reads(u"Saved and verified"_s); }, 5000));
    CHECK(desk.window->close());
    CHECK(desk.prompter->decided.isEmpty());
    auto again = must(session::Session::open(desk.saved, desk.laptop, {desk.clock, desk.random}, {},
                                             session::BookKind::throwaway));
    must(again.unlock(Clinic::passphrase));
    CHECK(must(again.names()).size() == 1);
  }
  SECTION("the window goes on while it is saved, and closes once it is") {
    std::atomic<int> asked = 0; // by the core, in the work's own thread
    desk.window->work().pauseWith([&asked] {
      ++asked;
      std::this_thread::sleep_for(std::chrono::milliseconds(25));
    });
    desk.prompter->files = {ui::toQt(desk.saved.string())};
    REQUIRE(QTest::qWaitFor([&] { return desk.window->work().isBusy() && asked > 1; }, 10000));
    CHECK_FALSE(std::filesystem::exists(desk.saved));
    CHECK_FALSE(desk.window->close());
    CHECK(QTest::qWaitFor([&] { return !desk.window->isVisible(); }, 60000));
    CHECK(desk.prompter->decided.isEmpty());
    CHECK(std::filesystem::exists(desk.saved));
    desk.window->work().pauseWith({});
  }
  SECTION("canceled, nothing is left, and it is asked about on closing") {
    std::atomic<int> asked = 0;
    desk.window->work().pauseWith([&asked] {
      ++asked;
      std::this_thread::sleep_for(std::chrono::milliseconds(200));
    });
    desk.prompter->files = {ui::toQt(desk.saved.string())};
    REQUIRE(QTest::qWaitFor([&] { return desk.window->work().isBusy() && asked > 1; }, 10000));
    const auto& bar = part<QWidget>(*desk.window, u"workBar"_s); // says the key, and so has it
    REQUIRE(QTest::qWaitFor([&] { return bar.isVisible(); }, 10000));
    press(*desk.window, Qt::Key_Period, Qt::ControlModifier);
    CHECK(QTest::qWaitFor([&] { return !desk.window->work().isBusy(); }, 10000));
    CHECK_FALSE(desk.window->close());
    CHECK(desk.prompter->decided.size() == 1);
    desk.window.reset(); // waits for the work's thread
    CHECK_FALSE(std::filesystem::exists(desk.saved));
  }
  SECTION("it is put off: asked about once, and again on closing") {
    CHECK(desk.isToldOf());
    QTest::qWait(2500);
    CHECK(desk.prompter->asked.size() == 1);
    CHECK_FALSE(desk.window->close());
    REQUIRE(desk.prompter->decided.size() == 1);
    CHECK(desk.window->isVisible());
    desk.prompter->choices = {0};
    desk.prompter->files = {ui::toQt(desk.saved.string())};
    CHECK_FALSE(desk.window->close()); // it closes once the copy is there
    CHECK(QTest::qWaitFor([&] { return !desk.window->isVisible(); }, 20000));
    CHECK(std::filesystem::exists(desk.saved));
  }
  SECTION("it is put off, and then saved as a backup: nothing is asked again") {
    CHECK(desk.isToldOf());
    CHECK(QTest::qWaitFor([&] { return desk.prompter->asked.size() == 1; }, 5000));
    desk.prompter->files = {ui::toQt(desk.saved.string())};
    press(*desk.window, Qt::Key_F3);
    press(*desk.window, Qt::Key_B, Qt::AltModifier);
    CHECK(QTest::qWaitFor([&] { return desk.reads(u"Saved and verified"_s); }, 10000));
    CHECK(std::filesystem::exists(desk.saved));
    QTest::qWait(100);
    CHECK(desk.prompter->asked.size() == 2);
    CHECK(desk.window->close());
    CHECK(desk.prompter->decided.isEmpty());
  }
  SECTION("the file is safe where it is: closed without saving") {
    CHECK(desk.isToldOf());
    desk.prompter->choices = {1};
    CHECK(desk.window->close());
    CHECK_FALSE(std::filesystem::exists(desk.saved));
    CHECK_FALSE(std::filesystem::exists(desk.book()));
  }
  SECTION("it is put back, and nothing is asked on closing") {
    CHECK(desk.isToldOf());
    std::filesystem::rename(desk.away, desk.book());
    CHECK(desk.window->close());
    CHECK(desk.prompter->decided.isEmpty());
  }
}
