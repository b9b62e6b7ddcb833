#include "estimates/shares/retention.h"
#include "reports/report.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/drawn.h"
#include "ui/lists/overview_view.h"
#include "ui/look/look.h"
#include "ui/totals/totals_page.h"

#include <QComboBox>
#include <QListWidget>
#include <QPainter>
#include <QTableView>

using namespace gk;
using namespace gk::test;

TEST_CASE("Totals open on the headlines, and the tables are one key away", "[case-400]") {
  Desk desk;
  ui::TotalsPage page(desk.context, nullptr);
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.listen(page);
  showActive(page);
  page.resize(1366 - 112, 700);
  page.setFocus();
  const auto wait = [&] { REQUIRE(QTest::qWaitFor([&] { return !page.isCounting(); }, 20000)); };
  wait();
  auto& names = part<QListWidget>(page, u"reportNames"_s);
  auto& overview = *page.findChild<ui::OverviewView*>();
  auto& table = part<QTableView>(page, u"reportTable"_s);
  CHECK(names.currentItem()->text() == u"Overview"_s);
  CHECK(overview.isVisible());
  CHECK(overview.visibleRegion().boundingRect() == overview.rect()); // whole, nothing scrolls
  CHECK_FALSE(table.isVisible());
  const auto key = GENERATE(Qt::Key_Down, Qt::Key_Return, Qt::Key_Right);
  press(page, key);
  CHECK(names.currentItem()->text() == u"Participation"_s);
  CHECK_FALSE(overview.isVisible());
  CHECK(table.isVisible());
  press(page, Qt::Key_Up);
  CHECK(overview.isVisible());
  // A report of another kind has none.
  auto& kind = part<QComboBox>(page, u"totalsKind"_s);
  kind.setCurrentIndex(static_cast<int>(reports::ReportKind::quality));
  Q_EMIT kind.activated(kind.currentIndex());
  wait();
  CHECK_FALSE(overview.isVisible());
  CHECK(names.item(0)->text() != u"Overview"_s);
}

TEST_CASE("What a headline is held against is read whole in a narrow window") {
  ui::dress();
  ui::Overview overview;
  overview.figures.assign(4, {u"Fully retained at one year"_s, u"87.3%"_s,
                              u"95% CI 82.0-91.5; 12,502 checked"_s,
                              u"benchmark 90%: cannot tell"_s, std::nullopt});
  ui::OverviewView view(nullptr);
  view.show(overview);
  view.resize(988, 400);
  Recorder recorder;
  QPainter painter(&recorder);
  view.render(&painter);
  painter.end();
  CHECK(recorder.drawn.words.contains(u"benchmark 90%: cannot tell"_s));
  CHECK(recorder.drawn.right <= view.width() - 12); // the last headline ends there
}

TEST_CASE("The picture of retention names every school whole, and has the line of all of them",
          "[case-450]") {
  const int percent = GENERATE(100, 150);
  ui::dress({ui::Scheme::light, percent});
  ui::Overview overview;
  overview.figures.push_back({u"Students screened"_s, u"96%"_s, u"96 of 100"_s, {}, {}});
  overview.dotsSay = u"One school is below the benchmark."_s;
  overview.benchmark = 85;
  overview.all = 87.2;
  const auto longName = u"Saint Brendan Regional Elementary and Middle School of Larkmere"_s;
  overview.dots = {{u"Fernhill"_s, 91.0, estimates::Interval{84, 96}, 120, false},
                   {longName, 71.5, estimates::Interval{60, 80}, 88, true}};
  ui::OverviewView view(nullptr);
  view.show(overview);
  view.resize(1100, 400);
  view.resize(1100, view.sizeHint().height());
  const auto high = view.sizeHint().height();
  Recorder recorder;
  QPainter painter(&recorder);
  view.render(&painter);
  painter.end();
  const auto drawn = recorder.drawn.words.join(u' ');
  INFO(percent << " %: " << drawn.toStdString());
  for (const auto& word : longName.split(u' '))
    CHECK(drawn.contains(word));
  CHECK_FALSE(drawn.contains(u'\u2026'));
  CHECK(drawn.contains(u"all 87.2%"_s));
  CHECK(drawn.contains(u"benchmark 85%"_s));
  // The name takes lines of its own, and the picture is higher for it.
  overview.dots[1].words = u"Larkmere"_s;
  overview.dots.insert(overview.dots.begin(), 3, overview.dots[0]);
  view.show(overview);
  const auto five = view.sizeHint().height();
  for (auto& dot : overview.dots)
    dot.words = longName;
  view.show(overview);
  CHECK(view.sizeHint().height() > five);
  CHECK(five >= high);
  ui::dress();
}

