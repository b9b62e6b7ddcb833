#include "reports/report.h"
#include "session/reporting/issues.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/lists/report_browser.h"
#include "ui/models/table_model.h"
#include "ui/totals/totals_page.h"

#include <QCheckBox>
#include <QComboBox>
#include <QListWidget>
#include <QTableView>

using namespace gk;
using namespace gk::test;

namespace {

class Totals : public Desk {
 public:
  ui::TotalsPage page{context, nullptr};

  void open() {
    listen(page);
    showActive(page);
    page.setFocus();
    wait();
    browser().choose(0); // from the headlines to the tables
  }
  void wait() {
    REQUIRE(QTest::qWaitFor([this] { return !page.isCounting(); }, 20000));
  }
  ui::ReportBrowser& browser() { return *page.findChild<ui::ReportBrowser*>(); }
  const reports::Table& table(std::size_t at) { return browser().tables().at(at); }
};

/// As if everything had gone out as it is, nothing hidden; how many issues there are then.
std::size_t exposeSmallCounts(Clinic& clinic) {
  reports::ReportOptions options;
  options.today = clinic.clock.now().date();
  auto made =
      reports::makeReport(reports::ReportKind::funderAnnex,
                          must(clinic.session.termRecords(clinic.term, *options.today)), options);
  for (auto& row : made.release->term)
    for (auto& [figure, cell] : row.cells)
      cell.showing = reports::Showing::number;
  const auto issue = must(
      session::readyIssue(clinic.session, clinic.term, "funder-annex", "", made, *options.today));
  must(clinic.session.enterIssue(clinic.by, issue.record));
  return must(clinic.session.issuedReports(clinic.term)).size();
}

} // namespace

TEST_CASE("The term's totals stand in the report's own figures") {
  Totals desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.clinic.child("Lupe");
  desk.open();
  REQUIRE(desk.browser().tables().size() == 8);
  const auto& participation = desk.table(0);
  CHECK(participation.rows.back().at(3) == "2"); // consented
  CHECK(participation.rows.back().at(5) == "1"); // screened
  CHECK(desk.table(1).rows.back().at(6) == "4"); // first molars
  CHECK(words(desk.page, u"totalsState"_s).startsWith(u"As of November 17, 2026."_s));
}

TEST_CASE("What the term took in time and people stands beside its totals") {
  Totals desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  must(desk.clinic.session.enterEffort(
      desk.clinic.by, {.day = desk.clinic.day,
                       .chairs = 2,
                       .open = std::chrono::minutes(300),
                       .people = {{roster::Role::hygienist, std::chrono::minutes(600)}},
                       .taught = 0}));
  must(desk.clinic.session.enterEligibility(
      desk.clinic.by, {desk.clinic.term, desk.clinic.school, 82, "county list"}));
  desk.open();
  REQUIRE(desk.browser().tables().size() == 9);
  CHECK(desk.table(5).title == "Staff and chair hours");
  CHECK(desk.table(5).rows.back().at(2) == "10.0"); // chair hours
  CHECK(desk.table(6).rows.front().at(1) == "82");
}

TEST_CASE("From a school to its lights is three steps") {
  Totals desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  // A year on, last fall's sealants are due.
  desk.clinic.clock.setWall(base::atLocal(*base::Date::parse("2027-11-16"), std::chrono::hours(9),
                                          std::chrono::hours(-5)));
  desk.clinic.session.confirmClock();
  must(desk.clinic.session.enterTerm(
      desk.clinic.by,
      {"Fall 2027", *base::Date::parse("2027-09-07"), *base::Date::parse("2027-12-17"), {}}));
  desk.open();
  auto& names = part<QListWidget>(desk.page, u"reportNames"_s);
  for (int i = 0; i < 3; ++i)
    press(desk.page, Qt::Key_Down);
  REQUIRE(names.currentItem()->text() == u"Retention by school"_s);
  press(desk.page, Qt::Key_Return); // into the table
  const auto school = desk.table(3).rows.front().front();
  press(desk.page, Qt::Key_Return); // this school
  desk.wait();
  CHECK(desk.browser().section() == 7);
  CHECK(school != "Total");
  CHECK(desk.table(7).rows.size() == 1); // the one light that was used
  CHECK(desk.table(7).title == "Retention by curing light, placed at " + school.text());
  desk.browser().setFocus();
  press(desk.page, Qt::Key_Return);
  press(desk.page, Qt::Key_Return); // the light's name opens its sealants
  CHECK(desk.browser().section() == 8);
  CHECK(desk.table(8).rows.size() == 4);
}

