#pragma once

#include "chairside/after_cure.h"
#include "chairside/placement.h"

#include <optional>
#include <string>
#include <vector>

namespace gk::session {

/// These teeth go no further today: each gets a placement that does not count.
struct ChairStop {
  chairside::FieldId field;
  std::vector<dentition::Tooth> teeth;
  std::string reason;
};

/// Findings as they are from now on.
struct FindingsChange {
  base::Recorded<chairside::Screening> old;
  chairside::Screening screening;
  std::string reason;
};

/// A guardian's word that ends the consent.
struct Withdrawal {
  roster::ChildId child;
  std::string how; ///< who said so, how, and who took the word
};

/// What one key does at the chair, all of one child on one day. Written in this order.
struct ChairWork {
  std::vector<chairside::StepRun> steps{};
  std::vector<chairside::Wet> wets{};
  std::vector<ChairStop> stops{};
  std::optional<FindingsChange> findings{};
  std::optional<Withdrawal> withdrawal{};
  std::optional<chairside::TimerStart> timer{};
  std::optional<chairside::DayOutcome> outcome{};
};

/// What became of it, in the order given.
struct Worked {
  std::vector<chairside::StepId> steps{};
  std::vector<chairside::WetId> wets{};
  std::optional<chairside::TimerId> timer{};
  std::optional<chairside::OutcomeId> outcome{};
};

} // namespace gk::session
