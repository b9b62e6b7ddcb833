#include "reports/day/close_out_tables.h"
#include "ui/close_out/close_out_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/lists/report_browser.h"

#include <QListWidget>

using namespace gk;
using namespace gk::test;

namespace {

constexpr int supplies = reports::close_out::supplies;
constexpr int effort = reports::close_out::effort;
constexpr int laptops = reports::close_out::laptops;

/// The fields of a day's hours as they are filled in.
QStringList hoursSaid(const QString& chairs, const QString& open, const QString& hygienist,
                      const QString& taught, const QString& coordinator = {}) {
  QStringList said(11);
  said[0] = chairs;
  said[1] = open;
  said[2] = hygienist;
  said[6] = coordinator;
  said[10] = taught;
  return said;
}

/// The close-out of a day on which one child was sealed.
class Counting : public Desk {
 public:
  ui::CloseOutPage page{context, nullptr};

  Counting() {
    clinic.standardVisit(clinic.child("Mina"));
    ui::Setup setup;
    setup.author = clinic.coordinator;
    acting.change(setup);
    listen(page);
    showActive(page);
    page.setFocus();
  }
  [[nodiscard]] QString section(int at) const { return partText(page, at); }
  [[nodiscard]] const reports::Table& table(int at) const {
    return page.findChild<ui::ReportBrowser*>()->tables().at(static_cast<std::size_t>(at));
  }
  void choose(int at) { page.findChild<ui::ReportBrowser*>()->choose(at); }
};

} // namespace

TEST_CASE("Chairs, people and lessons of the day have a field for each number", "[case-301]") {
  Counting desk;
  CHECK(desk.section(effort) == u"Staff and chair hours  not entered"_s);
  desk.prompter.forms = {hoursSaid(u"2"_s, u"5.5"_s, u"12"_s, u"46"_s, u"6"_s)};
  press(desk.page, Qt::Key_H, Qt::AltModifier);
  CHECK(desk.prompter.formLines.size() == 11);
  CHECK(desk.prompter.formLines.at(2) == u"Hygienist, hours"_s);
  CHECK(desk.news == u"Staff and chair hours saved."_s);
  CHECK(desk.section(effort) == u"Staff and chair hours  entered"_s);
  const auto& row = desk.table(effort).rows.at(0);
  CHECK(textsOf(row) == std::vector<std::string>{"2", "5.5", "11.0", "0.09",
                                                 "hygienist 12, coordinator 6", "18", "46"});
}

TEST_CASE("The day's costs follow its hours, and left blank they stay as they are") {
  Counting desk;
  const auto day = hoursSaid(u"2"_s, u"5.5"_s, u"12"_s, u"46"_s, u"6"_s);
  desk.prompter.forms = {day};
  desk.prompter.texts = {u""_s};
  press(desk.page, Qt::Key_H, Qt::AltModifier);
  CHECK_FALSE(must(desk.clinic.session.lastCosts()));
  desk.prompter.forms = {day};
  desk.prompter.texts = {u"supplies"_s, u"hygienist 42/h, supplies 60"_s};
  press(desk.page, Qt::Key_H, Qt::AltModifier);
  CHECK(desk.prompter.asked.back().startsWith(u"\"supplies\": write the cost"_s));
  CHECK(roster::costsText(must(desk.clinic.session.lastCosts())->lines) ==
        "staff 504.00, supplies 60.00");
  CHECK(desk.table(effort).notes.back() ==
        "Costs, $: staff 504.00, supplies 60.00; 564.00 in total.");
  desk.prompter.forms = {hoursSaid(u"2"_s, u"5.5"_s, u"12"_s, u"46"_s)}; // backs out of the costs
  press(desk.page, Qt::Key_H, Qt::AltModifier);
  CHECK(desk.table(effort).notes.back() ==
        "Costs, $: staff 504.00, supplies 60.00; 564.00 in total.");
  CHECK(desk.news == u"Staff and chair hours saved."_s);
}

