#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace gk::layout {

/// A source file of the repository: its path from the top with forward slashes, and its text.
struct SourceFile {
  std::string path;
  std::string text;
};

/// A module and the modules it may include.
using Uses = std::map<std::string, std::set<std::string>>;

/// One sentence for each thing found wrong; empty when all is well.
using Findings = std::vector<std::string>;

/// The architecture as it was decided. To move a wall, change this table and src/CMakeLists.txt.
const Uses& architecture();

/// The gk_module(name USES ...) lines of src/CMakeLists.txt.
Uses modulesOf(std::string_view cmakeLists);

/// The rooms of a module, each a folder in it, from the ground up. The module's own name among them
/// is what lies in no room.
using Rooms = std::map<std::string, std::vector<std::string>>;

/// The ROOMS of those lines, of the modules that have any.
Rooms roomsOf(std::string_view cmakeLists);

/// Includes in a room of another that does not stand before it, and files in no room. The main of a
/// program (app) stands over all rooms.
Findings checkRooms(const SourceFile& file, const Rooms& rooms);

/// Folders with a source or header and more than twenty files; `paths` are those of all files.
Findings checkCrowds(const std::vector<std::string>& paths);

/// Modules whose declared uses are not those decided, and modules that are not declared. The faces
/// (office and ui) are programs and need no gk_module line.
Findings checkModules(const Uses& declared, const Uses& decided);

/// Includes that cross a wall. Files outside src/ and ui/ have no walls.
Findings checkWalls(const SourceFile& file, const Uses& uses);

/// The floors of the window, lowest first, each with its rooms (folders of ui).
const std::vector<std::set<std::string>>& floors();

/// Includes in a room of ui of another room that is not on a lower floor, and files in no room.
Findings checkFaceWalls(const SourceFile& file);

/// Names such as store::Book in a face, which it could only have through another's header: its own
/// includes cross no wall then, and its code does.
Findings checkNames(const SourceFile& file, const Uses& uses);

/// Libraries outside their one home: SQLite in store, sodium in crypto, JSON in the sources of
/// exchange, Qt nowhere in src; and real clocks and randomness in base alone.
Findings checkHomes(const SourceFile& file);

/// Counts written before a noun of many, as `number(n) + " days"` or "%1 letters": with 1 they read
/// wrong. base::counted says both; a constant that is never 1 may stand so.
Findings checkCounts(const SourceFile& file);

/// Headers that do not start with #pragma once, and files that are too long.
Findings checkShape(const SourceFile& file);

/// Error codes without a paragraph of their own under "## name", and paragraphs without a code.
Findings checkErrorPage(std::string_view page, const std::vector<std::string_view>& codes);

/// Names at the top of the repository that have no business there.
Findings checkTopLevel(const std::vector<std::string>& names);

} // namespace gk::layout
