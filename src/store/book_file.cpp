#include "store/book_file.h"

#include "store/audit.h"
#include "store/book_copy.h"
#include "store/schema/own_schema.h"
#include "store/sqlite/folder.h"

#include <algorithm>
#include <array>
#include <fcntl.h>
#include <fstream>
#include <memory>
#include <sqlite3.h>
#include <unistd.h>

namespace gk::store {

namespace {

using base::ErrorCode;
using base::Path;

[[noreturn]] void refuse(ErrorCode code, const Path& path, const std::string& why) {
  throw Trouble({code, path.string() + ": " + why});
}

/// The first 100 bytes (sqlite.org/fileformat2.html, section 1.3).
using Header = std::array<std::uint8_t, 100>;

std::int32_t bigEndian(const Header& header, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i)
    value = value << 8U | header.at(at + i);
  return static_cast<std::int32_t>(value);
}

/// Read through SQLite, which neither locks nor writes here: a descriptor of our own would on
/// closing drop the locks of another connection of this process. False when the file is shorter.
bool readHeader(const Path& path, Header& header) {
  sqlite3* raw = nullptr;
  const int opened =
      sqlite3_open_v2(path.c_str(), &raw, SQLITE_OPEN_READONLY | SQLITE_OPEN_EXRESCODE, nullptr);
  const std::unique_ptr<sqlite3, decltype(&sqlite3_close_v2)> db(raw, &sqlite3_close_v2);
  if (opened != SQLITE_OK) throwTrouble(raw, opened, path.string());
  sqlite3_file* file = nullptr;
  sqlite3_file_control(raw, "main", SQLITE_FCNTL_FILE_POINTER, static_cast<void*>(&file));
  const int code = file->pMethods->xRead(file, header.data(), static_cast<int>(header.size()), 0);
  if (code != SQLITE_OK && code != SQLITE_IOERR_SHORT_READ) throwTrouble(raw, code, path.string());
  return code == SQLITE_OK;
}

void refuseVersion(const Path& path, std::int64_t version, std::span<const Migration> steps) {
  if (version > static_cast<std::int64_t>(steps.size()))
    refuse(ErrorCode::storeNewerSchema, path,
           "made by a newer version of this program (schema " + std::to_string(version) +
               ", this one knows " + std::to_string(steps.size()) +
               "); it was not touched; install the newer version");
  if (version < 1)
    refuse(ErrorCode::storeDamaged, path,
           "its schema version " + std::to_string(version) +
               " is none that ever was; keep this file and open the latest backup");
}

/// Whether it ends as SQLite (3.40, readSuperJournal) takes the name of another journal: the name,
/// its length, the sum of its bytes, the magic. A header that was begun when the power went ends
/// with the magic too.
bool namesAnother(std::istream& journal, std::string_view magic) {
  constexpr std::streamoff tail = 16;
  journal.seekg(0, std::ios::end);
  const std::streamoff size = journal.tellg();
  if (size <= tail) return false;
  std::array<char, tail> end{};
  journal.seekg(size - tail);
  journal.read(end.data(), tail);
  if (!journal || std::string_view(end.data() + 8, 8) != magic) return false;
  const auto number = [&](std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = at; i < at + 4; ++i)
      value = value << 8 | static_cast<unsigned char>(end[i]);
    return value;
  };
  // SQLite takes none that is longer than a path of it, 512; so no length of a file's own is
  // believed.
  constexpr std::streamoff longest = 4096;
  const std::streamoff length = number(0);
  if (length == 0 || length > std::min(size - tail, longest)) return false;
  std::string name(static_cast<std::size_t>(length), '\0');
  journal.seekg(size - tail - length);
  journal.read(name.data(), length);
  // SQLite adds them as `char`, which has a sign on some machines and none on others.
  std::uint32_t withSign = 0;
  std::uint32_t without = 0;
  for (const char byte : name) {
    withSign +=
        static_cast<std::uint32_t>(static_cast<std::int32_t>(static_cast<signed char>(byte)));
    without += static_cast<unsigned char>(byte);
  }
  return journal && (withSign == number(4) || without == number(4));
}