TEST_CASE("The total of one school's term opens that school's rows alone") {
  Totals desk;
  auto& clinic = desk.clinic;
  std::map<std::string, roster::SchoolId> schools{{"Mina", clinic.school}};
  const auto other = must(clinic.session.enterSchool(clinic.by, {"Brindle Quay Elementary", "BQ"}));
  schools.insert({{"Lupe", other}, {"Ines", other}});
  std::map<std::string, roster::ChildId> children;
  const auto openAt = [&](roster::SchoolId at, base::Date on) {
    clinic.school = at;
    const auto days = must(clinic.session.days(clinic.term));
    const auto open = std::ranges::find_if(
        days, [&](const auto& one) { return one.value.school == at && one.value.date == on; });
    clinic.day = open != days.end()
                     ? open->id
                     : must(clinic.session.openDay(clinic.by, {clinic.term, at, on, 1, {}, false}));
  };
  for (const auto& [name, at] : schools) {
    openAt(at, clinic.clock.now().date());
    children.insert({name, clinic.child(name)});
    clinic.standardVisit(children.at(name));
  }
  // A year on: the sealants are due, and the children are screened again.
  clinic.clock.setWall(base::atLocal(*base::Date::parse("2027-11-16"), std::chrono::hours(9),
                                     std::chrono::hours(-5)));
  clinic.session.confirmClock();
  clinic.term = must(clinic.session.enterTerm(
      clinic.by,
      {"Fall 2027", *base::Date::parse("2027-09-07"), *base::Date::parse("2027-12-17"), {}}));
  clinic.by.author = must(
      clinic.session.enterMember(clinic.by, {"Wren Caldera", "WC", roster::Role::hygienist,
                                             "DH-00731", base::Date::parse("2028-06-30").value(),
                                             roster::usualTasks(roster::Role::hygienist)}));
  for (const auto& [name, at] : schools) {
    openAt(at, clinic.clock.now().date());
    clinic.seat(children.at(name));
    clinic.screenFour(children.at(name));
  }
  desk.open();
  auto& school = part<QComboBox>(desk.page, u"totalsSchool"_s);
  auto& view = part<QTableView>(desk.page, u"reportTable"_s);
  /// What stands behind the total of a column.
  const auto behind = [&](int section, const std::string& heading) {
    desk.browser().choose(section);
    const auto& table = desk.table(static_cast<std::size_t>(section));
    const auto column = std::ranges::find(table.columns, heading, &reports::Column::heading);
    REQUIRE(column != table.columns.end());
    REQUIRE(table.rows.back().front() == "Total");
    const auto number =
        table.rows.back().at(static_cast<std::size_t>(column - table.columns.begin()));
    view.setFocus();
    view.setCurrentIndex(view.model()->index(static_cast<int>(table.rows.size()) - 1,
                                             static_cast<int>(column - table.columns.begin())));
    press(desk.page, Qt::Key_Return);
    REQUIRE(desk.browser().tables().size() == 9);
    const auto& rows = desk.browser().tables().back().rows;
    CHECK(number == std::to_string(rows.size()));
    QStringList cells;
    for (const auto& row : rows)
      for (const auto& cell : row)
        cells += ui::toQt(cell.text());
    return cells.join(u'|');
  };
  struct Wanted {
    QString school;
    int seen;
    bool hasMina;
    bool hasOthers;
  };
  for (const auto& [name, seen, hasMina, hasOthers] :
       {Wanted{u"All"_s, 3, true, true}, Wanted{u"Cobble Lantern Elementary"_s, 1, true, false},
        Wanted{u"Brindle Quay Elementary"_s, 2, false, true}}) {
    INFO(name.toStdString());
    REQUIRE(school.findText(name) >= 0);
    school.setFocus();
    press(desk.page, Qt::Key_Home);
    for (int i = school.findText(name); i > 0; --i)
      press(desk.page, Qt::Key_Down);
    desk.wait();
    for (const auto& [section, heading, each] :
         {std::tuple{0, "Screened", 1}, std::tuple{1, "Needing", 1}, std::tuple{3, "Due", 4}}) {
      INFO(heading);
      const auto cells = behind(section, heading);
      CHECK(desk.browser().tables().back().rows.size() == static_cast<std::size_t>(seen * each));
      CHECK(cells.contains(u"Mina"_s) == hasMina);
      CHECK(cells.contains(u"Lupe"_s) == hasOthers);
      CHECK(cells.contains(u"Ines"_s) == hasOthers);
    }
  }
}

