#include "reports/sheets/plan_table.h"

#include "base/text.h"

namespace gk::reports {

Table planTable(const std::string& term, const std::vector<PlannedLine>& days) {
  Table table{"Planned days: " + term,
              {{"Day"},
               {"School"},
               {.heading = "Team", .number = true},
               {.heading = "Chairs", .number = true},
               {"People"},
               {.heading = "Students with a yes", .number = true},
               {.heading = "Sealants expected", .number = true},
               {.heading = "95% CI", .number = true},
               {"Note"}},
              {},
              {"Sealants expected: the shares screened, needing and sealed in earlier terms, times "
               "the students whose form says yes for that day. The interval is that of the share "
               "sealed; a single day varies more. Blank: no earlier term has been counted.",
               "Plan the day itself by your program's own experience."}};
  for (const auto& day : days) {
    std::vector<std::string> notes;
    if (day.cancelled) notes.emplace_back("CANCELED");
    if (!day.odd.empty()) notes.push_back("\u25b2 " + day.odd);
    if (!day.note.empty()) notes.push_back(day.note);
    table.rows.push_back(
        {day.day.weekday().substr(0, 3) + ", " + day.day.shortWords(), day.school,
         std::to_string(day.team), std::to_string(day.chairs), day.people,
         std::to_string(day.children), day.teeth ? base::fixed(*day.teeth, 0) : std::string(),
         day.teethRange
             ? base::fixed(day.teethRange->first, 0) + "-" + base::fixed(day.teethRange->second, 0)
             : std::string(),
         base::join(notes, ". ")});
  }
  return table;
}

} // namespace gk::reports
