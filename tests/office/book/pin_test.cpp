#include "office/desk.h"

using namespace gk;

TEST_CASE("At the command a member with a PIN gives it", "[case-234]") {
  test::Desk desk;
  const auto book = desk.makeBook();
  {
    auto session = session::Session::open(
        book, base::LaptopId(base::makeUuid7(desk.clock.now().at, desk.random)),
        {desk.clock, desk.random}, store::Access::readWrite, session::BookKind::throwaway);
    REQUIRE(session);
    REQUIRE(session->unlock("granite lantern 7"));
    const auto ines = session->members().value().front().id;
    REQUIRE(session->setPin({ines, {}}, ines, "2580"));
  }
  const std::vector<std::string> add{"add-school", book, "--name", "Fern Hollow",
                                     "--code",     "FH", "--by",   "IM"};
  const auto with = [&](const std::string& pin) {
    auto words = add;
    words.insert(words.end(), {"--pin-file", desk.write("pin", pin + "\n")});
    return words;
  };
  CHECK(desk.refusal(add) == "pin.needed");
  CHECK(desk.said("--pin-file"));
  CHECK(desk.refusal(with("9038")) == "pin.wrong");
  CHECK_FALSE(desk.said("9038"));
  desk.did(with("2580"));
}
