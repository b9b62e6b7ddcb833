#include "base/error.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>
#include <string>

using namespace gk::base;

TEST_CASE("Every error code has one stable name of its own") {
  std::set<std::string_view> names;
  for (const auto code : allErrorCodes())
    names.insert(errorName(code));
  CHECK(names.size() == allErrorCodes().size());
  CHECK(errorName(ErrorCode::storeNewerSchema) == "store.newer-schema");
}

TEST_CASE("The codes are listed in the order of their enumeration without gaps") {
  std::size_t next = 0;
  for (const auto code : allErrorCodes())
    CHECK(static_cast<std::size_t>(code) == next++);
  CHECK(allErrorCodes().back() == ErrorCode::workCanceled);
}

TEST_CASE("A name is a family and a kind in small letters") {
  for (const auto code : allErrorCodes()) {
    const std::string name(errorName(code));
    CAPTURE(name);
    CHECK(std::ranges::count(name, '.') == 1);
    CHECK(name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-.") == std::string::npos);
  }
}
