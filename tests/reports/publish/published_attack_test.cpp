#include "base/text/text.h"
#include "reports/print/cells.h"
#include "reports/print/render.h"
#include "reports/publish/random_programs.h"
#include "reports/workbook/workbook.h"
#include "support/long_checks.h"
#include "support/outside.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>
#include <iostream>

using namespace gk;
using namespace gk::reports;

namespace {

/// The system's own Python, where Debian's packages are.
const std::string systemPython = "/usr/bin/python3";

bool isDone(const std::string& command) {
  return std::system(command.c_str()) == 0;
}

bool hasSolver() {
  return test::runsOutside("python3-scipy",
                           isDone(systemPython + " -c 'import scipy.optimize' 2>/dev/null")) &&
         test::runsOutside("coinor-cbc", isDone("command -v cbc >/dev/null"));
}

struct Attacked {
  bool isSafe;
  std::string said;
};

/// By a program that has nothing of this one and reads what was printed.
Attacked attackPages(const base::Path& pages, const base::Path& log) {
  const bool isSafe =
      isDone(systemPython + " '" + std::string(GK_SOURCE_DIR) + "/.ci/attack-pages' '" +
             pages.string() + "' >'" + log.string() + "' 2>&1");
  return {isSafe, base::readFile(log).value()};
}

void write(const base::Path& folder, const std::string& page, const std::string& file,
           const std::string& text) {
  std::filesystem::create_directories(folder / page);
  std::ofstream(folder / page / file) << text;
}

/// A school of the invented county, whose other figures have no part in this.
Participation sealedAt(const std::string& name, int needing, int sealed, int firstMolars) {
  Participation at;
  at.school = name;
  at.enrolled = 3 * needing;
  at.formsBack = 2 * needing + 10;
  at.consented = 2 * needing - 10;
  at.screened = 2 * needing - 22;
  at.needing = needing;
  at.sealed = sealed;
  at.firstMolars = firstMolars;
  at.varnish = needing;
  return at;
}

RetentionLine checkedAt(const Participation& sealed) {
  RetentionLine at;
  at.label = sealed.school;
  at.childrenDue = sealed.sealed;
  at.childrenFound = sealed.sealed * 7 / 10;
  at.due = sealed.teeth();
  at.examined = at.due * 7 / 10;
  at.assessable = at.examined;
  at.part = at.examined / 12;
  at.lost = at.examined / 20;
  at.whole = at.assessable - at.part - at.lost;
  return at;
}

TermTotals termOf(std::vector<Participation> schools, std::vector<RetentionLine> checks) {
  const auto day = *base::Date::parse("2026-11-17");
  TermTotals totals{"Autumn", day, day, day, {}, {}, true, std::move(schools), {}, {}, {}, {}, {}};
  totals.total = sumOf(totals.schools);
  totals.retention.total.label = "Total";
  for (const auto& one : checks) {
    auto& all = totals.retention.total;
    all.childrenDue += one.childrenDue;
    all.childrenFound += one.childrenFound;
    all.due += one.due;
    all.examined += one.examined;
    all.assessable += one.assessable;
    all.whole += one.whole;
    all.part += one.part;
    all.lost += one.lost;
  }
  totals.retention.schools = std::move(checks);
  return totals;
}

std::string cellOf(const Table& table, const std::string& row, const std::string& column) {
  const auto at = std::ranges::find(table.columns, column, &Column::heading);
  REQUIRE(at != table.columns.end());
  for (const auto& cells : table.rows)
    if (cells.front() == row)
      return cells.at(static_cast<std::size_t>(at - table.columns.begin())).text();
  return "left out";
}

} // namespace

