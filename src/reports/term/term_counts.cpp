#include "reports/term/term_counts.h"

#include "reports/term/display_names.h"

#include <algorithm>
#include <array>

namespace gk::reports {

namespace {

struct Counted {
  std::string_view heading;
  Count count;
};

constexpr std::array counts{
    Counted{"Forms back", &Participation::formsBack},
    Counted{"Consented", &Participation::consented},
    Counted{"Screened", &Participation::screened},
    Counted{"Absent", &Participation::absent},
    Counted{"Declined", &Participation::declined},
    Counted{"On hold", &Participation::onHold},
    Counted{"Not seen", &Participation::notReached},
    Counted{"Seen only", &Participation::seenOnly},
    Counted{"Still to see", &Participation::stillToSee},
    Counted{"Visits", &Participation::visits},
    Counted{"Needing", &Participation::needing},
    Counted{"Sealed", &Participation::sealed},
    Counted{"Unfinished", &Participation::unfinished},
    Counted{"First molars", &Participation::firstMolars},
    Counted{"Second molars", &Participation::secondMolars},
    Counted{"Other teeth", &Participation::otherTeeth},
    Counted{"Surfaces", &Participation::surfaces},
    Counted{"Varnish", &Participation::varnish},
    Counted{"Untreated decay", &Participation::untreated},
    Counted{"Could not tell", &Participation::couldNotTell},
    Counted{"Early care", &Participation::early},
    Counted{"Urgent", &Participation::urgent},
};

} // namespace

std::optional<Count> countUnder(std::string_view heading) {
  const auto at = std::ranges::find(counts, heading, &Counted::heading);
  if (at == counts.end()) return std::nullopt;
  return at->count;
}

std::optional<SealantCount> sealantCountUnder(std::string_view heading) {
  for (std::size_t i = 0; i < base::enumCount<SealantCount>; ++i) {
    const auto count = static_cast<SealantCount>(i);
    auto words = std::string(base::displayName(count));
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
    if (heading == words) return count;
  }
  return std::nullopt;
}

} // namespace gk::reports
