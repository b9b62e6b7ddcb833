#include "session/letters/letter_files.h"
#include "ui/desk/desk_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/setup/first_day_page.h"

#include "base/files/files.h"

#include <QComboBox>
#include <QTableView>

#include <algorithm>
#include <filesystem>

using namespace gk;
using namespace gk::test;
using session::Area;
using session::FirstDayItem;

namespace {

/// The desk of a clinic that works, for what is set up once.
struct SetupDesk : Desk {
  ui::DeskPage page{context, nullptr};

  SetupDesk() {
    listen(page);
    showActive(page);
  }
  void alt(Qt::Key key) { press(page, key, Qt::AltModifier); }
  void fill(const char* name, const QString& text) {
    part<QLineEdit>(page, QString::fromLatin1(name)).setText(text);
  }
  QString label(const char* name) { return words(page, QString::fromLatin1(name)); }
  void choose(const char* name, int row) {
    auto& list = part<QTableView>(page, QString::fromLatin1(name));
    list.setCurrentIndex(list.model()->index(row, 0));
  }
  void pick(const char* name, int place) {
    part<QComboBox>(page, QString::fromLatin1(name)).setCurrentIndex(place);
  }
  QString cell(const char* name, int row, int column) {
    return part<QTableView>(page, QString::fromLatin1(name))
        .model()
        ->index(row, column)
        .data()
        .toString();
  }
  void student(const char* name) {
    page.turnTo(Area::rosters);
    fill("deskStudentsSearch", QString::fromLatin1(name));
    choose("deskStudentsTable", 0);
  }
  void itemOf(FirstDayItem item) {
    page.showFirstDay();
    choose("firstDayTable", static_cast<int>(item));
    press(page, Qt::Key_Return);
  }
  bool shows(const char* name) {
    return part<QWidget>(page, QString::fromLatin1(name)).isVisible();
  }
};

} // namespace

TEST_CASE("Each item of the check list opens where it is entered", "[case-285]") {
  SetupDesk desk;
  desk.page.showFirstDay();
  CHECK(desk.label("firstDayDone").contains(u"1 missing before a day can be worked"_s));
  CHECK(desk.label("firstDayTodo").contains(u"No student is in the logbook yet"_s));
  desk.itemOf(FirstDayItem::schools);
  CHECK(desk.shows("deskSchools"));
  desk.itemOf(FirstDayItem::pins);
  CHECK(desk.shows("deskTeam"));
  CHECK(desk.label("deskTeamFormTitle").startsWith(u"Set PIN"_s));
  desk.itemOf(FirstDayItem::recoveryCode);
  CHECK(desk.label("deskProgramFormTitle").startsWith(u"Recovery code"_s));
  desk.itemOf(FirstDayItem::roster);
  CHECK(desk.shows("deskStudentsFirst"));
  CHECK(desk.troubles.isEmpty());
}

TEST_CASE("Two cards of one student are compared, joined and separated at the desk", "[case-286]") {
  SetupDesk desk;
  auto& book = desk.clinic.session;
  const auto first = desk.clinic.child("Mina", "Tolliver");
  const auto second = desk.clinic.child("Myna", "Tolliver");
  const auto number = must(book.child(second)).value.number;
  desk.student("mina");
  desk.alt(Qt::Key_J);
  desk.fill("deskStudentsOther", u"999999"_s);
  desk.fill("deskStudentsReason", u"the school has one student"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskStudentsOtherHint")
            .contains(u"no student has this number"_s, Qt::CaseInsensitive));
  desk.fill("deskStudentsOther", ui::toQt(number));
  desk.prompter.choices = {1}; // two students
  desk.alt(Qt::Key_S);
  REQUIRE_FALSE(desk.prompter.shown.empty());
  CHECK(textsOf(desk.prompter.shown.back().rows.front()) ==
        std::vector<std::string>{"Name", "Mina Tolliver", "Myna Tolliver", "DIFFERS"});
  CHECK(must(book.child(second)).value.number == number);
  desk.prompter.choices = {0};
  desk.alt(Qt::Key_S);
  CHECK(desk.news.startsWith(u"The cards are joined under number "_s));
  CHECK_FALSE(book.child(second).has_value());
  CHECK(must(book.consents(first)).size() == 2);
  desk.student(number.c_str()); // the slip of the other card
  desk.alt(Qt::Key_X);
  CHECK(desk.label("deskStudentsNote").contains(u"returns to it"_s));
  desk.fill("deskStudentsReason", u"twins after all"_s);
  desk.alt(Qt::Key_S);
  CHECK(must(book.identity(second)).first == "Myna");
  CHECK(desk.troubles.isEmpty());
}