TEST_CASE("No outsider works out a small count from what programs publish over three terms",
          "[case-83][case-395]") {
  if (!hasSolver()) return;
  const test::Scratch folder;
  base::SeededRandom random(test::seedOr(83));
  const int programs =
      test::rounds(20, 20); // .ci/nightly draws and attacks 200 in steps of its own
  const auto pages = test::writeRandomPrograms(folder / "pages", programs, random);
  const auto attacked = attackPages(folder / "pages", folder / "log");
  INFO(attacked.said);
  CHECK(attacked.isSafe);
  CHECK(attacked.said.find(": 0 with fewer than 5 possible values") != std::string::npos);
  // Hiding all would be safe as well.
  CHECK(pages.pages > 2 * programs);
  CHECK(pages.ofState > programs);
  CHECK(pages.refused * 50 < pages.pages);
  CHECK(pages.totalsAlone * 50 < pages.pages);
  CHECK(2 * pages.withheld < pages.cells);
}

/// GROOVEKEEPER_PAGES names the folder: for a look at them, and for more of them in several runs.
TEST_CASE("What random programs publish is left in a folder", "[.pages]") {
  const auto* folder = std::getenv("GROOVEKEEPER_PAGES");
  REQUIRE(folder);
  base::SeededRandom random(test::seedOr(83));
  const auto pages = test::writeRandomPrograms(folder, test::rounds(20, 200), random);
  std::cout << pages.pages << " pages, " << pages.ofState << " of a state, " << pages.refused
            << " refused, " << pages.withheld << " of " << pages.cells << " counts hidden\n";
}

TEST_CASE("The attack finds a count that four molars a child or the next term's checks give away",
          "[case-83]") {
  if (!hasSolver()) return;
  const test::Scratch folder;
  const auto pages = folder / "pages";
  const auto said = [&](const std::string& count) {
    const auto attacked = attackPages(pages, folder / "log");
    INFO(attacked.said);
    CHECK_FALSE(attacked.isSafe);
    CHECK(attacked.said.find(count) != std::string::npos);
  };
  // 36 first molars of fewer than ten children are nine children's.
  write(pages / "0", "0-0", "services.csv",
        "School,Needing sealants,Sealed,First molars\n"
        "Elderbrook,suppressed,fewer than 10,36\nTotal,suppressed,suppressed,suppressed\n");
  write(pages / "0", ".", "truth.csv", "0-0,Elderbrook,sealed,9\n");
  said("('0-0', 'Elderbrook', 'sealed'): 9 is in 9 to 9");
  // 47 needed sealants, and the year after 38 children are due.
  write(pages / "0", "0-0", "services.csv",
        "School,Needing sealants,Sealed,First molars\n"
        "Brindle Quay,47,suppressed,139\nTotal,47,suppressed,139\n");
  write(pages / "0", "1-0", "checks.csv",
        "School where placed,Students due,Teeth due\nBrindle Quay,38,139\nTotal,38,139\n");
  write(pages / "0", ".", "truth.csv", "0-0,Brindle Quay,needing,47\n0-0,Brindle Quay,sealed,38\n");
  said("9 is in 9 to 9");
}

TEST_CASE("Schools that were one row when their sealants were placed stay one in the checks",
          "[case-83]") {
  const std::vector<Participation> before{
      sealedAt("Alder Hollow", 60, 49, 176), sealedAt("Brindle Quay", 47, 38, 139),
      sealedAt("Cobble Lantern", 68, 55, 198), sealedAt("Elderbrook", 52, 40, 144)};
  std::vector<RetentionLine> checks;
  for (const auto& one : before)
    checks.push_back(checkedAt(one));
  const auto checksAfter = [&](const Groups& then, const Groups& now) {
    auto release = publish(termOf(before, {}), {}, {}, then).release;
    release.of = OfTerm::sealedBefore;
    release.otherTerm = "before";
    return publish(termOf(before, checks), {}, std::vector{release}, now).tables[3];
  };
  const auto isOneRow = [](const Table& table, const std::string& row) {
    return cellOf(table, row, "Students due") != "left out";
  };
  const auto said = [](const Table& table) {
    return table.notes.back().starts_with("Schools that were one row in the term in which");
  };
  const auto carried = checksAfter({{"Alder Hollow", "Brindle Quay"}}, {});
  CHECK(isOneRow(carried, "Alder Hollow + Brindle Quay"));
  CHECK_FALSE(isOneRow(carried, "Alder Hollow"));
  CHECK(said(carried));
  const auto joined =
      checksAfter({{"Alder Hollow", "Brindle Quay"}}, {{"Brindle Quay", "Cobble Lantern"}});
  CHECK(isOneRow(joined, "Alder Hollow + Brindle Quay + Cobble Lantern"));
  const auto apart = checksAfter({}, {});
  CHECK(isOneRow(apart, "Alder Hollow"));
  CHECK_FALSE(said(apart));
}

