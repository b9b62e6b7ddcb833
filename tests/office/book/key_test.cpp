#include "office/desk.h"

using namespace gk;

namespace {

/// A logbook with a coordinator and a hygienist; the coordinator has a passphrase of her own.
struct KeyDesk : test::Desk {
  std::string book = makeBook();

  KeyDesk() {
    write("new", "nine kites on a line\n");
    write("own", "seven brass buttons\n");
    did({"add-member", book, "--name", "Rosa Saltmarsh", "--initials", "RS", "--role", "hygienist",
         "--license", "H-1", "--license-until", "2027-06-30", "--by", "IM"});
    did({"import-roster", book, write("two.csv", test::twoChildren), "--term", "Fall 2026",
         "--school", "CL", "--by", "IM"});
    auto session = open();
    REQUIRE(session.unlock("granite lantern 7"));
    REQUIRE(session.enterKey({member(session, "IM"), {}}, "seven brass buttons"));
    REQUIRE(session.enterKey({member(session, "RS"), {}}, "heron over the weir"));
  }
  session::Session open() {
    auto session = session::Session::open(
        book, base::LaptopId(base::makeUuid7(clock.now().at, random)), {clock, random},
        store::Access::readWrite, session::BookKind::throwaway);
    REQUIRE(session);
    return std::move(*session);
  }
  static base::MemberId member(session::Session& session, const std::string& initials) {
    const auto members = session.members().value();
    const auto found = std::ranges::find_if(
        members, [&](const auto& row) { return row.value.initials == initials; });
    REQUIRE(found != members.end());
    return found->id;
  }
  [[nodiscard]] std::vector<std::string> replace() const {
    return {
        "replace-key", book,       "--new-passphrase-file", file("new"), "--own-passphrase-file",
        file("own"),   "--reason", "someone left",          "--by",      "IM"};
  }
};

} // namespace

TEST_CASE(
    "At the command the key of the names is replaced with the own passphrase, and check lists "
    "the copies that the earlier one opens",
    "[case-267]") {
  KeyDesk desk;
  auto call = desk.replace();
  call[5] = desk.file("new"); // not her own
  CHECK(desk.refusal(call) == "vault.wrong-passphrase");
  call[3] = desk.file("pass"); // the present one again
  call[5] = desk.file("own");
  CHECK(desk.refusal(call) == "call.malformed");
  const auto done = desk.did(desk.replace());
  INFO(done.out);
  CHECK(done.out.find("Rosa Saltmarsh") != std::string::npos); // enters hers once
  CHECK(done.out.find("nine kites") == std::string::npos);
  auto change = std::vector<std::string>{"change-passphrase", desk.book, "--new-passphrase-file",
                                         desk.file("pass")};
  CHECK(desk.refusal(change) == "vault.wrong-passphrase");
  desk.environment["GROOVEKEEPER_PASSPHRASE_FILE"] = desk.file("new");
  const auto check = desk.did({"check", desk.book});
  INFO(check.out);
  CHECK(check.out.find("The key of the names was replaced on") != std::string::npos);
  CHECK(check.out.find("someone left") != std::string::npos);
  const auto json = desk.did({"check", desk.book, "--json"}).json();
  CHECK(json["key_replacements"].size() == 1);
  CHECK(json["key_replacements"][0]["by"] == "IM");
  // Her own passphrase opens the names at the command too.
  desk.environment["GROOVEKEEPER_PASSPHRASE_FILE"] = desk.file("own");
  auto session = desk.open();
  CHECK(session.unlock("seven brass buttons"));
}

TEST_CASE("At the command one who leaves loses all at once, and what is left to do is said",
          "[case-227][case-267]") {
  KeyDesk desk;
  const std::vector<std::string> call{"retire-member", desk.book, "--member", "RS",
                                      "--reason",      "moved",   "--by",     "IM"};
  const auto done = desk.did(call);
  INFO(done.out);
  CHECK(done.out.find("RS no longer has any rights") != std::string::npos);
  CHECK(done.out.find("replace-key") != std::string::npos);
  CHECK(done.out.find("the logbook of the laptop ...") != std::string::npos);
  auto session = desk.open();
  CHECK_FALSE(session.unlock("heron over the weir"));
  CHECK(session.unlock("seven brass buttons"));
  const auto members = session.members().value();
  CHECK(std::ranges::any_of(members, [](const auto& row) {
    return row.value.initials == "RS" && row.value.may.isEmpty();
  }));
}
