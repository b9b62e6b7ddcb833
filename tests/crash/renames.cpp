#include "crash/renames.h"

#include <atomic>
#include <csignal>
#include <cstdio>
#include <fcntl.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace gk::test {

namespace {

std::atomic<std::uint64_t> done{0};
std::uint64_t diesAtNumber = 0;
bool diesAfter = false;

/// As the library's own would, with the death that was planned.
template <class Call>
int counted(Call call) {
  const bool isTheOne = ++done == diesAtNumber;
  if (isTheOne && !diesAfter) ::kill(::getpid(), SIGKILL);
  const auto became = static_cast<int>(call());
  if (isTheOne) ::kill(::getpid(), SIGKILL);
  return became;
}

} // namespace

void Renames::begin(std::uint64_t diesAt, bool afterIt) {
  done = 0;
  diesAtNumber = diesAt;
  diesAfter = afterIt;
}

std::uint64_t Renames::count() {
  return done;
}

} // namespace gk::test

// In place of the C library's, which every program may do; the C++ library calls these as well.
extern "C" {

int rename(const char* from, const char* to) noexcept {
  return gk::test::counted([&] { return ::syscall(SYS_rename, from, to); });
}

int renameat2(int fromFolder, const char* from, int toFolder, const char* to,
              unsigned flags) noexcept {
  return gk::test::counted(
      [&] { return ::syscall(SYS_renameat2, fromFolder, from, toFolder, to, flags); });
}

int link(const char* from, const char* to) noexcept {
  return gk::test::counted([&] { return ::syscall(SYS_link, from, to); });
}
}
