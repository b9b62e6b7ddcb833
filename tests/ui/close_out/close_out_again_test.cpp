#include "reports/day/close_out_tables.h"
#include "reports/records/inputs.h"
#include "ui/asking/decide_dialog.h"
#include "ui/close_out/close_out_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/pictures.h"
#include "ui/lists/report_browser.h"

#include <QListWidget>

using namespace gk;
using namespace gk::test;
using chairside::DayEnd;

namespace {

constexpr int toFix = reports::close_out::blockers;
constexpr int mergeLines = reports::close_out::questions;
constexpr int exceptions = reports::close_out::exceptions;
constexpr int letterLines = reports::close_out::letters;

class CloseOutAgain : public Desk {
 public:
  ui::CloseOutPage page{context, nullptr};
  const Scratch folder;

  void open() {
    listen(page);
    showActive(page);
    page.setFocus();
  }
  void choose(int section) { page.findChild<ui::ReportBrowser*>()->choose(section); }
  [[nodiscard]] QString section(int at) const { return partText(page, at); }
  [[nodiscard]] reports::Table table(int at) const {
    return page.findChild<ui::ReportBrowser*>()->tables().at(static_cast<std::size_t>(at));
  }
  void letter(int act) {
    prompter.choices = {act};
    if (act == 0) prompter.choices.push_back(1); // kept as a plain file
    press(page, Qt::Key_L, Qt::AltModifier);
  }
  [[nodiscard]] QString path(const char* name) const { return ui::toQt((folder / name).string()); }

  /// The other laptop says that the child declined, this one that it was absent.
  roster::ChildId disagreed() {
    const auto child = clinic.child("Mina", "Tolliver-Reed");
    must(clinic.session.backUp(folder / "b.gkbook"));
    base::SeededRandom random(7);
    {
      auto other = must(session::Session::open(
          folder / "b.gkbook", base::LaptopId(base::makeUuid7(clinic.clock.now().at, random)),
          {clinic.clock, random}, {}, session::BookKind::throwaway));
      must(other.endVisit(clinic.by, {child, clinic.day, DayEnd::declined, {}}));
      must(other.finish());
    }
    clinic.end(child, DayEnd::absent);
    must(clinic.session.absorb(folder / "b.gkbook"));
    return child;
  }
};

/// The dialog with an outcome's answers.
struct Asked {
  ui::DecideDialog dialog{nullptr,
                          u"Visit outcome for Mina Tolliver-Reed?"_s,
                          {u"absent"_s, u"declined"_s, u"not seen, out of time"_s}};
  bool isTaken = false;
  Asked() {
    QObject::connect(&dialog, &QDialog::accepted, &dialog, [this] { isTaken = true; });
    dialog.show();
    dialog.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&dialog));
  }
  void key(Qt::Key which) { press(dialog, which); }
};

} // namespace

TEST_CASE("Enter pressed in haste answers no question that nothing was chosen for") {
  Asked asked;
  for (int i = 0; i < 3; ++i)
    asked.key(Qt::Key_Return);
  CHECK_FALSE(asked.isTaken);
  CHECK(asked.dialog.isVisible());
  SECTION("the first arrow chooses the first") {
    asked.key(Qt::Key_Down);
    asked.key(Qt::Key_Return);
    CHECK(asked.isTaken);
    CHECK(asked.dialog.chosen() == 0);
  }
  SECTION("a digit chooses and Enter takes it") {
    asked.key(Qt::Key_3);
    CHECK_FALSE(asked.isTaken);
    asked.key(Qt::Key_Return);
    CHECK(asked.isTaken);
    CHECK(asked.dialog.chosen() == 2);
  }
  SECTION("a letter chooses") {
    asked.key(Qt::Key_D);
    asked.key(Qt::Key_Return);
    CHECK(asked.dialog.chosen() == 1);
  }
  SECTION("Escape answers nothing") {
    asked.key(Qt::Key_Escape);
    CHECK_FALSE(asked.isTaken);
    CHECK_FALSE(asked.dialog.isVisible());
  }
}

TEST_CASE("The outcome is asked by the child's name with nothing chosen, as are calls") {
  CloseOutAgain desk;
  desk.clinic.child("Mina", "Tolliver-Reed");
  desk.open();
  press(desk.page, Qt::Key_Return);
  press(desk.page, Qt::Key_Return); // backed out
  REQUIRE(desk.prompter.decided.size() == 1);
  CHECK(desk.prompter.decided.front() == u"Visit outcome for Mina Tolliver-Reed?"_s);
  CHECK(desk.section(toFix) == u"Fix before signing  1 to do"_s);
  press(desk.page, Qt::Key_C, Qt::AltModifier);
  CHECK(desk.prompter.decided.back().startsWith(u"Mina Tolliver-Reed: "_s));
}

