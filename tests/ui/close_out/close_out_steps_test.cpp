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

TEST_CASE("Another laptop's logbook takes a student out only when someone says that it was decided",
          "[case-403]") {
  CloseOut desk;
  const auto child = desk.clinic.child("Mina");
  const auto number = must(desk.clinic.session.child(child)).value.number;
  const Scratch folder;
  must(desk.clinic.session.backUp(folder / "b.gkbook"));
  {
    auto other = must(session::Session::open(folder / "b.gkbook", base::LaptopId(base::Uuid{}),
                                             {desk.clinic.clock, desk.clinic.random}, {},
                                             session::BookKind::throwaway));
    const auto plan = must(other.erasurePlan(child));
    must(other.eraseStudent(desk.clinic.by, child,
                            {"the mother, by letter", "records law, section 4", "asked for"},
                            plan.total));
    must(other.finish());
  }
  desk.open();
  const auto entries = must(desk.clinic.session.erasurePlan(child)).total;
  const auto merge = [&](std::optional<int> answer, const QString& typed = {}) {
    desk.prompter.texts = {typed};
    desk.prompter.files = {ui::toQt((folder / "b.gkbook").string())};
    desk.prompter.choices.clear();
    if (answer) desk.prompter.choices = {*answer};
    press(desk.page, Qt::Key_T, Qt::AltModifier);
    const auto asked = desk.prompter.asked.join(u'|');
    CHECK(asked.contains(u"student "_s + ui::toQt(number)));
    CHECK(asked.contains(u"Nothing was merged"_s));
    CHECK_FALSE(asked.contains(u"Mina"_s));
    CHECK(desk.troubles.join(u'|') == QString());
  };
  merge(std::nullopt); // Esc
  CHECK(desk.news.startsWith(u"Not merged. Nothing is lost"_s));
  CHECK(desk.clinic.session.child(child).has_value());
  merge(1);
  CHECK(desk.clinic.session.child(child).has_value());
  merge(0, u"yes"_s); // not the number that was said
  CHECK(desk.news.startsWith(u"Not merged. Nothing is lost"_s));
  merge(0, QString::number(entries + 1)); // asked again, and no one answers
  CHECK(desk.clinic.session.child(child).has_value());
  merge(0, QString::number(entries));
  CHECK_FALSE(desk.clinic.session.child(child).has_value());
  CHECK(desk.news.contains(u"of erased students removed"_s));
}

TEST_CASE("Of the steps of a close-out the urgent calls are the first") {
  CloseOut desk;
  desk.urgentChild();
  desk.open();
  const auto& names = part<QListWidget>(desk.page, u"reportNames"_s);
  CHECK(names.item(0)->text().startsWith(u"Urgent calls"_s));
  CHECK(names.item(1)->text().startsWith(u"Students accounted for"_s));
}
