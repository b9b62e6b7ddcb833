#include "chairside/step_timer.h"

#include <algorithm>

namespace gk::chairside {

StepTimer::StepTimer(base::Seconds target, base::Milliseconds steadyNow)
    : target_(target), started_(steadyNow), seen_(steadyNow) {}

bool StepTimer::observe(base::Milliseconds steadyNow) {
  slept_ = slept_ || steadyNow - seen_ > sleepGap;
  if (!slept_) seen_ = std::max(seen_, steadyNow);
  return !slept_;
}

bool StepTimer::accepts(base::Milliseconds steadyNow) const {
  return steadyNow - started_ >= bounce;
}

base::Milliseconds StepTimer::elapsed(base::Milliseconds steadyNow) const {
  return (slept_ ? seen_ : std::max(seen_, steadyNow)) - started_;
}

bool StepTimer::reached(base::Milliseconds steadyNow) const {
  return !slept_ && elapsed(steadyNow) >= target_;
}

} // namespace gk::chairside
