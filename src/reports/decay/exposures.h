#pragma once

#include "estimates/attack_rate/attack_rate_program.h"
#include "reports/records/term_view.h"

#include <map>

namespace gk::reports {

/// Never-sealed permanent molars and their time in the mouth, of each child whose first screening
/// ever by the program is of this term: from the mean eruption age by sex (first molars:
/// default 6.2 years) to the approximate age on the day. Affected when cavitated, restored or
/// crowned anywhere, or extracted: why is not recorded, and in a schoolchild it is decay as a rule.
/// A child seen before is left out: what was affected then is no news, and what was sound was
/// sealed.
struct ExposureRows {
  using BySchool = std::map<roster::SchoolId, std::vector<estimates::Exposure>>;
  BySchool schools;          ///< that screened them
  BySchool seconds;          ///< second molars of the same children
  int everSealedLeftOut = 0; ///< first molars that someone has sealed, by the finding or our book
  int notSeenLeftOut = 0;    ///< not up, not looked at
  int extracted = 0;         ///< of affected first molars
  int seenBefore = 0;        ///< children screened in the term whom the program had screened before

  [[nodiscard]] std::vector<estimates::Exposure> all() const;
};

/// Of all first molars, or all second ones, with the limits of a whole program.
base::Result<estimates::ProgramRate> programRateOf(const ExposureRows::BySchool& schools);

ExposureRows exposuresOf(const TermView& view);

} // namespace gk::reports
