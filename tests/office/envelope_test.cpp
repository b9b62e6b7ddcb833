#include "office/desk.h"

using namespace gk;

namespace {

struct EnvelopeDesk : test::Desk {
  std::string book = makeBook();
  std::string words = write("words", "seven gray herons\n");
  std::string sealed = file("day.gkday");
};

} // namespace

TEST_CASE("A day envelope is sealed, unpacked and merged by the command, and refused a second time",
          "[case-294][case-295]") {
  EnvelopeDesk desk;
  CHECK(desk.did({"day-envelopes", desk.book}).out == "No day envelope was sealed or merged.\n");
  desk.did({"seal-day", desk.book, desk.sealed, "--day-passphrase-file", desk.words, "--by", "IM"});
  CHECK(desk.did({"day-envelopes", desk.book}).out.starts_with("Sealed "));
  const auto other = desk.file("two.gkbook");
  desk.did({"unpack-day", desk.sealed, other, "--day-passphrase-file", desk.words});
  desk.did({"check", other});
  CHECK(desk.refusal({"unpack-day", desk.sealed, other, "--day-passphrase-file", desk.words}) ==
        "file.unwritable");
  CHECK(desk.refusal({"merge-day", desk.book, desk.sealed, "--day-passphrase-file", desk.words,
                      "--by", "IM"}) == "record.changed");
  const auto wrong = desk.write("wrong", "eight\n");
  CHECK(desk.refusal({"merge-day", desk.book, desk.sealed, "--day-passphrase-file", wrong, "--by",
                      "IM"}) == "vault.damaged");
}
