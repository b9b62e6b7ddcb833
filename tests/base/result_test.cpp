#include "base/result.h"

#include <catch2/catch.hpp>
#include <csignal>
#include <functional>
#include <memory>
#include <string>
#include <sys/wait.h>
#include <unistd.h>

using namespace gk::base;

namespace {

const Error trouble{ErrorCode::notFound, "there is none"};

Result<int> half(int value) {
  if (value % 2 != 0) return Error{ErrorCode::numberMalformed, "odd"};
  return value / 2;
}

bool aborts(const std::function<void()>& act) {
  const pid_t child = ::fork();
  if (child == 0) {
    std::signal(SIGABRT, SIG_DFL); // else the test framework reports it as a failed test
    ::close(STDERR_FILENO);
    act();
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFSIGNALED(status) && WTERMSIG(status) == SIGABRT;
}

} // namespace

TEST_CASE("A result holds a value or an error") {
  const Result<int> good = 3;
  const Result<int> bad = trouble;
  CHECK(good);
  CHECK(*good == 3);
  CHECK_FALSE(bad);
  CHECK(bad.error() == trouble);
  CHECK(good.value_or(9) == 3);
  CHECK(bad.value_or(9) == 9);
}

TEST_CASE("A chain of steps stops at its first error") {
  CHECK(half(12).and_then(half).value() == 3);
  CHECK(half(6).and_then(half).error().detail == "odd");
  CHECK(half(5).and_then(half).error().detail == "odd");
  CHECK(half(8).transform([](int n) { return std::to_string(n); }).value() == "4");
  CHECK_FALSE(half(7).transform([](int n) { return std::to_string(n); }));
}

TEST_CASE("A value that can only be moved moves out of its result") {
  Result<std::unique_ptr<int>> result = std::make_unique<int>(7);
  const std::unique_ptr<int> taken = std::move(result).value();
  CHECK(*taken == 7);
}

TEST_CASE("Reading the side that is not there is a bug and aborts") {
  CHECK(aborts([] { static_cast<void>(Result<int>(trouble).value()); }));
  CHECK(aborts([] { static_cast<void>(Result<int>(3).error()); }));
  CHECK_FALSE(aborts([] { static_cast<void>(Result<int>(3).value()); }));
}

TEST_CASE("A claim that does not hold aborts in every build") {
  CHECK(aborts([] { require(false, "a test"); }));
  CHECK_FALSE(aborts([] { require(true, "a test"); }));
}
