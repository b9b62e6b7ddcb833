#include "roster/child/likeness.h"

#include <catch2/catch.hpp>

using namespace gk::roster;
using gk::base::Date;

namespace {

Person person(const std::string& name, const char* birth) {
  return {name, name, *Date::parse(birth)};
}

std::optional<Likeness> of(const std::string& one, const std::string& other) {
  return likeness(person(one, "2019-03-14"), person(other, "2019-03-14"));
}

} // namespace

TEST_CASE("Names one slip of the pen apart are near, two slips are not", "[case-107]") {
  CHECK(of("mina tolliver", "mina tolliver") == Likeness::nameAndBirth);
  CHECK(of("mina tolliver", "mina toliver") == Likeness::nearName);
  CHECK(of("mina tolliver", "mina tollivers") == Likeness::nearName);
  CHECK(of("mina tolliver", "nina tolliver") == Likeness::nearName);
  CHECK(of("mina tolliver", "mnia tolliver") == Likeness::nearName);
  CHECK(of("mina tolliver", "tolliver mina") == Likeness::nearName);
  CHECK_FALSE(of("mina tolliver", "nima tolliver"));
  CHECK_FALSE(of("mina tolliver", "wren tolliver"));
  CHECK_FALSE(of("mina tolliver", "mina"));
  CHECK_FALSE(of("", ""));
}

TEST_CASE("One name with almost one birth date is near and asks no one", "[case-107]") {
  const auto with = [](const char* birth) {
    return likeness(person("mina", "2019-03-04"), person("mina", birth));
  };
  CHECK(with("2019-04-03") == Likeness::nearBirth);
  CHECK(with("2018-03-04") == Likeness::nearBirth);
  CHECK_FALSE(with("2018-04-04"));
  CHECK_FALSE(isTooAlike(Likeness::nearBirth));
  CHECK(isTooAlike(Likeness::nearName));
}

TEST_CASE("A number is like the one that lacks its check digit", "[case-108]") {
  CHECK(areLikeNumbers("1043", "1043-0"));
  CHECK(areLikeNumbers("104-3", "1043-0"));
  CHECK(areLikeNumbers("1043-9", "1043-0"));
  CHECK_FALSE(areLikeNumbers("1043-0", "1043-0"));
  CHECK_FALSE(areLikeNumbers("1044", "1043-0"));
  CHECK_FALSE(areLikeNumbers("", "1"));
  CHECK_FALSE(areLikeNumbers("", "1043-0"));
}
