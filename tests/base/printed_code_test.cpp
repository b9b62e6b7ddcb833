#include "base/random.h"
#include "base/text/printed_code.h"

#include <array>
#include <catch2/catch.hpp>

using namespace gk;
using base::CodeShape;
using base::printedCode;
using base::readCode;

namespace {

std::string codeAtRandom(std::uint64_t seed, CodeShape shape) {
  base::SeededRandom random(seed);
  std::array<std::uint8_t, 32> bytes{};
  random.fill(bytes);
  return printedCode(bytes, shape);
}

} // namespace

TEST_CASE("A printed code has groups, no letter that looks like another, and reads back") {
  const auto code = codeAtRandom(1, base::sheetCodeShape);
  CHECK(code.size() == 23);
  CHECK(code.find_first_of("ILOUilou") == std::string::npos);
  CHECK(readCode(code, base::sheetCodeShape).value() == code);
  const auto recovery = codeAtRandom(1, base::recoveryCodeShape);
  CHECK(recovery.size() == 41);
  CHECK(readCode("  " + recovery + " ", base::recoveryCodeShape).value() == recovery);
  // The first characters are the first bits, five at a time.
  const std::array<std::uint8_t, 18> bits{0b00000'000, 0b01'00010'0, 0b0011'0010};
  CHECK(printedCode(bits, {.data = 4, .perCheck = 4, .group = 5}).starts_with("0123"));
}

TEST_CASE("Any one wrong character of a code and any two that changed places are found") {
  constexpr std::string_view digits = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  for (const auto shape : {base::sheetCodeShape, base::recoveryCodeShape}) {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
      const auto code = codeAtRandom(seed, shape);
      for (std::size_t i = 0; i < code.size(); ++i) {
        if (code[i] == '-') continue;
        for (const char c : digits) {
          auto wrong = code;
          wrong[i] = c;
          if (wrong != code) CHECK_FALSE(readCode(wrong, shape));
        }
        for (std::size_t j = i + 1; j < code.size(); ++j) {
          auto swapped = code;
          std::swap(swapped[i], swapped[j]);
          // Of two groups each has its own check, so two places of them are two wrong characters.
          if (swapped != code && code[j] != '-') CHECK_FALSE(readCode(swapped, shape));
        }
      }
    }
  }
}

TEST_CASE("A mistyped code says in which group, and repeats nothing of it") {
  const auto code = codeAtRandom(4, base::recoveryCodeShape);
  auto wrong = code;
  wrong[14] = wrong[14] == 'A' ? 'B' : 'A'; // in the third group
  const auto read = readCode(wrong, base::recoveryCodeShape);
  REQUIRE_FALSE(read);
  CHECK(read.error().code == base::ErrorCode::textMalformed);
  CHECK(read.error().detail.find("group 3") != std::string::npos);
  CHECK(read.error().detail.find(wrong.substr(12, 5)) == std::string::npos);
  CHECK_FALSE(readCode(code.substr(0, 30), base::recoveryCodeShape));
  CHECK_FALSE(readCode("U" + code.substr(1), base::recoveryCodeShape));
  CHECK_FALSE(readCode("", base::sheetCodeShape));
}
