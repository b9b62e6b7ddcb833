#include "base/text/text.h"
#include "reports/records/inputs.h"
#include "support/large_book.h"
#include "ui/board/day_board_page.h"
#include "ui/chair/chair_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/look/look.h"
#include "ui/support/laptop.h"
#include "ui/support/scan.h"
#include "ui/widgets/timer_view.h"
#include "ui/windows/book_view.h"
#include "ui/windows/main_window.h"

#include <QElapsedTimer>
#include <QTableView>

#include <filesystem>
#include <iostream>

using namespace gk;
using namespace gk::test;

namespace {

/// Made once for each build folder: it takes a minute.
base::Path keptBook(int children) {
  const base::Path kept =
      base::Path(GK_BIN_DIR) / ("large-" + std::to_string(children) + ".gkbook");
  if (!std::filesystem::exists(kept)) {
    QElapsedTimer timer;
    timer.start();
    makeLargeBook(kept, children);
    std::cout << "made " << kept << " in " << timer.elapsed() << " ms\n";
  }
  return kept;
}

double millis(const QElapsedTimer& timer) {
  return static_cast<double>(timer.nsecsElapsed()) / 1e6;
}

class Figures {
 public:
  void add(double ms) { all_.push_back(ms); }
  [[nodiscard]] int count() const { return static_cast<int>(all_.size()); }
  void say(const std::string& what) {
    REQUIRE_FALSE(all_.empty());
    std::ranges::sort(all_);
    const auto at = [&](double share) {
      return all_[static_cast<std::size_t>(share * static_cast<double>(all_.size() - 1))];
    };
    std::cout << what << ": n " << all_.size() << ", median " << base::fixed(at(0.5), 1)
              << ", 95th percentile " << base::fixed(at(0.95), 1) << ", worst "
              << base::fixed(at(1), 1) << " ms" << std::endl;
  }

 private:
  std::vector<double> all_;
};

template <class Work>
void once(const std::string& what, Work work) {
  QElapsedTimer timer;
  timer.start();
  work();
  std::cout << what << ": " << base::fixed(millis(timer), 1) << " ms" << std::endl;
}

/// The real window on a copy of the large book, on disk, every act durable.
class BenchWindow {
 public:
  explicit BenchWindow(int children) : book(folder / "large.gkbook") {
    std::filesystem::copy_file(keptBook(children), book);
    ui::dress();
    once("window made", [&] {
      window = std::make_unique<ui::MainWindow>(
          ui::Machine{clock, random, laptop, folder.path(), std::chrono::minutes(60),
                      session::BookKind::real},
          [](QWidget*) { return std::make_unique<ScriptedPrompter>(); });
      showActive(*window);
    });
    once("logbook opened", [&] {
      window->openBook(ui::toQt(book.string()));
      QApplication::processEvents();
      window->repaint();
    });
    once("unlocked, board painted", [&] {
      window->book()->unlock(QString::fromLatin1(Clinic::passphrase));
      settle();
    });
    ui::Setup setup;
    const auto members = must(session().members());
    setup.author = members.at(0).id;
    setup.recorder = setup.assistant = members.at(1).id;
    for (const auto& lot : must(session().lots())) {
      if (lot.value.kind == kit::MaterialKind::sealantLightCure) setup.sealant = lot.id;
      if (lot.value.kind == kit::MaterialKind::etchant) setup.etchant = lot.id;
      if (lot.value.kind == kit::MaterialKind::varnish) setup.varnish = lot.id;
    }
    setup.light = must(session().lights()).at(0).id;
    window->book()->acting().change(setup);
    listening = session().onChanged([this](const session::Change&) { ++changes; });
  }
  /// Everything that waits is painted.
  void settle() const {
    QApplication::processEvents();
    window->repaint();
  }
  /// A key as hands type it, with whatever the scanner's catcher holds it back for.
  double time(const std::function<void()>& act) {
    clock.advance(std::chrono::milliseconds(200));
    QElapsedTimer timer;
    timer.start();
    act();
    settle();
    while (window->book()->findChild<ui::ScanCatcher*>()->isHolding())
      settle();
    return millis(timer);
  }
  /// A key goes where the keyboard is. Those that write are told apart from those that show.
  void press(Qt::Key key) {
    const int before = changes;
    auto* chair = window->findChild<ui::ChairPage*>();
    auto* focus = chair->isVisible() ? chair : window->focusWidget();
    const double took = time([&] { QTest::keyClick(focus ? focus : window.get(), key); });
    (changes > before ? acts : looks).add(took);
  }
  void press(const char* letters) {
    for (const char* letter = letters; *letter != 0; ++letter)
      press(static_cast<Qt::Key>(*letter));
  }
  void run(int seconds) {
    auto* timer = window->findChild<ui::TimerView*>();
    for (int i = 0; i < seconds; ++i) {
      clock.advance(std::chrono::seconds(1));
      timer->tick();
    }
  }
  /// From the board to the end of the visit: four first molars, by keys alone.
  void visit() {
    press(Qt::Key_F1);
    auto& table = part<QTableView>(*window, u"boardTable"_s);
    table.setFocus();
    table.setCurrentIndex(table.model()->index(1, 0)); // the first who waits
    press(Qt::Key_Return);
    press(Qt::Key_Left);
    press(Qt::Key_Return);
    press("ZSSSS444");
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    for (int half = 0; half < 2; ++half) {
      press(Qt::Key_Return);
      press(Qt::Key_Space);
      run(20);
      press(Qt::Key_Space);
      run(10);
      press(Qt::Key_5);
      for (int exposure = 0; exposure < 4; ++exposure) {
        press(Qt::Key_Space);
        run(20);
      }
      press("55");
    }
    press("5V");
    press(Qt::Key_Return);
  }
  [[nodiscard]] session::Session& session() const { return window->book()->session(); }

