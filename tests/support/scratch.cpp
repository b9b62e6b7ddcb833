#include "support/scratch.h"

#include "base/contract.h"

#include <cstdlib>
#include <sys/stat.h>

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

OtherDisk::OtherDisk() {
  std::string pattern = "/dev/shm/groovekeeper-XXXXXX";
  struct stat here {};
  struct stat there {};
  const auto usual = std::filesystem::temp_directory_path().string();
  if (::stat(usual.c_str(), &here) != 0 || ::stat("/dev/shm", &there) != 0) return;
  if (here.st_dev != there.st_dev && ::mkdtemp(pattern.data()) != nullptr) path_ = pattern;
}

OtherDisk::~OtherDisk() {
  std::error_code ignored;
  if (isThere()) std::filesystem::remove_all(path_, ignored);
}

} // namespace gk::test
