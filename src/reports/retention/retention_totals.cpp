#include "reports/retention/retention_totals.h"

#include "estimates/shares/follow_up.h"
#include "estimates/shares/program_share.h"
#include "reports/records/words.h"

#include <algorithm>

namespace gk::reports {

namespace {

using followup::Held;

/// The teeth of one cluster: examined, and those that a definition calls retained.
struct Tally {
  double assessable = 0;
  double whole = 0;
  double repaired = 0;
  double part = 0;
  double teeth = 0;
  double teethWhole = 0;

  void add(const SealantFact& fact) {
    if (fact.isAssessable()) {
      assessable += 1;
      whole += fact.held == Held::whole ? 1 : 0;
      repaired += fact.isRepaired ? 1 : 0;
      part += fact.held == Held::part ? 1 : 0;
    }
    if (fact.isToothSeen()) {
      teeth += 1;
      teethWhole += fact.tooth == Held::whole ? 1 : 0;
    }
  }
};

using ClusterOf = estimates::Cluster (*)(const Tally&);

std::vector<estimates::Cluster> clustersOf(const std::vector<Tally>& tallies, ClusterOf share) {
  std::vector<estimates::Cluster> clusters;
  for (const auto& tally : tallies)
    clusters.push_back(share(tally));
  return clusters;
}

/// Adds sealants up to one line. The rows of a child come one after another, so its clusters are
/// known when the next child begins.
class LineBuilder {
 public:
  void add(const SealantFact& fact) {
    if (fact.child != child_) beginChild(fact.child);
    ++line_.placed;
    if (fact.due) {
      ++line_.due;
      if (fact.wasDueBefore) ++line_.dueBefore;
      if (!childIsDue_) ++line_.childrenDue;
      childIsDue_ = true;
    }
    if (fact.due && !fact.isAssessable() && fact.isKnownLost) ++line_.lostUnfound;
    if (fact.due && fact.isReported) ++line_.reported;
    if (fact.due && fact.isReported && !fact.isAssessable()) ++line_.reportedOut;
    if (fact.isToothSeen()) judgeTooth(fact);
    if (fact.isToothSeen() || fact.isAssessable()) tally(fact);
    if (!fact.isExamined()) return;
    if (!childIsFound_) ++line_.childrenFound;
    childIsFound_ = true;
    ++line_.examined;
    judge(fact);
  }

  /// `pooled` is the program's design effect, for lines that cannot tell their own.
  [[nodiscard]] RetentionLine finish(std::string label, bool mayUseSchools,
                                     std::optional<double> pooled = std::nullopt) {
    using estimates::ProgramUnits;
    pooled_ = pooled;
    line_.label = std::move(label);
    const auto schools =
        std::ranges::count_if(bySchool_, [](const auto& one) { return one.assessable > 0; });
    if (mayUseSchools) units_ = estimates::programUnits(static_cast<std::size_t>(schools));
    if (units_ == ProgramUnits::schools) line_.unit = ClusterUnit::schools;
    line_.isSchoolPlanned = units_ == ProgramUnits::childrenPlanned;
    if (line_.assessable > 0) {
      line_.whole95 = estimate([](const Tally& at) {
        return estimates::Cluster{at.assessable, at.whole};
      });
      line_.wholeOrRepaired95 = estimate([](const Tally& at) {
        return estimates::Cluster{at.assessable, at.whole + at.repaired};
      });
      line_.wholeOrPart95 = estimate([](const Tally& at) {
        return estimates::Cluster{at.assessable, at.whole + at.part};
      });
    }
    if (line_.teethSeen > 0)
      line_.protected95 = estimate([](const Tally& at) {
        return estimates::Cluster{at.teeth, at.teethWhole};
      });
    return std::move(line_);
  }

 private:
  void beginChild(std::uint32_t child) {
    child_ = child;
    ++line_.childrenPlaced;
    childIsDue_ = false;
    childIsFound_ = false;
    childIsJudged_ = false;
  }

  void judge(const SealantFact& fact) {
    if (fact.health == followup::ToothHealth::cavitated) ++line_.decayedSince;
    if (fact.health == followup::ToothHealth::restored) ++line_.filledSince;
    if (!fact.isAssessable()) {
      ++line_.cannotAssess;
      ++line_.why[fact.why];
      return;
    }
    ++line_.assessable;
    ++(fact.held == Held::whole ? line_.whole : fact.held == Held::part ? line_.part : line_.lost);
    if (fact.isRepaired) ++line_.repaired;
    if (fact.held != Held::lost) return;
    if (fact.why == followup::CannotAssess::restoredOver) ++line_.filledOver;
    if (fact.from != HeldFrom::look) ++line_.earlierLost;
  }

