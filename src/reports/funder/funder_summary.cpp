#include "base/contract.h"
#include "reports/funder/front_parts.h"
#include "reports/funder/funder_figures.h"
#include "reports/funder/funder_report.h"
#include "reports/print/cells.h"
#include "reports/publish/publication.h"

namespace gk::reports {

namespace {

/// Rows of one part of the summary; figures come from the totals of the published tables.
class Summary {
 public:
  Summary(Table& table, bool hasBefore, bool hasTargets)
      : table_(table), hasBefore_(hasBefore), hasTargets_(hasTargets) {}

  void begin(std::string part) { part_ = std::move(part); }

  void figure(const std::string& name, const Cell& number, const Cell& before = "") {
    add({part_, name, number, "", "", "", ""}, before);
  }
  /// A part of a whole, with its share as it was published.
  void share(const std::string& name, const Cell& number, const Cell& whole, const Cell& percents,
             const Cell& before, std::optional<double> target = std::nullopt,
             const std::optional<Cell>& withRange = std::nullopt,
             const RetentionLine* line = nullptr) {
    const auto met = [&](double benchmark) {
      return line ? reachedByCi(benchmark, percents, *line) : reached(benchmark, percents);
    };
    add({part_, name, number, whole, withRange.value_or(percents),
         target ? Cell(Share{*target, 0}) : "", target ? met(*target) : ""},
        before);
  }

 private:
  /// What it was stands behind what it is.
  void add(Cells row, const Cell& before) {
    if (!hasTargets_) row.erase(row.end() - 2, row.end());
    if (hasBefore_) row.insert(row.begin() + 5, before);
    table_.rows.push_back(std::move(row));
  }

