#pragma once

#include "base/random.h"
#include "base/result.h"
#include "base/time/clock.h"

#include <string>

namespace gk::demo {

/// Stops the story from deep inside a day; never leaves `buildDemo`.
struct Halt {
  base::Error error;
};

/// Where the story stands: its clock, its chance, and the step to name when something is refused.
class Teller {
 public:
  Teller();

  base::ManualClock clock;
  base::SeededRandom forBooks;  ///< identities and keys; fit for an invented book only
  base::SeededRandom forPeople; ///< how long hands take

  void at(std::string step) { step_ = std::move(step); }

  /// A refusal here is a bug of the demo.
  template <class T>
  T must(base::Result<T> result) {
    if (!result) halt(result.error());
    return *std::move(result);
  }
  /// A drill: the act must be refused with this code.
  template <class T>
  void mustRefuse(const base::Result<T>& result, base::ErrorCode code) {
    if (result || result.error().code != code)
      haltUnlessRefused(code, result ? std::nullopt : std::optional(result.error()));
  }
  void mustHold(bool claim, const std::string& what);

  /// Sets the wall clock; on the same day never back.
  void goTo(base::Date date, std::chrono::minutes timeOfDay);
  /// Lets so many seconds go by, up to a fifth more; how long it was.
  base::Milliseconds pass(int seconds);

 private:
  [[noreturn]] void halt(base::Error error) const;
  [[noreturn]] void haltUnlessRefused(base::ErrorCode code,
                                      const std::optional<base::Error>& instead) const;

  std::string step_ = "the beginning";
};

} // namespace gk::demo
