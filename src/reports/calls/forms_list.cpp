#include "reports/calls/forms_list.h"

#include "base/text/text.h"
#include "reports/print/cells.h"

#include <algorithm>
#include <tuple>

namespace gk::reports {

namespace {

Cells formRow(const FormsOfRoom& room) {
  const int back = room.yes + room.no + room.incomplete + room.other + room.left;
  return {room.school,   room.room.empty() ? "no room" : room.room,
          room.children, room.handedOut ? Cell(*room.handedOut) : Cell("not entered"),
          back,          room.yes,
          room.no,       room.incomplete,
          room.other,    room.left,
          room.missing};
}

} // namespace

Table formCountTable(const std::string& term, base::Date on,
                     const std::vector<FormsOfRoom>& rooms) {
  Table table{"Consent forms by room: " + term + ", " + on.words(),
              {grouped("School"), texts("Room"), counts("Students"), counts("Handed out"),
               counts("Back"), counts("Yes"), counts("No"), counts("Incomplete"),
               counts("Withdrawn or on hold"), counts("Left since"), counts("Not back")},
              {"Students: on the roster now. Back: forms that are valid or answer for this term, "
               "also of students who have left the program since; what those say counts no more. "
               "Handed out is as entered; it is not counted by student."}};
  FormsOfRoom all{"All", ""};
  for (const auto& room : rooms) {
    table.rows.push_back(formRow(room));
    all.children += room.children;
    if (room.handedOut) all.handedOut = all.handedOut.value_or(0) + *room.handedOut;
    all.yes += room.yes;
    all.no += room.no;
    all.incomplete += room.incomplete;
    all.other += room.other;
    all.left += room.left;
    all.missing += room.missing;
  }
  auto last = formRow(all);
  last[1] = base::counted(std::ssize(rooms), "room", "rooms");
  table.rows.push_back(std::move(last));
  return table;
}

Table formsToChaseTable(const std::string& term, base::Date on, std::vector<FormToChase> children) {
  std::ranges::sort(children, {}, [](const FormToChase& child) {
    return std::tuple(child.school, base::numberedPlace(child.room), base::folded(child.name),
                      child.number);
  });
  Table table{"Forms to chase: " + term + ", " + on.words(),
              {grouped("School"),
               {"Room"},
               {"Grade"},
               {"Number"},
               {"Student"},
               {"Why"},
               {"Call"},
               {"Phone"},
               {"Language"}},
              {"This page names students and adults: keep it locked up, and shred it after use."}};
  for (auto& child : children)
    table.rows.push_back({std::move(child.school), std::move(child.room), std::move(child.grade),
                          std::move(child.number), std::move(child.name), std::move(child.why),
                          std::move(child.guardian), std::move(child.phone),
                          std::move(child.language)});
  return table;
}

} // namespace gk::reports
