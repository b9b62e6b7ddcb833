#include "reports/report.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/lists/overview_view.h"
#include "ui/lists/report_browser.h"
#include "ui/totals/totals_page.h"

#include <QComboBox>

#include <set>

using namespace gk;
using namespace gk::test;
using reports::Factor;
using reports::ReportKind;

namespace {

/// A year after Mina's sealants were placed, with a school year to report of.
class ChosenTotals : public Desk {
 public:
  ui::TotalsPage page{context, nullptr};

  ChosenTotals() {
    clinic.standardVisit(clinic.child("Mina"));
    clinic.clock.setWall(base::atLocal(*base::Date::parse("2027-11-16"), std::chrono::hours(9),
                                       std::chrono::hours(-5)));
    clinic.session.confirmClock();
    must(clinic.session.enterTerm(
        clinic.by,
        {"Fall 2027", *base::Date::parse("2027-09-07"), *base::Date::parse("2027-12-17"), {}}));
    must(clinic.session.enterYear(clinic.by, {"2027-28", roster::YearKind::school,
                                              *base::Date::parse("2027-08-01"),
                                              *base::Date::parse("2028-07-31")}));
    listen(page);
    showActive(page);
    wait();
  }
  void wait() {
    REQUIRE(QTest::qWaitFor([this] { return !page.isCounting(); }, 20000));
  }
  /// As a person who picks this line of the box, and does not wait for what is counted.
  void pickAtOnce(const QString& name, int line) {
    auto& box = part<QComboBox>(page, name);
    REQUIRE(line < box.count());
    box.setCurrentIndex(line);
    QMetaObject::invokeMethod(&box, "activated", Q_ARG(int, line));
  }
  void pick(const QString& name, int line) {
    pickAtOnce(name, line);
    wait();
  }
  const std::vector<reports::Table>& tables() {
    return page.findChild<ui::ReportBrowser*>()->tables();
  }
};

bool tableBears(const reports::Table& table, const std::string& words) {
  const auto has = [&](const std::string& text) { return text.find(words) != std::string::npos; };
  return has(table.title) || std::ranges::any_of(table.notes, has) ||
         std::ranges::any_of(
             table.rows, [&](const auto& row) { return std::ranges::any_of(textsOf(row), has); });
}

int timesIn(const std::string& text, const std::string& words) {
  int times = 0;
  for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1))
    ++times;
  return times;
}

} // namespace

TEST_CASE("A report that was counted for longer is not shown over the one chosen since",
          "[case-186]") {
  ChosenTotals desk;
  const auto title = [&](ReportKind kind) {
    desk.pick(u"totalsKind"_s, static_cast<int>(kind));
    return desk.tables().at(0).title;
  };
  const auto term = title(ReportKind::term);
  const auto prevention = title(ReportKind::prevention);
  const auto state = title(ReportKind::state);
  REQUIRE(std::set{term, prevention, state}.size() == 3);
  for (const auto slow : {ReportKind::state, ReportKind::terms, ReportKind::quality})
    for (const auto& [chosen, words] :
         {std::pair(ReportKind::term, term), std::pair(ReportKind::prevention, prevention)}) {
      CAPTURE(base::nameOf(slow), words);
      desk.pickAtOnce(u"totalsKind"_s, static_cast<int>(slow));
      desk.pick(u"totalsKind"_s, static_cast<int>(chosen));
      CHECK(desk.tables().at(0).title == words);
    }
}

TEST_CASE("A term that is chosen is shown, whichever report is chosen while it is counted",
          "[case-186]") {
  ChosenTotals desk;
  desk.pick(u"totalsTerm"_s, 1); // the first of both
  desk.pick(u"totalsKind"_s, static_cast<int>(ReportKind::terms));
  const auto rows = desk.tables().at(0).rows.size();
  desk.pick(u"totalsTerm"_s, 0);
  REQUIRE(desk.tables().at(0).rows.size() > rows);
  desk.pick(u"totalsKind"_s, static_cast<int>(ReportKind::term));
  desk.pickAtOnce(u"totalsTerm"_s, 1);
  desk.pick(u"totalsKind"_s, static_cast<int>(ReportKind::terms));
  CHECK(desk.tables().at(0).rows.size() == rows);
}

TEST_CASE("The picture of the terms is of the school and the term that are chosen", "[case-186]") {
  ChosenTotals desk;
  const auto& overview = *desk.page.findChild<ui::OverviewView*>();
  press(desk.page, Qt::Key_V, Qt::AltModifier);
  desk.wait();
  REQUIRE(overview.isTurned());
  const auto said = [&] { return overview.accessibleName(); };
  const auto ofAll = said();
  CHECK(ofAll.contains(u"Consented, of enrolled: "_s));
  desk.pick(u"totalsSchool"_s, 1);
  const auto school = part<QComboBox>(desk.page, u"totalsSchool"_s).currentText();
  CHECK_FALSE(ofAll.contains(school + u". Consented, of enrolled: "_s));
  CHECK(said().contains(school + u". Consented, of enrolled: "_s));
  desk.pick(u"totalsTerm"_s, 1); // the first of both
  CHECK(said().contains(u"This is the first term in this logbook"_s));
  desk.pick(u"totalsTerm"_s, 0);
  desk.pick(u"totalsSchool"_s, 0);
  CHECK(said().contains(u"Consented, of enrolled: "_s));
  CHECK_FALSE(said().contains(school + u". Consented, of enrolled: "_s));
}

TEST_CASE("Whatever is chosen beside whichever report, each table is of it or says that it is not",
          "[case-186]") {
  ChosenTotals desk;
  const Scratch folder;
  int saved = 0;
  for (const auto& [factor, name] :
       {std::pair(Factor::school, u"totalsSchool"_s), std::pair(Factor::grade, u"totalsGrade"_s),
        std::pair(Factor::isolation, u"totalsIsolation"_s),
        std::pair(Factor::placedBy, u"totalsOperator"_s)}) {
    desk.pick(u"totalsKind"_s, 0);
    desk.pick(name, 1);
    const auto& box = part<QComboBox>(desk.page, name);
    const auto chosen = box.currentText().toStdString();
    for (std::size_t i = 0; i < base::enumCount<ReportKind>; ++i) {
      const auto kind = static_cast<ReportKind>(i);
      desk.pick(u"totalsKind"_s, static_cast<int>(i));
      CAPTURE(base::nameOf(kind), base::nameOf(factor), chosen);
      const bool isUsed = reports::partsBy(kind, factor);
      CHECK(box.isEnabled() == isUsed);
      const auto idle = "Not applied; this report does not use it: " + chosen;
      const auto state = words(desk.page, u"totalsState"_s).toStdString();
      CHECK((state.find(idle) == std::string::npos) == isUsed);
      REQUIRE_FALSE(desk.tables().empty());
      for (const auto& table : desk.tables()) {
        CAPTURE(table.title);
        if (isUsed) CHECK(tableBears(table, chosen));
      }
      // On paper likewise.
      const auto file = folder / (std::string(base::nameOf(kind)) + chosen.substr(0, 3) + ".html");
      desk.prompter.files = {ui::toQt(file.string())};
      press(desk.page, Qt::Key_S, Qt::AltModifier);
      if (!std::filesystem::exists(file)) continue; // it may not go out
      ++saved;
      // Once where all tables of the page share it.
      if (!isUsed) CHECK(timesIn(must(base::readFile(file)), idle) == 1);
    }
    desk.pick(u"totalsKind"_s, 0);
    desk.pick(name, 0);
  }
  CHECK(saved >= 4 * 10);
}
