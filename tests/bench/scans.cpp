#include "bench/books.h"
#include "bench/cost.h"
#include "bench/measures.h"
#include "reports/records/inputs.h"
#include "session/reporting/terms_so_far.h"
#include "session/session.h"
#include "store/audit.h"
#include "support/clinic.h"

#include <algorithm>
#include <filesystem>

namespace gk::bench {

using test::must;

void measureFile(const base::Path& path, int children, Figures& figures) {
  store::Connection book(path, store::Access::readOnly, store::Durability::bulk);
  auto count = book.prepare("SELECT count(*) FROM entry");
  count.step();
  const auto entries = static_cast<double>(count.column<std::int64_t>(0));
  const auto bytes = static_cast<double>(std::filesystem::file_size(path));
  const auto size = ", " + std::to_string(children) + " children";
  figures.add({"the file" + size, bytes / 1e6, "MB",
               children == 100'000 ? std::optional(Target{Keep::atMost, 200}) : std::nullopt});
  // 196 at 100,000 children; a small one has its tables to carry besides.
  figures.add({"an entry, all in all" + size, bytes / entries, "bytes",
               Target{Keep::atMost, children < 10'000 ? 230.0 : 210.0}});
}

void measureScans(const base::Path& path, int children, Figures& figures) {
  store::Connection book(path, store::Looking::locked);
  const auto of = [&](const std::string& what, auto work) {
    figures.addCost(what, Growth::scan, children, processorCost(work), "s");
  };
  touchEveryRow(book); // the first reading warms
  of("every row touched", [&] { touchEveryRow(book); });
  std::size_t faults = 0;
  of("every digest verified",
     [&] { faults = store::historyFaults(book, "main", store::newestSchema()).size(); });
  of("pages, integrity and references", [&] { faults += store::pageFaults(book).size(); });
  if (faults > 0) FAIL("the logbook to measure with is damaged");
}

namespace {

/// The tables of which a term's totals read the rows of its children.
constexpr std::array ofChildren{"child",           "consent",   "background", "consent_override",
                                "screening",       "placement", "field",      "retention_check",
                                "contact_attempt", "seating",   "varnish",    "day_outcome",
                                "referral"};

/// A bare scan of a term's rows: of each table whose rows the totals read, every row about a child
/// with a form of the term or a sealant that a look in the term may be of, found by the table's own
/// index, with its row of `entry`, every value touched and nothing kept.
void touchTerm(store::Connection& book, const base::Recorded<roster::Term>& term) {
  Touched touched;
  for (const std::string table : ofChildren) {
    const std::string about = table == "child" ? "t.entry" : "t.child";
    auto columns = book.prepare("SELECT ncol FROM pragma_table_list WHERE name = ?");
    columns.bindAll(std::string_view(table));
    columns.step();
    auto entryColumns = book.prepare("SELECT ncol FROM pragma_table_list WHERE name = 'entry'");
    entryColumns.step();
    auto rows = book.prepare(
        "WITH counted AS MATERIALIZED (SELECT child FROM consent WHERE term = ?1 UNION SELECT "
        "p.child FROM clinic_day AS d JOIN placement AS p ON p.day = d.entry WHERE d.day_on "
        "BETWEEN "
        "?2 AND ?3) SELECT t.*, e.* FROM counted AS c CROSS JOIN \"" +
        table + "\" AS t ON " + about + " = c.child CROSS JOIN entry AS e ON e.id = t.entry");
    rows.bindAll(term.id, term.value.start.plusMonths(-followup::Window().untilMonths),
                 term.value.end);
    touchAll(rows, columns.column<int>(0) + entryColumns.column<int>(0), touched);
  }
}

} // namespace

void measureTotals(const base::Path& path, int children, Figures& figures) {
  const auto asOf = base::Date::parse("2026-11-17").value();
  base::ManualClock clock(base::atLocal(asOf, std::chrono::hours(9), std::chrono::minutes(0)));
  base::SeededRandom random(1);
  auto session = must(session::Session::open(
      path, base::LaptopId(base::makeUuid7(clock.now().at, random)), {clock, random},
      store::Access::readOnly, session::BookKind::throwaway));
  auto terms = must(session.terms());
  std::ranges::sort(terms, {}, [](const auto& term) { return term.value.start; });
  const auto size = ", " + std::to_string(children) + " children";
  forgetMemory();
  std::vector<double> ratios;
  double each = 0;
  double scans = 0;
  double newest = 0;
  store::Connection bare(path, store::Looking::locked);
  for (const auto& term : terms) {
    // In turns, the least of two each, so that both have read the file before.
    double scan = 1e9;
    double total = 1e9;
    for (int turn = 0; turn < 2; ++turn) {
      scan = std::min(scan, processorCost([&] { touchTerm(bare, term); }));
      total = std::min(total, processorCost([&] {
                         reports::termTotals(
                             must(session.termRecords(term.id, asOf, session::Reach::term)));
                       }));
    }
    ratios.push_back(total / scan);
    each += total;
    scans += scan;
    newest = total;
  }
  const auto last = terms.back().value.start;
  const double together = processorCost([&] { must(session::termsSoFar(session, last, asOf)); });
  figures.addCost("totals of a term", Growth::scan, children, newest, "s");
  figures.add({"the same, times a bare scan of its rows (median of the terms)" + size,
               medianOf(ratios), "", Target{Keep::atMost, 3}});
  figures.addCost("totals of eight terms in one pass", Growth::scan, children, together, "s");
  figures.add({"the same, times the sum of each by itself" + size, together / each, "",
               Target{Keep::atMost, 1.5}});
  figures.add({"the same, times the bare scans of their rows" + size, together / scans, "", {}});
  figures.add({"most memory of totals" + size, mostMemory(), "MB",
               children <= 100'000 ? std::optional(Target{Keep::atMost, 200}) : std::nullopt});
}

} // namespace gk::bench
