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

  void figure(const std::string& name, const std::string& number) {
    table_.rows.push_back({part_, name, number, "", "", "", ""});
  }
  /// A part of a whole, with its share as it was published.
  void share(const std::string& name, const std::string& number, const std::string& whole,
             const std::string& percents, std::optional<double> target = std::nullopt,
             const std::string& range = "") {
    table_.rows.push_back({part_, name, number, whole, percents + range,
                           target ? base::percent(*target, 0) : "",
                           target ? reached(*target, percents) : ""});
  }

 private:
  Table& table_;
  std::string part_;
};

/// The share of two figures that are both shown.
std::string shareOf(const std::string& part, const std::string& whole) {
  const auto some = base::parseInt(part);
  const auto all = base::parseInt(whole);
  if (!some || !all) return hidesIn({part, whole}) ? "suppressed" : nothing;
  return percent(static_cast<int>(*some), static_cast<int>(*all));
}

void addShare(Summary& summary, const std::string& name, const std::string& part,
              const std::string& whole) {
  summary.share(name, part, whole, shareOf(part, whole));
}

/// Of every sort together: one sort of one school is soon one child.
std::string incidents(const TermRecords& records, const SuppressionRule& rule) {
  int count = 0;
  for (const auto& one : incidentCounts(records.incidents))
    count += one.count;
  const bool isSmall = count > 0 && count < rule.threshold();
  return shownCount(count, isSmall ? Showing::fewer : Showing::number, rule);
}

void addWork(Summary& summary, const TermRecords& records, const TermTotals& totals,
             const std::string& screened, const SuppressionRule& rule) {
  summary.begin("Schools and days");
  summary.figure("Schools", number(static_cast<int>(totals.schools.size())));
  summary.figure("Clinic days held", number(totals.total.days));
  // Children a day times days is the number of children.
  summary.figure("Children screened a day",
                 hidesIn({screened}) ? "suppressed" : number(totals.total.childrenPerDay(), 1));
  summary.figure("Incidents recorded", incidents(records, rule));
  summary.figure("Material lots set aside", number(lotsSetAside(records)));
}

void addParticipation(Summary& summary, const TermTotals& totals, const Table& table) {
  const auto at = [&](std::string_view heading) { return totalUnder(table, heading); };
  summary.begin("Participation, children");
  summary.figure("Enrolled", at("Enrolled"));
  addShare(summary, "Forms back, of enrolled", at("Forms back"), at("Enrolled"));
  summary.share("Consented, of enrolled", at("Consented"), at("Enrolled"), at("% of enrolled"),
                totals.targets.consented);
  summary.share("Screened, of consented", at("Screened"), at("Consented"), at("% of consented"),
                totals.targets.screened);
}

void addHealth(Summary& summary, const Table& table) {
  const auto at = [&](std::string_view heading) { return totalUnder(table, heading); };
  summary.begin("Oral health, children");
  summary.share("Untreated decay, of screened", at("Untreated decay"), at("Screened"), at("%"));
  addShare(summary, "Early care, of screened", at("Early care"), at("Screened"));
  summary.share("Urgent care, of screened", at("Urgent"), at("Screened"), at("% urgent"));
}

void addServices(Summary& summary, const TermTotals& totals, const Table& table,
                 const std::string& screened) {
  const auto at = [&](std::string_view heading) { return totalUnder(table, heading); };
  summary.begin("Services");
  summary.share("Children needing sealants, of screened", at("Needing sealants"), screened,
                at("% of screened"));
  summary.share("Children sealed, of those needing", at("Sealed"), at("Needing sealants"),
                at("% of needing"), totals.targets.sealed);
  addShare(summary, "Children with varnish, of screened", at("Varnish"), screened);
  summary.figure("Teeth sealed", at("Teeth"));
  addShare(summary, "First molars, of teeth sealed", at("First molars"), at("Teeth"));
  addShare(summary, "Second molars, of teeth sealed", at("Second molars"), at("Teeth"));
  addShare(summary, "Other teeth, of teeth sealed", at("Other teeth"), at("Teeth"));
  summary.figure("Teeth per sealed child", at("Teeth per sealed child"));
}

void addRetention(Summary& summary, const TermTotals& totals, const Table& table) {
  const auto at = [&](std::string_view heading) { return totalUnder(table, heading); };
  summary.begin("Retention at " + number(totals.window.fromMonths) + " to " +
                number(totals.window.untilMonths) + " months");
  summary.share("Children found, of those due", at("Children found"), at("Children due"),
                at("Found, %"));
  addShare(summary, "Teeth examined, of those due", at("Examined"), at("Teeth due"));
  addShare(summary, "Assessable, of examined", at("Assessable"), at("Examined"));
  const auto& line = totals.retention.total;
  const auto whole = at("Fully retained, %");
  const bool hasRange = line.whole95 && !hidesIn({whole}) && whole != nothing;
  summary.share("Fully retained, of assessable", at("Fully retained"), at("Assessable"), whole,
                totals.targets.retained,
                hasRange ? " (" + rangeWords(line.whole95, line.unit) + ")" : "");
  addShare(summary, "Partially retained, of assessable", at("Partially retained"),
           at("Assessable"));
  addShare(summary, "Missing, of assessable", at("Missing"), at("Assessable"));
}

void addReferrals(Summary& summary, const Table& table) {
  summary.begin("Referrals");
  if (table.rows.size() == 1) return summary.figure("Made", "suppressed");
  const auto at = [&](std::string_view heading) { return totalUnder(table, heading); };
  summary.figure("Made", at("Made"));
  const std::pair<std::string, std::string> figures[]{
      {"Guardian reached", "Guardian reached"},
      {"Complete", "Complete"},
      {"Treatment started", "Started"},
      {"Declined", "Declined"},
      {"Moved", "Moved"},
      {"Lost to follow-up", "Lost to follow-up"},
      {"Open", "Open"},
      {"Open or started over " + number(longOpen) + " days",
       "Open over " + number(longOpen) + " days"}};
  for (const auto& [name, heading] : figures)
    addShare(summary, name + ", of made", at(heading), at("Made"));
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

std::vector<Table> funderSummary(const TermRecords& records, const TermTotals& totals,
                                 const Published& published, const SuppressionRule& rule,
                                 base::Date today) {
  const auto& tables = published.tables;
  Table table{"Key figures, " + periodWords(totals),
              {{"Part", false, true},
               {"Figure"},
               right("Number"),
               right("Of"),
               right("Percent (95% CI)"),
               right("Benchmark, %"),
               {"Met"}},
              {},
              methods(totals, rule)};
  const auto screened = totalUnder(tables[0], "Screened");
  Summary summary(table);
  addWork(summary, records, totals, screened, rule);
  addParticipation(summary, totals, tables[0]);
  addHealth(summary, tables[2]);
  addServices(summary, totals, tables[1], screened);
  addRetention(summary, totals, tables[3]);
  addReferrals(summary, publishedReferrals(records, rule, today, !hidesIn(tables[2].rows.back())));
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
