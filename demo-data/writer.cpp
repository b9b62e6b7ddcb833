#include "demo.h"

#include "plan/county.h"
#include "reports/day/close_out_tables.h"
#include "reports/print/render.h"
#include "reports/term/term_tables.h"
#include "session/session.h"

#include <algorithm>

namespace gk::demo {

namespace {

using base::Done;
using base::Path;
using base::Result;
using Tables = std::vector<reports::Table>;

struct Paper {
  std::string file; ///< without ending
  std::string title;
  Tables tables;
};

Result<Paper> closeOutPaper(session::Session& book) {
  auto terms = book.terms();
  if (!terms) return terms.error();
  auto days = book.days(terms->back().id);
  if (!days) return days.error();
  const auto newest =
      std::ranges::max_element(*days, {}, [](const auto& day) { return day.value.date; });
  auto records = book.dayRecords(newest->id);
  if (!records) return records.error();
  auto names = book.names();
  if (!names) return names.error();
  const auto sheet = reports::closeOut(*records, *names);
  return Paper{"close-out-" + sheet.date.iso(),
               "Close-out, " + sheet.school + ", " + sheet.date.words(),
               reports::closeOutTables(sheet)};
}

Result<Paper> totalsPaper(session::Session& book, const base::Recorded<roster::Term>& term) {
  auto records = book.termRecords(term.id, std::min(term.value.end, on(2026, 11, 17)));
  if (!records) return records.error();
  std::string file = "totals-" + std::to_string(term.value.start.year());
  return Paper{std::move(file), "Term totals, " + term.value.name,
               reports::termTables(reports::termTotals(*records))};
}

Result<std::vector<Paper>> papersOf(session::Session& book) {
  std::vector<Paper> papers;
  auto sheet = closeOutPaper(book);
  if (!sheet) return sheet.error();
  papers.push_back(*std::move(sheet));
  auto terms = book.terms();
  if (!terms) return terms.error();
  for (const auto& term : *terms) {
    auto totals = totalsPaper(book, term);
    if (!totals) return totals.error();
    papers.push_back(*std::move(totals));
  }
  return papers;
}

Result<Done> write(const Path& folder, const Paper& paper) {
  const auto name = [&](const std::string& ending) { return folder / (paper.file + ending); };
  if (auto done = base::replaceFile(name(".txt"), reports::toText(paper.tables)); !done)
    return done;
  if (auto done = base::replaceFile(name(".html"), reports::toHtml(paper.title, paper.tables));
      !done)
    return done;
  for (const auto& [file, csv] : reports::toCsvFiles(paper.tables))
    if (auto done = base::replaceFile(name("-" + file), csv); !done) return done;
  return Done{};
}

} // namespace

Result<std::string> writePapers(const Path& folder) {
  base::SystemClock clock;
  base::SystemRandom random;
  const base::LaptopId reader(base::makeUuid7(clock.now().at, random));
  auto book = session::Session::open(folder / "demo.gkbook", reader, {clock, random},
                                     store::Access::readOnly);
  if (!book) return book.error();
  if (auto unlocked = book->unlock(passphrase); !unlocked) return unlocked.error();
  auto papers = papersOf(*book);
  if (!papers) return papers.error();
  if (auto made = base::makeFolder(folder / "reports"); !made) return made.error();
  std::string text;
  for (const auto& paper : *papers) {
    if (auto done = write(folder / "reports", paper); !done) return done.error();
    text += paper.title + "\n\n" + reports::toText(paper.tables) + "\n";
  }
  return text;
}

} // namespace gk::demo
