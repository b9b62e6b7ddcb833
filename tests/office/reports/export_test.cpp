#include "office/desk.h"

using namespace gk;
using gk::test::Desk;
using gk::test::twoChildren;

namespace {

std::string bookToExport(Desk& desk) {
  const auto book = desk.makeBook();
  desk.did({"import-roster", book, desk.write("r.csv", twoChildren), "--school", "CL", "--term",
            "Fall 2026", "--by", "IM"});
  desk.did({"open-day", book, "--school", "CL", "--date", "2026-11-16", "--by", "IM"});
  return book;
}

} // namespace

TEST_CASE("A term is exported without a passphrase and names no one") {
  Desk desk;
  const auto book = bookToExport(desk);
  desk.environment.erase("GROOVEKEEPER_PASSPHRASE_FILE");
  const auto answer = desk.did({"export", book, "--format", "json", "--term", "Fall 2026"});
  CHECK(answer.json().at("scope") == "term");
  REQUIRE(answer.json().at("children").size() == 1);
  CHECK(answer.json().at("children")[0].at("birth_month") == "2019-03");
  CHECK(answer.out.find("Mina") == std::string::npos);
}

TEST_CASE("A day is exported as JSON and as a FHIR bundle") {
  Desk desk;
  const auto book = bookToExport(desk);
  const auto day = desk.did({"export", book, "--format", "json", "--day", "2026-11-16"}).json();
  CHECK(day.at("days")[0].at("date") == "2026-11-16");
  const auto bundle = desk.did({"export", book, "--format", "fhir", "--with-names"}).json();
  CHECK(bundle.at("resourceType") == "Bundle");
  CHECK(bundle.at("type") == "collection");
}

TEST_CASE("An export that cannot be is refused") {
  Desk desk;
  const auto book = bookToExport(desk);
  CHECK(desk.refusal({"export", book, "--format", "xml"}) == "call.malformed");
  CHECK(desk.refusal({"export", book, "--format", "fhir", "--term", "Fall 2026"}) ==
        "call.malformed");
  CHECK(desk.refusal({"export", book, "--format", "json", "--with-names"}) == "call.malformed");
  CHECK(desk.refusal({"export", book, "--format", "json", "--as-of", "2026-11-16"}) ==
        "call.malformed");
  CHECK(desk.refusal({"export", book, "--format", "json", "--day", "2026-11-01"}) ==
        "record.not-found");
  desk.environment.erase("GROOVEKEEPER_PASSPHRASE_FILE");
  CHECK(desk.refusal({"export", book, "--format", "fhir", "--with-names"}) == "call.malformed");
}