TEST_CASE("The headlines hold nothing against a benchmark until the program has one of its own",
          "[case-474]") {
  Desk desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.clinic.child("Lupe");
  const auto read = [&] {
    return ui::overviewOf(reports::termTotals(
        must(desk.clinic.session.termRecords(desk.clinic.term, desk.clinic.clock.now().date()))));
  };
  const auto plain = read();
  CHECK_FALSE(plain.benchmark);
  CHECK(plain.figures[0].benchmark.isEmpty());
  CHECK_FALSE(plain.figures[0].met);
  auto program = must(desk.clinic.session.program()).value;
  program.benchmarks.screened = 97;
  program.benchmarks.retained = 85;
  must(desk.clinic.session.correctProgram(desk.clinic.by, program, "agreed in June"));
  const auto own = read();
  CHECK(own.benchmark == 85);
  CHECK(own.figures[0].benchmark == u"benchmark 97%: below"_s);
  CHECK(own.figures[1].benchmark.isEmpty()); // none was set of those sealed
}

TEST_CASE("The headline of retention is below or met only where its whole CI is", "[case-518]") {
  Desk desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  auto totals = reports::termTotals(
      must(desk.clinic.session.termRecords(desk.clinic.term, desk.clinic.clock.now().date())));
  totals.targets.retained = .9;
  const auto said = [&](double kept) {
    std::vector<estimates::Cluster> children(40, {1, 0});
    for (std::size_t i = 0; i < static_cast<std::size_t>(kept); ++i)
      children[i].retained = 1;
    auto& line = totals.retention.total;
    line.assessable = 40;
    line.whole95 = must(estimates::retention(children));
    return ui::overviewOf(totals).figures[2];
  };
  CHECK(said(34).benchmark == u"benchmark 90%: cannot tell"_s);
  CHECK_FALSE(said(34).met);
  CHECK(said(20).benchmark == u"benchmark 90%: below"_s);
  CHECK(said(40).benchmark == u"benchmark 90%: met"_s);
  CHECK(said(40).met == true);
}

TEST_CASE("What is said of the terms is of the school that is chosen", "[case-186]") {
  // By hand: in all 60 of 200, then 90 of 200; at Alder 40 of 100, then 45 of 100.
  const auto id = [](std::uint8_t last) {
    base::Uuid uuid;
    uuid.bytes[15] = last;
    return roster::SchoolId(uuid);
  };
  const auto term = [&](const char* name, int alder, int brindle) {
    const auto day = *base::Date::parse("2027-11-16");
    reports::TermTotals totals{name, day, day, day, {}, {}, true, {}, {}, {}, {}, {}, {}};
    const auto add = [&](const char* school, std::uint8_t last, int consented) {
      auto& line = totals.schools.emplace_back();
      line.school = school;
      line.id = id(last);
      line.enrolled = 100;
      line.consented = consented;
    };
    add("Alder", 1, alder);
    add("Brindle", 2, brindle);
    totals.total.enrolled = 200;
    totals.total.consented = alder + brindle;
    return totals;
  };
  const std::vector terms{term("Fall 2026", 40, 20), term("Fall 2027", 45, 45)};
  CHECK(ui::trendOf(terms).says.startsWith(
      u"Consented, of enrolled: 30.0% in Fall 2026, 45.0% in Fall 2027."_s));
  const auto one = ui::trendOf(terms, id(1));
  CHECK(one.says.startsWith(
      u"Alder. Consented, of enrolled: 40.0% in Fall 2026, 45.0% in Fall 2027."_s));
  REQUIRE(one.plot);
  CHECK(one.plot->series.front().points.front().y == Approx(40));
}

TEST_CASE(
    "A headline whose range has a remark says the remark whole, and how many were assessed over "
    "the schools",
    "[case-490]") {
  Desk desk;
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  auto totals = reports::termTotals(
      must(desk.clinic.session.termRecords(desk.clinic.term, desk.clinic.clock.now().date())));
  auto& line = totals.retention.total;
  const std::vector<estimates::Cluster> schools{
      {128, 114}, {97, 87}, {130, 105}, {63, 56}, {84, 74}};
  line.whole95 = must(estimates::retention(schools));
  line.unit = reports::ClusterUnit::schools;
  line.assessable = 502;
  const auto few = ui::overviewOf(totals).figures.at(2).of;
  CHECK(few.startsWith(u"95% CI "_s));
  CHECK(few.endsWith(u", few schools"_s));
  std::vector<estimates::Cluster> many;
  for (int i = 0; i < 8; ++i)
    many.insert(many.end(), schools.begin(), schools.end());
  line.whole95 = must(estimates::retention(many));
  CHECK(ui::overviewOf(totals).figures.at(2).of.endsWith(u"; 502 assessed"_s));
}
