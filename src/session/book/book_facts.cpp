#include "session/book/book_facts.h"

#include "base/text/text.h"
#include "roster/days/clinic_day.h"
#include "session/book/snapshot.h"
#include "session/values/short_laptop.h"
#include "store/book.h"

#include <algorithm>
#include <set>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using base::Progress;
using base::Result;

namespace {

const base::LaptopId nobody(base::Uuid{}); // stamps nothing

Result<store::Book> openToLook(const base::Path& file, World world, const Progress& progress) {
  return store::Book::open(file, nobody, store::Access::readOnly, store::Durability::everyAct,
                           world.clock.now().at, store::Checkup::skip, progress);
}

Result<BookFacts> verified(store::Book& book, const Progress& progress) {
  const auto faults = book.faults(progress);
  if (!faults) return faults.error();
  if (!faults->empty())
    return Error{ErrorCode::storeDamaged, book.path().string() + ": " + sentence(faults->front()) +
                                              "; choose another backup"};
  return factsOf(book);
}

std::string dateRange(const std::vector<base::LocalInstant>& acts) {
  const auto first = acts.front().date();
  const auto last = acts.back().date();
  return first == last ? first.words() : first.words() + " to " + last.words();
}

base::Path besideBook(const base::Path& book, const std::string& more) {
  return base::freeName(book.parent_path() /
                        (book.stem().string() + more + book.extension().string()));
}

Error inUse(const base::Path& book) {
  return {ErrorCode::storeInUse,
          book.string() + ": another program has it open; close it there and try again"};
}

std::optional<base::LocalInstant> lastAct(const BookFacts& facts) {
  std::optional<base::LocalInstant> last;
  for (const auto& hand : facts.hands)
    if (!last || last->at < hand.last.at) last = hand.last;
  return last;
}

} // namespace

std::string shortName(base::LaptopId laptop) {
  const auto name = laptop.text();
  constexpr std::size_t shown = 4;
  return name.substr(name.size() - shown);
}

Result<BookFacts> factsOf(store::Book& book) {
  auto hands = book.hands();
  if (!hands) return hands.error();
  const auto programs = book.current<roster::Program>(store::everything());
  if (!programs) return programs.error();
  const auto days = book.current<roster::ClinicDay>(store::everything());
  if (!days) return days.error();
  const auto children = book.current<roster::Child>(store::everything());
  if (!children) return children.error();
  const auto held =
      std::ranges::count_if(*days, [](const auto& day) { return !day.value.canceled; });
  return BookFacts{.file = book.path(),
                   .book = book.identity(),
                   .program = programs->empty() ? std::string() : programs->back().value.name,
                   .days = static_cast<int>(held),
                   .children = static_cast<int>(children->size()),
                   .hands = std::move(*hands)};
}

Result<std::vector<LostActs>> beyond(store::Book& book, const BookFacts& other) {
  const auto hands = book.hands();
  if (!hands) return hands.error();
  std::vector<LostActs> lost;
  for (const auto& hand : *hands) {
    const auto known = std::ranges::find(other.hands, hand.laptop, &store::HandReach::laptop);
    const bool isKnown = other.book == book.identity() && known != other.hands.end();
    auto acts = book.actsAfter(hand.laptop, isKnown ? known->sequence : 0);
    if (!acts) return acts.error();
    if (!acts->empty()) lost.push_back({hand.laptop, std::move(*acts)});
  }
  return lost;
}

Result<BookFacts> verifyBackup(const base::Path& backup, World world, const Progress& progress) {
  auto book = openToLook(backup, world, progress);
  if (!book) return book.error();
  return verified(*book, progress);
}

Result<RestorePreview> previewRestore(const base::Path& backup, const base::Path& present,
                                      World world, const Progress& progress) {
  auto facts = verifyBackup(backup, world, progress);
  if (!facts) return facts.error();
  RestorePreview preview{std::move(*facts)};
  std::error_code unread;
  if (present.empty() || !std::filesystem::exists(present, unread)) return preview;
  auto book = openToLook(present, world, progress);
  auto lost = book ? beyond(*book, preview.backup) : book.error();
  if (!lost && lost.error().code == ErrorCode::workCanceled) return lost.error();
  if (!lost) {
    preview.unread = lost.error().detail;
    return preview;
  }
  preview.isOtherProgram = book->identity() != preview.backup.book;
  preview.lost = std::move(*lost);
  return preview;
}

