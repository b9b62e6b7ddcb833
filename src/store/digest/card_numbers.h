#pragma once

#include "store/sqlite/connection.h"

#include <cstdint>
#include <string>
#include <vector>

namespace gk::store {

/// The newest number on the child's card in the file that `from` names ("main."); empty where the
/// card is erased.
std::string numberOnCard(Connection& book, const std::string& from, std::int64_t child);

/// "student 4001", "students 4001, 4002 and 3 more": twelve at most, since a message is read.
std::string studentsNumbered(const std::vector<std::string>& numbers);

} // namespace gk::store
