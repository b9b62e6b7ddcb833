#include "base/enum_names.h"

#include <catch2/catch.hpp>

namespace {

enum class Colour { red, green, blue };

} // namespace

template <>
inline constexpr auto gk::base::enumNames<Colour> = std::to_array<std::string_view>({"red", "green",
                                                                                     "blue"});

using namespace gk::base;
using Colours = EnumSet<Colour>;

TEST_CASE("An enumeration is named and found again by its words") {
  CHECK(nameOf(Colour::green) == "green");
  CHECK(fromName<Colour>("blue") == Colour::blue);
  CHECK_FALSE(fromName<Colour>("Blue"));
  CHECK(parseName<Colour>("red").value() == Colour::red);
}

TEST_CASE("A word that is none of an enumeration is refused with the right ones") {
  const auto colour = parseName<Colour>("pink");
  REQUIRE_FALSE(colour);
  CHECK(colour.error().code == ErrorCode::textMalformed);
  CHECK(colour.error().detail == "\"pink\" is none of: red, green, blue");
  CHECK(parseName<Colour>("pink", ErrorCode::ruleStep).error().code == ErrorCode::ruleStep);
}

TEST_CASE("A set over an enumeration adds and removes and compares") {
  Colours some{Colour::red, Colour::blue};
  CHECK(some.has(Colour::red));
  CHECK_FALSE(some.has(Colour::green));
  CHECK(some.size() == 2);
  CHECK(some.values() == std::vector{Colour::red, Colour::blue});
  CHECK(some.with({Colour::green}) == Colours::all());
  CHECK(some.without({Colour::red, Colour::green}) == Colours{Colour::blue});
  CHECK(Colours::all().hasAll(some));
  CHECK_FALSE(some.hasAll(Colours::all()));
  CHECK(some.remove(Colour::red).remove(Colour::blue).isEmpty());
}

TEST_CASE("A set keeps its bits through a file and refuses bits that mean nothing") {
  const Colours some{Colour::red, Colour::blue};
  CHECK(some.bits() == 5);
  CHECK(Colours::fromBits(some.bits()) == some);
  CHECK_FALSE(Colours::fromBits(8));
  CHECK_FALSE(Colours::fromBits(-1));
}
