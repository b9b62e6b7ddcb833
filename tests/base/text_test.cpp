#include "base/text/text.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace gk::base;

TEST_CASE("Trimming takes blanks from both ends only") {
  CHECK(trim("  a b\t\r\n") == "a b");
  CHECK(trim(" \t ").empty());
  CHECK(trim("").empty());
}

TEST_CASE("Splitting keeps empty parts and joining puts them back") {
  const auto parts = split("a,,b,", ',');
  REQUIRE(parts == std::vector<std::string_view>{"a", "", "b", ""});
  CHECK(join({parts.begin(), parts.end()}, ",") == "a,,b,");
  CHECK(split("", ',').size() == 1);
  CHECK(join({}, ", ").empty());
  CHECK(join({"same", "same"}, "-") == "same-same");
}

TEST_CASE("A whole number is the whole text or an error") {
  CHECK(parseInt("0").value() == 0);
  CHECK(parseInt("-12").value() == -12);
  CHECK(parseInt("9223372036854775807").value() == INT64_MAX);
  for (const auto* text : {"", " 1", "1 ", "1.0", "+1", "0x10", "9223372036854775808", "one"}) {
    CAPTURE(text);
    const auto number = parseInt(text);
    REQUIRE_FALSE(number);
    CHECK(number.error().code == ErrorCode::numberMalformed);
  }
}

TEST_CASE("A decimal number has a point and is finite") {
  CHECK(parseDouble("-0.25").value() == -0.25);
  CHECK(parseDouble("12").value() == 12.0);
  CHECK(parseDouble("1e3").value() == 1000.0);
  for (const auto* text : {"", "1,5", "nan", "inf", "-inf", "1.5 ", "1e999"}) {
    CAPTURE(text);
    const auto number = parseDouble(text);
    REQUIRE_FALSE(number);
    CHECK(number.error().code == ErrorCode::numberMalformed);
  }
}

TEST_CASE("A number is written with the decimals asked for and no grouping") {
  CHECK(fixed(1234567.891, 1) == "1234567.9");
  CHECK(fixed(-0.5, 2) == "-0.50");
  CHECK(fixed(3.0, 0) == "3");
  CHECK(fixed(1e300, 0).size() == 301);
}

TEST_CASE("Search ignores accents", "[case-17]") {
  CHECK(folded("Łódź") == "lodz");
  CHECK(folded("Núñez O’Brien-Žižek") == "nunez obrien zizek");
  CHECK(folded("Zoë Ångström") == "zoe angstrom");
  CHECK(folded("Çelik Gülşen İpek Ilgın") == "celik gulsen ipek ilgin");
  CHECK(folded("Đặng Ngọc Phương Mỹ") == "dang ngoc phuong my");
  CHECK(folded("Þór Sørensen Ægir Strauß") == "tor sorensen agir straus");
  CHECK(folded("Őrsi Țepeș Dvořák Ķēniņš") == "orsi tepes dvorak kenins");
}

TEST_CASE("Every letter of the two accented tables folds to one plain letter", "[case-17]") {
  // By Unicode's own decomposition, and by the nearest letter where it has none.
  CHECK(folded("ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖØÙÚÛÜÝÞß") == "aaaaaaaceeeeiiiidnoooooouuuuyts");
  CHECK(folded("àáâãäåæçèéêëìíîïðñòóôõöøùúûüýþÿ") == "aaaaaaaceeeeiiiidnoooooouuuuyty");
  CHECK(folded("ĀāĂăĄąĆćĈĉĊċČčĎďĐđĒēĔĕĖėĘęĚě") == "aaaaaaccccccccddddeeeeeeeeee");
  CHECK(folded("ĜĝĞğĠġĢģĤĥĦħĨĩĪīĬĭĮįİıĲĳĴĵĶķĸ") == "gggggggghhhhiiiiiiiiiiiijjkkk");
  CHECK(folded("ĹĺĻļĽľĿŀŁłŃńŅņŇňŉŊŋŌōŎŏŐőŒœ") == "llllllllllnnnnnnnnnoooooooo");
  CHECK(folded("ŔŕŖŗŘřŚśŜŝŞşŠšŢţŤťŦŧŨũŪūŬŭŮůŰűŲų") == "rrrrrrssssssssttttttuuuuuuuuuuuu");
  CHECK(folded("ŴŵŶŷŸŹźŻżŽžſ") == "wwyyyzzzzzzs");
}

TEST_CASE("A name folds alike whether its accents are composed or not", "[case-17]") {
  CHECK(folded("Nu\u0301n\u0303ez") == folded("Núñez"));
  CHECK(folded("Z\u030Ci\u030Czek") == "zizek");
}

TEST_CASE("Apostrophes and full stops vanish while hyphens and runs of blanks become one space",
          "[case-17]") {
  CHECK(folded("O'Brien") == folded("OBrien"));
  CHECK(folded("O\u2018Brien") == folded("O\u2019Brien"));
  CHECK(folded("  Anna--Maria \t St. John ") == "anna maria st john");
  CHECK(folded("").empty());
  CHECK(folded(" - ").empty());
}

TEST_CASE("Other scripts pass through a search unchanged", "[case-17]") {
  CHECK(folded("Ольга") == "Ольга");
  CHECK(folded("李 明") == "李 明");
}

TEST_CASE("Well formed UTF-8 is told from bytes that are not") {
  for (const auto* good : {"", "plain", "Łódź", "李", "\xF0\x9F\x98\x80", "\xED\x9F\xBF"}) {
    CAPTURE(good);
    CHECK(isUtf8(good));
  }
  // A lone byte of another code page, cut sequences, overlong forms, surrogates, beyond U+10FFFF.
  for (const auto* bad : {"Jos\xE9", "\xC3", "\xE2\x80", "\xC0\xAF", "\xE0\x80\xAF",
                          "\xF0\x80\x80\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xFF", "\x80"}) {
    CAPTURE(bad);
    CHECK_FALSE(isUtf8(bad));
  }
}

TEST_CASE("What must be said is said in more than blanks, whichever blanks", "[case-115]") {
  for (const char* blank :
       {"", " ", "\t", "\r\n", "\xC2\xA0", "\xE2\x80\x8B \xE3\x80\x80", "\xEF\xBB\xBF"}) {
    std::string text = blank;
    CHECK(isBlank(text));
    const auto filled = fillIn(text, "a school needs a name");
    REQUIRE_FALSE(filled);
    CHECK(filled.error() == Error{ErrorCode::textMalformed, "a school needs a name"});
  }
  std::string text = "  Cobble Lantern\n";
  CHECK(fillIn(text, "a school needs a name"));
  CHECK(text == "Cobble Lantern");
  CHECK_FALSE(isBlank("\xC3\xA9")); // é begins like a blank's bytes
}

TEST_CASE("Rooms are sorted by the number that they begin with, then as written") {
  std::vector<std::string> rooms{"Gym", "10", "9", "", "12B", "12A", "2", "0123456789012"};
  std::ranges::sort(rooms, {}, numberedPlace);
  CHECK(rooms ==
        std::vector<std::string>{"2", "9", "10", "12A", "12B", "0123456789012", "", "Gym"});
}
