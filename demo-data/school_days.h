#pragma once

#include "visits/checks.h"

namespace gk::demo {

/// A child's turn on a day: a first visit, or a recheck.
struct Turn {
  roster::ChildId child;
  ChildPlan plan{};
  std::optional<Recheck> recheck{};
  std::optional<kit::LightId> light{}; ///< the laptop's own where none is meant
};

/// All days of one school in one fall.
struct SchoolDays {
  std::size_t school;
  Autumn autumn;
  std::vector<base::Date> dates;
  std::vector<std::vector<Turn>> turns; ///< for each date
  std::vector<roster::DayId> opened{};

  [[nodiscard]] Desk laptop() const { return county().at(school).laptop; }
};

/// Those seen are spread over the days; those not seen stand on the last, when they have been asked
/// for again.
SchoolDays spread(std::size_t school, Autumn autumn, std::vector<base::Date> dates,
                  std::vector<Turn> turns);

/// Opens the school's next day on its laptop, reads the lights, signs the day before, sees the
/// children, and after the last day signs it too. A day that was not the last can only be signed
/// once the next is there, since until then every child not seen is still to be seen.
void tellNextDay(Story& story, SchoolDays& days);

/// Opens a day on that laptop with its readings.
roster::DayId openDay(Story& story, const SchoolDays& days, base::Date date, Desk laptop);
Chair chairOf(Story& story, Autumn autumn, roster::DayId day, base::Date date, Desk laptop,
              std::size_t turn);
void sign(Story& story, Desk laptop, roster::DayId day, base::MemberId clinical);
/// What the meter M-1 shows that morning.
int readingOf(const Kit& kit, kit::LightId light, base::Date date);
void enterReading(Story& story, Desk laptop, kit::LightId light, base::Date date);

/// Something on a date; told in the order of dates.
struct Event {
  base::Date date;
  std::function<void()> tell;
};
void tellInOrder(std::vector<Event> events);

} // namespace gk::demo
