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

TEST_CASE("A day envelope that lists a student as erased is merged once that is said, and may be "
          "merged after it was refused",
          "[case-403]") {
  EnvelopeDesk desk;
  desk.did({"import-roster", desk.book, desk.write("list.csv", test::twoChildren), "--school", "CL",
            "--term", "Fall 2026", "--by", "IM"});
  desk.did({"seal-day", desk.book, desk.sealed, "--day-passphrase-file", desk.words, "--by", "IM"});
  const auto other = desk.file("two.gkbook");
  desk.did({"unpack-day", desk.sealed, other, "--day-passphrase-file", desk.words});
  const auto laptop = desk.file("elsewhere"); // what the other laptop remembers
  const std::vector<std::string> erase{"erase-student", other,         "1001-4", "--request",
                                       "the mother",    "--authority", "a rule", "--reason",
                                       "asked for",     "--by",        "IM",     "--laptop-folder",
                                       laptop};
  auto confirmed = erase;
  const auto rows = desk.did([&] {
                          auto shown = erase;
                          shown.emplace_back("--json");
                          return shown;
                        }())
                        .json()
                        .at("rows")
                        .get<int>();
  confirmed.insert(confirmed.end(), {"--confirm-rows", std::to_string(rows)});
  desk.did(confirmed);
  const auto back = desk.file("back.gkday");
  desk.did({"seal-day", other, back, "--day-passphrase-file", desk.words, "--by", "IM",
            "--laptop-folder", laptop});
  std::vector<std::string> merge{"merge-day", desk.book, back, "--day-passphrase-file",
                                 desk.words,  "--by",    "IM"};
  CHECK(desk.refusal(merge) == "store.erases");
  CHECK(desk.did({"check", desk.book, "--json"}).json().at("erasures").empty());
  merge.insert(merge.end(), {"--erase-listed", std::to_string(rows)});
  CHECK(desk.did(merge).out.find("of erased students removed") != std::string::npos);
  CHECK(desk.did({"check", desk.book, "--json"}).json().at("erasures").size() == 1);
  CHECK(desk.refusal(merge) == "envelope.taken");
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