TEST_CASE("An answer that cannot be read is asked again with why, until it can or one backs out") {
  Counting desk;
  desk.prompter.forms = {hoursSaid(u"two"_s, u"5.5"_s, u"6"_s, u"0"_s),
                         hoursSaid(u"2"_s, u"half"_s, u"6"_s, u"0"_s),
                         hoursSaid(u"2"_s, u"5.5"_s, u"999"_s, u"0"_s)};
  press(desk.page, Qt::Key_H, Qt::AltModifier);
  REQUIRE(desk.prompter.asked.size() == 4);
  CHECK(desk.prompter.asked.at(1).startsWith(u"type how many chairs"_s));
  CHECK(desk.prompter.asked.at(3).contains(u"999 hours of hygienist are more than"_s));
  CHECK(desk.section(effort) == u"Staff and chair hours  not entered"_s);
}

TEST_CASE("With no one at work nothing is asked") {
  Counting desk;
  desk.acting.change({});
  press(desk.page, Qt::Key_H, Qt::AltModifier);
  CHECK(desk.prompter.asked.isEmpty());
  CHECK(desk.troubles.size() == 1);
}

TEST_CASE("Enter on a supply counts its packages, and none left closes the lot") {
  Counting desk;
  desk.choose(supplies);
  press(desk.page, Qt::Key_Return);
  desk.prompter.choices = {0};
  desk.prompter.texts = {u"2 0"_s};
  press(desk.page, Qt::Key_Return);
  CHECK(desk.news == u"Lot saved."_s);
  const auto& row = desk.table(supplies).rows.at(0);
  CHECK(row.at(4) == "2");
  CHECK(row.at(5) == "0, closed");
}

TEST_CASE("Enter on a supply sets the lot aside with a reason, and never without") {
  Counting desk;
  desk.choose(supplies);
  press(desk.page, Qt::Key_Return);
  desk.prompter.choices = {1};
  desk.prompter.texts = {u" "_s};
  press(desk.page, Qt::Key_Return);
  CHECK(desk.table(supplies).rows.at(0).at(1).text().find("SET ASIDE") == std::string::npos);
  desk.prompter.choices = {1};
  desk.prompter.texts = {u"recall notice of 17 November"_s};
  press(desk.page, Qt::Key_Return);
  CHECK(desk.table(supplies).rows.at(0).at(1).text().find("SET ASIDE") != std::string::npos);
}

TEST_CASE(
    "A copy on the laptop's own disk is told to be no backup, and a taken name is not asked about",
    "[case-123]") {
  Counting desk;
  const Scratch folder;
  const auto file = ui::toQt((folder / "tuesday.gkbook").string());
  desk.prompter.files = {file, file};
  press(desk.page, Qt::Key_B, Qt::AltModifier);
  CHECK(desk.news.contains(u"lost with the laptop"_s));
  CHECK_FALSE(desk.news.contains(u"separate"_s));
  CHECK(desk.section(laptops) == u"Backups  0 of 1"_s);
  CHECK(desk.table(laptops).rows.at(0).at(3).text().ends_with("on the laptop's own disk"));
  CHECK(desk.table(laptops).rows.at(0).at(4) == "NO");
  const auto first = must(base::readFile(folder / "tuesday.gkbook"));
  press(desk.page, Qt::Key_B, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.prompter.asked.size() == 2); // once for each copy
  CHECK(desk.news.contains(u"tuesday-2.gkbook"_s));
  CHECK(desk.news.contains(u"unchanged"_s));
  CHECK(must(base::readFile(folder / "tuesday.gkbook")) == first);
  CHECK(std::filesystem::exists(folder / "tuesday-2.gkbook"));
}

TEST_CASE("A backup is noted with its laptop, and the name of its file alone") {
  Counting desk;
  CHECK(desk.section(laptops) == u"Backups  0 of 1"_s);
  const OtherDisk folder;
  if (!folder.isThere()) return;
  desk.prompter.files = {ui::toQt((folder / "tuesday.gkbook").string())};
  press(desk.page, Qt::Key_B, Qt::AltModifier);
  CHECK(desk.news.endsWith(u"Keep drive and laptop separate."_s));
  CHECK(desk.section(laptops) == u"Backups  1 of 1"_s);
  const auto& row = desk.table(laptops).rows.at(0);
  CHECK(row.at(3).text().ends_with(", tuesday.gkbook"));
  CHECK(row.at(4) == "yes");
}