TEST_CASE("The attack that finds no table calls no one safe where the true table fits or pages lie",
          "[case-83]") {
  if (!hasSolver()) return;
  const test::Scratch folder;
  const auto pages = folder / "pages";
  write(pages / "0", "0-0", "services.csv",
        "School,Needing sealants,Sealed\nElderbrook,20,suppressed\nTotal,20,suppressed\n");
  const auto truth = [&](const std::string& sealed) {
    write(pages / "0", ".", "truth.csv",
          "0-0,Elderbrook,needing,20\n0-0,Elderbrook,sealed," + sealed +
              "\n0-0,Total,needing,20\n0-0,Total,sealed," + sealed + "\n");
    return attackPages(pages, folder / "log");
  };
  CHECK(truth("14").isSafe); // 0 to 20
  const auto wrong = truth("21");
  CHECK_FALSE(wrong.isSafe);
  CHECK(wrong.said.find("the true table does not fit its own pages") != std::string::npos);
  // HiGHS says nothing fits and CBC finds tables: as if HiGHS had been asked and no more.
  const auto python = [&](const std::string& change, const std::string& sealed) {
    truth(sealed);
    const bool isSafe =
        isDone(systemPython +
               " -c \"import runpy, sys, types, scipy.optimize as o; "
               "o.milp = lambda *a, **k: types.SimpleNamespace(x=None, status=2); " +
               change + "sys.argv = ['', '" + pages.string() + "']; runpy.run_path('" +
               std::string(GK_SOURCE_DIR) + "/.ci/attack-pages', run_name='__main__')\" >'" +
               (folder / "log").string() + "' 2>&1");
    return Attacked{isSafe, base::readFile(folder / "log").value()};
  };
  const auto second = python("", "14");
  INFO(second.said);
  CHECK(second.isSafe);
  CHECK(second.said.find(": 0 with fewer than 5 possible values") != std::string::npos);
  // Both say so: the truth, which fits, says otherwise.
  const auto both = python("import subprocess, pathlib; subprocess.run = lambda a, **k: "
                           "pathlib.Path(a[-1]).write_text('Infeasible'); ",
                           "14");
  INFO(both.said);
  CHECK_FALSE(both.isSafe);
  CHECK(both.said.find("no table fits, they say, but the true one does") != std::string::npos);
}

TEST_CASE("Children due a year later do not give away how many were left unsealed", "[case-83]") {
  const std::vector<Participation> before{
      sealedAt("Alder Hollow", 60, 49, 176), sealedAt("Brindle Quay", 47, 38, 139),
      sealedAt("Cobble Lantern", 68, 55, 198), sealedAt("Dunlin Marsh", 34, 26, 92),
      sealedAt("Elderbrook", 52, 40, 144)};
  std::vector<RetentionLine> checks;
  for (const auto& one : before)
    checks.push_back(checkedAt(one));
  const auto first = publish(termOf(before, {}));
  const auto& services = first.tables[1];
  auto release = first.release;
  release.of = OfTerm::sealedBefore;
  release.otherTerm = "before";
  const auto second =
      publish(termOf({sealedAt("Alder Hollow", 61, 50, 180), sealedAt("Brindle Quay", 49, 35, 130)},
                     checks),
              {}, std::vector{release});
  for (const auto* school : {"Brindle Quay", "Dunlin Marsh"}) {
    INFO(school);
    const auto needing = cellOf(services, school, "Needing sealants");
    const auto sealed = cellOf(services, school, "Sealed");
    const auto due = cellOf(second.tables[3], school, "Students due");
    const bool needingShown = base::parseInt(needing).has_value();
    CHECK_FALSE((needingShown && base::parseInt(sealed).has_value()));
    CHECK_FALSE((needingShown && base::parseInt(due).has_value()));
  }
  if (!hasSolver()) return;
  const test::Scratch folder;
  for (const auto& [page, tables] :
       {std::pair("0-0", &first.tables), std::pair("1-0", &second.tables)})
    for (const auto& [file, text] : toCsvFiles(*tables))
      write(folder / "pages" / "0", page, file, text);
  std::string truth;
  for (const auto& one : before)
    truth += "0-0," + one.school + ",needing," + std::to_string(one.needing) + "\n0-0," +
             one.school + ",sealed," + std::to_string(one.sealed) + "\n";
  write(folder / "pages" / "0", ".", "truth.csv", truth);
  const auto attacked = attackPages(folder / "pages", folder / "log");
  INFO(attacked.said);
  CHECK(attacked.isSafe);
  CHECK(attacked.said.find(" 2 small counts") != std::string::npos);
}

