#include "identities.h"
#include "vault/identity.h"

#include <catch2/catch.hpp>

using namespace gk;
using test::day;
using vault::Identity;

TEST_CASE("a child is shown by the name used and known in law by all names") {
  const auto mina = test::mina();
  CHECK(mina.shownName() == "Mina Tolliver-Reed");
  CHECK(mina.legalName() == "Wilhelmina Rose Tolliver-Reed");
  CHECK(mina.headerName() == "Mina T.");
}

TEST_CASE("without a name used the first name stands") {
  const Identity osei{
      .first = " Osei ", .last = "Brackwater", .nameUsed = "  ", .birth = day(2018, 2, 1)};
  CHECK(osei.shownName() == "Osei Brackwater");
  CHECK(osei.headerName() == "Osei B.");
  CHECK(osei.legalName() == "Osei Brackwater");
}

TEST_CASE("a child of one name is a whole child", "[case-17]") {
  const Identity first{.first = "Wren", .birth = day(2018, 2, 1)};
  const Identity last{.last = "Castlebury", .birth = day(2018, 2, 1)};
  CHECK(vault::checkIdentity(first).has_value());
  CHECK(vault::checkIdentity(last).has_value());
  CHECK(first.shownName() == "Wren");
  CHECK(first.headerName() == "Wren");
  CHECK(last.headerName() == "Castlebury");
  CHECK(last.legalName() == "Castlebury");
}

TEST_CASE("an initial keeps its accent however that is written", "[case-17]") {
  Identity pia{.first = "Pia", .last = "\xC3\x96rn", .birth = day(2020, 1, 1)}; // U+00D6
  CHECK(pia.headerName() == "Pia \xC3\x96.");
  pia.last = "O\xCC\x88rn"; // O and U+0308
  CHECK(pia.headerName() == "Pia O\xCC\x88.");
  pia.last = "O";
  CHECK(pia.headerName() == "Pia O.");
}

TEST_CASE("initials are the first letters of the words") {
  CHECK(vault::initials("Rosa Saltmarsh") == "RS");
  CHECK(vault::initials("  Mina   Tolliver-Reed ") == "MT");
  CHECK(vault::initials("\xC3\x89lie") == "\xC3\x89");
  CHECK(vault::initials("").empty());
}

TEST_CASE("an identity without any name or with text that cannot be kept is refused") {
  const auto codeOf = [](const Identity& identity) {
    const auto checked = vault::checkIdentity(identity);
    REQUIRE_FALSE(checked.has_value());
    return checked.error().code;
  };
  auto nameless = test::mina();
  nameless.first = " ";
  nameless.last = "";
  CHECK(codeOf(nameless) == base::ErrorCode::callMalformed);

  auto wordy = test::mina();
  wordy.note = std::string(vault::maxTextBytes, 'n');
  CHECK(vault::checkIdentity(wordy).has_value());
  wordy.note += 'n';
  CHECK(codeOf(wordy) == base::ErrorCode::callMalformed);

  auto crowded = test::mina();
  crowded.guardians.resize(vault::maxGuardians);
  CHECK(vault::checkIdentity(crowded).has_value());
  crowded.guardians.emplace_back();
  CHECK(codeOf(crowded) == base::ErrorCode::callMalformed);

  auto garbled = test::mina();
  garbled.guardians[1].name = "\xFF";
  CHECK(codeOf(garbled) == base::ErrorCode::textMalformed);
}

TEST_CASE("a refusal never tells the name") {
  auto garbled = test::mina();
  garbled.first = "Wilhelmina\xFF";
  const auto checked = vault::checkIdentity(garbled);
  REQUIRE_FALSE(checked.has_value());
  CHECK(checked.error().detail.find("Wilhelmina") == std::string::npos);
}
