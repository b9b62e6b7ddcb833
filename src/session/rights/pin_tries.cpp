#include "session/rights/pin_tries.h"

#include <algorithm>

namespace gk::session {

using base::Milliseconds;

Milliseconds PinTries::wait(base::MemberId who, Milliseconds now) const {
  const int wrong = most - left(who);
  if (wrong == 0 || wrong == most) return {};
  const Milliseconds until = last_ + waits[static_cast<std::size_t>(wrong - 1)];
  return std::max(until - now, Milliseconds(0));
}

int PinTries::left(base::MemberId who) const {
  const auto own = wrong_.find(who);
  return most - std::min(most, std::max(inARow_, own == wrong_.end() ? 0 : own->second));
}

bool PinTries::isSpent(base::MemberId who) const {
  return left(who) == 0;
}

bool PinTries::isAnySpent() const {
  return inARow_ >= most ||
         std::ranges::any_of(wrong_, [](const auto& one) { return one.second >= most; });
}

void PinTries::noteWrong(base::MemberId who, Milliseconds now) {
  ++wrong_[who];
  ++inARow_;
  last_ = now;
}

void PinTries::noteRight(base::MemberId who) {
  wrong_.erase(who);
  inARow_ = 0;
}

} // namespace gk::session
