#include "ui/asking/read_date.h"

#include "base/text/text.h"
#include "roster/child/child.h"
#include "ui/support/text.h"

#include <array>

namespace gk::ui {

using base::Date;
using base::Error;
using base::ErrorCode;

namespace {

/// Whether the reading with the day first is the likelier one.
bool isDayFirst(const base::DateReadings& readings, const LikelyDate& likely) {
  if (!readings.dayFirst) return false;
  if (likely.child) {
    const auto dates = roster::plausibleReadings(readings, likely.child->grade, likely.child->on);
    if (!roster::gradeNumber(likely.child->grade)) // then only a date that cannot be is the other
      return dates.size() == 1 && dates.front() != readings.monthFirst;
    return !dates.empty() && dates.front() != readings.monthFirst;
  }
  return likely.until && readings.monthFirst > *likely.until && *readings.dayFirst <= *likely.until;
}

} // namespace

base::Result<Date> readDate(const QString& text, Prompter& prompter, const LikelyDate& likely) {
  const auto typed = toStd(text.trimmed());
  auto plain = base::parsePlainDate(typed);
  if (plain) return plain;
  const auto readings = base::parseNumericDate(typed);
  if (!readings) return plain;
  if (!isDayFirst(*readings, likely)) return readings->monthFirst;

  const std::array dates{*readings->dayFirst, readings->monthFirst};
  QStringList words;
  for (const auto& date : dates)
    words += toQt(date.words());
  const auto chosen =
      prompter.choose(u"\"%1\" can be read two ways. Which is it?"_s.arg(text.trimmed()), words);
  if (!chosen)
    return Error{ErrorCode::dateMalformed, "say which day is meant, or write it as Mar 31, 2019"};
  return dates.at(static_cast<std::size_t>(*chosen));
}

} // namespace gk::ui
