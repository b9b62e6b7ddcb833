#include "base/files/files.h"
#include "ui/asking/long_work.h"
#include "ui/close_out/close_out_page.h"
#include "ui/files/laptop_page.h"
#include "ui/fixtures/pictures.h"
#include "ui/fixtures/window_fixture.h"

#include <set>
#include <sys/wait.h>
#include <unistd.h>

using namespace gk;
using namespace gk::test;

namespace {

/// A window whose laptop backs up to a stick by itself.
class Backing : public Window {
 public:
  std::optional<OtherDisk> disk{std::in_place};
  Scratch plain;
  std::optional<base::By> by;
  std::optional<roster::DayId> day;

  Backing() {
    Clinic clinic(book(), session::BookKind::throwaway);
    by = clinic.by;
    day = clinic.day;
    clinic.child("Mina", "Tolliver-Reed");
    must(clinic.session.finish());
    clock.setWall(clinic.clock.now());
  }
  void begin(const base::Path& place) {
    openAndUnlock();
    ui::Setup setup;
    setup.author = by->author;
    acting().change(setup);
    choose(place);
  }
  void choose(const base::Path& place) const {
    auto habits = acting().habits();
    habits.backup.folder = place.string();
    acting().keep(habits);
  }
  [[nodiscard]] ui::Acting& acting() const { return window->book()->acting(); }
  [[nodiscard]] std::vector<base::Path> backups(const base::Path& place) const {
    std::vector<base::Path> found;
    for (const auto& entry : std::filesystem::directory_iterator(place))
      if (entry.path().extension() == ".gkbook") found.push_back(entry.path());
    return found;
  }
  void settle() const {
    CHECK(QTest::qWaitFor([&] { return !window->work().isBusy(); }, 60000));
    QTest::qWait(10);
  }
};

} // namespace

TEST_CASE("At the signing a backup is made by itself, verified, and noted on the close-out",
          "[case-279]") {
  Backing desk;
  desk.begin(desk.plain.path());
  auto& closeOut = part<ui::CloseOutPage>(*desk.window, u"closeOutPage"_s);
  Q_EMIT closeOut.daySigned(*desk.day);
  desk.settle();
  const auto made = desk.backups(desk.plain.path());
  REQUIRE(made.size() == 1);
  CHECK(made.front().filename().string().starts_with("day-backup-2026-11-17-"));
  CHECK(desk.reads(u"The day is signed. Backed up and verified"_s));
  auto copy = must(session::Session::open(made.front(), desk.laptop, {desk.clock, desk.random}, {},
                                          session::BookKind::throwaway));
  must(copy.unlock(Clinic::passphrase));
  CHECK(must(copy.findings()).empty());
  // The note of it is no reason for another one on closing.
  CHECK(desk.window->close());
  CHECK(desk.backups(desk.plain.path()).size() == 1);
}

