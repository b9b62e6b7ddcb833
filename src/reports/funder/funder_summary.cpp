#include "reports/day/incident_counts.h"
#include "reports/funder/funder_figures.h"
#include "reports/funder/funder_referrals.h"
#include "reports/funder/funder_report.h"
#include "reports/print/cells.h"
#include "reports/publish/publication.h"
#include "reports/services/referral_report.h"

namespace gk::reports {

namespace {

/// Rows of one part of the summary; figures come from the totals of the published tables.
class Summary {
 public:
  explicit Summary(Table& table) : table_(table) {}

  void begin(std::string part) { part_ = std::move(part); }

  void figure(const std::string& name, const Cell& number) {
    table_.rows.push_back({part_, name, number, "", "", "", ""});
  }
  /// A part of a whole, with its share as it was published.
  void share(const std::string& name, const Cell& number, const Cell& whole, const Cell& percents,
             std::optional<double> target = std::nullopt,
             const std::optional<Cell>& withRange = std::nullopt) {
    table_.rows.push_back({part_, name, number, whole, withRange.value_or(percents),
                           target ? Cell(Share{*target, 0}) : "",
                           target ? reached(*target, percents) : ""});
  }

 private:
  Table& table_;
  std::string part_;
};

/// The share of two figures that are both shown.
void addShare(Summary& summary, const std::string& name, const Cell& part, const Cell& whole) {
  const auto* some = part.as<Count>();
  const auto* all = whole.as<Count>();
  const auto share = some && all
                         ? shareOf(static_cast<int>(some->value), static_cast<int>(all->value))
                     : hidesIn({part, whole}) ? Cell(Withheld{})
                                              : Cell(noFigure);
  summary.share(name, part, whole, share);
}

/// Of every sort together: one sort of one school is soon one child.
Cell incidents(const TermRecords& records, const SuppressionRule& rule) {
  int count = 0;
  for (const auto& one : incidentCounts(records.incidents))
    count += one.count;
  const bool isSmall = count > 0 && count < rule.threshold();
  return shownCount(count, isSmall ? Showing::fewer : Showing::number, rule);
}

void addWork(Summary& summary, const TermView& view, const TermTotals& totals, const Cell& screened,
             const SuppressionRule& rule) {
  summary.begin("Schools and days");
  summary.figure("Schools", totals.schools.size());
  summary.figure("Clinic days held", totals.total.days);
  // Children a day times days is the number of children.
  summary.figure("Children screened a day",
                 screened.isWithheld() ? Withheld{} : numberOf(totals.total.childrenPerDay(), 1));
  summary.figure("Incidents recorded", incidents(view.records, rule));
  summary.figure("Material lots set aside", lotsSetAside(view.records));
}

void addParticipation(Summary& summary, const TermTotals& totals, const Table& table) {
  const auto at = [&](std::string_view key) { return totalOf(table, key); };
  summary.begin("Participation, children");
  summary.figure("Enrolled", at("enrolled"));
  addShare(summary, "Forms back, of enrolled", at("forms_back"), at("enrolled"));
  summary.share("Consented, of enrolled", at("consented"), at("enrolled"), at("consented_share"),
                totals.targets.consented);
  summary.share("Screened, of consented", at("screened"), at("consented"), at("screened_share"),
                totals.targets.screened);
}

void addHealth(Summary& summary, const Table& table) {
  const auto at = [&](std::string_view key) { return totalOf(table, key); };
  summary.begin("Oral health, children");
  summary.share("Untreated decay, of screened", at("untreated"), at("screened"),
                at("untreated_share"));
  addShare(summary, "Early care, of screened", at("early"), at("screened"));
  summary.share("Urgent care, of screened", at("urgent"), at("screened"), at("urgent_share"));
}

void addServices(Summary& summary, const TermTotals& totals, const Table& table,
                 const Cell& screened) {
  const auto at = [&](std::string_view key) { return totalOf(table, key); };
  summary.begin("Services");
  summary.share("Children needing sealants, of screened", at("needing"), screened,
                at("needing_share"));
  summary.share("Children sealed, of those needing", at("sealed"), at("needing"),
                at("sealed_share"), totals.targets.sealed);
  addShare(summary, "Children with varnish, of screened", at("varnish"), screened);
  summary.figure("Teeth sealed", at("teeth"));
  addShare(summary, "First molars, of teeth sealed", at("first_molars"), at("teeth"));
  addShare(summary, "Second molars, of teeth sealed", at("second_molars"), at("teeth"));
  addShare(summary, "Other teeth, of teeth sealed", at("other_teeth"), at("teeth"));
  summary.figure("Teeth per sealed child", at("teeth_per_child"));
}

void addRetention(Summary& summary, const TermTotals& totals, const Table& table) {
  const auto at = [&](std::string_view key) { return totalOf(table, key); };
  summary.begin("Retention at " + number(totals.window.fromMonths) + " to " +
                number(totals.window.untilMonths) + " months");
  summary.share("Children found, of those due", at("children_found"), at("children_due"),
                at("found_share"));
  addShare(summary, "Teeth examined, of those due", at("examined"), at("due"));
  addShare(summary, "Assessable, of examined", at("assessable"), at("examined"));
  const auto& line = totals.retention.total;
  const auto whole = at("whole_share");
  const auto* held = whole.as<Share>();
  auto withRange = whole;
  if (line.whole95 && held) {
    const auto range = rangeCell(line.whole95, line.unit);
    const auto* ends = range.as<Range>();
    withRange = ends ? Cell(Estimate{*held, *ends}) : whole.with(" (" + range.text() + ")");
  }
  summary.share("Fully retained, of assessable", at("whole"), at("assessable"), whole,
                totals.targets.retained, withRange);
  addShare(summary, "Partially retained, of assessable", at("part"), at("assessable"));
  addShare(summary, "Missing, of assessable", at("lost"), at("assessable"));
}

void addReferrals(Summary& summary, const Table& table) {
  summary.begin("Referrals");
  if (table.rows.size() == 1) return summary.figure("Made", Withheld{});
  const auto at = [&](std::string_view key) { return totalOf(table, key); };
  summary.figure("Made", at("made"));
  const std::pair<std::string, std::string> figures[]{
      {"Guardian reached", "guardian_reached"},
      {"Complete", "complete"},
      {"Treatment started", "started"},
      {"Declined", "declined"},
      {"Moved", "moved"},
      {"Lost to follow-up", "lost_to_follow_up"},
      {"Open", "open"},
      {"Open or started over " + number(longOpen) + " days", "open_long"}};
  for (const auto& [name, key] : figures)
    addShare(summary, name + ", of made", at(key), at("made"));
}

std::vector<std::string> methods(const TermTotals& totals, const SuppressionRule& rule) {
  return {"Methods. Consented: a form of this term that says yes, or screened in it. "
          "Screened: a look by a licensed person at school, not a dental examination, "
          "no x-rays. Sealed: at least one complete sealant by this program; a tooth "
          "counts once. Referral complete: treated, or a dentist found no need. "
          "Benchmarks are published state guidance unless the program set its own; "
          "they apply to programs.",
          "Retention: found children only, first placements, at " +
              number(totals.window.fromMonths) + " to " + number(totals.window.untilMonths) +
              " months; those not found may have kept fewer or more. The CI is 95%, with "
              "children or schools as clusters.",
          "Small numbers, method " + std::string(smallNumbersMethod) + ": counts of 1 to " +
              number(rule.threshold() - 1) + " read \"fewer than " + number(rule.threshold()) +
              "\"; \"suppressed\" is a number of any size that would reveal one. Rates on "
              "fewer than 30 are marked unstable.",
          "Cavities averted is a model estimate: it applies to programs, never to one "
          "child; its CI covers the sampling error of attack rate and retention, not "
          "doubt about the model. Tables by school and by grade are in the annex."};
}

} // namespace

std::vector<Table> funderSummary(const TermView& view, const TermTotals& totals,
                                 const Published& published, const SuppressionRule& rule,
                                 base::Date today) {
  const auto& tables = published.tables;
  Table table{"Key figures, " + periodWords(totals),
              {grouped("Part"), texts("Figure"), counts("Number"), counts("Of"),
               ranges("Percent (95% CI)"), shares("Benchmark, %"), texts("Met")},
              methods(totals, rule)};
  const auto screened = totalOf(tables[0], "screened");
  Summary summary(table);
  addWork(summary, view, totals, screened, rule);
  addParticipation(summary, totals, tables[0]);
  addHealth(summary, tables[2]);
  addServices(summary, totals, tables[1], screened);
  addRetention(summary, totals, tables[3]);
  addReferrals(summary, publishedReferrals(view, rule, today, !hidesIn(tables[2].rows.back())));
  summary.begin("Cavities averted, estimate");
  for (const auto& [figure, estimate] :
       sparedFigures(totals, !hidesIn(tables[1].rows.back()), !hidesIn(tables[3].rows.back())))
    summary.figure(figure, estimate);
  if (published.exposed > 0)
    table.notes.insert(table.notes.begin(),
                       "NOT TO BE PUBLISHED: with what earlier tables showed, small counts could "
                       "still be worked out.");
  return {table};
}

} // namespace gk::reports
