#include "ui/asking/read_date.h"

#include "base/text.h"
#include "roster/child.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

using base::Date;
using base::Error;
using base::ErrorCode;

base::Result<Date> readDate(const QString& text, Prompter& prompter,
                            const std::optional<OfChild>& ofChild) {
  const auto typed = toStd(text.trimmed());
  auto plain = base::parsePlainDate(typed);
  if (plain || typed.find('/') == std::string::npos) return plain;
  const auto readings = base::parseNumericDate(typed);
  if (!readings) return readings.error();
  if (!readings->dayFirst) return readings->monthFirst;

  std::vector<Date> dates;
  if (ofChild) dates = roster::plausibleReadings(*readings, ofChild->grade, ofChild->on);
  for (const auto& date : {readings->monthFirst, *readings->dayFirst})
    if (std::ranges::find(dates, date) == dates.end()) dates.push_back(date);
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