TEST_CASE("A school is closed and reopened at the desk, and is not offered meanwhile",
          "[case-314]") {
  SetupDesk desk;
  auto& book = desk.clinic.session;
  must(book.enterSchool(desk.clinic.by, {"Fennel Ridge Elementary", "FR"}));
  const auto mina = desk.clinic.child("Mina", "Tolliver");
  desk.page.turnTo(Area::schools);
  desk.choose("deskSchoolsTable", 0);
  desk.alt(Qt::Key_L);
  CHECK(desk.label("deskSchoolsNote").contains(u"1 student stays listed there"_s));
  CHECK(desk.label("deskSchoolsNote").contains(u"1 school day with all"_s));
  desk.fill("deskSchoolsClosed", u"11/17/2026"_s); // a day was held on it
  desk.fill("deskSchoolsReason", u"the district closed it"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskSchoolsClosedHint")
            .contains(u"there was a school day"_s, Qt::CaseInsensitive));
  desk.fill("deskSchoolsClosed", u"11/18/2026"_s);
  desk.alt(Qt::Key_S);
  INFO(desk.troubles.join(u'|').toStdString());
  CHECK(desk.news.startsWith(u"The school is closed from "_s));
  const auto& table = *part<QTableView>(desk.page, u"deskSchoolsTable"_s).model();
  CHECK(table.index(0, 3).data().toString().startsWith(u"closed from "_s));
  CHECK(table.index(1, 3).data().toString() == u"open"_s);
  CHECK(desk.label("deskSchoolsHistory").contains(u"the district closed it"_s));
  desk.clinic.clock.advance(std::chrono::hours(24));
  // Who is there keeps the place; a new one is offered the other school alone.
  const auto offers = [&](const char* box) {
    auto& one = part<QComboBox>(desk.page, QString::fromLatin1(box));
    QStringList open;
    for (int i = 0; i < one.count(); ++i)
      if (one.model()->flags(one.model()->index(i, 0)).testFlag(Qt::ItemIsEnabled))
        open += one.itemText(i);
    return std::pair(one.currentText(), open);
  };
  desk.student("mina");
  desk.alt(Qt::Key_M);
  CHECK(offers("deskStudentsSchool") ==
        std::pair(u"Cobble Lantern Elementary"_s, QStringList{u"Fennel Ridge Elementary"_s}));
  desk.alt(Qt::Key_N);
  CHECK(offers("deskStudentsSchool").first == u"Fennel Ridge Elementary"_s);
  desk.alt(Qt::Key_I);
  CHECK(offers("deskStudentsListSchool").first == u"Fennel Ridge Elementary"_s);
  desk.prompter.confirms = {true, true, true};
  desk.page.turnTo(Area::schools);
  desk.choose("deskSchoolsTable", 0);
  desk.alt(Qt::Key_O);
  desk.fill("deskSchoolsReason", u"it stays open"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.news == u"The school is open again."_s);
  CHECK(must(book.openSchools(desk.clinic.clock.now().date())).size() == 2);
  CHECK(must(book.child(mina)).value.school == desk.clinic.school);
  CHECK(desk.troubles.isEmpty());
}