  Table& table_;
  bool hasBefore_;
  bool hasTargets_;
  std::string part_;
};

/// The share of two figures that are both shown.
Cell shareShown(const Cell& part, const Cell& whole) {
  const auto* some = part.as<Count>();
  const auto* all = whole.as<Count>();
  if (some && all) return shareOf(static_cast<int>(some->value), static_cast<int>(all->value));
  return hidesIn({part, whole}) ? Cell(Withheld{}) : Cell(noFigure);
}

void addParticipation(Summary& summary, const TermTotals& totals, const Table& table,
                      const FiguresBefore& before) {
  const auto at = [&](std::string_view key) { return totalOf(table, key); };
  summary.begin("Participation");
  summary.share("Consented, of enrolled", at("consented"), at("enrolled"), at("consented_share"),
                before.share(Figure::consented, Figure::enrolled), totals.targets.consented);
  summary.share("Screened, of consented", at("screened"), at("consented"), at("screened_share"),
                before.share(Figure::screened, Figure::consented), totals.targets.screened);
}

void addHealth(Summary& summary, const ShownFigures& shown, const Table& table,
               const FiguresBefore& before) {
  const auto at = [&](std::string_view key) { return totalOf(table, key); };
  summary.begin("Oral health");
  const auto [name, of] = shown.untreatedOf();
  summary.share(name, at("untreated"), of, at("untreated_share"), before.untreatedShare());
  summary.share("Early care, of screened", at("early"), at("screened"),
                shareShown(at("early"), at("screened")),
                before.share(Figure::early, Figure::screened));
  summary.share("Urgent care, of screened", at("urgent"), at("screened"), at("urgent_share"),
                before.share(Figure::urgent, Figure::screened));
}

void addServices(Summary& summary, const TermTotals& totals, const Table& table,
                 const Cell& screened, const FiguresBefore& before) {
  const auto at = [&](std::string_view key) { return totalOf(table, key); };
  summary.begin("Services");
  summary.share("Students needing sealants, of screened", at("needing"), screened,
                at("needing_share"), before.share(Figure::needing, Figure::screened));
  const auto sealed = sealedOfNeeding(table);
  summary.share(sealed == "sealed" ? "Students sealed, of those needing"
                                   : "Screened students sealed, of those needing",
                at(sealed), at("needing"), at("sealed_share"), before.sealedShare(),
                totals.targets.sealed);
  const auto varnish = varnishOfScreened(table);
  summary.share(varnish == "varnish" ? "Students with varnish, of screened"
                                     : "Screened students with varnish, of screened",
                at(varnish), screened, shareShown(at(varnish), screened), before.varnishShare());
  summary.figure("Teeth sealed", at("teeth"), before.count(Figure::teeth));
}

/// Its share with the interval, where that is shown.
Cell withInterval(const TermTotals& totals, const Cell& whole) {
  const auto& line = totals.retention.total;
  const auto* held = whole.as<Share>();
  if (!line.whole95 || !held) return whole;
  const auto range = rangeCell(line.whole95, line.unit);
  const auto* ends = range.as<Range>();
  // That there are few schools is said once, in the methods: the line is short.
  return ends ? Cell(Estimate{*held, Range{ends->low, ends->high}})
              : whole.with(" (" + range.text() + ")");
}

void addRetention(Summary& summary, const TermTotals& totals, const Table& table,
                  const FiguresBefore& before) {
  using enum CheckFigure;
  const auto at = [&](std::string_view key) { return totalOf(table, key); };
  summary.begin("After " + number(totals.window.fromMonths) + " to " +
                number(totals.window.untilMonths) + " months");
  summary.share("Students found, of those due", at("children_found"), at("children_due"),
                at("found_share"), before.share(childrenFound, childrenDue));
  const auto held = at("whole_share");
  summary.share("Fully retained, of assessable", at("whole"), at("assessable"), held,
                before.share(CheckFigure::whole, assessable), totals.targets.retained,
                withInterval(totals, held), &totals.retention.total);
}

void addReferrals(Summary& summary, const Table& table) {
  summary.begin("Referrals");
  if (table.rows.size() == 1) return summary.figure("Made", Withheld{});
  const auto at = [&](std::string_view key) { return totalOf(table, key); };
  summary.figure("Made", at("made"));
  summary.share("Complete, of made", at("complete"), at("made"),
                shareShown(at("complete"), at("made")), "");
}

/// What the CI of retention takes as independent of each other.
std::string clusterWords(const RetentionLine& line) {
  if (line.unit == ClusterUnit::schools) {
    const auto& whole = line.whole95;
    const bool isFew = whole && whole->clusters < estimates::fewClustersToRead;
    return isFew ? "with schools, which are few, as clusters" : "with schools as clusters";
  }
  return line.isSchoolPlanned ? "with students as clusters, some likeness within a school assumed"
                              : "with students as clusters";
}

/// Which intervals stand on the page.
struct ShownRanges {
  bool retained;
  bool averted;
};

ShownRanges rangesShown(const TermTotals& totals, const std::vector<Table>& tables) {
  const auto held = withInterval(totals, totalOf(tables[3], "whole_share"));
  const auto* kept = held.as<Estimate>();
  const auto spared =
      sparedFigures(totals, !hidesIn(tables[1].rows.back()), !hidesIn(tables[3].rows.back()));
  const auto* averted = spared.front().second.as<Estimate>();
  return {kept && kept->range, averted && averted->range};
}

/// One paragraph: the page is one sheet.
std::string methods(const TermTotals& totals, const SuppressionRule& rule,
                    const FiguresBefore& before, bool servicesAreShown, ShownRanges shown) {
  const auto& firstsAlone = totals.averted.firstsAlone;
  return "Methods. Consented: a form for these dates that says yes, or screened on them. Screened: "
         "a look by a licensed person at school, not a dental examination, no x-rays. Sealed: at "
         "least one complete sealant by this program; a tooth counts once. Retention: first "
         "placements at " +
         number(totals.window.fromMonths) + " to " + number(totals.window.untilMonths) +
         " months, found students only; those not found may have kept fewer or more" +
         (shown.retained ? "; the CI is 95%, " + clusterWords(totals.retention.total)
                         : std::string()) +
         ". Referral complete: treated, or a dentist found no "
         "need. " +
         std::string(
             totals.total.sealedUnscreened > 0
                 ? "Students sealed without a screening on these dates, such as resealed at "
                   "a recheck, are in no share of those needing. "
                 : "") +
         std::string(totals.targets.isAny() ? "Benchmarks are the program's own. " : "") +
         "Cavities averted is a model estimate for programs, never for one student" +
         std::string(shown.averted ? "; its CI covers sampling error, not doubt about the model. "
                                   : ". ") +
         (firstsAlone && servicesAreShown
              ? "Second molars use the first molars' rate; first molars only: " +
                    toRead(avertedCell(*firstsAlone)) + ". "
              : std::string()) +
         "Small numbers, method " + std::string(smallNumbersMethod) + ": counts of 1 to " +
         number(rule.threshold() - 1) + " read \"fewer than " + number(rule.threshold()) +
         "\"; \"suppressed\" is a number of any size that would reveal one. Rates on fewer than 30 "
         "are marked unstable." +
         openlyWords(rule) + " " +
         (before.any() ? before.name() + ": shares in percent, and teeth, as issued then. "
                       : std::string()) +
         "Tables by school and by grade are in the annex.";
}

std::string beforeWords(const FiguresBefore& before, const Cell& was, const char* unit = "") {
  const bool isFigure = was.as<Count>() || was.as<Share>();
  return isFigure ? before.name() + ": " + toRead(was) + unit : std::string();
}

/// Number, range and what it is of, where a figure is shown.
void addKept(Front& front, const TermTotals& totals, const ShownFigures& shown,
             const FiguresBefore& before) {
  const auto held = shown.at(ShownFigures::Part::retention, "whole_share");
  if (held.as<Missing>()) {
    front.sentences.emplace_back("No sealant of a year ago was assessed yet.");
    front.figures.push_back({noFigure, "", "sealants assessed after a year"});
    return;
  }
  const auto* share = held.as<Share>();
  const auto percents = share ? base::percent(share->value, share->decimals) + "%" : std::string();
  front.sentences.push_back(
      share ? "Of the sealants placed a year ago and assessed on these dates, " + percents +
                  " were still fully retained."
            : "How many sealants were retained after a year is suppressed, "
              "to protect small numbers.");
  const auto& line = totals.retention.total;
  const auto range = line.whole95 ? rangeCell(line.whole95, line.unit).text() : std::string();
  front.figures.push_back(
      {share ? Cell(Share{share->value, share->decimals}) : held, share ? "%" : "",
       "sealants fully retained" +
           (share && line.whole95 ? " (95% CI " + range + ")" : std::string()),
       beforeWords(before, before.share(CheckFigure::whole, CheckFigure::assessable), "%")});
}

void addAverted(Front& front, const TermTotals& totals, const Table& services,
                const Table& checks) {
  const auto figures =
      sparedFigures(totals, !hidesIn(services.rows.back()), !hidesIn(checks.rows.back()));
  const auto& cell = figures.front().second;
  const auto* estimate = cell.as<Estimate>();
  const auto years = counted(totals.averted.years, "year", "years");
  if (!estimate) {
    front.sentences.emplace_back("How many cavities this will avert cannot be given yet.");
    front.figures.push_back(
        {cell.isWithheld() ? cell : Cell(noFigure), "", "cavities averted, estimated"});
    return;
  }
  const auto about = std::visit([](const auto& value) { return Cell(value); }, estimate->value);
  front.sentences.push_back("We expect the sealants of these dates to avert about " + about.text() +
                            (about.text() == "1" ? " cavity over " : " cavities over ") + years +
                            ", by a model's estimate.");
  const auto range = estimate->range ? " (95% CI " + Cell(*estimate->range).text() + ")" : "";
  front.figures.push_back({about, "", "cavities averted in " + years + ", estimated" + range});
}

Front frontOf(const std::string& program, const TermTotals& totals, const Published& published,
              const FiguresBefore& before) {
  using enum ShownFigures::Part;
  const auto shown = ShownFigures::ofAll(published);
  const auto schools = counted(static_cast<int>(totals.schools.size()), "school", "schools");
  const auto days = counted(totals.total.days, "clinic day", "clinic days");
  Front front{totals.term + " summary for funders", program,
              periodWords(totals) + " \u00b7 " + schools + " \u00b7 " + days};
  const bool allScreened = wereAllScreened(published.tables[1]);
  const auto screened = shown.at(participation, "screened");
  const auto sealed = shown.at(services, "sealed");
  const auto teeth = shown.at(services, "teeth");
  if (screened.as<Count>() && sealed.as<Count>() && teeth.as<Count>())
    front.sentences.push_back("We screened " + countedShown(screened, "student", "students") +
                              " at " + schools + " and sealed " +
                              countedShown(teeth, "tooth", "teeth") + " for " +
                              (allScreened ? toRead(sealed) + " of them."
                                           : countedShown(sealed, "student", "students") + "."));
  else
    front.sentences.push_back("We held " + days + " at " + schools + ".");
  const auto words = [](const char* what, const std::string& share) {
    return share.empty() ? std::string(what) : std::string(what) + ", " + share;
  };
  front.figures = {
      {screened, "",
       words("students screened",
             shareWords(shown.at(participation, "screened_share"), "consented")),
       beforeWords(before, before.count(Figure::screened))},
      {sealed, "",
       words("students sealed",
             allScreened ? shareWords(shown.at(services, "sealed_share"), "those in need") : ""),
       beforeWords(before, before.count(Figure::sealed))}};
  addKept(front, totals, shown, before);
  addAverted(front, totals, published.tables[1], published.tables[3]);
  front.pictures.push_back(stepsPicture(shown));
  if (auto kept = keptPicture(shown, totals.targets.retained))
    front.pictures.push_back(*std::move(kept));
  return front;
}

} // namespace

std::vector<Table> funderSummary(const TermTotals& totals, const Published& published,
                                 const SuppressionRule& rule, const HandedOut& page) {
  const auto& tables = published.tables;
  const FiguresBefore before(page.before);
  Table table{"Key figures, " + periodWords(totals),
              {grouped("Part"), texts("Figure"), counts("Number"), counts("Of"),
               ranges("Percent (95% CI)")},
              {methods(totals, rule, before, !hidesIn(tables[1].rows.back()),
                       rangesShown(totals, tables))}};
  if (totals.targets.isAny()) {
    table.columns.push_back(shares("Benchmark, %", "benchmark"));
    table.columns.push_back(texts("Met"));
  }
  if (before.any()) {
    auto column = ranges(before.name());
    column.isEarlier = true;
    table.columns.insert(table.columns.begin() + 5, std::move(column));
  }
  table.front = frontOf(page.program, totals, published, before);
  const auto screened = totalOf(tables[0], "screened");
  Summary summary(table, before.any(), totals.targets.isAny());
  addParticipation(summary, totals, tables[0], before);
  addHealth(summary, ShownFigures::ofAll(published), tables[2], before);
  addServices(summary, totals, tables[1], screened, before);
  addRetention(summary, totals, tables[3], before);
  base::require(published.referrals.has_value(), "what became of referrals was counted");
  addReferrals(summary, *published.referrals);
  summary.begin("Cavities averted");
  for (const auto& [figure, estimate] :
       sparedFigures(totals, !hidesIn(tables[1].rows.back()), !hidesIn(tables[3].rows.back())))
    if (const auto* why = estimate.as<std::string>()) { // a sentence would widen the column
      summary.figure(figure, noFigure);
      table.notes.push_back(figure + ": " + *why + ".");
    } else {
      summary.figure(figure, estimate);
    }
  if (published.exposed > 0)
    table.notes.insert(table.notes.begin(),
                       "NOT TO BE PUBLISHED: small counts could still be worked out, from these "
                       "tables or with earlier ones.");
  return {table};
}

} // namespace gk::reports