TEST_CASE("The attack reads the pages for principals and funders, and workbooks, to the last bar",
          "[case-388]") {
  if (!hasSolver()) return;
  const test::Scratch folder;
  const auto pages = folder / "pages";
  // The tables hide how many of 47 in need were sealed: 38, so that 9 were not.
  write(pages / "0", "0-0", "services.csv",
        "School,Needing sealants,Sealed\nBrindle Quay,47,suppressed\nTotal,47,suppressed\n");
  write(pages / "0", ".", "truth.csv", "0-0,Brindle Quay,needing,47\n0-0,Brindle Quay,sealed,38\n");
  const auto withPage = [&](const Table& page, const std::string& said) {
    const std::vector<Table> tables{page};
    for (const auto& [file, text] :
         {std::pair("page.html", toHtml("School page", tables)),
          std::pair("page.xlsx", toWorkbook("School page", tables).value())}) {
      const bool isPicture = !page.front->pictures.empty();
      if (isPicture && std::string_view(file) == "page.xlsx") continue; // a workbook has none
      write(pages / "0", "0-0", file, text);
      const auto attacked = attackPages(pages, folder / "log");
      std::filesystem::remove(pages / "0" / "0-0" / file);
      INFO(file << ": " << attacked.said);
      CHECK(attacked.isSafe == said.empty());
      CHECK(attacked.said.find(said) != std::string::npos);
    }
  };
  const auto leaks = "9 is in 9 to 9";
  Table page{"Key figures of Brindle Quay, September 8, 2026 to November 28, 2026",
             {texts("Figure"), counts("Number"), counts("Of"), shares("Percent")}};
  page.rows = {{"Sealed, of those needing", Withheld{}, 47, Withheld{}},
               {"Teeth sealed", Withheld{}, "", ""}};
  page.front = Front{"Fall 2026 at your school", "Brindle Quay", "September 8, 2026"};
  withPage(page, "");
  auto told = page;
  told.rows[0][1] = 38;
  withPage(told, leaks);
  told = page;
  told.rows[0][3] = Share{38.0 / 47, 1};
  withPage(told, leaks);
  told = page;
  told.front->sentences = {"We screened 51 of your students and sealed 139 teeth for 38 of them."};
  withPage(told, leaks);
  told.front->sentences = {"Of those, 38 were sealed."}; // in words that it does not know
  withPage(told, "what does it tell? Of those, 38 were sealed.");
  told = page;
  told.front->figures = {{38, "", "students sealed"}};
  withPage(told, leaks);
  told.front->figures = {{Withheld{}, "", "students sealed, 80.9% of those who need it"}};
  withPage(told, leaks);
  told = page;
  Plot bars{"",
            {"", 0, 47, {}, false},
            namedRows({"Need sealants", "Sealed"}),
            {{"", PlotMark::blocks, {{47, 0}, {38, 1}}, {}, {"47", "38"}}}};
  bars.y.isDrawn = false;
  told.front->pictures = {{"From enrolled to sealed", bars}};
  withPage(told, leaks);
  // Its number hidden, its length not.
  told.front->pictures[0].plot.series[0].said = {"47", "suppressed"};
  withPage(told, "a bar is as long as a number that is not printed");
}
