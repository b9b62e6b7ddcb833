#pragma once

#include "base/identity/id.h"
#include "base/time/clock.h"

#include <array>
#include <map>

namespace gk::session {

/// Wrong PINs in a row at this laptop. After each the next is looked at only after a while, and
/// after five none is, until the logbook's passphrase was given: four digits are guessed in an
/// afternoon by whoever may go on. A right PIN forgets that member's own wrong ones alone.
class PinTries {
 public:
  static constexpr int most = 5;
  /// After the first, second, third and fourth wrong one in a row (ours; no source).
  static constexpr std::array<base::Seconds, most - 1> waits{base::Seconds(2), base::Seconds(5),
                                                             base::Seconds(15), base::Seconds(30)};

  /// Zero: it is looked at now. `now` is steady.
  [[nodiscard]] base::Milliseconds wait(base::MemberId who, base::Milliseconds now) const;
  /// No PIN of hers is looked at any more.
  [[nodiscard]] bool isSpent(base::MemberId who) const;
  [[nodiscard]] bool isAnySpent() const;
  /// How many more of hers will be looked at.
  [[nodiscard]] int left(base::MemberId who) const;

  void noteWrong(base::MemberId who, base::Milliseconds now);
  void noteRight(base::MemberId who);
  /// The passphrase was given.
  void forget() { *this = {}; }

 private:
  std::map<base::MemberId, int> wrong_; ///< in a row, of each
  int inARow_ = 0;                      ///< whoever's
  base::Milliseconds last_{};
};

} // namespace gk::session
