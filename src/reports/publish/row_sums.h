#pragma once

#include "reports/publish/figure_relations.h"

#include <optional>

namespace gk::reports {

/// What one row's figures have to do with each other.
template <class E>
class RowSums {
 public:
  RowSums(CountSystem& system, const std::map<E, std::size_t>& row) : system_(system), row_(row) {}

  /// Only where it holds: else a reader knows nothing of it.
  void add(const Relation<E>& relation, bool restIsSecret) {
    auto wholes = found(relation.whole);
    auto parts = found(relation.parts);
    if (!wholes || !parts || wholes == parts) return; // one count under two names
    const int left = relation.times * sum(*wholes) - sum(*parts);
    if (left < 0 || (relation.kind == RelationKind::sum && left > 0)) return;
    auto whole = wholes->front();
    if (wholes->size() > 1) {
      whole = system_.add({.value = sum(*wholes),
                           .kind = CountKind::slack,
                           .row = system_.cells.at(whole).row,
                           .printed = false});
      system_.sums.push_back({whole, *std::move(wholes)});
    }
    if (relation.kind == RelationKind::sum)
      system_.sums.push_back({whole, *std::move(parts), relation.times});
    else
      system_.addRest(!restIsSecret || relation.kind == RelationKind::slack ? CountKind::slack
                      : relation.kind == RelationKind::few                  ? CountKind::count
                                                                            : CountKind::rest,
                      whole, *std::move(parts), relation.times);
  }

 private:
  [[nodiscard]] std::optional<std::vector<std::size_t>> found(const std::vector<E>& figures) const {
    std::vector<std::size_t> cells;
    for (const auto figure : figures) {
      const auto at = row_.find(figure);
      if (at == row_.end()) return std::nullopt;
      cells.push_back(at->second);
    }
    return cells;
  }

  [[nodiscard]] int sum(const std::vector<std::size_t>& cells) const {
    int out = 0;
    for (const auto cell : cells)
      out += system_.cells.at(cell).value;
    return out;
  }

  CountSystem& system_;
  const std::map<E, std::size_t>& row_;
};

} // namespace gk::reports