TEST_CASE("An answered question of the merge stands in its list, and Enter asks it again",
          "[case-65]") {
  CloseOutAgain desk;
  desk.disagreed();
  desk.open();
  desk.choose(mergeLines);
  REQUIRE(desk.section(mergeLines) == u"Laptop conflicts  1 to do"_s);
  press(desk.page, Qt::Key_Return);
  desk.prompter.choices = {1};
  press(desk.page, Qt::Key_Return);
  REQUIRE(desk.section(mergeLines) == u"Laptop conflicts  none"_s);
  REQUIRE(desk.table(mergeLines).rows.size() == 1);
  CHECK(desk.table(mergeLines).rows.front().back().text().starts_with("kept: 9:00 AM OF: "));
  const auto before = must(desk.clinic.session.dayRecords(desk.clinic.day)).outcomes;
  REQUIRE(before.size() == 1);

  SECTION("answered the other way") {
    desk.prompter.texts = {u"the other laptop was right"_s};
    desk.prompter.choices = {0};
    press(desk.page, Qt::Key_Return);
    CHECK(desk.troubles.join(u'|') == QString());
    CHECK(desk.section(mergeLines) == u"Laptop conflicts  none"_s);
    CHECK(desk.table(mergeLines).rows.size() == 1);
    const auto after = must(desk.clinic.session.dayRecords(desk.clinic.day)).outcomes;
    REQUIRE(after.size() == 1);
    CHECK(after.front().value.end != before.front().value.end);
  }
  SECTION("left open, it blocks the signing") {
    desk.prompter.texts = {u"nobody is sure"_s};
    press(desk.page, Qt::Key_Return);
    CHECK(desk.section(mergeLines) == u"Laptop conflicts  1 to do"_s);
    CHECK(words(desk.page, u"closeOutVerdict"_s).startsWith(u"✖"_s));
  }
  SECTION("without a reason nothing is asked") {
    desk.prompter.texts = {u" "_s};
    press(desk.page, Qt::Key_Return);
    CHECK(desk.section(mergeLines) == u"Laptop conflicts  none"_s);
  }
  SECTION("a signed day says that it is signed") {
    desk.prompter.texts = {u"0"_s};
    desk.prompter.choices = {0, 0};
    press(desk.page, Qt::Key_G, Qt::AltModifier);
    REQUIRE(must(desk.clinic.session.isSigned(desk.clinic.day)));
    desk.prompter.texts = {u"too late"_s};
    press(desk.page, Qt::Key_Return);
    CHECK(desk.troubles.size() == 1);
  }
}

TEST_CASE("A letter handed over in error waits in the list for a call, or to come back",
          "[case-72]") {
  CloseOutAgain desk;
  const auto nell = desk.clinic.child("Nell", "Farrowgate");
  desk.clinic.end(nell, DayEnd::absent);
  desk.open();
  CHECK(desk.section(letterLines) == u"Letters home  0 of 1 printed"_s);
  desk.prompter.files = {desk.path("letters.pdf")};
  desk.letter(0);
  desk.letter(3);
  CHECK(desk.section(letterLines) == u"Letters home  1 of 1 printed"_s);
  desk.clinic.end(nell, DayEnd::declined);
  CHECK(desk.section(letterLines) == u"Letters home  none due, 1 by mistake"_s);
  CHECK(desk.section(exceptions) == u"Exceptions  2"_s); // and paper was not counted
  desk.choose(letterLines);
  CHECK(desk.table(letterLines).rows.front().back() == "given out by mistake: tell the guardian");

  SECTION("Enter logs the call") {
    press(desk.page, Qt::Key_Return);
    desk.prompter.choices = {0, 0};
    desk.prompter.texts = {u"told that it was a mistake"_s};
    press(desk.page, Qt::Key_Return);
    CHECK(desk.table(letterLines).rows.front().back() == "none: the parent was told");
  }
  SECTION("it came back") {
    desk.letter(4);
    CHECK(desk.news == u"Marked as returned: 1 letter."_s);
    CHECK(desk.table(letterLines).rows.front()[6] == "1");
  }
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.section(letterLines) == u"Letters home  none due"_s);
  CHECK(desk.section(exceptions) == u"Exceptions  1"_s);
}

// To be looked at: test_ui "[.pictures]".
TEST_CASE("The close-out's new columns as pictures and as sheets", "[.pictures]") {
  const auto folder = pictureFolder();
  CloseOutAgain desk;
  desk.disagreed();
  const auto nell = desk.clinic.child("Nell", "Farrowgate");
  desk.clinic.standardVisit(desk.clinic.child("Osei", "Brackwater"));
  const auto hana = desk.clinic.child("Hana", "Brookmere");
  desk.clinic.seat(hana);
  auto screening = desk.clinic.fourSound(hana);
  for (auto& tooth : screening.teeth) {
    tooth.decision = chairside::Decision::notToday;
    tooth.toSeal = {};
    tooth.note = "swelling";
  }
  screening.untreatedDecay = chairside::Tri::yes;
  screening.urgency = chairside::Urgency::urgent;
  screening.urgentReason = chairside::UrgentReason::swelling;
  must(desk.clinic.session.screen(desk.clinic.by, screening));
  desk.clinic.end(hana, DayEnd::screenedNotTreated, "swelling");
  must(desk.clinic.session.enterContact(desk.clinic.by,
                                        {hana, desk.clinic.day, followup::Channel::phone,
                                         followup::ContactResult::noAnswer, "rang eight times"}));
  desk.clinic.end(nell, DayEnd::absent);
  desk.open();
  desk.prompter.files = {desk.path("letters.pdf")};
  desk.letter(0);
  desk.letter(3);
  desk.clinic.end(nell, DayEnd::declined);
  const auto grab = [&](int at, const char* name) {
    desk.choose(at);
    QTest::qWait(50);
    CHECK(desk.page.grab().save(folder + u'/' + QString::fromLatin1(name) + u".png"_s));
  };
  grab(mergeLines, "anew question");
  press(desk.page, Qt::Key_Return);
  desk.prompter.choices = {1};
  press(desk.page, Qt::Key_Return);
  grab(mergeLines, "anew answered");
  grab(3, "anew urgent");
  grab(5, "anew unfinished");
  grab(exceptions, "anew exceptions");
  grab(letterLines, "anew letters");
  desk.prompter.files = {folder + u"/anew close-out.pdf"_s};
  press(desk.page, Qt::Key_S, Qt::AltModifier);
  Asked asked;
  CHECK(asked.dialog.grab().save(folder + u"/anew asked.png"_s));
}
