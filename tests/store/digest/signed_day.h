#pragma once

#include "base/files/files.h"

namespace gk::test {

/// What cannot be said in SQL: a day that two people sign, each with a key, and a row after it.
/// Both laptops write.
void addSigned(const base::Path& path);

} // namespace gk::test
