#include "base/contract.h"

#include <cstdlib>
#include <iostream>

namespace gk::base {

void fail(std::string_view what, const char* file, int line) {
  std::cerr << "groovekeeper: bug: " << what << " (" << file << ':' << line << ")\n";
  std::abort();
}

} // namespace gk::base
