#include "office/estimates/estimate_words.h"

#include "base/files/files.h"
#include "base/text/text.h"

#include <array>
#include <istream>
#include <ostream>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using estimates::AttackRateNote;
using estimates::ComparisonNote;
using estimates::RetentionNote;
using estimates::ShrinkageNote;
using estimates::SurvivalNote;

namespace {

std::string sentence(RetentionNote note) {
  const auto few = std::to_string(estimates::fewestClusters);
  switch (note) {
  case RetentionNote::oneCluster:
    return "One cluster cannot show how alike its teeth are; they are taken as fully alike, as one "
           "observation.";
  case RetentionNote::fewClusters:
    return "With fewer than " + few + " clusters the interval is not reliable.";
  case RetentionNote::allOrNone:
    return "All or none are retained, which cannot show how alike the teeth of a cluster are.";
  case RetentionNote::designEffectRaised:
    return "The data gave a design effect below 1, which is not used.";
  case RetentionNote::emptyClusters:
    return "Clusters without a tooth examined were skipped.";
  }
  base::fail("a retention note without words");
}

std::string sentence(AttackRateNote note) {
  switch (note) {
  case AttackRateNote::shortExposures:
    return "Rows under " + base::fixed(estimates::shortestExposure, 2) +
           " years in the mouth were left out.";
  case AttackRateNote::noneAffected:
    return "No molar was affected: the rate is 0, with an upper limit.";
  case AttackRateNote::allAffected:
    return "Every molar was affected: the rate is 1, with a lower limit.";
  case AttackRateNote::oneChild:
    return "One child: the interval is as if it had one molar.";
  case AttackRateNote::varianceRaised:
    return "Children varied less than independent molars would; the latter's variance was used.";
  }
  base::fail("an attack rate note without words");
}

std::string sentence(SurvivalNote note) {
  switch (note) {
  case SurvivalNote::uncheckedSpells:
    return "Rows with left 0 and no right, never judged by a check, were left out.";
  case SurvivalNote::noneFailed:
    return "No sealant was seen to fail: the curve is 1 up to the last check and unknown after it.";
  case SurvivalNote::allFailed:
    return "Every sealant was seen to fail.";
  case SurvivalNote::oneChild:
    return "All rows are alike.";
  case SurvivalNote::notSettled:
    return "The fit did not converge: the estimates are near the maximum, not at it.";
  }
  base::fail("a survival note without words");
}

std::string sentence(ComparisonNote note) {
  switch (note) {
  case ComparisonNote::emptyStrata:
    return "Strata without a tooth were skipped.";
  case ComparisonNote::uninformativeStrata:
    return "Strata with only one side or one outcome add nothing.";
  case ComparisonNote::nothingToCompare:
    return "No stratum has both sides and both outcomes: there is no odds ratio and no test.";
  case ComparisonNote::smallNumbers:
    return "Small numbers: the chi-squared and the interval are not reliable (Mantel "
           "and Fleiss 1980).";
  case ComparisonNote::oddsRatioZero:
    return "The odds ratio is 0 and has no interval here.";
  case ComparisonNote::oddsRatioUnbounded:
    return "The odds ratio has no upper bound: no number is given for it.";
  case ComparisonNote::severalComparisons:
    return "One of several comparisons: read the adjusted p.";
  }
  base::fail("a comparison note without words");
}

std::string sentence(ShrinkageNote note) {
  switch (note) {
  case ShrinkageNote::oneUnit:
    return "One unit has no others to be adjusted toward: nothing is shrunk.";
  case ShrinkageNote::noOverdispersion:
    return "The units differ no more than by chance: alpha and beta have no bound, and "
           "every unit is set to the common share.";
  case ShrinkageNote::allOrNone:
    return "All or none are retained everywhere: alpha and beta have no bound.";
  case ShrinkageNote::eachAllOrNone:
    return "Every unit has all or none retained: alpha and beta go to 0 and nothing is shrunk.";
  case ShrinkageNote::fewUnits:
    return "With fewer than " + std::to_string(estimates::fewestClusters) +
           " units alpha and beta are poorly known.";
  case ShrinkageNote::emptyUnits:
    return "Units without a tooth examined are set to the mean.";
  }
  base::fail("a shrinkage note without words");
}

template <class Note>
std::vector<std::string> each(std::span<const Note> notes) {
  std::vector<std::string> out;
  for (const auto note : notes)
    out.push_back(sentence(note));
  return out;
}

} // namespace

std::string percent(double share) {
  return base::percent(share) + "%";
}

std::string range(double low, double high) {
  return base::percent(low) + " to " + percent(high);
}

namespace {
constexpr std::size_t mostOfTable = std::size_t{2048} * 1024 * 1024; ///< ten million rows and more
} // namespace

Result<std::string> tableText(const Call& call, const Surroundings& around) {
  const auto file = call.operandIfAny(0);
  if (file && *file != "-") return base::readFile(*file, mostOfTable);
  std::string text;
  std::array<char, 65536> block; // read fills it
  while (around.in.read(block.data(), block.size()) || around.in.gcount() > 0) {
    text.append(block.data(), static_cast<std::size_t>(around.in.gcount()));
    if (text.size() > mostOfTable)
      return Error{ErrorCode::fileTooLarge, "standard input gives more than any table has"};
  }
  if (around.in.bad()) return Error{ErrorCode::fileUnreadable, "standard input could not be read"};
  return text;
}

Result<std::vector<double>> numbers(const Call& call, std::string_view option) {
  std::vector<double> out;
  const auto text = call.textIfAny(option);
  if (!text) return out;
  for (const auto part : base::split(*text, ',')) {
    const auto number = base::parseDouble(base::trim(part));
    if (!number)
      return Error{number.error().code, std::string(option) + ": " + number.error().detail +
                                            "; write numbers with commas between them"};
    out.push_back(*number);
  }
  return out;
}

std::vector<std::string> sentences(std::span<const RetentionNote> notes) {
  return each(notes);
}
std::vector<std::string> sentences(std::span<const AttackRateNote> notes) {
  return each(notes);
}
std::vector<std::string> sentences(std::span<const SurvivalNote> notes) {
  return each(notes);
}
std::vector<std::string> sentences(std::span<const ComparisonNote> notes) {
  return each(notes);
}
std::vector<std::string> sentences(std::span<const ShrinkageNote> notes) {
  return each(notes);
}

void tellRepeated(std::size_t rows, std::string_view what, std::ostream& out) {
  if (rows > 0)
    out << base::counted(rows, "row is", "rows are") << " of " << what
        << "; added together, so check that none is listed twice.\n";
}

void tell(const std::vector<std::string>& sentences, std::ostream& out) {
  for (const auto& sentence : sentences)
    out << sentence << '\n';
}

} // namespace gk::office
