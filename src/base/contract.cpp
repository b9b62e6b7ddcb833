#include "base/contract.h"

#include <cstdlib>
#include <iostream>

namespace gk::base {

void fail(std::string_view what, std::source_location where) {
  std::cerr << "groovekeeper: bug: " << what << " (" << where.file_name() << ':' << where.line()
            << ")\n";
  std::abort();
}

} // namespace gk::base
