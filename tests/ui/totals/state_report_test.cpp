#include "reports/report.h"
#include "support/built_demo.h"
#include "ui/desk/desk_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/pictures.h"
#include "ui/lists/report_browser.h"
#include "ui/paper/report_sheets.h"
#include "ui/totals/totals_page.h"

#include <QComboBox>
#include <QFile>
#include <QImage>
#include <QLabel>
#include <QPainter>
#include <QTableView>

using namespace gk;
using namespace gk::test;
using reports::ReportKind;

namespace {

/// A child seen today and a school year around it.
struct YearDesk : Desk {
  YearDesk() {
    clinic.standardVisit(clinic.child("Mina"));
    must(clinic.session.enterYear(clinic.by, {"2026-27", roster::YearKind::school,
                                              *base::Date::parse("2026-08-01"),
                                              *base::Date::parse("2027-07-31")}));
  }
};

void waitCounted(ui::TotalsPage& page) {
  REQUIRE(QTest::qWaitFor([&] { return !page.isCounting(); }, 60000));
}

void chooseReport(ui::TotalsPage& page, ReportKind what) {
  auto& kind = part<QComboBox>(page, u"totalsKind"_s);
  kind.setCurrentIndex(static_cast<int>(what));
  Q_EMIT kind.activated(kind.currentIndex());
  waitCounted(page);
}

const std::vector<reports::Table>& tablesOf(const ui::TotalsPage& page) {
  return page.findChild<ui::ReportBrowser*>()->tables();
}

} // namespace

TEST_CASE(
    "A state report is counted in the window for the year that is chosen, and saved as a file") {
  YearDesk desk;
  ui::TotalsPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  waitCounted(page);
  auto& year = part<QComboBox>(page, u"totalsYear"_s);
  CHECK_FALSE(year.isVisible());
  chooseReport(page, ReportKind::state);
  CHECK(year.isVisible());
  CHECK_FALSE(part<QComboBox>(page, u"totalsTerm"_s).isEnabled());
  CHECK(tablesOf(page).at(0).title == "Students of this program, not a survey estimate");
  CHECK(words(page, u"totalsState"_s).startsWith(u"School year 2026-27, counted through"_s));
  const auto file = desk.clinic.folder->path() / "state.csv";
  desk.prompter.files = {QString::fromStdString(file.string())};
  press(page, Qt::Key_S, Qt::AltModifier); // a draft, which is no issue
  CHECK(desk.news.contains(u"Draft saved"_s));
  CHECK(must(desk.clinic.session.issuedReports(desk.clinic.term)).empty());
  desk.prompter.files = {QString::fromStdString(file.string())};
  press(page, Qt::Key_U, Qt::AltModifier);
  CHECK(desk.news.contains(u"Version 1"_s));
  QFile saved(QString::fromStdString(file.string()));
  REQUIRE(saved.open(QIODevice::ReadOnly));
  CHECK(saved.readLine().startsWith("scope,program,county,year_kind,year,"));
  CHECK(must(desk.clinic.session.issuedReports(desk.clinic.term)).back().value.report == "state");
  chooseReport(page, ReportKind::term);
  CHECK_FALSE(year.isVisible());
  CHECK(part<QComboBox>(page, u"totalsTerm"_s).isEnabled());
}

TEST_CASE("Without a year the window says where one is defined") {
  Desk desk;
  ui::TotalsPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  waitCounted(page);
  chooseReport(page, ReportKind::state);
  CHECK(words(page, u"totalsState"_s).startsWith(u"No year defined yet. Add one on Desk (F8)"_s));
  press(page, Qt::Key_S, Qt::AltModifier);
  CHECK(desk.prompter.asked.isEmpty()); // nothing to save
}

TEST_CASE("A year is added and corrected on the desk, its history kept") {
  Desk desk;
  ui::DeskPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  page.turnTo(session::Area::years);
  const auto fill = [&](const char* name, const QString& text) {
    part<QLineEdit>(page, QString::fromLatin1(name)).setText(text);
  };
  press(page, Qt::Key_N, Qt::AltModifier);
  fill("deskYearsName", u"2026-27"_s);
  fill("deskYearsStart", u"2026-07-01"_s);
  fill("deskYearsEnd", u"2026-07-01"_s);
  part<QComboBox>(page, u"deskYearsKind"_s).setCurrentIndex(2);
  press(page, Qt::Key_S, Qt::AltModifier);
  CHECK(must(desk.clinic.session.years()).empty());
  INFO((words(page, u"deskYearsStartHint"_s) + u"|"_s + words(page, u"deskYearsEndHint"_s) +
        u"|"_s + words(page, u"deskYearsNameHint"_s) + u"|"_s + desk.troubles.join(u'|'))
           .toStdString());
  CHECK(words(page, u"deskYearsEndHint"_s).contains(u"ends before it starts"_s));
  fill("deskYearsEnd", u"2027-06-30"_s);
  press(page, Qt::Key_S, Qt::AltModifier);
  CHECK(desk.news == u"Fiscal year 2026-27 is saved."_s);
  REQUIRE(must(desk.clinic.session.years()).size() == 1);
  auto& list = part<QTableView>(page, u"deskYearsTable"_s);
  list.setCurrentIndex(list.model()->index(0, 0));
  fill("deskYearsEnd", u"2027-06-29"_s);
  fill("deskYearsReason", u"misread"_s);
  press(page, Qt::Key_S, Qt::AltModifier);
  CHECK(must(desk.clinic.session.years()).front().value.end.iso() == "2027-06-29");
  CHECK(desk.troubles.isEmpty());
}

// To be looked at: test_ui "[.pictures]".
TEST_CASE("The state report, costs and what stands out as pictures", "[.pictures]") {
  const auto folder = pictureFolder();
  const Scratch scratch;
  copyDemo(scratch.path(), demo::Until::closed);
  Desk desk;
  auto session =
      session::Session::open(scratch.path() / "demo.gkbook", desk.clinic.laptop,
                             {desk.clinic.clock, desk.clinic.random}, store::Access::readOnly);
  REQUIRE(session);
  ui::Context context{*session, desk.clinic.clock, desk.prompter, desk.acting, desk.work};
  ui::TotalsPage page(context, nullptr);
  desk.listen(page);
  showActive(page);
  waitCounted(page);
  for (const auto& [kind, name] : {std::pair(ReportKind::state, u"state"_s),
                                   {ReportKind::cost, u"cost"_s},
                                   {ReportKind::retention, u"retention"_s}}) {
    chooseReport(page, kind);
    page.resize(1366, 700);
    QCoreApplication::processEvents();
    CHECK(page.grab().save(folder + u"/window-"_s + name + u".png"_s));
    const ui::ReportSheets sheets(
        std::string("Report"), tablesOf(page),
        {u"Program"_s, u"Year"_s, u"November 17, 2026"_s, u"Version 1"_s});
    for (int sheet = 0; sheet < std::min(sheets.count(), 4); ++sheet) {
      QImage image((sheets.size() * 2).toSize(), QImage::Format_RGB32);
      image.fill(Qt::white);
      QPainter painter(&image);
      painter.scale(2, 2);
      sheets.paint(painter, sheet);
      painter.end();
      CHECK(image.save(folder + u"/sheet-"_s + name + QString::number(sheet + 1) + u".png"_s));
    }
  }
  CHECK(desk.troubles.isEmpty());
}
