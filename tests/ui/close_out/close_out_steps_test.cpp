#include "reports/day/close_out_tables.h"
#include "ui/fixtures/close_out_fixture.h"

#include <QListWidget>
#include <QPushButton>

using namespace gk;
using namespace gk::test;

TEST_CASE("Referrals are done only when every student who needs one has one, and say whom to call",
          "[case-448]") {
  CloseOut desk;
  const auto child = desk.urgentChild();
  desk.open();
  CHECK(desk.section(reports::close_out::referrals) == u"Referrals  1 to do, none made"_s);
  const auto shown = [&]() -> const reports::Table& {
    return desk.page.findChild<ui::ReportBrowser*>()->tables().at(reports::close_out::referrals);
  };
  const auto guardian = must(desk.clinic.session.identity(child)).guardians.front();
  REQUIRE(shown().rows.size() == 1);
  CHECK(shown().rows[0][0] == "Hana Brookmere");
  CHECK(shown().rows[0][5] == "TO DO");
  CHECK(shown().columns.back().heading == "Language");
  CHECK(shown().rows[0][7] == guardian.phone);
  desk.choose(reports::close_out::referrals);
  press(desk.page, Qt::Key_Return);
  desk.prompter.choices = {2};
  desk.prompter.texts = {u"swelling"_s};
  press(desk.page, Qt::Key_Return);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.section(reports::close_out::referrals) == u"Referrals  1 made"_s);
  REQUIRE(shown().rows.size() == 1);
  CHECK_FALSE(shown().rows[0][5] == "TO DO");
  CHECK(shown().rows[0][6] == guardian.name);
  CHECK(shown().rows[0][7] == guardian.phone);
  // The number stays on the screen.
  for (const auto& table : reports::closeOutTables(
           reports::closeOut(must(desk.clinic.session.dayRecords(desk.clinic.day)))))
    for (const auto& column : table.columns)
      CHECK(column.heading != "Phone");
}

TEST_CASE("The students to see again are in sight among the steps, and printed and counted out",
          "[case-449]") {
  CloseOut desk;
  desk.clinic.end(desk.clinic.child("Mina"), chairside::DayEnd::absent);
  desk.page.resize(1366, 660);
  desk.open();
  desk.page.resize(1366, 660);
  QCoreApplication::processEvents();
  auto& names = part<QListWidget>(desk.page, u"reportNames"_s);
  int row = 0;
  while (row < names.count() && !names.item(row)->text().startsWith(u"Return visits"_s))
    ++row;
  REQUIRE(row < names.count());
  CHECK(names.viewport()->rect().contains(names.visualItemRect(names.item(row))));
  desk.choose(reports::close_out::toSee);
  CHECK(part<QPushButton>(desk.page, u"closeOutReturnsPrint"_s).isVisible());
  desk.prompter.prints = {true};
  press(desk.page, Qt::Key_N, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.prompter.printed.startsWith("%PDF"));
  CHECK(desk.news == u"Printed and counted out with the day's other lists."_s);
  const auto papers = must(desk.clinic.session.dayRecords(desk.clinic.day)).papers;
  REQUIRE(papers.size() == 1);
  CHECK(papers.front().value.paper == followup::Paper::other);
  CHECK(papers.front().value.out == 1);
}
