#include "store/book_copy.h"

#include "store/audit.h"
#include "store/schema/migration.h"
#include "store/sqlite/folder.h"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <optional>
#include <unistd.h>
#include <utility>

namespace gk::store {

namespace {

using base::ErrorCode;

void refuseTaken(const base::Path& target) {
  std::error_code unread;
  // A link to nothing is a name that is taken.
  const auto kind = std::filesystem::symlink_status(target, unread).type();
  const bool isFree =
      kind == std::filesystem::file_type::not_found ||
      (kind == std::filesystem::file_type::regular && std::filesystem::is_empty(target, unread));
  if (!isFree)
    throw Trouble(
        {ErrorCode::fileUnwritable, target.string() + ": already exists; choose another name"});
  for (const char* suffix : {"-journal", "-wal"}) {
    const base::Path left = target.string() + suffix;
    if (std::filesystem::exists(left, unread))
      throw Trouble({ErrorCode::fileUnwritable,
                     left.string() + ": left over from another file of that name; choose another "
                                     "name"});
  }
}

std::int64_t number(Connection& book, std::string_view sql) {
  auto row = book.prepare(sql);
  base::require(row.step(), "a statement that always gives one row");
  return row.column<std::int64_t>(0);
}

using RowCounts = std::vector<std::pair<std::string, std::int64_t>>;

RowCounts rowCounts(Connection& book) {
  constexpr std::string_view selectTables =
      "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name";
  RowCounts counts;
  auto tables = book.prepare(selectTables);
  while (tables.step())
    counts.emplace_back(tables.column<std::string>(0), 0);
  for (auto& [table, rows] : counts) {
    std::string quoted = "\"";
    for (const char c : table)
      quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    rows = number(book, "SELECT count(*) FROM " + quoted + "\"");
  }
  return counts;
}

[[noreturn]] void refuseToCopy(const base::Path& book, const std::string& why) {
  throw Trouble({ErrorCode::storeDamaged,
                 book.string() + ": " + why +
                     "; no copy was made, since it would look whole; keep this file and open the "
                     "latest backup"});
}

void verifyCopy(Connection& book, const base::Path& file, const base::Path& target,
                const OwnSchema& own) {
  Connection copy(file, Looking::locked);
  const Watching watching(copy, book.progress());
  book.progress().at(base::Stage::verifying);
  const bool isSame =
      findings(copy).empty() && userVersion(copy) == userVersion(book) &&
      number(copy, "PRAGMA application_id") == number(book, "PRAGMA application_id") &&
      rowCounts(copy) == rowCounts(book);
  // The copy has all that the book has, so the book is asked only when the copy is not as it was
  // written: which of them it is then.
  const bool isWhole = historyFaults(copy, "main", own, 1).empty();
  if (!isWhole)
    if (const auto faults = historyFaults(book, "main", own); !faults.empty())
      refuseToCopy(book.path(), sentence(faults.front()));
  if (!isSame || !isWhole)
    throw Trouble({ErrorCode::storeWriteFailed,
                   target.string() +
                       ": the copy differs from the book and was removed; the book is "
                       "unchanged; copy to another disk"});
}

} // namespace

void requireWritableFolder(const base::Path& folder) {
  if (::faccessat(AT_FDCWD, folder.c_str(), W_OK | X_OK, AT_EACCESS) == 0) return;
  throw Trouble(
      {ErrorCode::storeReadOnly, folder.string() + ": files cannot be made in this folder (" +
                                     std::strerror(errno) +
                                     "); make it writable or move the book to a folder that is"});
}

Draft::Draft(base::Path target) : target_(std::move(target)) {
  const base::Path folder = folderOf(target_);
  std::error_code unread;
  if (!std::filesystem::is_directory(folder, unread))
    throw Trouble({ErrorCode::fileNotFound, folder.string() + ": no such folder; make it first"});
  requireWritableFolder(folder);
  refuseTaken(target_);
  base::clearDrafts(folder);
  std::string name = base::draftPattern(folder);
  const int handle = ::mkostemp(name.data(), O_CLOEXEC);
  if (handle < 0)
    throw Trouble(
        {errno == ENOSPC || errno == EDQUOT ? ErrorCode::diskFull : ErrorCode::storeReadOnly,
         folder.string() + ": a file cannot be made: " + std::strerror(errno)});
  ::close(handle);
  path_ = name;
}

Draft::~Draft() {
  if (path_.empty()) return;
  std::error_code ignored; // a left-over draft harms no one and its name says whose it is
  std::filesystem::remove(path_, ignored);
  std::filesystem::remove(path_.string() + "-journal", ignored);
}

void Draft::putInPlace() {
  syncToDisk(path_);
  refuseTaken(target_);
  std::error_code failure;
  std::filesystem::rename(path_, target_, failure);
  if (failure)
    throw Trouble({ErrorCode::storeWriteFailed,
                   target_.string() + ": cannot be put in place: " + failure.message()});
  path_.clear();
  syncToDisk(folderOf(target_));
}

std::vector<std::string> findings(Connection& book) {
  if (!book.seesChecks() && !book.hasMoved()) {
    auto found = guarded([&] {
      Connection looking(book.path(), Looking::locked);
      const Watching watching(looking, book.progress());
      return findings(looking);
    });
    if (!book.hasMoved()) {
      if (!found) throw Trouble(found.error());
      return *found;
    } // else it was another file that was looked at
  }
  std::vector<std::string> found;
  try {
    auto pages = book.prepare("PRAGMA integrity_check");
    while (pages.step()) {
      if (auto line = pages.column<std::string>(0); line != "ok") found.push_back(std::move(line));
    }
    auto links = book.prepare("PRAGMA foreign_key_check");
    while (links.step()) {
      const auto row = links.column<std::optional<std::int64_t>>(1); // NULL WITHOUT ROWID
      found.push_back("table " + links.column<std::string>(0) +
                      (row ? " row " + std::to_string(*row) : std::string(" has a row that")) +
                      " points at a missing row of " + links.column<std::string>(2));
    }
  } catch (const Trouble& trouble) {
    if (trouble.error().code != ErrorCode::storeDamaged) throw;
    found.push_back(trouble.error().detail); // too damaged for the check itself to finish
  }
  return found;
}

void writeCopy(Connection& book, const base::Path& target, const OwnSchema& own) {
  base::require(!book.isInTransaction(), "a copy asked for inside a transaction");
  book.progress().at(base::Stage::checking);
  if (const auto found = findings(book); !found.empty()) refuseToCopy(book.path(), found.front());
  Draft draft(target);
  book.progress().at(base::Stage::writing);
  try {
    book.prepare("VACUUM INTO ?1").bindAll(draft.path().string()).run();
    verifyCopy(book, draft.path(), target, own);
  } catch (const Trouble& trouble) {
    throw Trouble(
        {trouble.error().code, "copying to " + target.string() + ": " + trouble.error().detail});
  }
  draft.putInPlace();
}

} // namespace gk::store
