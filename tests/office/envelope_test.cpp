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
                      "--by", "IM"}) == "envelope.taken");
  const auto wrong = desk.write("wrong", "eight\n");
  CHECK(desk.refusal({"merge-day", desk.book, desk.sealed, "--day-passphrase-file", wrong, "--by",
                      "IM"}) == "envelope.unreadable");
}

TEST_CASE("A day envelope of one school's students says so, and what it cannot count is refused",
          "[case-424][case-425]") {
  EnvelopeDesk desk;
  desk.did({"add-school", desk.book, "--name", "Thistle Hollow", "--code", "TH", "--by", "IM"});
  desk.did({"import-roster", desk.book, desk.write("list.csv", test::twoChildren), "--school", "CL",
            "--term", "Fall 2026", "--by", "IM"});
  CHECK(desk.refusal({"seal-day", desk.book, desk.sealed, "--school", "ZZ", "--day-passphrase-file",
                      desk.words, "--by", "IM"}) == "record.not-found");
  CHECK(desk.did({"seal-day", desk.book, desk.sealed, "--school", "TH", "--day-passphrase-file",
                  desk.words, "--by", "IM"})
            .out.find("with only Thistle Hollow's students") != std::string::npos);
  const auto other = desk.file("two.gkbook");
  desk.did({"unpack-day", desk.sealed, other, "--day-passphrase-file", desk.words});
  CHECK(desk.did({"check", other}).out.find("has only Thistle Hollow's students") !=
        std::string::npos);
}

TEST_CASE("No verb that writes a file takes the place of a logbook", "[case-380]") {
  EnvelopeDesk desk;
  const auto before = base::readFile(desk.book).value();
  CHECK(desk.refusal({"seal-day", desk.book, desk.book, "--day-passphrase-file", desk.words, "--by",
                      "IM"}) == "file.unwritable");
  const auto list = desk.write("list.csv", "first,last,birth_date,grade\nMina,T,x,2\n");
  CHECK(desk.refusal({"import-roster", desk.book, list, "--school", "CL", "--term", "Fall 2026",
                      "--by", "IM", "--problems", desk.book}) == "file.unwritable");
  CHECK(base::readFile(desk.book).value() == before);
  desk.did({"check", desk.book});
}
