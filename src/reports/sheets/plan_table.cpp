#include "reports/sheets/plan_table.h"

#include "base/text/text.h"
#include "reports/print/cells.h"

namespace gk::reports {

Table planTable(const std::string& term, const std::vector<PlannedLine>& days) {
  Table table{
      "Planned days: " + term,
      {{"Day"},
       {"School"},
       counts("Team"),
       counts("Chairs"),
       {"People"},
       counts("Students expected"),
       numbers("Sealants expected"),
       ranges("95% CI"),
       {"Note"}},
      {"Students expected: those whose form says yes and who were not seen this term, shared "
       "evenly over the days still planned at the school.",
       "Sealants expected: the shares screened, needing and sealed in earlier terms, times "
       "the students expected. The interval is that of the share sealed; a single day "
       "varies more. Blank: no earlier term has been counted.",
       "Plan the day itself by your program's own experience."}};
  for (const auto& day : days) {
    std::vector<std::string> notes;
    if (day.canceled) notes.emplace_back("CANCELED");
    if (!day.odd.empty()) notes.push_back("\u25b2 " + day.odd);
    if (!day.basis.empty()) notes.push_back(day.basis);
    if (!day.note.empty()) notes.push_back(day.note);
    table.rows.push_back(
        {day.day.weekday().substr(0, 3) + ", " + day.day.shortWords(), day.school, day.team,
         day.chairs, day.people, day.children ? Cell(*day.children) : Cell(noFigure),
         numberOf(day.teeth, 0),
         day.teethRange ? Cell(Range{day.teethRange->first, day.teethRange->second, 0})
                        : Cell(noFigure),
         base::join(notes, ". ")});
  }
  return table;
}

Table packingTable(const std::string& term, const std::vector<PlannedLine>& days) {
  Table table{"To pack: " + term,
              {{"Day"}, {"School"}, counts("Students expected"), {"Supplies"}},
              {},
              {"Sealant for the upper end of the interval and one in ten more; a "
               "varnish dose, a mirror and two pairs of gloves for each student expected."}};
  for (const auto& day : days)
    if (day.children)
      table.rows.push_back({day.day.weekday().substr(0, 3) + ", " + day.day.shortWords(),
                            day.school, *day.children, day.supplies});
  return table;
}

} // namespace gk::reports
