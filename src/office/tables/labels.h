#pragma once

#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace gk::office {

/// Numbers labels 0, 1, 2 ... in the order they first come. For tables of millions of labels: it
/// keeps views into `text`, and copies a label only when it lies elsewhere.
class Labels {
 public:
  explicit Labels(std::string_view text) : text_(text), slots_(1024) {}

  std::size_t numberOf(std::string_view label);
  [[nodiscard]] std::size_t size() const { return names_.size(); }
  [[nodiscard]] std::string_view name(std::size_t number) const { return names_[number]; }

 private:
  struct Slot {
    std::uint32_t hash = 0;
    std::uint32_t next = 0; ///< the label's number plus 1; 0 is a free slot
  };
  [[nodiscard]] bool isWithinText(std::string_view label) const;
  void grow();

  std::string_view text_;
  std::vector<Slot> slots_; ///< a power of two of them, open addressing
  std::vector<std::string_view> names_;
  std::deque<std::string> copies_;
};

} // namespace gk::office
