#include "roster/days/clinic_day.h"

#include <algorithm>

namespace gk::roster {

std::string dateQuestion(const Term& term, base::Date date) {
  if (date < term.start || date > term.end)
    return date.words() + " is outside the term " + term.name;
  if (std::ranges::find(term.holidays, date) != term.holidays.end())
    return date.words() + " is a school holiday";
  const std::chrono::weekday weekday{date.days()};
  if (weekday == std::chrono::Saturday || weekday == std::chrono::Sunday)
    return date.words() + " is a " + date.weekday();
  return {};
}

} // namespace gk::roster