TEST_CASE("The passphrase is changed, and a second laptop gets a whole copy, at the desk",
          "[case-289]") {
  SetupDesk desk;
  desk.alt(Qt::Key_H);
  REQUIRE(desk.shows("deskLaptop"));
  desk.alt(Qt::Key_P);
  CHECK(desk.label("deskLaptopNote")
            .contains(u"Backups and other laptops still open with the old"_s));
  const auto present = QString::fromLatin1(Clinic::passphrase);
  desk.prompter.texts = {present, u"four new plain words"_s, u"four new plain word"_s};
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskLaptopTrouble").contains(u"do not match"_s, Qt::CaseInsensitive));
  desk.prompter.texts = {u"a guess"_s, u"four new plain words"_s, u"four new plain words"_s};
  desk.alt(Qt::Key_S);
  CHECK(desk.prompter.asked.at(desk.prompter.asked.size() - 3).contains(u"present passphrase"_s));
  CHECK_FALSE(desk.label("deskLaptopTrouble").isEmpty());
  CHECK_FALSE(desk.news.startsWith(u"The passphrase is changed"_s));
  desk.prompter.texts = {present, u"four new plain words"_s, u"four new plain words"_s};
  desk.alt(Qt::Key_S);
  CHECK(desk.news.startsWith(u"The passphrase is changed on this laptop."_s));
  desk.clinic.session.lock();
  CHECK_FALSE(desk.clinic.session.unlock(Clinic::passphrase).has_value());
  must(desk.clinic.session.unlock("four new plain words"));
  const auto copy = *desk.clinic.folder / "drive.gkbook";
  desk.alt(Qt::Key_C);
  desk.prompter.files = {ui::toQt(copy.string())};
  desk.alt(Qt::Key_S);
  CHECK(desk.news.startsWith(u"Copied and verified: "_s));
  CHECK(must(session::Session::inspect(copy, {desk.clinic.clock, desk.clinic.random})).empty());
  CHECK(desk.troubles.isEmpty());
}

TEST_CASE("A year is archived once it is over and every day of it is signed", "[case-289]") {
  SetupDesk desk;
  auto& book = desk.clinic.session;
  const auto year = [&](const char* name, const char* start, const char* end) {
    must(book.enterYear(desk.clinic.by,
                        {name, roster::YearKind::school, must(base::Date::parse(start)),
                         must(base::Date::parse(end))}));
  };
  year("2025-26", "2025-07-01", "2026-06-30");
  year("2026-27", "2026-07-01", "2027-06-30");
  desk.page.turnTo(Area::years);
  desk.choose("deskYearsTable", 1);
  desk.alt(Qt::Key_A);
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskYearsTrouble").contains(u"once it is over"_s));
  desk.choose("deskYearsTable", 0);
  desk.alt(Qt::Key_A);
  const auto archive = *desk.clinic.folder / "2025-26.gkbook";
  desk.prompter.files = {ui::toQt(archive.string())};
  desk.alt(Qt::Key_S);
  CHECK(desk.news.startsWith(u"Archived and verified, read-only: "_s));
  using std::filesystem::perms;
  CHECK((std::filesystem::status(archive).permissions() & perms::owner_write) == perms::none);
}

