#include "office/desk.h"

using namespace gk;
using gk::test::Desk;

namespace {

/// A book whose program waits for a dentist, with two children.
struct Office : Desk {
  Office() {
    did({"new", book, "--program", "Larkmere County School Sealant Team", "--county",
         "Larkmere County", "--phone", "000-555-0142", "--supervision", "dentist exam required",
         "--authorization-days", "180"});
    did({"add-term", book, "--name", "Fall 2026", "--start", "2026-09-08", "--end", "2026-12-18"});
    did({"add-school", book, "--name", "Cobble Lantern Elementary", "--code", "CL"});
    did({"add-member", book, "--name", "Ines Marrowby", "--initials", "IM", "--role",
         "coordinator"});
    did({"add-member", book, "--name", "Dr. Selwyn Hartgrove", "--initials", "SH", "--role",
         "dentist", "--license", "DD-00092", "--license-until", "2027-01-31"});
    did({"import-roster", book, write("r.csv", gk::test::twoChildren), "--school", "CL", "--term",
         "Fall 2026", "--by", "IM"});
  }
  std::vector<std::string> import(const std::string& csv, const std::string& dentist = "SH") {
    return {"import-authorizations",
            book,
            write("a.csv", csv),
            "--dentist",
            dentist,
            "--on",
            "2026-11-10",
            "--by",
            "IM",
            "--json"};
  }
  std::vector<base::Recorded<chairside::Authorization>> words(const std::string& digits) {
    auto session = session::Session::open(book, base::LaptopId(base::Uuid{}), {clock, random},
                                          store::Access::readOnly);
    REQUIRE(session);
    const auto found = session->findChildren(digits).value();
    REQUIRE(found.size() == 1);
    return session->authorizations(found.front().child).value();
  }
  std::string book = file("book.gkbook");
};

} // namespace

TEST_CASE("A dentist's list is taken in by slip number, until the program's last day",
          "[case-82]") {
  Office office;
  const auto told =
      office.did(office.import("number,teeth\n" + roster::withCheckDigit("1001") + ",3 14 30:O\n"))
          .json();
  CHECK(told.at("children") == 1);
  CHECK(told.at("until") == "2027-05-09");
  const auto words = office.words("1001");
  REQUIRE(words.size() == 1);
  CHECK(words.front().value.how == chairside::AuthorizedHow::examAtSchool);
  REQUIRE(words.front().value.teeth.size() == 3);
  CHECK(words.front().value.teeth[2] ==
        dentition::ToothSurfaces{dentition::toothAt(46), {dentition::Surface::occlusal}});
}

TEST_CASE("A list with one line that cannot be is not taken in at all", "[case-82]") {
  Office office;
  const auto first = "number,teeth\n" + roster::withCheckDigit("1001") + ",3 14\n";
  CHECK(office.refusal(office.import(first + roster::withCheckDigit("1002") + ",\n")) ==
        "rule.authorization");
  CHECK(office.said("line 3"));
  CHECK(office.refusal(office.import(first + roster::withCheckDigit("1999") + ",3\n")) ==
        "record.not-found");
  CHECK(office.refusal(office.import(first + roster::withCheckDigit("1002") + ",33\n")) ==
        "input.tooth");
  CHECK(office.refusal(office.import(first, "IM")) == "rule.credential");
  CHECK(office.refusal(office.import("slip,teeth\n1,3\n")) == "input.csv");
  CHECK(office.words("1001").empty());
}
