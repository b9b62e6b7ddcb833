#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace gk::test {

/// Names that no program has by itself, for a book whose memory is looked through afterwards. All
/// begin alike, so that a look need not hold one of them; whoever makes one lets it go.
enum class Canary { first, last, used, guardian, teacher, note, typed, passphrase, phone };

/// "Qz" and more, in a child's way of writing; short ones fit into std::string's own room.
std::string canary(Canary what, int which);

/// Where in all memory that this process can write a canary lies, in UTF-8 or UTF-16, as it is
/// written or in small letters: a line for each, with the kind of memory. The looking itself holds
/// none, and is not looked at.
std::vector<std::string> traces();

/// That there are some: a test that finds nothing must be one that could find.
std::size_t traceCount();

} // namespace gk::test