TEST_CASE("Schools that went out as one are one again when the book is opened again") {
  Totals desk;
  auto& clinic = desk.clinic;
  clinic.standardVisit(clinic.child("Mina"));
  const auto quay = must(clinic.session.enterSchool(clinic.by, {"Brindle Quay Elementary", "BQ"}));
  const auto marsh =
      must(clinic.session.enterSchool(clinic.by, {"Dunlin Marsh School (K-8)", "DM"}));
  reports::ReportOptions options;
  options.today = clinic.clock.now().date();
  options.groups = {{quay.text(), marsh.text()}};
  const auto made =
      reports::makeReport(reports::ReportKind::funderAnnex,
                          must(clinic.session.termRecords(clinic.term, *options.today)), options);
  const auto issue = must(
      session::readyIssue(clinic.session, clinic.term, "funder-annex", "", made, *options.today));
  must(clinic.session.enterIssue(clinic.by, issue.record));
  desk.open();
  auto& merge = part<QCheckBox>(desk.page, u"totalsMerge"_s);
  CHECK(merge.isChecked());
  part<QComboBox>(desk.page, u"totalsKind"_s).setFocus();
  press(desk.page, Qt::Key_End);
  press(desk.page, Qt::Key_Up); // the annex, before the school page
  desk.wait();
  const auto rows = [&] { return desk.table(1).rows.size(); };
  REQUIRE(desk.table(1).title.starts_with("Participation"));
  CHECK(rows() == 3);                           // two schools as one, the third, the total
  press(desk.page, Qt::Key_E, Qt::AltModifier); // this time each by itself
  desk.wait();
  CHECK(rows() == 4);
  desk.page.refresh();
  desk.wait();
  CHECK_FALSE(merge.isChecked()); // what was chosen since stays
}

TEST_CASE("What lets a small count be worked out is neither saved nor issued", "[case-83]") {
  Totals desk;
  auto& clinic = desk.clinic;
  clinic.standardVisit(clinic.child("Mina"));
  const auto issued = exposeSmallCounts(clinic);
  desk.open();
  part<QComboBox>(desk.page, u"totalsKind"_s).setFocus();
  press(desk.page, Qt::Key_End);
  desk.wait();
  const Scratch folder;
  desk.prompter.files = {ui::toQt((folder / "annex.html").string())};
  press(desk.page, Qt::Key_S, Qt::AltModifier);
  REQUIRE(desk.troubles.size() == 1);
  CHECK(desk.troubles.front().startsWith(u"This report may not be issued."_s));
  CHECK(desk.troubles.front().contains(u"nothing is lost"_s));
  CHECK_FALSE(std::filesystem::exists(folder / "annex.html"));
  CHECK(must(clinic.session.issuedReports(clinic.term)).size() == issued);
}

TEST_CASE("A report lets only be chosen what it counts by") {
  Totals desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.open();
  auto& kind = part<QComboBox>(desk.page, u"totalsKind"_s);
  const auto& school = part<QComboBox>(desk.page, u"totalsSchool"_s);
  const auto& grade = part<QComboBox>(desk.page, u"totalsGrade"_s);
  CHECK((school.isEnabled() && grade.isEnabled()));
  kind.setFocus();
  press(desk.page, Qt::Key_Down); // retention
  desk.wait();
  CHECK((school.isEnabled() && !grade.isEnabled()));
  press(desk.page, Qt::Key_Down); // quality
  desk.wait();
  CHECK_FALSE((school.isEnabled() || grade.isEnabled()));
}

TEST_CASE("Another factor is counted again and the last question alone is answered") {
  Totals desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.open();
  auto& factor = part<QComboBox>(desk.page, u"totalsFactor"_s);
  factor.setFocus();
  for (int i = 0; i < factor.count() - 1; ++i)
    press(desk.page, Qt::Key_Down);
  desk.wait();
  CHECK(desk.table(7).title == "Retention by grade now, placed at all schools");
}

TEST_CASE("Totals are made with the names locked") {
  Totals desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.clinic.session.lock();
  desk.open();
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.table(0).rows.back().at(5) == "1");
}

