#include "office/call/call.h"

#include <catch2/catch.hpp>

using namespace gk;
using office::Call;
using office::Shape;

namespace {

const Shape shape{"weigh",
                  "FILE [OTHER]",
                  "weighs",
                  {{"--jar", "NAME", "which jar", true}, {"--dry", "", "without the lid"}}};

base::Result<Call> parse(const std::vector<std::string>& words) {
  return Call::parse(shape, words);
}

std::string whyNot(const std::vector<std::string>& words) {
  const auto call = parse(words);
  REQUIRE_FALSE(call);
  CHECK(call.error().code == base::ErrorCode::callMalformed);
  return call.error().detail;
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("Options may stand anywhere and be joined by an equals sign") {
  const auto call = parse({"--jar=a=b", "book", "--dry", "other"});
  REQUIRE(call);
  CHECK(call->text("--jar") == "a=b");
  CHECK(call->has("--dry"));
  CHECK_FALSE(call->wantsJson());
  CHECK(call->operand(0) == "book");
  CHECK(call->operandIfAny(1) == "other");
}

TEST_CASE("An optional operand may be missing and a dash is an operand") {
  const auto call = parse({"-", "--jar", "-3"});
  REQUIRE(call);
  CHECK(call->operand(0) == "-");
  CHECK(call->text("--jar") == "-3");
  CHECK_FALSE(call->operandIfAny(1));
}

TEST_CASE("After two dashes all words are operands") {
  const auto call = parse({"--jar", "x", "--", "--dry"});
  REQUIRE(call);
  CHECK(call->operand(0) == "--dry");
  CHECK_FALSE(call->has("--dry"));
}

TEST_CASE("Help is enough and nothing else is looked at") {
  const auto call = parse({"--nonsense", "--help"});
  REQUIRE(call);
  CHECK(call->wantsHelp());
}

TEST_CASE("What does not fit the shape is refused with what would") {
  CHECK(has(whyNot({"book"}), "--jar NAME is missing"));
  CHECK(has(whyNot({"--jar", "x"}), "FILE is missing"));
  CHECK(has(whyNot({"a", "b", "c", "--jar", "x"}), "\"c\" is one word too many"));
  CHECK(has(whyNot({"a", "--jr", "x"}), "did you mean --jar?"));
  CHECK(has(whyNot({"a", "-j", "x"}), "there is no option -j"));
  CHECK(has(whyNot({"a", "--jar"}), "--jar needs a value, NAME"));
  CHECK(has(whyNot({"a", "--jar", "--dry"}), "--jar needs a value"));
  CHECK(has(whyNot({"a", "--jar", "x", "--jar", "y"}), "--jar is given twice"));
  CHECK(has(whyNot({"a", "--dry=yes", "--jar", "x"}), "--dry takes no value"));
  CHECK(has(whyNot({"a", "--jar", "\xff"}), "not UTF-8"));
  CHECK(has(whyNot({"\xff", "--jar", "x"}), "not UTF-8"));
}

TEST_CASE("A passphrase on the command line is refused with where it belongs") {
  CHECK(has(whyNot({"a", "--jar", "x", "--passphrase", "secret"}), "--passphrase-file"));
  CHECK_FALSE(has(whyNot({"a", "--jar", "x", "--passphrase=secret"}), "secret"));
}

TEST_CASE("Values are read as dates and numbers and trouble names the option") {
  CHECK((*parse({"a", "--jar", "2026-11-17"})->date("--jar"))->iso() == "2026-11-17");
  CHECK(*parse({"a", "--jar", "0.5"})->number("--jar") == 0.5);
  CHECK(*parse({"a", "--jar", "5"})->whole("--jar", 1, 9) == 5);
  CHECK_FALSE(*parse({"a", "--jar", "x"})->date("--lid"));

  const auto date = parse({"a", "--jar", "2026-02-30"})->date("--jar");
  REQUIRE_FALSE(date);
  CHECK(date.error().code == base::ErrorCode::dateMalformed);
  CHECK(date.error().detail.starts_with("--jar: "));
  const auto number = parse({"a", "--jar", "nan"})->number("--jar");
  REQUIRE_FALSE(number);
  CHECK(number.error().code == base::ErrorCode::numberMalformed);
  CHECK_FALSE(parse({"a", "--jar", "10"})->whole("--jar", 1, 9));
  CHECK_FALSE(parse({"a", "--jar", "1.5"})->whole("--jar", 1, 9));
}

TEST_CASE("The nearest word is one that is near") {
  const std::vector<std::string_view> words{"totals", "backup", "check"};
  CHECK(office::nearest("totls", words) == "totals");
  CHECK(office::nearest("chekc", words) == "check");
  CHECK(office::nearest("sterilize", words).empty());
}

TEST_CASE("The help of a verb shows what it needs") {
  const auto help = helpOf(shape);
  CHECK(help.starts_with("groovekeeper-office weigh FILE [OTHER] --jar NAME [OPTIONS]\n"));
  CHECK(has(help, "--dry"));
  CHECK(has(help, "--json"));
}