TEST_CASE("What a killed backup left in the place for backups is gone at the next start",
          "[case-359]") {
  Backing desk;
  desk.begin(desk.plain.path());
  const pid_t child = ::fork();
  if (child == 0) { // is killed while it writes
    auto draft = base::draftPattern(desk.plain.path());
    ::close(::mkstemp(draft.data()));
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  const auto files = [&] {
    return std::ranges::distance(std::filesystem::directory_iterator(desk.plain.path()));
  };
  REQUIRE(files() == 1);
  desk.window.reset();
  desk.openAndUnlock();
  CHECK(files() == 0);
}

TEST_CASE("On closing a backup is made of what is new, and none of what is not", "[case-279]") {
  Backing desk;
  desk.begin(desk.plain.path());
  CHECK_FALSE(desk.window->close()); // it closes once the backup is there
  desk.settle();
  CHECK(QTest::qWaitFor([&] { return !desk.window->isVisible(); }, 5000));
  CHECK(desk.backups(desk.plain.path()).size() == 1);
  desk.window.reset();
  desk.openAndUnlock();
  CHECK(desk.acting().habits().backup.folder == desk.plain.path().string());
  CHECK(desk.window->close());
  CHECK(desk.backups(desk.plain.path()).size() == 1);
}

TEST_CASE("Without a place for backups closing asks nothing", "[case-281]") {
  Backing desk;
  desk.openAndUnlock();
  CHECK(desk.window->close());
  CHECK(desk.prompter->asked.isEmpty());
}

TEST_CASE("A drive that is not there on closing is said, and never keeps the program open",
          "[case-281]") {
  Backing desk;
  desk.begin(desk.plain / "no-stick");
  desk.prompter->choices = {0, 2}; // try again, then close without
  CHECK_FALSE(desk.window->close());
  desk.settle();
  CHECK(QTest::qWaitFor([&] { return !desk.window->isVisible(); }, 10000));
  REQUIRE(desk.prompter->decided.size() == 2);
  CHECK(desk.prompter->decided.front().contains(u"The logbook is safe on this laptop"_s));
  CHECK(desk.prompter->decided.front().contains(u"plug the drive in"_s));
}

TEST_CASE("Another place can be chosen on closing", "[case-281]") {
  Backing desk;
  desk.begin(desk.plain / "no-stick");
  desk.prompter->choices = {1};
  desk.prompter->files = {ui::toQt(desk.plain.path().string())};
  desk.window->close();
  CHECK(QTest::qWaitFor([&] { return !desk.window->isVisible(); }, 60000));
  CHECK(desk.backups(desk.plain.path()).size() == 1);
}

TEST_CASE("Backing out of the question on closing leaves the logbook open", "[case-281]") {
  Backing desk;
  desk.begin(desk.plain / "no-stick");
  CHECK_FALSE(desk.window->close());
  desk.settle();
  QTest::qWait(50);
  CHECK(desk.window->isVisible());
}

TEST_CASE("The day board reminds of a school day that no backup has, until one has it",
          "[case-282]") {
  Backing desk;
  desk.begin(desk.plain.path());
  CHECK_FALSE(desk.shows(u"boardBackup"_s));
  desk.window.reset();
  desk.clock.advance(std::chrono::hours(24));
  desk.openAndUnlock();
  CHECK(desk.shows(u"boardBackup"_s));
  CHECK(words(*desk.window, u"boardBackup"_s).contains(u"November 17, 2026"_s));
  press(*desk.window, Qt::Key_F10);
  press(*desk.window, Qt::Key_U, Qt::AltModifier);
  desk.settle();
  CHECK(desk.reads(u"Backed up and verified"_s));
  press(*desk.window, Qt::Key_F1);
  CHECK_FALSE(desk.shows(u"boardBackup"_s));
}

TEST_CASE("The laptop's page says where backups go and lets the place be chosen", "[case-279]") {
  Backing desk;
  desk.openAndUnlock();
  press(*desk.window, Qt::Key_F10);
  CHECK(words(*desk.window, u"backupPlace"_s).contains(u"No place chosen"_s));
  desk.prompter->files = {ui::toQt(desk.plain.path().string())};
  press(*desk.window, Qt::Key_D, Qt::AltModifier);
  CHECK(words(*desk.window, u"backupPlace"_s).contains(ui::toQt(desk.plain.path().string())));
}

TEST_CASE("A restore shows what would be lost first, and nothing happens on backing out",
          "[case-283]") {
  Backing desk;
  const auto backup = desk.plain / "backup.gkbook";
  {
    Clinic elsewhere;
    auto book = must(session::Session::open(desk.book(), desk.laptop, {desk.clock, desk.random}));
    must(book.backUp(backup));
  }
  desk.begin({});
  must(desk.window->book()->session().enterSchool(*desk.by, {"Alder Hollow", "AH"}));
  const auto edition = desk.window->book()->session().edition();
  desk.prompter->files = {ui::toQt(backup.string())};
  press(*desk.window, Qt::Key_F10);
  press(*desk.window, Qt::Key_T, Qt::AltModifier);
  QTest::qWait(20);
  desk.settle();
  REQUIRE(desk.prompter->decided.size() == 1);
  CHECK(desk.prompter->decided.front().contains(u"1 act on 1 day would not be in"_s));
  CHECK(desk.prompter->shown.size() == 1);
  CHECK(desk.window->book()->session().edition() == edition);
  // And then in earnest.
  desk.prompter->files = {ui::toQt(backup.string())};
  desk.prompter->choices = {0};
  press(*desk.window, Qt::Key_T, Qt::AltModifier);
  CHECK(QTest::qWaitFor(
      [&] {
        return !desk.window->work().isBusy() &&
               std::filesystem::exists(desk.folder / "day-before-restore-2026-11-17.gkbook");
      },
      60000));
  QTest::qWait(20);
  REQUIRE(desk.window->book());
  CHECK(desk.window->book()->session().path().filename() == "day.gkbook");
  desk.give(Clinic::passphrase);
  CHECK_FALSE(desk.isCovered());
  auto& session = desk.window->book()->session();
  CHECK(must(session.schools()).size() == 1);
  // What is entered from here on is of another hand, so that what was lost comes back by a merge.
  must(session.enterSchool(*desk.by, {"Birch Landing", "BL"}));
  must(session.absorb(desk.folder / "day-before-restore-2026-11-17.gkbook"));
  CHECK(must(session.schools()).size() == 3);
}

TEST_CASE("From the start page a backup is restored where no logbook is", "[case-284]") {
  Backing desk;
  const auto target = desk.plain / "again.gkbook";
  const auto backup = desk.plain / "backup.gkbook";
  std::filesystem::copy_file(desk.book(), backup);
  desk.open();
  desk.prompter->files = {ui::toQt(backup.string()), ui::toQt(target.string())};
  desk.prompter->choices = {0};
  press(*desk.window, Qt::Key_T, Qt::AltModifier);
  CHECK(QTest::qWaitFor([&] { return desk.window->book() != nullptr; }, 60000));
  CHECK(desk.window->book()->session().path().filename() == "again.gkbook");
}

TEST_CASE("A day envelope is opened on the start page, and the logbook says whose students it has",
          "[case-429]") {
  Backing desk;
  const auto envelope = desk.plain / "day.gkday";
  {
    Clinic clinic(desk.plain / "home.gkbook", session::BookKind::throwaway);
    const auto thistle =
        must(clinic.session.enterSchool(clinic.by, {"Thistle Hollow School", "TH"}));
    const auto ada = clinic.child("Ada");
    must(clinic.session.moveChild(clinic.by, ada, thistle, "2", "6", "the school's list"));
    clinic.child("Mina");
    must(clinic.session.sealDay(clinic.by, envelope, thistle, "seven gray herons"));
    must(clinic.session.finish());
  }
  desk.open();
  const auto tries = [&](const QString& words, const char* target) {
    desk.prompter->files = {ui::toQt(envelope.string()), ui::toQt((desk.plain / target).string())};
    desk.prompter->texts = {words};
    press(*desk.window, Qt::Key_E, Qt::AltModifier);
    CHECK(QTest::qWaitFor([&] { return !desk.window->work().isBusy(); }, 60000));
    QTest::qWait(20);
  };
  tries(u"seven white herons"_s, "day.gkbook");
  CHECK(words(*desk.window, u"startTrouble"_s).contains(u"does not open"_s));
  CHECK(desk.window->book() == nullptr);
  tries(u"seven gray herons"_s, "home.gkbook"); // never over another file
  CHECK(desk.window->book() == nullptr);
  tries(u"seven gray herons"_s, "day"); // the ending is put on
  REQUIRE(desk.window->book() != nullptr);
  CHECK(desk.window->book()->session().path().filename() == "day.gkbook");
  desk.give(Clinic::passphrase);
  CHECK(
      words(*desk.window, u"careDate"_s).contains(u"has only Thistle Hollow School's students"_s));
  CHECK(desk.shows(u"careDate"_s));
  CHECK(must(desk.window->book()->session().findChildren("Ada")).size() == 1);
  CHECK(must(desk.window->book()->session().findChildren("Mina")).empty());
  // Every place opens, and what cannot be told here is said to be elsewhere.
  for (const auto key : {Qt::Key_F1, Qt::Key_F8, Qt::Key_F10, Qt::Key_F1}) {
    CAPTURE(key);
    press(*desk.window, key);
    CHECK_FALSE(desk.reads(u"one school's students"_s));
  }
  // Totals are of all.
  press(*desk.window, Qt::Key_F4);
  desk.settle();
  CHECK(desk.reads(u"This logbook has only one school's students."_s));
}

// To be looked at: fixtures/pictures.h says where.
TEST_CASE("The laptop's page and the start page with backups as pictures", "[.pictures]") {
  Backing desk;
  desk.begin({});
  desk.window->resize(1366, 700);
  desk.clock.advance(std::chrono::hours(24));
  press(*desk.window, Qt::Key_F1);
  savePicture(*desk.window, u"board-backup"_s);
  press(*desk.window, Qt::Key_F10);
  savePicture(*desk.window, u"laptop-backup"_s);
  desk.window.reset();
  desk.open();
  desk.window->resize(1366, 700);
  savePicture(*desk.window, u"start-restore"_s);
}
