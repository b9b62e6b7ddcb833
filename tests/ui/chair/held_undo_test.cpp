#include "reports/records/inputs.h"
#include "session/session.h"
#include "store/sqlite/connection.h"
#include "support/built_demo.h"
#include "support/long_checks.h"
#include "ui/chair/chair_page.h"
#include "ui/fixtures/window_fixture.h"

#include <array>
#include <iostream>

// Someone leans on the undo keys, or means it again and again, at every place of a whole logbook.

using namespace gk;
using namespace gk::test;

namespace {

// 30 a second, common practice, no source; for three seconds, or the whole minute.
int repeats() {
  return rounds(3 * 30, 60 * 30);
}
/// Under a sanitizer, which looks at paths, the three that have something to take back.
#ifdef GK_SANITIZED
constexpr std::array pages{Qt::Key_F1, Qt::Key_F2, Qt::Key_F3};
#else
constexpr std::array pages{Qt::Key_F1, Qt::Key_F2, Qt::Key_F3, Qt::Key_F4, Qt::Key_F5,
                           Qt::Key_F6, Qt::Key_F7, Qt::Key_F9, Qt::Key_F10};
#endif

/// The demo's morning in the whole window, with a hygienist at work.
class HeldMorning : public Window {
 public:
  HeldMorning() {
    copyDemo(folder.path(), demo::Until::partDay);
    clock.advance(std::chrono::hours(2));
    opened_ = clock.now().at;
    begin();
    markAbsent();
    seatNext();
    begin(); // the chair goes on with who was in it
  }

  [[nodiscard]] session::Session& session() const { return window->book()->session(); }
  [[nodiscard]] base::Path file() const { return folder / "demo.gkbook"; }

  void strike(int key, Qt::KeyboardModifiers with, const QString& text, bool again) const {
    auto* focus = window->focusWidget();
    QTest::simulateEvent(focus ? focus : window.get(), true, key, with, text, again);
  }
  /// As a keyboard sends a key that is held: pressed once, then again and again.
  void hold(int key, Qt::KeyboardModifiers with, const QString& text = {}) const {
    for (int i = 0; i <= repeats(); ++i)
      strike(key, with, text, i > 0);
  }
  void go(Qt::Key page) const { strike(page, Qt::NoModifier, {}, false); }

  /// Ends the window; what was taken back since it was opened, "2 outcome, 1 seating".
  std::string takenBack() {
    window.reset();
    store::Connection book(file(), store::Access::readOnly, store::Durability::everyAct);
    auto rows =
        book.prepare("SELECT old.kind, count(*) FROM every_entry AS e JOIN every_entry AS old"
                     " ON old.id = e.supersedes WHERE e.kind = 'retraction' AND e.at >= ?"
                     " GROUP BY old.kind ORDER BY old.kind");
    rows.bind(1, opened_);
    std::string words;
    while (rows.step())
      words += (words.empty() ? "" : ", ") + std::to_string(rows.column<int>(1)) + " " +
               rows.column<std::string>(0);
    return words.empty() ? "nothing" : words;
  }

 private:
  void begin() {
    window.reset();
    open();
    window->openBook(ui::toQt(file().string()));
    give(demo::passphrase);
    auto setup = window->book()->acting().now();
    for (const auto& member : must(session().members()))
      if (member.value.role == roster::Role::hygienist && !setup.author) setup.author = member.id;
    window->book()->acting().change(setup);
  }
  [[nodiscard]] std::vector<session::BoardLine> waiting() const {
    auto lines = must(session().board(must(session().openDayNow()).id));
    std::erase_if(lines, [](const auto& line) {
      return line.place != session::Place::waiting || line.stopFlag || line.askFlag;
    });
    REQUIRE(lines.size() > 3);
    return lines;
  }
  /// Two acts on the board.
  void markAbsent() const {
    const auto day = must(session().openDayNow()).id;
    const auto lines = waiting();
    for (std::size_t i = 0; i < 2; ++i)
      must(session().endVisit(
          {*window->book()->acting().now().author, {}, base::Station::board},
          {.child = lines[i].child, .day = day, .end = chairside::DayEnd::absent, .reason = {}}));
  }
  void seatNext() const {
    const auto day = must(session().openDayNow()).id;
    const base::By by{*window->book()->acting().now().author, {}, base::Station::chair};
    for (const auto& line : waiting())
      if (session().seat(by,
                         {line.child,
                          day,
                          {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}))
        return;
    FAIL("nobody can be seated");
  }

  base::Instant opened_{};
};

} // namespace

TEST_CASE("An undo key that is held takes nothing back at any place", "[case-87]") {
  for (const auto page : pages) {
    HeldMorning morning;
    morning.go(page);
    morning.hold(Qt::Key_Z, Qt::AltModifier);
    const auto changed = morning.takenBack();
    std::cout << "Alt+Z held at F" << page - Qt::Key_F1 + 1 << ": " << changed << "\n";
    CHECK(changed == "nothing");
  }
}

TEST_CASE("Undo that is meant a hundred times ends where its place ends", "[case-87]") {
  for (const auto page : pages) {
    HeldMorning morning;
    morning.go(page);
    morning.prompter->confirms.assign(100, true);
    for (int i = 0; i < 100; ++i)
      morning.strike(Qt::Key_Z, Qt::AltModifier, {}, false);
    const auto changed = morning.takenBack();
    std::cout << "Alt+Z and yes, 100 times at F" << page - Qt::Key_F1 + 1 << ": " << changed
              << "\n";
    CHECK(changed == (page == Qt::Key_F1 ? "2 day_outcome" : "nothing"));
  }
}

TEST_CASE("U held at the chair takes back one act, and ends at the identity check", "[case-87]") {
  HeldMorning held;
  held.go(Qt::Key_F2);
  held.hold(Qt::Key_U, Qt::NoModifier, u"u"_s);
  const auto once = held.takenBack();
  std::cout << "U held at the chair: " << once << "\n";
  HeldMorning meant;
  meant.go(Qt::Key_F2);
  for (int i = 0; i < 10; ++i) {
    meant.strike(Qt::Key_U, Qt::NoModifier, u"u"_s, false);
    QTest::qWait(150); // slower than any scanner
  }
  const auto all = meant.takenBack();
  std::cout << "U 10 times at the chair: " << all << "\n";
  CHECK(all == once);
}