  void judgeTooth(const SealantFact& fact) {
    ++line_.teethSeen;
    if (fact.tooth == Held::whole) ++line_.teethWhole;
    if (fact.tooth == Held::part) ++line_.teethPart;
  }

  void tally(const SealantFact& fact) {
    if (!childIsJudged_) byChild_.emplace_back();
    childIsJudged_ = true;
    byChild_.back().add(fact);
    const std::size_t school = fact.at(Factor::school);
    if (school >= bySchool_.size()) bySchool_.resize(school + 1);
    bySchool_[school].add(fact);
  }

  [[nodiscard]] std::optional<estimates::RetentionEstimate> estimate(ClusterOf share) const {
    // Whole counts, at least one: nothing to refuse.
    return *estimates::programShare(clustersOf(byChild_, share), clustersOf(bySchool_, share),
                                    units_, estimates::usualLevel, pooled_);
  }

  RetentionLine line_;
  estimates::ProgramUnits units_ = estimates::ProgramUnits::children;
  std::optional<double> pooled_;
  std::optional<std::uint32_t> child_;
  bool childIsDue_ = false;
  bool childIsFound_ = false;
  bool childIsJudged_ = false;
  std::vector<Tally> byChild_;
  std::vector<Tally> bySchool_;
};

RetentionLine hiddenLine(const RetentionLine& shown) {
  RetentionLine line;
  line.label = shown.label;
  line.code = shown.code;
  line.hidden = true;
  return line;
}

/// By code.
std::vector<LineBuilder> built(const RetentionFacts& facts, Factor factor, const Choice& choice) {
  std::vector<LineBuilder> lines(facts.labels(factor).size());
  for (const auto& fact : facts.rows())
    if (choice.takes(fact)) lines[fact.at(factor)].add(fact);
  return lines;
}

bool mayUseSchools(const Choice& choice) {
  return !choice.only[static_cast<std::size_t>(Factor::school)];
}

/// Of the whole program by child, for a part that cannot tell its own.
std::optional<double> pooledEffect(const RetentionFacts& facts) {
  LineBuilder all;
  for (const auto& fact : facts.rows())
    all.add(fact);
  const auto line = all.finish("", false);
  if (!line.whole95) return std::nullopt;
  return line.whole95->designEffect;
}

} // namespace

std::optional<estimates::Interval> printedRange(const estimates::RetentionEstimate& estimate) {
  if (!estimate.toRead) return std::nullopt;
  return estimate.toRead->range;
}

Cell rangeCell(const std::optional<estimates::RetentionEstimate>& estimate, ClusterUnit unit) {
  if (!estimate) return noFigure;
  const auto range = printedRange(*estimate);
  if (!range) return unit == ClusterUnit::schools ? "one school" : "one student";
  Range cell{range->low, range->high};
  if (estimate->clusters < estimates::fewClustersToRead)
    cell.remark = unit == ClusterUnit::schools ? ", few schools" : ", few students";
  else if (estimate->toRead->isPlanned)
    cell.remark = ", likeness assumed";
  return cell;
}

Cell estimateCell(const std::optional<estimates::RetentionEstimate>& estimate, ClusterUnit unit) {
  if (!estimate) return noFigure;
  const auto range = rangeCell(estimate, unit);
  if (const auto* known = range.as<Range>()) return Estimate{Share{estimate->estimate}, *known};
  return Cell(Estimate{Share{estimate->estimate}, {}}).with(" (" + range.text() + ")");
}

std::optional<estimates::Interval> protectedBounds(const RetentionLine& line) {
  const auto bounds =
      estimates::followUpBounds({static_cast<double>(line.due), static_cast<double>(line.teethSeen),
                                 static_cast<double>(line.teethWhole)});
  if (!bounds) return std::nullopt;
  return bounds->bounds;
}

AgainstBenchmark againstBenchmark(double benchmark, const RetentionLine& line) {
  const auto range = line.whole95 ? printedRange(*line.whole95) : std::nullopt;
  if (!range) return AgainstBenchmark::cannotTell;
  // As printed: who reads 90.0 does not read "below 90".
  if (Share{range->high}.printed() < benchmark) return AgainstBenchmark::below;
  if (Share{range->low}.printed() >= benchmark) return AgainstBenchmark::met;
  return AgainstBenchmark::cannotTell;
}

std::string rangeNote(const std::vector<RetentionLine>& lines) {
  const bool isAnyPlanned = std::ranges::any_of(lines, [](const RetentionLine& line) {
    return line.whole95 && line.whole95->toRead && line.whole95->toRead->isPlanned &&
           !line.isSchoolPlanned;
  });
  const auto hasOf = [&](auto what) {
    return std::ranges::any_of(lines, [&](const auto& line) { return line.whole95 && what(line); });
  };
  const bool isAnyOfSchools =
      hasOf([](const RetentionLine& line) { return line.unit == ClusterUnit::schools; });
  const bool isAnySchoolPlanned =
      hasOf([](const RetentionLine& line) { return line.isSchoolPlanned; });
  return std::string("CIs allow for likeness of teeth within a student and for few students; none "
                     "from one student alone.") +
         (isAnyOfSchools ? " Of " + std::to_string(estimates::fewestSchools) +
                               " or more schools, they allow for likeness within a school and "
                               "for few schools too."
                         : std::string()) +
         (isAnySchoolPlanned ? " " + schoolPlannedWords() : std::string()) +
         (isAnyPlanned
              ? " Where all or none are fully retained, or few students vary less than by "
                "chance, likeness cannot be measured: the program's own figure or a planning "
                "value of 0.05 is used, whichever is larger."
              : "");
}

std::string schoolPlannedWords() {
  return "Two or three schools hardly show how alike the students of a school are: at least a "
         "planning value of 0.05 is assumed, not measured here. Where schools differ more, the CI "
         "is too narrow.";
}

std::string estimateWords(const estimates::RetentionEstimate& rate, ClusterUnit unit) {
  return base::percent(rate.estimate) + "% (" + rangeCell(rate, unit).text() + ")";
}

std::string reportedNote(const RetentionLine& total) {
  if (total.reported == 0) return {};
  std::string words = "Of the sealants due " + counted(total.reported, "was", "were") +
                      " checked because a loss was reported; such a check puts none into the "
                      "percentages.";
  if (total.reportedOut > 0)
    words += " In no percentage of fully retained, without a one-year check that assessed them: " +
             std::to_string(total.reportedOut) + ".";
  if (const int in = total.reported - total.reportedOut; in > 0)
    words += " In them: " + std::to_string(in) +
             ", as another check found the student in these months too.";
  return words;
}

std::string protectionNote(const RetentionLine& total) {
  if (!total.protected95) return "Teeth protected a year later by any sealant: none was assessed.";
  return "A different question is whether the tooth is protected a year later by any "
         "sealant, repairs and reseals included: " +
         estimateWords(*total.protected95, total.unit) + " of " +
         counted(total.teethSeen, "tooth", "teeth") + " assessed.";
}

RetentionTotals retentionTotals(const RetentionFacts& facts) {
  RetentionTotals out;
  const auto pooled = pooledEffect(facts);
  auto lines = built(facts, Factor::school, {});
  for (std::size_t code = 0; code < lines.size(); ++code) {
    auto& line = out.schools.emplace_back(
        lines[code].finish(facts.labels(Factor::school)[code], false, pooled));
    line.code = static_cast<FactorCode>(code);
    line.school = facts.schools()[code];
    line.checkedHere = facts.checkedAt()[code];
  }
  std::ranges::stable_sort(out.schools, {}, &RetentionLine::label);
  LineBuilder total;
  for (const auto& fact : facts.rows())
    total.add(fact);
  out.total = total.finish("Total", true);
  for (int checked : facts.checkedAt())
    out.total.checkedHere += checked;
  return out;
}

RetentionLine retentionLine(const RetentionFacts& facts, const Choice& choice) {
  LineBuilder line;
  for (const auto& fact : facts.rows())
    if (choice.takes(fact)) line.add(fact);
  return line.finish("Total", mayUseSchools(choice), pooledEffect(facts));
}

std::vector<RetentionLine> retentionBy(const RetentionFacts& facts, Factor factor,
                                       const Choice& choice, const RetentionOptions& options) {
  std::vector<RetentionLine> out;
  const bool isOverSchools = factor != Factor::school && mayUseSchools(choice);
  const auto pooled = pooledEffect(facts);
  auto lines = built(facts, factor, choice);
  for (std::size_t code = 0; code < lines.size(); ++code) {
    auto line = lines[code].finish(facts.labels(factor)[code], isOverSchools, pooled);
    if (line.placed == 0) continue;
    line.code = static_cast<FactorCode>(code);
    if (factor == Factor::school) line.school = facts.schools()[code];
    const bool names = factor == Factor::placedBy || factor == Factor::pair;
    const bool tooFew = names && line.assessable < options.leastForOperator;
    out.push_back(tooFew ? hiddenLine(line) : std::move(line));
  }
  std::ranges::stable_sort(out, {}, &RetentionLine::label);
  return out;
}

} // namespace gk::reports
