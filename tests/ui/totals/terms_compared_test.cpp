#include "base/files/files.h"
#include "reports/report.h"
#include "support/scratch.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/pictures.h"
#include "ui/lists/report_browser.h"
#include "ui/totals/totals_page.h"

#include <QComboBox>

using namespace gk;
using namespace gk::test;

TEST_CASE("Terms side by side are counted in the window, every term up to the chosen one",
          "[case-453]") {
  Desk desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.clinic.clock.setWall(base::atLocal(*base::Date::parse("2027-11-16"), std::chrono::hours(9),
                                          std::chrono::hours(-5)));
  desk.clinic.session.confirmClock();
  must(desk.clinic.session.enterTerm(
      desk.clinic.by,
      {"Fall 2027", *base::Date::parse("2027-09-07"), *base::Date::parse("2027-12-17"), {}}));
  ui::TotalsPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  const auto wait = [&] { REQUIRE(QTest::qWaitFor([&] { return !page.isCounting(); }, 20000)); };
  wait();
  auto& kind = part<QComboBox>(page, u"totalsKind"_s);
  kind.setCurrentIndex(static_cast<int>(reports::ReportKind::terms));
  Q_EMIT kind.activated(kind.currentIndex());
  wait();
  const auto& table = page.findChild<ui::ReportBrowser*>()->tables().at(0);
  CHECK(table.title == "Terms side by side");
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows.front().front() == "Fall 2026");
  page.resize(1366, 700);
  savePicture(page, u"terms-compared"_s);

  // Of one school, on screen and as a file alike.
  auto& school = part<QComboBox>(page, u"totalsSchool"_s);
  REQUIRE(school.isEnabled());
  school.setCurrentIndex(1);
  Q_EMIT school.activated(1);
  wait();
  const auto& ofSchool = page.findChild<ui::ReportBrowser*>()->tables().at(0);
  CHECK(ofSchool.title == "Terms side by side: " + school.currentText().toStdString());
  CHECK(page.findChild<ui::ReportBrowser*>()->tables().size() == 1);
  REQUIRE(ofSchool.plot);
  CHECK(ofSchool.plot->x.names.size() == 2);
  savePicture(page, u"terms-compared-school"_s);
  const Scratch folder;
  const auto file = folder / "terms.html";
  desk.prompter.files = {ui::toQt(file.string())};
  press(page, Qt::Key_S, Qt::AltModifier);
  const auto html = must(base::readFile(file));
  CHECK(html.find(ofSchool.title) != std::string::npos);
  CHECK(html.find(ofSchool.plot->says) != std::string::npos);
  CHECK(html.find("<svg") != std::string::npos);
}
