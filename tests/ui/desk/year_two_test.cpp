#include "ui/desk/desk_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/keystrokes.h"

#include "base/files/files.h"

#include <QComboBox>
#include <QTabWidget>

#include <array>
#include <iostream>

using namespace gk;
using namespace gk::test;
using session::Area;

namespace {

constexpr std::array firstNames{"Alder", "Bryn",  "Cleo", "Dara",  "Edda",  "Farrow", "Greta",
                                "Holm",  "Ives",  "Juno", "Kip",   "Lark",  "Milo",   "Nell",
                                "Oona",  "Perry", "Quin", "Rowan", "Sable", "Tamsin"};
constexpr std::array lastNames{"Ashgrove", "Birchwater", "Coldbrook", "Dunmarsh", "Elmstead",
                               "Fernhill", "Gorsefield", "Hawmoor",   "Inglewood"};
constexpr int all = 180;

struct RosterLine {
  std::string first;
  std::string last;
  base::Date birth;
};

RosterLine studentAt(int i) {
  return {firstNames.at(static_cast<std::size_t>(i % 20)),
          lastNames.at(static_cast<std::size_t>(i / 20)),
          must(base::Date::parse("2019-02-01")).plusDays(i)};
}

std::string line(const RosterLine& one, const char* grade, int room) {
  return one.first + "," + one.last + "," + one.birth.iso() + "," + grade + "," +
         std::to_string(room) + "\n";
}

/// A coordinator at the desk, who does all by keyboard.
struct YearDesk : Desk {
  ui::DeskPage page{context, nullptr};
  Keystrokes strokes;

  YearDesk() {
    listen(page);
    showActive(page);
  }
  void alt(Qt::Key key) {
    press(page, key, Qt::AltModifier);
    strokes.key(true);
  }
  void fill(const char* name, const QString& text) {
    part<QLineEdit>(page, QString::fromLatin1(name)).setText(text);
    strokes.line(text);
  }
  void pick(const char* name, int place) {
    part<QComboBox>(page, QString::fromLatin1(name)).setCurrentIndex(place);
    strokes.choice(place);
  }
  QString label(const char* name) { return words(page, QString::fromLatin1(name)); }
  void import(const std::string& rows, int school, int unsure) {
    const auto list = *clinic.folder / "list.csv";
    must(base::replaceFile(list, "First,Last,DOB,Grade,Room\n" + rows));
    alt(Qt::Key_7);
    alt(Qt::Key_I);
    if (school > 0) pick("deskStudentsListSchool", school);
    prompter.files = {ui::toQt(list.string())};
    strokes.line(u"list.csv"_s);
    alt(Qt::Key_S);
    if (unsure > 0) part<QTabWidget>(page, u"listTabs"_s).setCurrentIndex(1);
    for (int i = 0; i < unsure; ++i)
      alt(Qt::Key_Y);
    prompter.confirms = {true};
    alt(Qt::Key_S);
    strokes.key(false); // yes
  }
  std::vector<session::Found> found(const std::string& name) {
    return must(clinic.session.findChildren(name));
  }
};

} // namespace

TEST_CASE("Year two with 180 students: 30 at another school, 5 renamed, 20 new", "[case-200]") {
  YearDesk desk;
  auto& book = desk.clinic.session;
  const auto other = must(book.enterSchool(desk.clinic.by, {"Heron Bend Elementary", "HB"}));
  std::string rows;
  for (int i = 0; i < all; ++i)
    rows += line(studentAt(i), "1", 10 + i / 30);
  desk.import(rows, 0, 0);
  REQUIRE(desk.news.startsWith(u"Imported: 180 new"_s));
  const auto numbers = must(book.numbers()).size();

  desk.clinic.clock.setWall(base::atLocal(must(base::Date::parse("2027-09-07")),
                                          std::chrono::hours(9), std::chrono::hours(-4)));
  book.confirmClock();
  desk.strokes = {};
  desk.alt(Qt::Key_3);
  desk.alt(Qt::Key_N);
  desk.fill("deskTermsName", u"Fall 2027"_s);
  desk.fill("deskTermsStart", u"8/23/2027"_s);
  desk.fill("deskTermsEnd", u"12/17/2027"_s);
  desk.fill("deskTermsHolidays", u"11/25/2027, 11/26/2027"_s);
  desk.alt(Qt::Key_S);
  std::string stay;
  std::string moved;
  for (int i = 0; i < all; ++i) {
    auto one = studentAt(i);
    if (i < 30) {
      moved += line(one, "2", 3);
      continue;
    }
    if (i < 35) one.last = "Marlowe";
    stay += line(one, "2", 20 + i / 30);
  }
  for (int i = 0; i < 20; ++i)
    stay += line({"New" + std::string(firstNames.at(static_cast<std::size_t>(i))), "Underhill",
                  must(base::Date::parse("2020-02-01")).plusDays(i)},
                 "1", 9);
  desk.import(stay, 0, 5);
  INFO(desk.news.toStdString());
  CHECK(desk.news.startsWith(u"Imported: 20 new, 150 changed"_s));
  desk.import(moved, 1, 0);
  CHECK(desk.news.startsWith(u"Imported: 0 new, 30 changed"_s));
  CHECK(must(book.numbers()).size() == numbers + 20);
  const auto first = desk.found("alder ashgrove");
  REQUIRE(first.size() == 1);
  CHECK(must(book.child(first.front().child)).value.school == other);
  CHECK(desk.found("marlowe").size() == 5);
  const auto renamed = must(book.identityRevisions(desk.found("marlowe").front().child));
  REQUIRE(renamed.size() == 2);
  CHECK(renamed.front().identity.last == "Birchwater");
  CHECK(desk.troubles.isEmpty());
  std::cout << "year two: " << desk.strokes.acts() << " acts, " << desk.strokes.keys() << " keys, "
            << desk.strokes.minutes()
            << " minutes by the keystroke-level model (values from memory; without reading and "
               "looking up)\n";
  CHECK(desk.strokes.acts() <= 60);
  CHECK(desk.strokes.minutes() <= 5);
}
