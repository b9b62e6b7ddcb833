#include "office/tables/labels.h"

#include "base/contract.h"

#include <functional>
#include <limits>

namespace gk::office {

std::size_t Labels::numberOf(std::string_view label) {
  // tables mostly come sorted by child
  if (!names_.empty() && names_.back() == label) return names_.size() - 1;
  const std::size_t full = std::hash<std::string_view>{}(label);
  const auto hash = static_cast<std::uint32_t>(full ^ (full >> 32U));
  if (2 * names_.size() >= slots_.size()) grow();
  const std::size_t mask = slots_.size() - 1;
  std::size_t place = hash & mask;
  for (; slots_[place].next != 0; place = (place + 1) & mask) {
    const std::size_t number = slots_[place].next - 1U;
    if (slots_[place].hash == hash && names_[number] == label) return number;
  }
  base::require(names_.size() + 1 < std::numeric_limits<std::uint32_t>::max(),
                "fewer labels than 32 bits can number");
  names_.push_back(isWithinText(label) ? label : copies_.emplace_back(label));
  slots_[place] = {hash, static_cast<std::uint32_t>(names_.size())};
  return names_.size() - 1;
}

bool Labels::isWithinText(std::string_view label) const {
  const std::less_equal<const char*> before; // a total order, whatever they point into
  return before(text_.data(), label.data()) &&
         before(label.data() + label.size(), text_.data() + text_.size());
}

void Labels::grow() {
  std::vector<Slot> old(2 * slots_.size());
  old.swap(slots_);
  const std::size_t mask = slots_.size() - 1;
  for (const auto& slot : old) {
    if (slot.next == 0) continue;
    std::size_t place = slot.hash & mask;
    while (slots_[place].next != 0)
      place = (place + 1) & mask;
    slots_[place] = slot;
  }
}

} // namespace gk::office
