#include "base/files.h"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

namespace gk::base {

namespace {

Error trouble(const Path& path, int code) {
  const auto kind = code == ENOSPC || code == EDQUOT ? ErrorCode::diskFull
                                                     : ErrorCode::fileUnwritable;
  return {kind, path.string() + ": " + std::strerror(code)};
}

/// A descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int handle) : handle_(handle) {}
  ~Descriptor() {
    if (handle_ >= 0) ::close(handle_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  [[nodiscard]] int get() const { return handle_; }

 private:
  int handle_;
};

bool writeAll(int handle, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t wrote = ::write(handle, bytes.data(), bytes.size());
    if (wrote < 0 && errno == EINTR) continue;
    if (wrote < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(wrote));
  }
  return true;
}

} // namespace

Result<std::string> readFile(const Path& path) {
  std::error_code missing;
  if (!std::filesystem::exists(path, missing))
    return Error{ErrorCode::fileNotFound, path.string() + ": no such file"};
  std::ifstream in(path, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  if (!in || std::filesystem::is_directory(path, missing))
    return Error{ErrorCode::fileUnreadable, path.string() + ": cannot be read"};
  return bytes;
}

Result<Done> replaceFile(const Path& path, std::string_view bytes) {
  const Path folder = path.has_parent_path() ? path.parent_path() : Path(".");
  std::string temporary = (folder / (".groovekeeper-XXXXXX")).string();
  const Descriptor file(::mkostemp(temporary.data(), O_CLOEXEC));
  if (file.get() < 0) return trouble(path, errno);
  const bool written = ::fchmod(file.get(), 0600) == 0 && writeAll(file.get(), bytes) &&
                       ::fsync(file.get()) == 0 && ::rename(temporary.c_str(), path.c_str()) == 0;
  if (!written) {
    const int code = errno;
    ::unlink(temporary.c_str());
    return trouble(path, code);
  }
  const Descriptor directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (directory.get() < 0 || ::fsync(directory.get()) != 0) return trouble(folder, errno);
  return Done{};
}

Result<Done> makeFolder(const Path& path) {
  std::error_code failure;
  const bool existed = std::filesystem::exists(path, failure);
  std::filesystem::create_directories(path, failure);
  if (failure) return trouble(path, failure.value());
  if (!existed) std::filesystem::permissions(path, std::filesystem::perms::owner_all, failure);
  if (failure) return trouble(path, failure.value());
  return Done{};
}

} // namespace gk::base
