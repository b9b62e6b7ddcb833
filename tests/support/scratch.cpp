#include "support/scratch.h"

#include "base/contract.h"

#include <cstdlib>

namespace gk::test {

Scratch::Scratch() {
  std::string pattern = (std::filesystem::temp_directory_path() / "gk-test-XXXXXX").string();
  base::require(mkdtemp(pattern.data()) != nullptr, "no scratch folder");
  path_ = pattern;
}

Scratch::~Scratch() {
  if (path_.empty()) return; // moved from
  std::error_code ignored;   // a left-over folder in /tmp harms no one
  std::filesystem::permissions(path_, std::filesystem::perms::owner_all, ignored);
  std::filesystem::remove_all(path_, ignored);
}

} // namespace gk::test
