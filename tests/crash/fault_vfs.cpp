#include "crash/fault_vfs.h"

#include "base/contract.h"
#include "base/random.h"

#include <algorithm>
#include <csignal>
#include <cstring>
#include <fstream>
#include <map>
#include <new>
#include <optional>
#include <sqlite3.h>
#include <string>
#include <unistd.h>
#include <vector>

namespace gk::test {

namespace {

/// What was asked of a file since it was last synced.
struct Pending {
  enum class Kind { write, truncate, create, remove } kind;
  std::string file;
  std::int64_t at = 0;
  std::string bytes{};
};

struct Kept {
  std::optional<std::string> bytes{}; ///< none: no such name
};

void put(std::map<std::string, Kept>& disk, const Pending& one) {
  auto& kept = disk[one.file].bytes;
  switch (one.kind) {
  case Pending::Kind::create:
    if (!kept) kept.emplace();
    break;
  case Pending::Kind::remove:
    kept.reset();
    break;
  case Pending::Kind::truncate:
    if (kept) kept->resize(static_cast<std::size_t>(one.at));
    break;
  case Pending::Kind::write: {
    if (!kept) break; // of a file whose name was lost
    const auto from = static_cast<std::size_t>(one.at);
    if (kept->size() < from + one.bytes.size()) kept->resize(from + one.bytes.size());
    kept->replace(from, one.bytes.size(), one.bytes);
    break;
  }
  }
}

bool isOfName(const Pending& one) {
  return one.kind == Pending::Kind::create || one.kind == Pending::Kind::remove;
}

} // namespace

struct FaultDisk::State {
  Trust trust;
  sqlite3_vfs* system = nullptr;
  sqlite3_vfs vfs{};
  std::string book{};
  Plan plan{};
  std::uint64_t calls = 0;
  std::uint64_t faults = 0;
  bool isOff = false;
  std::map<std::string, Kept> durable{};
  std::vector<Pending> pending{};