  Scratch folder;
  base::Path book;
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(10),
                                        std::chrono::hours(-5))};
  base::SystemRandom random;
  store::HandMemory laptop{folder.path(), {"this computer", "this start"}, random};
  std::unique_ptr<ui::MainWindow> window;
  int changes = 0;
  Figures acts;
  Figures looks;
  base::Subscription listening{};
};

int childrenWanted() {
  const auto given = qEnvironmentVariableIntValue("GK_CHILDREN");
  return given > 0 ? given : 100'000;
}

constexpr int visits = 5;
/// Seated, screened, two fields of ten acts each, varnish, end: a visit that runs whole.
constexpr int actsOfVisit = 24;

} // namespace

TEST_CASE("speed of the window on a large logbook", "[.bench][.speed]") {
  BenchWindow at(childrenWanted());
  once("roll read, piece by piece while nobody waits", [&] {
    Figures pieces;
    for (bool all = false; !all;) {
      QElapsedTimer timer;
      timer.start();
      all = must(at.session().readRoll(50));
      pieces.add(millis(timer));
    }
    pieces.say("one piece of it");
  });
  auto& search = part<QLineEdit>(*at.window, u"boardSearch"_s);
  auto& table = part<QTableView>(*at.window, u"boardTable"_s);
  std::cout << "lines on the board: " << table.model()->rowCount() << '\n';

  Figures keys;
  for (const char* words : {"10012", "saltmar", "nunez ta", "fenwe", "zzzz"}) {
    search.clear();
    for (const char* letter = words; *letter != 0; ++letter)
      keys.add(at.time([&] { QTest::keyClick(&search, *letter); }));
  }
  search.clear();
  keys.say("board search, each key");

  Figures absent;
  for (int n = 0; n < 10; ++n) {
    table.setCurrentIndex(table.model()->index(1, 0)); // the first child under its heading
    absent.add(at.time([&] { QTest::keyClick(at.window.get(), Qt::Key_A, Qt::AltModifier); }));
  }
  CHECK(at.changes == 10);
  absent.say("board, key to durable to painted");
  once("undo", [&] {
    must(at.session().undo(at.window->book()->acting().by(),
                           {base::Station::board, must(at.session().openDayNow()).id}));
  });
  for (const std::string prefix : {"", "~"}) {
    auto habits = at.window->book()->acting().habits();
    habits.scannerPrefix = prefix;
    at.window->book()->acting().keep(habits);
    for (int n = 0; n < visits; ++n)
      at.visit();
    const std::string scanner = prefix.empty() ? "no scanner prefix taught" : "a prefix taught";
    at.acts.say("chair, key to durable to painted, " + scanner);
    at.looks.say("chair, key that only shows, " + scanner);
    CHECK(at.acts.count() == visits * actsOfVisit);
    at.acts = at.looks = {};
  }

  auto& book = at.session();
  const auto day = must(book.openDayNow());
  once("board read", [&] { must(book.board(day.id)); });
  const auto child = must(book.board(day.id)).front().child;
  once("identity card read", [&] { must(book.identityCard(child, day.id)); });
  once("child in the chair read", [&] { must(book.childInChair(day.id)); });
  for (const char* words : {"1001", "saltmar", "zzzz"})
    once("find in the whole book", [&] { must(book.findChildren(words)); });
  once("records of the day read", [&] { must(book.dayRecords(day.id)); });
  once("names read", [&] { must(book.names()); });
  once("close-out page", [&] { at.press(Qt::Key_F3); });
  once("records of the term read", [&] { must(book.termRecords(day.value.term, day.value.date)); });
  once("lock", [&] { at.window->book()->lock(u"Locked"_s); });
}
