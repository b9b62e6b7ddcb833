#pragma once

#include "base/files/files.h"

#include <cstdint>
#include <functional>
#include <memory>

namespace gk::test {

/// What happens at one call of SQLite's that would change the disk.
enum class Fault {
  none,
  ioError,      ///< EIO; nothing was done
  noSpace,      ///< ENOSPC; nothing was done
  shortWrite,   ///< half of it is written, then ENOSPC; other calls as noSpace
  afterIoError, ///< done, and reported as EIO
  powerGone,    ///< half of it is written; from then on nothing works, until `restart`
  kill,         ///< this process dies by SIGKILL before it
};

enum class DiskCall { create, write, truncate, sync, remove };

/// How far the disk can be trusted to have kept what it said it kept, when its power goes.
enum class Trust {
  honest,      ///< what was synced is kept; of the rest any part
  liesInOrder, ///< no sync is done: it keeps the writes up to some moment
  lies,        ///< no sync is done: it keeps any part
  losesNames,  ///< as honest, but a file's making or removal may be forgotten
};

/// A disk between SQLite and the real one: an SQLite VFS that takes the usual one's place while
/// this lives. It counts the calls that can change the disk and asks `plan` of each. It keeps what
/// a machine would find when its power comes back, and `restart` puts that in place.
class FaultDisk {
 public:
  using Plan = std::function<Fault(std::uint64_t number, DiskCall call)>;

  explicit FaultDisk(Trust trust = Trust::honest);
  ~FaultDisk();
  FaultDisk(const FaultDisk&) = delete;
  FaultDisk& operator=(const FaultDisk&) = delete;

  /// What is in the file now is on the disk; calls are counted from here, those on files whose
  /// path begins so: a book and its journal, or (without `restart`) all of a folder.
  void begin(const base::Path& book, Plan plan);
  [[nodiscard]] std::uint64_t calls() const;
  /// How many faults there were.
  [[nodiscard]] std::uint64_t faults() const;
  [[nodiscard]] bool isOff() const;
  /// After all have closed the book: what the disk kept of it, drawn by `seed`, where its power
  /// went; it works without faults from then on.
  void restart(std::uint64_t seed);

  struct State;

 private:
  std::unique_ptr<State> state_;
};

} // namespace gk::test
