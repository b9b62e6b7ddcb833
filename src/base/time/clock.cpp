#include "base/time/clock.h"

#include "base/contract.h"

#include <array>
#include <cstdio>
#include <ctime>

namespace gk::base {

using std::chrono::days;
using std::chrono::floor;
using std::chrono::minutes;
using std::chrono::sys_days;

namespace {

auto localTime(const LocalInstant& moment) {
  return std::chrono::sys_time<Milliseconds>(moment.at.utc + moment.offset);
}

Milliseconds read(clockid_t clock) {
  std::timespec now{};
  require(clock_gettime(clock, &now) == 0, "no steady clock");
  return Milliseconds(now.tv_sec * 1000 + now.tv_nsec / 1'000'000);
}

} // namespace

Date LocalInstant::date() const {
  return Date::fromDays(floor<days>(localTime(*this)));
}

minutes LocalInstant::timeOfDay() const {
  const auto local = localTime(*this);
  return floor<minutes>(local - floor<days>(local));
}

std::string LocalInstant::text() const {
  const auto time = timeOfDay().count();
  std::array<char, 16> buffer{};
  std::snprintf(buffer.data(), buffer.size(), " %02d:%02d", static_cast<int>(time / 60),
                static_cast<int>(time % 60));
  return date().iso() + buffer.data();
}

std::string LocalInstant::words() const {
  return date().shortWords() + ", " + clockWords();
}

std::string LocalInstant::clockWords() const {
  return base::clockWords(static_cast<int>(timeOfDay().count()));
}

LocalInstant atLocal(Date date, minutes timeOfDay, minutes offset) {
  const auto local = date.days().time_since_epoch() + timeOfDay;
  return {Instant{local - offset}, offset};
}

LocalInstant SystemClock::now() {
  const auto now = std::chrono::floor<Milliseconds>(std::chrono::system_clock::now());
  const std::time_t seconds = std::chrono::system_clock::to_time_t(now);
  std::tm local{};
  localtime_r(&seconds, &local);
  return {Instant{now.time_since_epoch()}, minutes{local.tm_gmtoff / 60}};
}

Milliseconds SystemClock::steady() {
  // Not std::chrono::steady_clock: on Linux that stands still while the laptop sleeps, and a cure
  // that the laptop slept through must show.
  return read(CLOCK_BOOTTIME);
}

Milliseconds SystemClock::awake() {
  return read(CLOCK_MONOTONIC);
}

void ManualClock::advance(Milliseconds by) {
  require(by.count() >= 0, "a clock does not run backwards");
  now_.at.utc += by;
  steady_ += by;
}

void ManualClock::sleep(Milliseconds by) {
  advance(by);
  slept_ += by;
}

} // namespace gk::base
