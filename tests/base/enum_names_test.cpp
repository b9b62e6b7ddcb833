#include "base/enum_names.h"

#include <catch2/catch.hpp>

namespace {

enum class Color { red, green, blue };

} // namespace

template <>
inline constexpr auto gk::base::enumNames<Color> = std::to_array<std::string_view>({"red", "green",
                                                                                    "blue"});

using namespace gk::base;
using Colors = EnumSet<Color>;

TEST_CASE("An enumeration is named and found again by its words") {
  CHECK(nameOf(Color::green) == "green");
  CHECK(fromName<Color>("blue") == Color::blue);
  CHECK_FALSE(fromName<Color>("Blue"));
  CHECK(parseName<Color>("red").value() == Color::red);
}

TEST_CASE("A word that is none of an enumeration is refused with the right ones") {
  const auto color = parseName<Color>("pink");
  REQUIRE_FALSE(color);
  CHECK(color.error().code == ErrorCode::textMalformed);
  CHECK(color.error().detail == "\"pink\" is none of: red, green, blue");
  CHECK(parseName<Color>("pink", ErrorCode::ruleStep).error().code == ErrorCode::ruleStep);
}

TEST_CASE("A set over an enumeration adds and removes and compares") {
  Colors some{Color::red, Color::blue};
  CHECK(some.has(Color::red));
  CHECK_FALSE(some.has(Color::green));
  CHECK(some.size() == 2);
  CHECK(some.values() == std::vector{Color::red, Color::blue});
  CHECK(some.with({Color::green}) == Colors::all());
  CHECK(some.without({Color::red, Color::green}) == Colors{Color::blue});
  CHECK(Colors::all().hasAll(some));
  CHECK_FALSE(some.hasAll(Colors::all()));
  CHECK(some.remove(Color::red).remove(Color::blue).isEmpty());
}

TEST_CASE("A set keeps its bits through a file and refuses bits that mean nothing") {
  const Colors some{Color::red, Color::blue};
  CHECK(some.bits() == 5);
  CHECK(Colors::fromBits(some.bits()) == some);
  CHECK_FALSE(Colors::fromBits(8));
  CHECK_FALSE(Colors::fromBits(-1));
}
