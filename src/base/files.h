#pragma once

#include "base/result.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace gk::base {

using Path = std::filesystem::path;

/// Whole file as bytes. Fails with `fileNotFound` or `fileUnreadable`.
Result<std::string> readFile(const Path& path);

/// The first line alone, as a passphrase is kept in a file, whatever editor wrote it: without the
/// line's end and without a byte order mark; blanks within stay. Fails as `readFile`, and with
/// `callMalformed` when nothing stands there.
Result<std::string> readFirstLine(const Path& path);

/// Whole or not at all: a private (0600) temporary file in the same folder, written, synced,
/// renamed over `path`, and the folder synced. On failure (`fileUnwritable`, `diskFull`) the old
/// file is unchanged and no temporary file is left.
Result<Done> replaceFile(const Path& path, std::string_view bytes);

/// Makes the folder and its parents where missing, each readable by the owner only; folders that
/// were there keep their permissions. Fails with `fileUnwritable` or `diskFull`.
Result<Done> makeFolder(const Path& path);

} // namespace gk::base
