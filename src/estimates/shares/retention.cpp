#include "estimates/shares/retention.h"

#include "base/text/text.h"
#include "estimates/numbers/checks.h"
#include "estimates/numbers/distributions.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace gk::estimates {
namespace {

// Without words, which would take most of the time of a million rows.
bool isGood(const Cluster& cluster) {
  const auto isWhole = [](double value) {
    return value >= 0 && value <= 1e9 && std::floor(value) == value;
  };
  return isWhole(cluster.examined) && isWhole(cluster.retained) &&
         cluster.retained <= cluster.examined;
}

base::Result<base::Done> checkCluster(const Cluster& cluster, std::size_t place) {
  if (isGood(cluster)) return base::Done{};
  const std::string where = "Cluster " + std::to_string(place);
  if (auto checked = checkWhole(where + ": the count examined", cluster.examined); !checked)
    return checked;
  if (auto checked = checkWhole(where + ": the count retained", cluster.retained); !checked)
    return checked;
  return refused(where + ": " + shown(cluster.retained) + " retained of " +
                 shown(cluster.examined) + " examined; only an examined tooth can count as " +
                 "retained, so correct one of the two.");
}

// Sum of squared residuals x_i - p n_i, scaled as for a ratio of totals.
double linearisedVariance(std::span<const Cluster> clusters, double m, double n, double p) {
  double squares = 0;
  for (const auto& cluster : clusters) {
    const double residual = cluster.retained - p * cluster.examined;
    squares += residual * residual;
  }
  return m / ((m - 1) * n * n) * squares;
}

// Korn and Graubard 1998, Surv Methodol 24:193-201: the effective size is cut further because the
// variance has only m - 1 degrees of freedom.
double publicationN(double effectiveN, double teeth, double m, double level) {
  if (m < 2) return effectiveN;
  const double tail = (1 + level) / 2;
  const double ratio = studentQuantile(tail, teeth - 1) / studentQuantile(tail, m - 1);
  return std::min(teeth, effectiveN * ratio * ratio);
}

// As R's svyciprop(method = "logit"): symmetric on the log-odds, Student's t with m - 1 degrees.
Interval logitInterval(double p, double effectiveN, double m, double level) {
  const double reach =
      studentQuantile((1 + level) / 2, m - 1) / std::sqrt(effectiveN * p * (1 - p));
  const double center = std::log(p / (1 - p));
  return {1 / (1 + std::exp(reach - center)), 1 / (1 + std::exp(-reach - center))};
}

} // namespace

bool RetentionEstimate::has(RetentionNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<RetentionEstimate> retention(std::span<const Cluster> clusters, double level,
                                          std::optional<double> pooled, double least) {
  if (auto checked = checkLevel(level); !checked) return checked.error();
  RetentionEstimate out{};
  double squares = 0;
  for (std::size_t i = 0; i < clusters.size(); ++i) {
    if (auto checked = checkCluster(clusters[i], i + 1); !checked) return checked.error();
    out.teeth += clusters[i].examined;
    out.retained += clusters[i].retained;
    squares += clusters[i].examined * clusters[i].examined;
    if (clusters[i].examined > 0) ++out.clusters;
  }
  if (out.clusters == 0)
    return refused("No sealed tooth was examined among " +
                   base::counted(clusters.size(), "cluster", "clusters") +
                   "; retention needs at least one retention check.");
  if (out.teeth > 1e9)
    return refused("There are " + shown(out.teeth) +
                   " teeth in all; give clusters of 1,000,000,000 or fewer together.");
  if (out.clusters < clusters.size()) out.notes.push_back(RetentionNote::emptyClusters);

  const auto m = static_cast<double>(out.clusters);
  const double p = out.retained / out.teeth;
  const bool allOrNone = out.retained == 0 || out.retained == out.teeth;
  out.estimate = p;
  out.designEffect = 1;
  ShareBasis basis{p, out.teeth, out.clusters, squares / out.teeth, std::nullopt, pooled};
  if (least > 1) basis.pooled = std::max(pooled.value_or(1), least);
  if (out.clusters == 1) {
    out.designEffect = out.teeth;
    out.notes.push_back(RetentionNote::oneCluster);
  } else {
    out.variance = allOrNone ? 0 : linearisedVariance(clusters, m, out.teeth, p);
    if (out.clusters < fewestClusters) out.notes.push_back(RetentionNote::fewClusters);
    if (!allOrNone) {
      const double found = std::max(least, out.teeth * *out.variance / (p * (1 - p)));
      basis.designEffect = found;
      if (found < 1) out.notes.push_back(RetentionNote::designEffectRaised);
      out.designEffect = std::max(1.0, found);
    }
  }
  out.effectiveN = out.teeth / out.designEffect;
  out.toRead = intervalToRead(basis, level);

  const auto interval = wilson(p * out.effectiveN, out.effectiveN, level);
  if (!interval) return interval.error();
  out.low = interval->low;
  out.high = interval->high;
  const double size = publicationN(out.effectiveN, out.teeth, m, level);
  const auto publication = clopperPearson(p * size, size, level);
  if (!publication) return publication.error();
  out.publication = *publication;
  if (!allOrNone && out.clusters > 1) out.logit = logitInterval(p, out.effectiveN, m, level);
  if (allOrNone) {
    const auto conservative = wilson(p * m, m, level);
    if (!conservative) return conservative.error();
    out.conservative = *conservative;
    const auto exact = clopperPearson(p * m, m, level);
    if (!exact) return exact.error();
    out.conservativeExact = *exact;
    out.notes.push_back(RetentionNote::allOrNone);
  }
  return out;
}

} // namespace gk::estimates