TEST_CASE("A letter's template is shown, replaced from a file and put back", "[case-289]") {
  SetupDesk desk;
  const auto path = desk.clinic.session.path();
  const auto english = must(session::templateFiles(path)).front();
  CHECK_FALSE(english.isOwn);
  const auto mine = *desk.clinic.folder / "mine.txt";
  must(base::replaceFile(mine, "# ours\n" + english.text));
  desk.alt(Qt::Key_9);
  REQUIRE(desk.shows("deskLetters"));
  desk.alt(Qt::Key_N);
  const auto bad = *desk.clinic.folder / "bad.txt";
  must(base::replaceFile(bad, "language: English\n"));
  desk.prompter.files = {ui::toQt(bad.string())};
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskLettersTrouble").contains(u"bad.txt"_s, Qt::CaseInsensitive));
  CHECK_FALSE(must(session::templateFiles(path)).front().isOwn);
  desk.prompter.files = {ui::toQt(mine.string())};
  desk.alt(Qt::Key_S);
  const auto own = must(session::templateFiles(path));
  const auto used = std::ranges::find(own, english.language, &session::TemplateFile::language);
  REQUIRE(used != own.end());
  CHECK(used->isOwn);
  CHECK(used->text.starts_with("# ours"));
  must(session::backToShipped(path, session::Worded::letter, english.language));
  CHECK_FALSE(must(session::templateFiles(path)).front().isOwn);
  CHECK_FALSE(session::backToShipped(path, session::Worded::letter, english.language).has_value());
}

TEST_CASE(
    "A consent form's wording is shown, replaced from a file and put back at the desk, and the "
    "form is printed in it",
    "[case-488]") {
  using session::Worded;
  SetupDesk desk;
  const auto path = desk.clinic.session.path();
  const auto english = [&] {
    auto files = must(session::templateFiles(path));
    return *std::ranges::find(files, Worded::consentForm, &session::TemplateFile::of);
  };
  REQUIRE(english().language == "English");
  CHECK_FALSE(english().isOwn);
  desk.alt(Qt::Key_9);
  const auto row = static_cast<int>(must(session::templateFiles(path)).size()) - 2;
  CHECK(desk.cell("deskLettersTable", row, 0) == u"consent forms"_s);
  CHECK(desk.cell("deskLettersTable", row, 3) == u"DRAFT: not approved"_s);

  // Saved from the page, worded by the program, and taken.
  desk.choose("deskLettersTable", row);
  desk.alt(Qt::Key_E);
  const auto mine = *desk.clinic.folder / "english-form.txt";
  desk.prompter.choices = {1};
  desk.prompter.files = {ui::toQt(mine.string())};
  desk.alt(Qt::Key_S);
  auto text = must(base::readFile(mine, 64'000));
  const std::string draft = "approved: no";
  text.replace(text.find(draft), draft.size(), "approved: Dr. Hartgrove, 2026-09-01");
  must(base::replaceFile(mine, text));
  const auto take = [&](const base::Path& file, Worded of) {
    desk.alt(Qt::Key_N);
    desk.pick("deskLettersWorded", static_cast<int>(of));
    desk.prompter.files = {ui::toQt(file.string())};
    desk.alt(Qt::Key_S);
  };
  take(mine, Worded::letter); // it is no letter
  CHECK(desk.label("deskLettersTrouble").contains(u"template cannot be used"_s));
  CHECK_FALSE(english().isOwn);
  take(mine, Worded::consentForm);
  CHECK(desk.news.startsWith(u"Consent forms in English use this file"_s));
  CHECK(english().isOwn);
  CHECK(english().approved == "Dr. Hartgrove, 2026-09-01");
  CHECK_FALSE(must(session::consentTemplates(path)).front().isDraft());

  // No form is printed in a language that the page of prints does not offer.
  const auto other = *desk.clinic.folder / "other.txt";
  auto foreign = text;
  foreign.replace(foreign.find("language: English"), 17, "language: Hmong");
  must(base::replaceFile(other, foreign));
  const auto refused = session::replaceTemplate(path, Worded::consentForm, other);
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error().detail == "other.txt: consent forms are printed in English and Spanish, "
                                  "and its line \"language:\" names none of them");

  desk.choose("deskLettersTable", row);
  desk.alt(Qt::Key_B);
  desk.alt(Qt::Key_S);
  CHECK(desk.news.startsWith(u"Consent forms in English use the built-in text"_s));
  CHECK_FALSE(english().isOwn);
  CHECK(must(session::consentTemplates(path)).front().isDraft());
}