/// A journal that SQLite would play back into the book, or write, wherever it leads. Ours is a
/// plain file and of one book: one that names another journal has SQLite delete the file of that
/// name (pager_delsuper, 3.40).
void refuseStrangeJournal(const Path& path) {
  const Path log = path.string() + "-wal";
  std::error_code unseen;
  if (std::filesystem::symlink_status(log, unseen).type() != std::filesystem::file_type::not_found)
    refuse(ErrorCode::storeBeside, log,
           "this file is beside the logbook but is not part of one; nothing is lost and neither "
           "was touched; move it to another folder and open the logbook again");
  const Path journal = path.string() + "-journal";
  std::error_code unread;
  const auto status = std::filesystem::symlink_status(journal, unread);
  if (status.type() == std::filesystem::file_type::not_found) return;
  if (status.type() != std::filesystem::file_type::regular)
    refuse(ErrorCode::storeDamaged, journal,
           "not a journal of this program but a link, a folder or a device; take it away, and keep "
           "the logbook as it is");
  constexpr std::string_view magic("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8);
  std::ifstream in(journal, std::ios::binary);
  // Zeros at its end, or nothing else: it was being made when the power went. SQLite would delete
  // whatever else it is.
  std::string begin(magic.size(), '\0');
  in.read(begin.data(), static_cast<std::streamsize>(begin.size()));
  begin.resize(static_cast<std::size_t>(in.gcount()));
  const auto written = begin.find_last_not_of('\0') + 1; // the magic has no zero in it
  if (!magic.starts_with(std::string_view(begin).substr(0, written)))
    refuse(ErrorCode::storeBeside, journal,
           "this file beside the logbook has its journal's name but is not its journal; "
           "nothing is lost and neither was touched; move it to another folder and open the "
           "logbook again");
  in.clear();
  if (namesAnother(in, magic))
    refuse(ErrorCode::storeDamaged, journal,
           "a journal that names other files, which this program never makes; take it away, and "
           "open the latest backup");
}

void refuseForeign(const Path& path, std::span<const Migration> steps) {
  std::error_code unread;
  const auto status = std::filesystem::status(path, unread);
  if (status.type() == std::filesystem::file_type::not_found)
    refuse(ErrorCode::fileNotFound, path, "no such file; check the name and the folder");
  if (status.type() != std::filesystem::file_type::regular)
    refuse(ErrorCode::storeNotALogbook, path, "not a file; choose a logbook");
  if (::faccessat(AT_FDCWD, path.c_str(), R_OK, AT_EACCESS) != 0)
    refuse(ErrorCode::fileUnreadable, path, "you have no permission to read it");
  constexpr std::string_view magic("SQLite format 3\0", 16);
  Header header{};
  if (!readHeader(path, header) || !std::equal(magic.begin(), magic.end(), header.begin()))
    refuse(ErrorCode::storeNotALogbook, path, "not a logbook; it was not touched");
  refuseStrangeJournal(path);
  if (bigEndian(header, 68) != applicationId)
    refuse(ErrorCode::storeNotALogbook, path, "a database of another program; it was not touched");
  refuseVersion(path, bigEndian(header, 60), steps);
  // Written for a rollback journal, as ours are: beside another kind lies a file that is part of
  // it.
  if (header.at(18) != 1 || header.at(19) != 1 || bigEndian(header, 44) > 4)
    refuse(ErrorCode::storeDamaged, path,
           "its pages are kept in a way that this program never does; open the latest backup");
}

void refuseUnwritable(const Path& path) {
  requireWritableFolder(folderOf(path)); // the journal lies beside the book
  if (::faccessat(AT_FDCWD, path.c_str(), W_OK, AT_EACCESS) != 0)
    refuse(ErrorCode::storeReadOnly, path,
           "it may not be written; make it writable, or open a copy of it");
}

void lookThrough(Connection& book) {
  if (book.seesChecks()) return checkPages(book, "main", book.path());
  Connection looking(book.path(), Looking::locked);
  const Watching watching(looking, book.progress());
  checkPages(looking, "main", book.path());
}

/// Beside the book, and never over an earlier copy: that one may hold what this book lost.
Path copyBefore(const Path& path, std::size_t version) {
  const std::string name = path.stem().string() + ".before-" + std::to_string(version);
  Path copy = folderOf(path) / (name + ".gkbook");
  for (int again = 2; std::filesystem::exists(copy); ++again)
    copy = folderOf(path) / (name + "-" + std::to_string(again) + ".gkbook");
  return copy;
}

void updateBook(Connection& book, std::span<const Migration> steps, const OwnSchema& own,
                base::Instant now) {
  const auto before = copyBefore(book.path(), steps.size());
  writeCopy(book, before, own);
  try {
    migrate(book, steps, now);
  } catch (const Trouble& trouble) {
    // The book is what the copy is, so it is not left as if something had happened.
    std::error_code ignored;
    if (trouble.error().code == ErrorCode::workCanceled) std::filesystem::remove(before, ignored);
    throw;
  }
}

void requireOrdered(std::span<const Migration> steps) {
  base::require(!steps.empty(), "at least one schema step");
  for (std::size_t i = 0; i < steps.size(); ++i)
    base::require(steps[i].number == static_cast<int>(i) + 1, "schema steps 1, 2, 3...");
}

} // namespace

