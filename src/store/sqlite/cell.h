#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace gk::store {

enum class CellType : std::uint8_t { null, integer, real, text, blob };

/// One value as it lies in the file. `bytes` point into the statement and last until its next step.
struct CellView {
  CellType type = CellType::null;
  std::int64_t number = 0;  ///< of an integer; of a real, its bits
  std::string_view bytes{}; ///< of a text or blob

  bool operator==(const CellView&) const = default;
};

/// The same, kept.
struct Cell {
  explicit Cell(const CellView& view) : type(view.type), number(view.number), bytes(view.bytes) {}
  [[nodiscard]] CellView view() const { return {type, number, bytes}; }

  CellType type;
  std::int64_t number;
  std::string bytes;
};

} // namespace gk::store
