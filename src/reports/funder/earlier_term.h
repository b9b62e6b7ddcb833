#pragma once

#include "reports/publish/published_counts.h"

#include <optional>
#include <string>

namespace gk::reports {

/// The term before as it last went out. What is not yet out cannot stand beside another term:
/// nothing was asked then of what it would give away.
struct EarlierTerm {
  std::string name;
  Release release;
};

/// What a page that is handed out says beside the records' figures.
struct HandedOut {
  std::string program; ///< its name
  std::optional<EarlierTerm> before{};
};

/// The earlier term's figures of all schools together, as they were shown.
class FiguresBefore {
 public:
  explicit FiguresBefore(const std::optional<EarlierTerm>& term) : term_(term) {}

  [[nodiscard]] bool any() const { return term_.has_value(); }
  [[nodiscard]] std::string name() const { return any() ? term_->name : std::string(); }
  [[nodiscard]] Cell count(Figure figure) const;
  [[nodiscard]] Cell count(CheckFigure figure) const;
  [[nodiscard]] Cell share(Figure part, Figure whole) const;
  [[nodiscard]] Cell share(CheckFigure part, CheckFigure whole) const;
  /// Sealed of those needing, without any that had not been screened.
  [[nodiscard]] Cell sealedShare() const;
  /// With varnish of those screened, likewise.
  [[nodiscard]] Cell varnishShare() const;
  /// Of those of whom it could be told.
  [[nodiscard]] Cell untreatedShare() const;

 private:
  const std::optional<EarlierTerm>& term_;
};

} // namespace gk::reports
