#include "office/desk.h"

using namespace gk;
using gk::test::Desk;

TEST_CASE("Help and version need nothing else") {
  Desk desk;
  CHECK(desk.did({"--help"}).out.find("import-roster FILE LIST") != std::string::npos);
  CHECK(desk.did({"--version"}).out.starts_with("groovekeeper-office "));
  CHECK(desk.did({"estimate", "--help"}).out.find("estimate money") != std::string::npos);
  for (const std::string verb :
       {"new", "check", "backup", "merge", "add-school", "add-term", "add-member", "add-enrollment",
        "add-light", "add-lot", "add-cure-time", "import-roster", "open-day", "close-out",
        "totals"})
    CHECK(desk.did({verb, "--help"}).out.starts_with("groovekeeper-office " + verb));
}

TEST_CASE("An unknown verb is refused with the nearest one") {
  Desk desk;
  CHECK(desk.refusal({"totls", "x"}) == "call.malformed");
  CHECK(desk.said("did you mean totals?"));
  CHECK(desk.refusal({"estimate", "avertd"}) == "call.malformed");
  CHECK(desk.said("did you mean estimate averted?"));
  CHECK(desk.refusal({"sterilize"}) == "call.malformed");
  CHECK_FALSE(desk.said("did you mean"));
  CHECK(desk.refusal({}) == "call.malformed");
  CHECK(desk.refusal({"estimate"}) == "call.malformed");
  CHECK(desk.said("attack-rate"));
}

TEST_CASE("An unknown option of any verb is refused") {
  Desk desk;
  CHECK(desk.refusal({"check", "x.gkbook", "--jsno"}) == "call.malformed");
  CHECK(desk.said("did you mean --json?"));
}

TEST_CASE("An answer that cannot be written out is trouble") {
  Desk desk;
  std::istringstream in;
  std::ostringstream out;
  std::ostringstream err;
  out.setstate(std::ios::badbit); // as a full disk does
  const auto nothing = [](const std::string&) { return std::optional<std::string>{}; };
  const std::vector<std::string> words{"--version"};
  CHECK(office::run(words, {desk.clock, desk.random, in, out, err, nothing}) == 2);
  CHECK(err.str().starts_with("groovekeeper-office: file.unwritable: "));
}

TEST_CASE("A file's name commands no terminal from an error", "[case-384]") {
  Desk desk;
  CHECK(desk.refusal({"check", desk.file("a\x1b]0;x\x07\xE2\x80\xAE.gkbook")}) == "file.not-found");
  CHECK(desk.said("a?]0;x??.gkbook"));
}
