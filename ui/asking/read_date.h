#pragma once

#include "base/date.h"
#include "ui/asking/prompter.h"

#include <string>

namespace gk::ui {

/// What helps to tell which reading of a birth date is meant.
struct OfChild {
  std::string grade;
  base::Date on;
};

/// "2019-03-04" as it stands; "3/4/2019" is asked about in words when it can be read two ways, the
/// reading that fits the grade first. Fails with `dateMalformed`, also when nobody says which.
base::Result<base::Date> readDate(const QString& text, Prompter& prompter,
                                  const std::optional<OfChild>& ofChild = std::nullopt);

} // namespace gk::ui
