#include "telling/teller.h"

#include "plan/county.h"

namespace gk::demo {

namespace {

using std::chrono::minutes;

/// Summer time of the east of the United States, by date; school days start after 2 a.m.
minutes offsetOn(base::Date date) {
  const bool summer = (date >= on(2025, 3, 9) && date < on(2025, 11, 2)) ||
                      (date >= on(2026, 3, 8) && date < on(2026, 11, 1));
  return minutes(summer ? -240 : -300);
}

base::LocalInstant moment(base::Date date, minutes timeOfDay) {
  return base::atLocal(date, timeOfDay, offsetOn(date));
}

} // namespace

Teller::Teller() : clock(moment(on(2025, 9, 2), minutes(8 * 60))), forBooks(858), forPeople(920) {}

void Teller::mustHold(bool claim, const std::string& what) {
  if (!claim) halt({base::ErrorCode::notFound, what});
}

void Teller::goTo(base::Date date, minutes timeOfDay) {
  const auto to = moment(date, timeOfDay);
  if (to.at > clock.now().at) clock.setWall(to);
}

base::Milliseconds Teller::pass(int seconds) {
  const auto least = base::Milliseconds(base::Seconds(seconds));
  const auto more =
      static_cast<std::int64_t>(forPeople.below(static_cast<std::uint64_t>(least.count() / 5 + 1)));
  const auto time = least + base::Milliseconds(more);
  clock.advance(time);
  return time;
}

void Teller::halt(base::Error error) const {
  error.detail = "at " + step_ + ": " + error.detail;
  throw Halt{std::move(error)};
}

void Teller::haltUnlessRefused(base::ErrorCode code,
                               const std::optional<base::Error>& instead) const {
  halt({code, "this act should have been refused with " + std::string(base::errorName(code)) +
                  (instead ? ", not " + std::string(base::errorName(instead->code)) + ": " +
                                 instead->detail
                           : "")});
}

} // namespace gk::demo
