#include "base/text.h"
#include "reports/print/render.h"
#include "reports/publish/random_programs.h"
#include "support/long_checks.h"
#include "support/outside.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>

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
          "[case-83]") {
  if (!hasSolver()) return;
  const test::Scratch folder;
  base::SeededRandom random(test::seedOr(83));
  const int programs = test::rounds(20, 200);
  const auto pages = test::writeRandomPrograms(folder / "pages", programs, random);
  const auto attacked = attackPages(folder / "pages", folder / "log");
  INFO(attacked.said);
  CHECK(attacked.isSafe);
  CHECK(attacked.said.find(": 0 with fewer than 5 possible values") != std::string::npos);
  // Hiding all would be safe as well.
  CHECK(pages.pages > 3 * programs);
  CHECK(pages.refused * 50 < pages.pages);
  CHECK(pages.totalsAlone * 50 < pages.pages);
  CHECK(2 * pages.withheld < pages.cells);
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
        "School where placed,Children due,Teeth due\nBrindle Quay,38,139\nTotal,38,139\n");
  write(pages / "0", ".", "truth.csv", "0-0,Brindle Quay,needing,47\n0-0,Brindle Quay,sealed,38\n");
  said("9 is in 9 to 9");
}

TEST_CASE("The attack that finds no table calls nobody safe where the true table fits or pages lie",
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
    const auto due = cellOf(second.tables[3], school, "Children due");
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
