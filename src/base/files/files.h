#pragma once

#include "base/result.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace gk::base {

using Path = std::filesystem::path;

/// More than any list, letter or setting that the program reads.
constexpr std::size_t mostOfFile = 16 * std::size_t{1024} * 1024;

/// Whole file as bytes, and never more than `most`: `fileTooLarge`, before it is read. Fails with
/// `fileNotFound`, or with `fileUnreadable`, also for what is no file: a folder, a pipe, a device,
/// which may have no end. A logbook that this process has open keeps its locks.
Result<std::string> readFile(const Path& path, std::size_t most = mostOfFile);

/// What mkostemp takes for a hidden file of that folder, which says of itself which process of
/// which machine makes it.
std::string draftPattern(const Path& folder);

/// An empty one, private, which nothing else had the name of. Fails as `replaceFile`.
Result<Path> makeDraft(const Path& folder);

/// Removes what killed programs of this user left of `replaceFile` and of backups in that folder:
/// drafts of a process of this machine that is no more, and those of another machine that no one
/// has written for a day. How many. What cannot be removed stays.
std::size_t clearDrafts(const Path& folder);

/// The first line alone, as a passphrase is kept in a file, whatever editor wrote it: without the
/// line's end and without a byte order mark; blanks within stay. Fails as `readFile`, and with
/// `callMalformed` when nothing stands there.
Result<std::string> readFirstLine(const Path& path);

/// Whole or not at all: a private (0600) temporary file in the same folder, written, synced,
/// renamed over `path`, and the folder synced. On failure (`fileUnwritable`, `diskFull`) the old
/// file is unchanged and no temporary file is left; where the folder alone could not be synced, the
/// new one is there. Never over a logbook (`fileUnwritable`), open or not, nor over what is no
/// file.
Result<Done> replaceFile(const Path& path, std::string_view bytes);

/// The same under a name that nothing has; else `fileUnwritable`, and what has it is not touched.
Result<Done> writeNewFile(const Path& path, std::string_view bytes);

/// Makes the folder and its parents where missing, each readable by the owner only; folders that
/// were there keep their permissions. Fails with `fileUnwritable` or `diskFull`.
Result<Done> makeFolder(const Path& path);

/// A folder that was not there, readable by the owner only, with its parents: `path`, or the first
/// free of "path-2", "path-3" ... Fails as `makeFolder`.
Result<Path> makeNewFolder(const Path& path);

/// `fresh` takes the name of `present`, which goes on as `kept`, a name that is free; what SQLite
/// left beside it goes along. Durable on return. Where the file system has hard links there is a
/// file under the name of `present` at every moment. Fails with `fileUnwritable`; then `present` is
/// where it was. Precondition: `fresh` is synced and in the same folder; nothing has `present`
/// open.
Result<Done> takePlace(const Path& fresh, const Path& present, const Path& kept);

/// Whether both lie on one device, so that they are lost together; a file that is not there yet is
/// where its folder is. Fails with `fileNotFound` or `fileUnreadable`.
Result<bool> isOnSameDisk(const Path& one, const Path& two);

/// `path`, or the first of "name-2.ext", "name-3.ext" ... that is not taken.
Path freeName(const Path& path);

} // namespace gk::base
