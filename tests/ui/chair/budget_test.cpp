#include "ui/asking/long_work.h"
#include "ui/fixtures/window_fixture.h"

#include <QListWidget>

#include <deque>
#include <iostream>

using namespace gk;
using namespace gk::test;

namespace {

/// The whole window on a day of so many children who were all seen but `absent` of them, with every
/// key, choice, name and confirmation counted as one action.
class Counted : public Window {
 public:
  int actions = 0;

  Counted(int children, int absent) {
    fillDay(children, absent);
    openAndUnlock();
    auto setup = window->book()->acting().now();
    setup.author = hygienist;
    window->book()->acting().change(setup);
  }

  void fillDay(int children, int absent) {
    Clinic clinic(book(), session::BookKind::throwaway);
    for (int i = 0; i < children; ++i) {
      const auto child = clinic.child("Child", "Number" + std::to_string(i));
      if (i < absent)
        clinic.end(child, chairside::DayEnd::absent);
      else
        clinic.standardVisit(child);
    }
    coordinator = clinic.coordinator;
    hygienist = clinic.hygienist;
    must(clinic.session.countOut(clinic.by, clinic.day, followup::Paper::runnersList, 1));
    must(clinic.session.finish());
  }

  void key(Qt::Key which, Qt::KeyboardModifiers with = Qt::NoModifier) {
    ++actions;
    press(*window, which, with);
  }
  /// A key, and answers to what it asks: a choice is a key and Enter; a name of a file, or words,
  /// that stand there already are Enter.
  void ask(Qt::Key which, const std::deque<int>& choices, const std::deque<QString>& files,
           const std::deque<QString>& standing = {}) {
    prompter->choices = choices;
    prompter->files = files;
    prompter->texts = standing;
    actions += 2 * static_cast<int>(choices.size()) + static_cast<int>(files.size()) +
               static_cast<int>(standing.size());
    key(which, Qt::AltModifier);
    CHECK(QTest::qWaitFor([this] { return !window->work().isBusy(); }, 60000));
    CHECK(prompter->texts.empty());
    CHECK(prompter->choices.empty());
    CHECK(prompter->files.empty());
  }
  [[nodiscard]] QString file(const char* name) const { return ui::toQt((folder / name).string()); }

  /// From the board to a signed and packed day.
  void closeOut() {
    key(Qt::Key_F3);
    ask(Qt::Key_L, {0, 1}, {file("letters.pdf")});
    ask(Qt::Key_L, {3}, {});                      // all handed over
    ask(Qt::Key_K, {}, {}, {u"1 0 0"_s, u"0"_s}); // the list is back, and nothing else went out
    ask(Qt::Key_G, {0, 0}, {});
    ask(Qt::Key_P, {}, {file("backup.gkbook")});
    CHECK(words(*window, u"closeOutVerdict"_s).startsWith(u"■ Signed by"_s));
    CHECK(std::filesystem::exists(folder / "backup-papers.gkpapers"));
  }

  std::optional<base::MemberId> coordinator;
  std::optional<base::MemberId> hygienist;
};

} // namespace

TEST_CASE("A clean day of seventeen children closes within twenty actions") {
  Counted day(17, 1);
  day.closeOut();
  std::cout << "close-out of 17 children: " << day.actions << " actions\n";
  CHECK(day.actions <= 20);
}

TEST_CASE("A day of a hundred and twenty children closes within sixty actions") {
  Counted day(120, 6);
  day.closeOut();
  std::cout << "close-out of 120 children: " << day.actions << " actions\n";
  CHECK(day.actions < 60);
}

TEST_CASE("A term report is opened, chosen and saved as a PDF within four actions") {
  Counted day(2, 0);
  day.key(Qt::Key_F4);
  auto& names = part<QListWidget>(part<QWidget>(*day.window, u"totalsPage"_s), u"reportNames"_s);
  REQUIRE(QTest::qWaitFor([&] { return names.count() > 0; }, 20000));
  // The term's report is the one that is chosen already.
  day.ask(Qt::Key_S, {}, {day.file("term.pdf")});
  CHECK(must(base::readFile(day.folder / "term.pdf")).starts_with("%PDF-"));
  std::cout << "term report as a PDF: " << day.actions << " actions\n";
  CHECK(day.actions <= 4);
}
