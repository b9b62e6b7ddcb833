#pragma once

#include "base/time/date.h"
#include "ui/asking/prompter.h"

#include <string>

namespace gk::ui {

/// What helps to tell which reading of a birth date is meant.
struct OfChild {
  std::string grade;
  base::Date on;
};

/// What a date may be, as far as that is known.
struct LikelyDate {
  std::optional<OfChild> child{};    ///< a birth date
  std::optional<base::Date> until{}; ///< such as today, where what was signed is meant
};

/// "2019-03-04" as it stands, "3/4/2019" and "3-4-19" with the month first. It is asked about in
/// words only where the other reading fits better. Fails with `dateMalformed`, also when no one
/// says which.
base::Result<base::Date> readDate(const QString& text, Prompter& prompter,
                                  const LikelyDate& likely = {});

} // namespace gk::ui
