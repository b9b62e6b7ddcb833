#include "roster/program/program.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::roster;

TEST_CASE("Each grade is kept in one way however it is written", "[case-115]") {
  for (const auto& [written, kept] : {std::pair("K", "K"),
                                      {"k", "K"},
                                      {" K ", "K"},
                                      {"1", "1"},
                                      {"01", "1"},
                                      {" 001\t", "1"},
                                      {"12", "12"},
                                      {"012", "12"}}) {
    INFO(written);
    CHECK(parseGrade(written).value() == kept);
  }
  for (const char* written : {"", " ", "0", "00", "13", "-1", "1.0", "1st", "KG", "K1", "+1"}) {
    INFO(written);
    const auto grade = parseGrade(written);
    REQUIRE_FALSE(grade);
    CHECK(grade.error().code == base::ErrorCode::textMalformed);
  }
}

TEST_CASE("A program has a name, a county and a phone", "[case-115]") {
  Program whole;
  whole.name = " Larkmere Team ";
  whole.county = "Larkmere";
  whole.phone = "000-555-0142";
  CHECK(soundProgram(whole).value().name == "Larkmere Team");
  for (auto blank : {&Program::name, &Program::county, &Program::phone}) {
    auto program = whole;
    program.*blank = "  ";
    const auto sound = soundProgram(program);
    REQUIRE_FALSE(sound);
    CHECK(sound.error().code == base::ErrorCode::textMalformed);
  }
  auto program = whole;
  program.suppressBelow = 4;
  CHECK(soundProgram(program).error().code == base::ErrorCode::numberMalformed);
}
