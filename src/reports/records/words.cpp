#include "reports/records/words.h"

#include "base/text/text.h"
#include "reports/records/inputs.h"

namespace gk::reports {

std::optional<double> rateOf(int part, int whole) {
  if (whole <= 0 || part > whole) return std::nullopt;
  return static_cast<double>(part) / whole;
}

std::string percent(int part, int whole) {
  const auto rate = rateOf(part, whole);
  if (!rate) return nothing;
  return base::percent(*rate) + (whole < fewest ? " (unstable)" : "");
}

std::string percentRange(double low, double high) {
  return base::percent(low) + "-" + base::percent(high);
}

std::string secondsWords(base::Milliseconds time) {
  const bool whole = time.count() % 1000 == 0;
  return base::fixed(static_cast<double>(time.count()) / 1000, whole ? 0 : 1) + " s";
}

std::string teethWords(const std::vector<dentition::Tooth>& teeth, dentition::Notation notation) {
  std::vector<std::string> words;
  words.reserve(teeth.size());
  for (const auto& tooth : teeth)
    words.push_back(tooth.shown(notation));
  return base::join(words, "; ");
}

std::string LateOnCard::words() const {
  return base::counted(entries, "entry", "entries") + " of another laptop came for card " +
         otherNumber + ", which is joined to " + number + "; join them again or separate the cards";
}

} // namespace gk::reports
