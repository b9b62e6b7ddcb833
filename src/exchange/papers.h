#pragma once

#include "base/files/files.h"

#include <string>
#include <string_view>
#include <vector>

namespace gk::exchange {

/// One file of those that travel together.
struct Paper {
  std::string name; ///< "close-out.pdf": small letters, digits, dot and hyphen
  std::string bytes;

  bool operator==(const Paper&) const = default;
};

/// All of them as one: a CBOR map (RFC 8949) of name to bytes. Precondition: each name once.
std::string packed(const std::vector<Paper>& papers);

/// In the order of their names. `papersUnreadable` for what `packed` did not write, and for a name
/// that could lead out of the folder they are written to.
base::Result<std::vector<Paper>> unpacked(std::string_view bytes);

/// Into a folder that was not there, `path` or the first free of "path-2" ..., which is given back;
/// readable by the owner only. All of them or none: what was written goes again where one fails, as
/// base::makeNewFolder and base::writeNewFile.
base::Result<base::Path> writeOut(const std::vector<Paper>& papers, const base::Path& path);

} // namespace gk::exchange
