#pragma once

#include "reports/print/front.h"
#include "reports/publish/published.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace gk::reports {

/// One row of the published tables: all schools together, or one school where it stands alone.
class ShownFigures {
 public:
  enum class Part { participation, services, findings, retention };

  static ShownFigures ofAll(const Published& published);
  /// None where the school is in one row with others.
  static std::optional<ShownFigures> of(const Published& published, const std::string& school);

  /// Missing where the table has no such row.
  [[nodiscard]] Cell at(Part part, std::string_view key) const;
  [[nodiscard]] const Table& table(Part part) const {
    return published_.tables.at(static_cast<std::size_t>(part));
  }
  /// The children of whom untreated decay is a share, and the name of that share: of those
  /// screened, or of those recorded where it could not be told of everybody.
  [[nodiscard]] std::pair<std::string, Cell> untreatedOf() const;

 private:
  explicit ShownFigures(const Published& published) : published_(published) {}
  const Published& published_;
  std::array<std::optional<std::size_t>, 4> rows_{};
};

/// "1 student", "1,204 students".
std::string countedShown(const Cell& count, std::string_view one, std::string_view many);

/// "97.1% of those with consent"; nothing where the share is not shown.
std::string shareWords(const Cell& share, const std::string& of);

/// From enrolled to sealed, each bar with what of the one before it is missing.
FrontPicture stepsPicture(const ShownFigures& shown);

/// What became of the sealants of a year ago; none where that is not shown.
std::optional<FrontPicture> keptPicture(const ShownFigures& shown, std::optional<double> benchmark);

} // namespace gk::reports
