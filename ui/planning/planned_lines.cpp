#include "base/text/text.h"
#include "reports/sheets/planned_children.h"
#include "session/day/school_ahead.h"
#include "ui/planning/calendar_page.h"
#include "ui/support/text.h"

#include <QComboBox>

#include <algorithm>

// What a planned day is expected to bring, and what to pack for it.
namespace gk::ui {

bool CalendarPage::isAhead(const roster::PlannedDay& day) const {
  return !day.canceled && context().clock.now().date() <= day.date;
}

std::optional<reports::PlannedLine>
CalendarPage::lineOf(const base::Recorded<roster::PlannedDay>& plan) {
  const auto& day = plan.value;
  const auto odd = book().planQuestion(day, plan.id);
  if (!went(odd)) return std::nullopt;
  const auto at = std::ranges::find(schools_, day.school);
  reports::PlannedLine line{.day = day.date};
  if (at != schools_.end())
    line.school = toStd(school_->itemText(static_cast<int>(at - schools_.begin())));
  line.team = day.team;
  line.chairs = day.chairs;
  line.people = day.people;
  line.odd = day.canceled ? std::string() : *odd;
  line.note = day.note;
  line.canceled = day.canceled;
  if (!isAhead(day)) return line; // no one is expected of it any more
  if (!seen_.contains(day.school)) {
    auto seen = session::seenInTerm(book(), day.term, day.school, day.date);
    if (!went(seen)) return std::nullopt;
    seen_.emplace(day.school, std::move(*seen));
  }
  const auto forms =
      session::formsAhead(book(), day.term, day.school, day.date, seen_.at(day.school));
  if (!went(forms)) return std::nullopt;
  const auto past = past_.value_or(reports::PastCare());
  const auto ahead =
      reports::childrenAhead({forms->yes, forms->back, forms->students, forms->seen}, past);
  int days = 0;
  int place = 0;
  for (const auto& other : plans_) {
    if (other.value.school != day.school || !isAhead(other.value)) continue;
    if (other.id == plan.id) place = days;
    ++days;
  }
  line.children = reports::shareOfDay(ahead.children, std::max(days, 1), place);
  if (ahead.consentShare)
    line.basis = "Few forms are back: counted on " +
                 base::counted(static_cast<std::size_t>(forms->students), "student", "students") +
                 " x " + base::fixed(*ahead.consentShare * 100, 0) + "% consent in earlier terms";
  else if (ahead.isUnknown)
    line.basis = "No forms are back, and no earlier term says how many will be";
  const auto expected = reports::forecast(past, *line.children);
  const auto pack = reports::supplies(expected);
  line.teeth = expected.teeth;
  if (expected.teethRange)
    line.teethRange = std::pair(expected.teethRange->low, expected.teethRange->high);
  line.supplies = expected.teeth
                      ? base::counted(pack.sealantDoses, "sealant dose", "sealant doses") + ", " +
                            base::counted(pack.isolationSets, "isolation set", "isolation sets")
                  : isPart_ ? "sealant doses as the calendar of the whole logbook says"
                            : "sealant doses by your own experience, no earlier term is here";
  line.supplies += ", " + base::counted(pack.varnishDoses, "varnish dose", "varnish doses") + ", " +
                   base::counted(pack.glovePairs, "pair of gloves", "pairs of gloves") + ", " +
                   base::counted(pack.mirrors, "mirror", "mirrors");
  if (expected.childrenPerDay && *expected.childrenPerDay > 0)
    line.supplies += ". At " + base::fixed(*expected.childrenPerDay, 0) +
                     " students a day, as in earlier terms, that is " +
                     base::fixed(*line.children / *expected.childrenPerDay, 1) +
                     " days of one team";
  return line;
}

} // namespace gk::ui
