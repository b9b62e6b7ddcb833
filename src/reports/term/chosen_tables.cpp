#include "reports/term/chosen_tables.h"

#include "reports/records/words.h"
#include "reports/retention/retention_table.h"
#include "reports/term/term_tables.h"

namespace gk::reports {

namespace {

constexpr std::size_t retentionBySchool = 3; // of termTables

} // namespace

bool choosesMoreThanSchool(const Choice& choice) {
  for (std::size_t i = 0; i < choice.only.size(); ++i)
    if (static_cast<Factor>(i) != Factor::school && choice.only[i]) return true;
  return false;
}

Table notParted(const Table& table, const std::string& words) {
  const std::string part(partName(table));
  return {part + ": not of " + words + " alone",
          {{"Not shown"}},
          {part + " is counted of all students and is not parted by this choice (" + words +
           "). Choose All there to see it."}};
}

void noteNotApplied(std::vector<Table>& tables, const std::string& words) {
  for (auto& table : tables)
    table.notes.push_back("Not applied; this report does not use it: " + words + ".");
}

std::vector<Table> chosenTermTables(const TermTotals& totals, const RetentionFacts& facts,
                                    const Choice& choice, const std::string& words) {
  auto tables = termTables(totals);
  for (std::size_t i = 0; i < tables.size(); ++i) {
    if (i != retentionBySchool) {
      tables[i] = notParted(tables[i], words);
      continue;
    }
    auto lines = retentionBy(facts, Factor::school, choice);
    lines.push_back(retentionLine(facts, choice));
    tables[i] = retentionTable("Retention at " + std::to_string(totals.window.fromMonths) + " to " +
                                   std::to_string(totals.window.untilMonths) +
                                   " months, by placing school, " + words,
                               lines);
    tables[i].columns.front() = {"School where placed", Kind::text, "placed_at"};
  }
  return tables;
}

} // namespace gk::reports