Result<RestorePreview> previewRestore(const base::Path& backup, Snapshot& present, World world,
                                      const Progress& progress) {
  auto facts = verifyBackup(backup, world, progress);
  if (!facts) return facts.error();
  auto lost = present.beyond(*facts);
  if (!lost) return lost.error();
  const bool isOther = facts->book != present.identity();
  return RestorePreview{std::move(*facts), isOther, {}, std::move(*lost)};
}

reports::Table previewTable(const RestorePreview& preview) {
  const auto& backup = preview.backup;
  reports::Table table{
      "Backup: " + backup.file.filename().string(),
      {{"Would be lost"}, {"Laptop"}, {"Acts in the backup", reports::Kind::count}, {"Last act"}}};
  std::set<base::LaptopId> shown;
  const auto lossOf = [&](base::LaptopId laptop) -> std::string {
    const auto lost = std::ranges::find(preview.lost, laptop, &LostActs::laptop);
    if (lost == preview.lost.end()) return {};
    return base::counted(lost->acts.size(), "act", "acts") + ", " + dateRange(lost->acts);
  };
  for (const auto& hand : backup.hands) {
    shown.insert(hand.laptop);
    table.rows.push_back(
        {lossOf(hand.laptop), shortName(hand.laptop), hand.acts, hand.last.words()});
  }
  for (const auto& lost : preview.lost)
    if (!shown.contains(lost.laptop))
      table.rows.push_back({lossOf(lost.laptop), shortName(lost.laptop), 0, ""});
  table.notes.push_back("Program: " + (backup.program.empty() ? "none" : backup.program) + ". " +
                        base::counted(backup.days, "school day", "school days") + ", " +
                        base::counted(backup.children, "student", "students") + ".");
  if (const auto last = lastAct(backup))
    table.notes.push_back("Last act in the backup: " + last->text() + ".");
  return table;
}

std::string lossWords(const RestorePreview& preview) {
  if (preview.isOtherProgram)
    return "This backup is of ANOTHER program's logbook. Nothing of the current one is in it.";
  if (preview.unread)
    return "The current logbook cannot be read, so what is newer in it cannot be listed.";
  if (preview.lost.empty()) return "Nothing would be lost: the backup has all that is here.";
  std::size_t acts = 0;
  std::set<base::Date> days;
  for (const auto& lost : preview.lost) {
    acts += lost.acts.size();
    for (const auto& at : lost.acts)
      days.insert(at.date());
  }
  return base::counted(acts, "act", "acts") + " on " + base::counted(days.size(), "day", "days") +
         " would not be in the restored logbook.";
}

ReadyRestore::~ReadyRestore() {
  std::error_code ignored; // whole, and the backup has all of it
  if (!fresh_.empty()) std::filesystem::remove(fresh_, ignored);
}

Result<Restored> ReadyRestore::putInPlace(base::Date today) {
  if (fresh_.empty()) return Restored{present_, {}}; // nothing was there: it was made in place
  if (store::isInUse(present_)) return inUse(present_);
  const auto kept = besideBook(present_, "-before-restore-" + today.iso());
  if (auto swapped = base::takePlace(fresh_, present_, kept); !swapped) return swapped.error();
  fresh_.clear();
  return Restored{present_, kept};
}

Result<std::shared_ptr<ReadyRestore>> readyRestore(const base::Path& backup,
                                                   const base::Path& present, World world,
                                                   const Progress& progress) {
  std::error_code unread;
  if (std::filesystem::equivalent(backup, present, unread))
    return Error{ErrorCode::fileUnwritable,
                 present.string() + ": is the logbook itself; choose a backup"};
  auto book = openToLook(backup, world, progress);
  if (!book) return book.error();
  if (!std::filesystem::exists(present, unread)) {
    if (auto made = book->backUp(present, progress); !made) return made.error();
    return std::make_shared<ReadyRestore>(base::Path(), present);
  }
  const auto fresh = besideBook(present, "-restoring");
  if (auto made = book->backUp(fresh, progress); !made) return made.error();
  return std::make_shared<ReadyRestore>(fresh, present);
}

Result<Restored> restoreBackup(const base::Path& backup, const base::Path& present, World world,
                               const Progress& progress) {
  std::error_code unread;
  if (std::filesystem::exists(present, unread) &&
      !std::filesystem::equivalent(backup, present, unread) && store::isInUse(present))
    return inUse(present);
  auto ready = readyRestore(backup, present, world, progress);
  if (!ready) return ready.error();
  return (*ready)->putInPlace(world.clock.now().date());
}

} // namespace gk::session