  [[nodiscard]] bool watches(const char* name) const {
    return name != nullptr && !book.empty() && std::string_view(name).starts_with(book);
  }
  Fault next(DiskCall call) {
    ++calls;
    if (isOff) return Fault::ioError;
    const auto fault = plan ? plan(calls, call) : Fault::none;
    if (fault == Fault::none) return fault;
    ++faults;
    if (fault == Fault::kill) ::kill(::getpid(), SIGKILL);
    if (fault == Fault::powerGone) isOff = true;
    return fault;
  }
  /// A sync that is honest makes all that was asked of the file safe, its making too.
  void synced(const std::string& file) {
    if (trust == Trust::lies || trust == Trust::liesInOrder) return;
    std::erase_if(pending, [&](const Pending& one) {
      if (one.file != file) return false;
      if (isOfName(one) && (trust == Trust::losesNames || one.kind == Pending::Kind::remove))
        return false;
      put(durable, one);
      return true;
    });
  }
  void removedSafely(const std::string& file) {
    if (trust != Trust::honest) return;
    std::erase_if(pending, [&](const Pending& one) { return one.file == file; });
    durable[file].bytes.reset();
  }
};

namespace {

using State = FaultDisk::State;

struct FaultFile {
  sqlite3_file base;
  State* state;
  std::string* name; ///< none where it is not watched
  [[nodiscard]] sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

FaultFile& of(sqlite3_file* file) {
  return *reinterpret_cast<FaultFile*>(file);
}

int codeOf(Fault fault, int ioError) {
  return fault == Fault::noSpace || fault == Fault::shortWrite ? SQLITE_FULL : ioError;
}

int closeFile(sqlite3_file* file) {
  auto& mine = of(file);
  const int code = mine.real()->pMethods->xClose(mine.real());
  delete mine.name; // NOLINT(cppcoreguidelines-owning-memory): SQLite holds the file
  mine.name = nullptr;
  return code;
}

int readFile(sqlite3_file* file, void* to, int count, sqlite3_int64 at) {
  return of(file).real()->pMethods->xRead(of(file).real(), to, count, at);
}

int writeFile(sqlite3_file* file, const void* from, int count, sqlite3_int64 at) {
  auto& mine = of(file);
  const auto write = [&](int bytes) {
    if (mine.name)
      mine.state->pending.push_back(
          {Pending::Kind::write, *mine.name, at,
           std::string(static_cast<const char*>(from), static_cast<std::size_t>(bytes))});
    return mine.real()->pMethods->xWrite(mine.real(), from, bytes, at);
  };
  if (!mine.name) return write(count);
  const auto fault = mine.state->next(DiskCall::write);
  if (fault == Fault::none) return write(count);
  if (fault == Fault::shortWrite || fault == Fault::powerGone) write(count / 2);
  if (fault == Fault::afterIoError) write(count);
  return codeOf(fault, SQLITE_IOERR_WRITE);
}

int truncateFile(sqlite3_file* file, sqlite3_int64 size) {
  auto& mine = of(file);
  const auto fault = mine.name ? mine.state->next(DiskCall::truncate) : Fault::none;
  if (fault != Fault::none && fault != Fault::afterIoError)
    return codeOf(fault, SQLITE_IOERR_TRUNCATE);
  if (mine.name) mine.state->pending.push_back({Pending::Kind::truncate, *mine.name, size});
  const int code = mine.real()->pMethods->xTruncate(mine.real(), size);
  return fault == Fault::none ? code : SQLITE_IOERR_TRUNCATE;
}

int syncFile(sqlite3_file* file, int flags) {
  auto& mine = of(file);
  const auto fault = mine.name ? mine.state->next(DiskCall::sync) : Fault::none;
  if (fault != Fault::none && fault != Fault::afterIoError)
    return codeOf(fault, SQLITE_IOERR_FSYNC);
  if (mine.name) mine.state->synced(*mine.name);
  (void)flags; // the real disk is not this test's
  return fault == Fault::none ? SQLITE_OK : SQLITE_IOERR_FSYNC;
}

int sizeOfFile(sqlite3_file* file, sqlite3_int64* size) {
  return of(file).real()->pMethods->xFileSize(of(file).real(), size);
}
int lockFile(sqlite3_file* file, int level) {
  return of(file).real()->pMethods->xLock(of(file).real(), level);
}
int unlockFile(sqlite3_file* file, int level) {
  return of(file).real()->pMethods->xUnlock(of(file).real(), level);
}
int isReserved(sqlite3_file* file, int* is) {
  return of(file).real()->pMethods->xCheckReservedLock(of(file).real(), is);
}
int control(sqlite3_file* file, int what, void* with) {
  return of(file).real()->pMethods->xFileControl(of(file).real(), what, with);
}
int sectorSize(sqlite3_file* file) {
  return of(file).real()->pMethods->xSectorSize(of(file).real());
}
/// The least a disk promises.
int characteristics(sqlite3_file* /*file*/) {
  return 0;
}

constexpr sqlite3_io_methods methods{.iVersion = 1,
                                     .xClose = closeFile,
                                     .xRead = readFile,
                                     .xWrite = writeFile,
                                     .xTruncate = truncateFile,
                                     .xSync = syncFile,
                                     .xFileSize = sizeOfFile,
                                     .xLock = lockFile,
                                     .xUnlock = unlockFile,
                                     .xCheckReservedLock = isReserved,
                                     .xFileControl = control,
                                     .xSectorSize = sectorSize,
                                     .xDeviceCharacteristics = characteristics,
                                     .xShmMap = nullptr,
                                     .xShmLock = nullptr,
                                     .xShmBarrier = nullptr,
                                     .xShmUnmap = nullptr,
                                     .xFetch = nullptr,
                                     .xUnfetch = nullptr};

State& stateOf(sqlite3_vfs* vfs) {
  return *static_cast<State*>(vfs->pAppData);
}

int openFile(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* given) {
  auto& state = stateOf(vfs);
  auto* mine = new (file) FaultFile{}; // SQLite's memory, of the size that the VFS asked for
  mine->state = &state;
  const bool isWatched = state.watches(name);
  const bool isNew = isWatched && (flags & SQLITE_OPEN_CREATE) != 0 && ::access(name, F_OK) != 0;
  const auto fault = isNew ? state.next(DiskCall::create) : Fault::none;
  if (fault != Fault::none) return codeOf(fault, SQLITE_IOERR);
  const int code = state.system->xOpen(state.system, name, mine->real(), flags, given);
  if (code != SQLITE_OK) return code;
  if (isWatched) mine->name = new std::string(name);
  if (isNew) state.pending.push_back({Pending::Kind::create, *mine->name});
  mine->base.pMethods = &methods;
  return SQLITE_OK;
}

int removeFile(sqlite3_vfs* vfs, const char* name, int syncFolder) {
  auto& state = stateOf(vfs);
  if (!state.watches(name)) return state.system->xDelete(state.system, name, syncFolder);
  const auto fault = state.next(DiskCall::remove);
  if (fault != Fault::none && fault != Fault::afterIoError) return SQLITE_IOERR_DELETE;
  const int code = state.system->xDelete(state.system, name, 0);
  if (code != SQLITE_OK) return code;
  state.pending.push_back({Pending::Kind::remove, name});
  // As unixDelete: the file goes first, and then its folder's sync may fail.
  if (fault == Fault::afterIoError) return SQLITE_IOERR_DIR_FSYNC;
  if (syncFolder != 0) state.removedSafely(name);
  return SQLITE_OK;
}

} // namespace

FaultDisk::FaultDisk(Trust trust) : state_(std::make_unique<State>()) {
  state_->trust = trust;
  state_->system = sqlite3_vfs_find("unix");
  base::require(state_->system != nullptr, "SQLite has its own way of reading files");
  state_->vfs = *state_->system;
  state_->vfs.zName = "gk-fault";
  state_->vfs.pNext = nullptr;
  state_->vfs.pAppData = state_.get();
  state_->vfs.szOsFile = state_->system->szOsFile + static_cast<int>(sizeof(FaultFile));
  state_->vfs.xOpen = openFile;
  state_->vfs.xDelete = removeFile;
  base::require(sqlite3_vfs_register(&state_->vfs, 1) == SQLITE_OK, "SQLite takes a disk");
}

FaultDisk::~FaultDisk() {
  sqlite3_vfs_register(state_->system, 1);
  sqlite3_vfs_unregister(&state_->vfs);
}

void FaultDisk::begin(const base::Path& book, Plan plan) {
  auto& state = *state_;
  state.book = std::filesystem::weakly_canonical(book).string();
  state.plan = std::move(plan);
  state.calls = 0;
  state.faults = 0;
  state.isOff = false;
  state.pending.clear();
  state.durable.clear();
  if (std::filesystem::is_regular_file(book))
    state.durable[state.book].bytes = base::readFile(book).value();
}

std::uint64_t FaultDisk::calls() const {
  return state_->calls;
}
std::uint64_t FaultDisk::faults() const {
  return state_->faults;
}
bool FaultDisk::isOff() const {
  return state_->isOff;
}

void FaultDisk::restart(std::uint64_t seed) {
  auto& state = *state_;
  if (state.isOff) {
    base::SeededRandom random(seed);
    auto disk = state.durable;
    const auto until = state.pending.empty() ? 0 : random.below(state.pending.size() + 1);
    const bool keepsNone = random.below(4) == 0;
    for (std::size_t i = 0; i < state.pending.size(); ++i) {
      const bool isKept =
          state.trust == Trust::liesInOrder ? i < until : !keepsNone && random.below(2) == 0;
      if (isKept) put(disk, state.pending[i]);
    }
    for (const auto& [file, kept] : disk) {
      if (!kept.bytes) {
        ::unlink(file.c_str());
        continue;
      }
      std::ofstream out(file, std::ios::binary | std::ios::trunc);
      out.write(kept.bytes->data(), static_cast<std::streamsize>(kept.bytes->size()));
    }
    // What was made and never kept.
    for (const auto& one : state.pending)
      if (!disk[one.file].bytes) ::unlink(one.file.c_str());
  }
  state.plan = {};
  state.isOff = false;
  state.pending.clear();
}

} // namespace gk::test
