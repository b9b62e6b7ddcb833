#pragma once

#include "reports/print/plot.h"
#include "reports/term/term_totals.h"

#include <QString>

#include <optional>
#include <vector>

namespace gk::ui {

/// A term at one glance, as values: every word is ready, every number is the report's own.
struct Overview {
  /// A headline number. `met` is none where there is no benchmark, or nothing to hold against it.
  struct Figure {
    QString title;
    QString number;
    QString of;        ///< its denominator or its range
    QString benchmark; ///< "own benchmark 90%: met"
    std::optional<bool> met{};
  };
  /// A step on the way from enrolled to sealed.
  struct Step {
    QString words;
    int count;
    QString share; ///< of the step that it names
  };
  /// A school's share of sealants that were fully retained at one year, in percent.
  struct Dot {
    QString words;
    double share;
    std::optional<estimates::Interval> range;
    int of;
    bool isBelow; ///< of the benchmark, by more than chance explains
  };

  std::vector<Figure> figures;
  QString funnelSays;
  std::vector<Step> funnel;
  QString dotsSay;
  std::vector<Dot> dots;
  std::optional<double> all;         ///< percent, of all schools together
  std::optional<double> benchmark{}; ///< percent; none where the program set none
  QString findingsSays;
  reports::Plot findings; ///< of those screened
};

/// The terms up to now as one picture, and what changed in a sentence; of one school where one is
/// chosen.
struct Trend {
  QString says;
  std::optional<reports::Plot> plot;
};
Trend trendOf(const std::vector<reports::TermTotals>& terms,
              const std::optional<roster::SchoolId>& school = std::nullopt);

Overview overviewOf(const reports::TermTotals& totals);

} // namespace gk::ui
