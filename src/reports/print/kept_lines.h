#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace gk::reports {

/// How the logbook keeps rows of words: a tab between words, one row a line; a tab, line end or
/// backslash within a word is written \t, \n, \\.
std::string keptLine(const std::vector<std::string>& words);
std::vector<std::vector<std::string>> fromKeptLines(std::string_view text);

} // namespace gk::reports
