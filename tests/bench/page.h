#pragma once

#include "bench/figures.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gk::bench {

// Each on a line of its own in docs/benchmarks.md.
constexpr std::string_view tableBegins =
    "<!-- tests/bench/run --write puts its table from here -->";
constexpr std::string_view tableEnds = "<!-- to here -->";

/// The page with that between its marks, in place of what stood there. None where the page does not
/// have each mark once, in that order.
std::optional<std::string> withTable(std::string_view page, std::string_view table);

/// When and how busily it was measured, and the table, as it stands between the marks. `loads` are
/// of the beginning and the end.
std::string asMeasured(const Figures& figures, std::string_view date,
                       std::pair<double, double> loads, const std::vector<int>& sizes);

} // namespace gk::bench