TEST_CASE("One part is saved as CSV") {
  Totals desk;
  desk.open();
  const Scratch folder;
  desk.prompter.files = {ui::toQt((folder / "participation.csv").string())};
  press(desk.page, Qt::Key_S, Qt::AltModifier);
  CHECK(must(base::readFile(folder / "participation.csv")).starts_with("School,Enrolled,"));
}

TEST_CASE("A report that is issued is noted, with its version on it, and a draft is not",
          "[case-72]") {
  Totals desk;
  const auto mina = desk.clinic.child("Mina");
  desk.clinic.standardVisit(mina);
  desk.open();
  const Scratch folder;
  const auto save = [&](const char* name, Qt::Key key = Qt::Key_U) {
    desk.wait(); // each issue is an act, after which the page counts again
    desk.prompter.files = {ui::toQt((folder / name).string())};
    press(desk.page, key, Qt::AltModifier);
    INFO(desk.troubles.join(u'|').toStdString() << " / " << desk.news.toStdString());
    CHECK(desk.troubles.isEmpty());
    return must(base::readFile(folder / name));
  };
  const auto issues = [&] {
    return must(desk.clinic.session.issuedReports(desk.clinic.term)).size();
  };
  desk.prompter.files.clear();
  press(desk.page, Qt::Key_U, Qt::AltModifier);
  CHECK(issues() == 0); // backed out
  CHECK(save("draft.html", Qt::Key_S).find("Draft: not noted as issued") != std::string::npos);
  CHECK(desk.news.contains(u"issue it (Alt+U)"_s));
  CHECK(issues() == 0);
  CHECK(save("one.html").find("<p>Version 1</p>") != std::string::npos);
  CHECK(issues() == 1);
  CHECK(desk.news.contains(u"Version 1"_s));
  must(desk.clinic.session.enterEnrollment(desk.clinic.by,
                                           {desk.clinic.term, desk.clinic.school, "3", 40}));
  desk.page.refresh();
  desk.wait();
  const auto second = save("two.html");
  CHECK(second.find("Version 2, differs from version 1 of November 17, 2026 by ") !=
        std::string::npos);
  CHECK(save("three.csv").find("Version 2 of November 17, 2026, printed again") !=
        std::string::npos);
  CHECK(desk.troubles.join(u'|') == QString());
}

TEST_CASE("The rows behind a number are saved alone and are no issue of the report", "[case-72]") {
  Totals desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.open();
  auto& table = part<QTableView>(desk.page, u"reportTable"_s);
  table.setFocus();
  table.setCurrentIndex(table.model()->index(0, 5)); // screened
  press(desk.page, Qt::Key_Return);
  REQUIRE(desk.browser().tables().size() == 9);
  const Scratch folder;
  desk.prompter.choices = {1}; // plain
  desk.prompter.files = {ui::toQt((folder / "rows.html").string())};
  press(desk.page, Qt::Key_S, Qt::AltModifier);
  const auto page = must(base::readFile(folder / "rows.html"));
  CHECK(page.find("Mina") != std::string::npos);
  CHECK(page.find("Version") == std::string::npos);
  desk.browser().choose(0);
  desk.prompter.files = {ui::toQt((folder / "term.html").string())};
  press(desk.page, Qt::Key_U, Qt::AltModifier);
  CHECK(must(base::readFile(folder / "term.html")).find("Mina") == std::string::npos);
  CHECK(must(desk.clinic.session.issuedReports(desk.clinic.term)).size() == 1);
}

TEST_CASE("Small schools are shown as one in the funder's reports alone") {
  Totals desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.open();
  auto& merge = part<QCheckBox>(desk.page, u"totalsMerge"_s);
  CHECK_FALSE(merge.isVisible());
  auto& kind = part<QComboBox>(desk.page, u"totalsKind"_s);
  kind.setFocus();
  press(desk.page, Qt::Key_End);
  press(desk.page, Qt::Key_Up);
  desk.wait();
  REQUIRE(kind.currentText() == u"Funder annex"_s);
  CHECK(merge.isVisible());
  press(desk.page, Qt::Key_E, Qt::AltModifier);
  desk.wait();
  CHECK(merge.isChecked());
  CHECK(desk.table(1).title.starts_with("Participation"));
}

TEST_CASE("The page may go while it counts") {
  Desk desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  ui::LongWork beside;
  ui::Context context{desk.clinic.session, desk.clinic.clock, desk.prompter, desk.acting, beside};
  {
    ui::TotalsPage page(context, nullptr);
    page.show();
    CHECK(page.isCounting());
  }
  QTest::qWait(50);
}
