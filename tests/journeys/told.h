#pragma once

#include "demo.h"
#include "reports/records/inputs.h"
#include "session/session.h"
#include "support/clinic.h"

namespace gk::test {

/// The demo logbook, told into a folder of its own and opened to look at.
class Told {
 public:
  explicit Told(demo::Until until);

  [[nodiscard]] session::Session& book() { return *book_; }
  [[nodiscard]] const base::Path& folder() const { return scratch_.path(); }
  /// 0 is 2025, 1 is 2026.
  [[nodiscard]] reports::TermRecords term(std::size_t place);
  /// November 17, 2026 at Cobble Lantern.
  [[nodiscard]] reports::DayRecords lastDay();
  /// By the digits on the slip, without the check digit.
  [[nodiscard]] roster::ChildId child(const std::string& digits);

 private:
  Scratch scratch_;
  base::SystemClock clock_;
  base::SeededRandom random_{1};
  std::optional<session::Session> book_;
};

} // namespace gk::test
