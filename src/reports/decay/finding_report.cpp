#include "reports/decay/finding_report.h"

#include "estimates/compare/shrinkage.h"
#include "reports/decay/true_sentences.h"
#include "reports/print/cells.h"

#include <algorithm>

namespace gk::reports {

namespace {

/// The six in the order of the columns, with the children for whom each is known.
constexpr std::array measures{
    &estimates::ScreeningMeasures::untreatedDecay,   &estimates::ScreeningMeasures::treatedDecay,
    &estimates::ScreeningMeasures::cariesExperience, &estimates::ScreeningMeasures::sealants,
    &estimates::ScreeningMeasures::anyNeed,          &estimates::ScreeningMeasures::urgentNeed};

Cells findingRow(const FindingLine& line, ClusterUnit unit = ClusterUnit::children) {
  Cells cells{line.label, line.screened, line.couldNotTell};
  for (const auto measure : measures) {
    const auto found = line.measures ? (*line.measures).*measure : std::nullopt;
    cells.push_back(estimateCell(found, unit));
  }
  return cells;
}

/// "untreated decay 42, treated decay 60".
std::string knownWords(const FindingLine& line) {
  constexpr std::array<std::string_view, 6> names{"untreated decay",   "treated decay",
                                                  "caries experience", "sealants",
                                                  "needs care",        "needs care at once"};
  std::vector<std::string> words;
  for (std::size_t i = 0; i < measures.size(); ++i) {
    const auto found = (*line.measures).*measures.at(i);
    const auto known = found ? static_cast<int>(found->teeth) : 0;
    if (known < line.screened) words.push_back(std::string(names.at(i)) + " " + number(known));
  }
  return base::join(words, ", ");
}

/// Of each school of which something is not known of every child; empty where one school is all, or
/// where no school has measures of its own.
std::string knownBySchool(const FindingTotals& totals) {
  if (totals.schools.size() < 2) return {};
  std::vector<std::string> words;
  for (const auto& line : totals.schools)
    if (const auto known = line.measures ? knownWords(line) : ""; !known.empty())
      words.push_back(line.label + ", of " + number(line.screened) + ": " + known);
  return words.empty() ? std::string() : " " + base::join(words, "; ") + ".";
}

Cell rateWithRange(double rate, const estimates::Interval& range) {
  return Estimate{Share{rate}, Range{range.low, range.high}};
}

} // namespace

Table findingTable(const FindingTotals& totals) {
  Table table{"Screening measures, % of students (95% CI)",
              {texts("School"), counts("Screened"), counts("Could not tell"),
               ranges("Untreated decay"), ranges("Treated decay"), ranges("Caries experience"),
               ranges("Sealants"), ranges("Needs care"), ranges("Needs care at once")}};
  for (const auto& line : totals.schools)
    table.rows.push_back(findingRow(line));
  table.rows.push_back(findingRow(totals.total, totals.unit));
  table.notes = {
      "Measures of the Basic Screening Survey (ASTDD): by screening, not a dental examination. "
      "Sealants on permanent molars as found at the first screening; decay and need by the most "
      "serious one. Caries experience: untreated or treated decay.",
      std::string("CIs of the total: ") +
          (totals.unit == ClusterUnit::schools ? "schools as clusters."
           : totals.isSchoolPlanned
               ? "each student separately. " + schoolPlannedWords()
               : "each student separately, as fewer than two schools were seen.") +
          " CIs apply to students like these: those with consent, in schools that "
          "were chosen, not sampled at random."};
  if (totals.total.couldNotTell > 0)
    table.notes.emplace_back("Could not tell: untreated or treated decay, or both.");
  if (const auto known = totals.total.measures ? knownWords(totals.total) : ""; !known.empty())
    table.notes.push_back("Each share is of the students for whom it is known; of " +
                          number(totals.total.screened) + " screened: " + known + "." +
                          knownBySchool(totals));
  return table;
}

Table attackTable(const AttackBySchool& attack) {
  Table table{"Yearly attack rate of never-sealed first molars, %",
              {texts("School"), counts("Students", "children"), counts("Molars"),
               counts("Affected"), ranges("Observed (95% CI)")}};
  if (!attack.rates) {
    table.notes = {"No never-sealed first molar had been erupted long enough."};
    return table;
  }
  const auto& rates = *attack.rates;
  const auto withMolars =
      std::ranges::count_if(rates.schools, [](const auto& one) { return one.raw.has_value(); });
  const bool isAdjusted = static_cast<std::size_t>(withMolars) >= estimates::fewestToAdjust;
  if (isAdjusted)
    table.columns.insert(table.columns.end(), {ranges("Adjusted toward program average (95% CI)"),
                                               shares("Weight given to this school, %")});
  for (std::size_t i = 0; i < rates.schools.size(); ++i) {
    const auto& one = rates.schools[i];
    Cells cells{attack.schools[i]};
    if (one.raw)
      cells.insert(cells.end(),
                   {one.raw->children, numberOf(one.raw->molars, 0), numberOf(one.raw->affected, 0),
                    rateWithRange(one.raw->annual, one.raw->toRead())});
    else
      cells.resize(5, noFigure);
    if (isAdjusted)
      cells.insert(cells.end(),
                   {rateWithRange(one.shrunken, one.interval), shareOf(one.ownWeight)});
    table.rows.push_back(std::move(cells));
  }
  // Of one school the average is its own, which the row says.
  if (!rates.has(estimates::SchoolRatesNote::oneSchool))
    table.notes.push_back("Average school " + rateWithRange(rates.annual, rates.interval).text() +
                          (rates.prediction
                               ? "; a further school is expected within " +
                                     percentRange(rates.prediction->low, rates.prediction->high) +
                                     " (95% prediction)"
                               : "") +
                          ".");
  if (!isAdjusted) table.notes.push_back(notAdjustedWords());
  table.notes.emplace_back("Exposure is from the mean eruption age to the age on the day.");
  for (auto& note : attackNotes(attack.all))
    table.notes.push_back(std::move(note));
  if (const auto& all = attack.all.estimate)
    table.notes.push_back("All students: " + rateWithRange(all->annual, all->toRead()).text() +
                          (attack.all.unit == ClusterUnit::schools ? ", schools" : ", students") +
                          " as clusters. Cavities averted in first molars use this rate and CI.");
  if (attack.profile)
    table.notes.push_back("By profile likelihood, students as clusters: " +
                          rateWithRange(attack.profile->annual, attack.profile->clustered).text() +
                          (withMolars > 1 ? "; this CI leaves out what schools differ by." : "."));
  if (rates.has(estimates::SchoolRatesNote::tauAtZero))
    table.notes.emplace_back(noDifferenceWords());
  if (rates.has(estimates::SchoolRatesNote::fewSchools))
    table.notes.emplace_back("Few schools: how much they really differ is uncertain.");
  if (rates.has(estimates::SchoolRatesNote::halfMolars) &&
      !rates.has(estimates::SchoolRatesNote::oneSchool))
    table.notes.emplace_back(
        "Where none or all were affected, half a molar of each kind was added for "
        "the pooling only.");
  std::vector<DrawnUnit> drawn;
  for (const auto& one : rates.schools)
    if (isAdjusted) drawn.push_back({one.raw ? one.raw->molars : 0, one.ownWeight});
  for (auto words : {drawnWords(drawn, "molars"), attack.age ? ageWords(*attack.age) : ""})
    if (!words.empty()) table.notes.push_back(std::move(words));
  return table;
}

std::vector<Table> findingReport(const TermView& view) {
  return {findingTable(findingTotals(view)), attackTable(attackBySchool(view))};
}

} // namespace gk::reports