base::Result<Connection> openBook(const Path& path, Access access, Durability durability,
                                  base::Instant now, Checkup checkup,
                                  std::span<const Migration> steps,
                                  const base::Progress& progress) {
  requireOrdered(steps);
  return guarded([&] {
    std::error_code missing;
    Path file = std::filesystem::canonical(path, missing); // the journal lies beside the target
    if (missing) file = path;
    refuseForeign(file, steps);
    if (access == Access::readWrite) refuseUnwritable(file);
    if (access == Access::readWrite) base::clearDrafts(folderOf(file));
    Connection book(file, access, durability);
    std::optional<Watching> watching(std::in_place, book, progress);
    const std::int64_t version = userVersion(book); // again: a journal may have been rolled back
    refuseVersion(file, version, steps);
    const bool isOld = version < static_cast<std::int64_t>(steps.size());
    const bool isOurs = steps.data() == migrations().data();
    const auto made = isOurs && !isOld ? OwnSchema{} : ownSchema(steps, version);
    const auto& own = isOurs && !isOld ? newestSchema() : made;
    requireOwnSchema(book, "main", own, file);
    if (checkup == Checkup::whole || isOld) lookThrough(book);
    checkHistory(book, steps, version);
    if (isOld) {
      if (access == Access::readOnly)
        refuse(ErrorCode::storeReadOnly, file,
               "made by an older version; open it once for writing to bring it up to date");
      updateBook(book, steps, own, now);
    }
    watching.reset();
    return book;
  });
}

bool isOfOlderVersion(const Path& path, std::span<const Migration> steps) {
  const auto isOlder = guarded([&] {
    refuseForeign(path, steps);
    Header header{};
    return readHeader(path, header) &&
           bigEndian(header, 60) < static_cast<std::int32_t>(steps.size());
  });
  return isOlder && *isOlder;
}

bool isInUse(const Path& path) {
  const auto opened =
      guarded([&] { const Connection held(path, Access::readWrite, Durability::everyAct); });
  return !opened && opened.error().code == ErrorCode::storeInUse;
}

base::Result<Connection> createBook(const Path& path, Durability durability, base::Instant now,
                                    std::span<const Migration> steps,
                                    const std::function<void(Connection&)>& fill) {
  requireOrdered(steps);
  return guarded([&] {
    Draft draft(path);
    {
      Connection fresh(draft.path(), Access::readWrite, Durability::bulk);
      migrate(fresh, steps, now);
      if (fill) fill(fresh);
    }
    draft.putInPlace();
    return Connection(path, Access::readWrite, durability);
  });
}

base::Result<base::Done> makeInPlace(const Path& path,
                                     const std::function<base::Result<bool>(const Path&)>& make) {
  return guarded([&]() -> base::Result<base::Done> {
    Draft draft(path);
    const auto isKept = make(draft.path());
    if (!isKept) return isKept.error();
    if (*isKept) draft.putInPlace();
    return base::Done{};
  });
}

base::Result<base::Done> backupTo(Connection& book, const Path& target, const OwnSchema& own) {
  return guarded([&] { writeCopy(book, target, own); });
}

base::Result<std::vector<std::string>> integrity(Connection& book) {
  return guarded([&] { return findings(book); });
}

} // namespace gk::store
