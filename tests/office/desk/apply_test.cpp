#include "office/desk.h"
#include "support/samples/bad_setups.h"

using namespace gk;
using gk::test::Desk;
using gk::test::Json;
using gk::test::setupOf;
using gk::test::setupSample;
using gk::test::setupWith;

namespace {

session::Session bookIn(Desk& desk, const std::string& book) {
  auto session = session::Session::open(book, base::LaptopId(base::Uuid{}),
                                        {desk.clock, desk.random}, store::Access::readOnly);
  REQUIRE(session);
  return std::move(*session);
}

std::string sampleIn(Desk& desk) {
  desk.write("cobble.csv", gk::test::setupRoster);
  return desk.write("setup.json", setupSample);
}

/// The logbook of the sample.
std::string madeBook(Desk& desk) {
  const auto book = desk.file("book.gkbook");
  desk.did({"apply", book, sampleIn(desk), "--create", "--by", "IM"});
  return book;
}

std::size_t sum(const Json& answer, const char* what) {
  std::size_t all = 0;
  for (const auto& [kind, counts] : answer.at("counts").items())
    all += counts.at(what).get<std::size_t>();
  return all;
}

bool isOpen(const Json& answer, const std::string& item) {
  return std::ranges::any_of(answer.at("to_do"),
                             [&](const auto& one) { return one.at("item") == item; });
}

std::vector<std::string> filesIn(const base::Path& folder) {
  std::vector<std::string> names;
  for (const auto& file : std::filesystem::recursive_directory_iterator(folder))
    names.push_back(file.path().lexically_relative(folder).string());
  std::ranges::sort(names);
  return names;
}

} // namespace

TEST_CASE("One document makes a program from an empty folder, ready but for what people do",
          "[case-352]") {
  Desk desk;
  const auto document = sampleIn(desk);
  const auto book = desk.file("book.gkbook");
  const auto answer =
      desk.did({"apply", book, document, "--create", "--by", "IM", "--json"}).json();
  INFO(answer.dump(1));
  CHECK(answer.at("created") == true);
  CHECK(answer.at("changed") == true);
  CHECK(sum(answer, "added") == 1 + 1 + 1 + 1 + 3 + 13 + 1 + 3 + 1 + 1 + 1 + 2);
  CHECK(sum(answer, "corrected") == 0);
  CHECK(answer.at("counts").at("students").at("added") == 2);
  // What no document can do for them: PINs are chosen, a recovery code is printed.
  CHECK(answer.at("to_do").size() == 2);
  CHECK(isOpen(answer, "pins"));
  CHECK(isOpen(answer, "recovery code"));

  auto session = bookIn(desk, book);
  const auto members = session.members().value();
  REQUIRE(members.size() == 3);
  const auto terms = session.terms().value();
  const auto plans = session.plannedDays(terms.at(0).id).value();
  REQUIRE(plans.size() == 1);
  // Who is entered by the document acts from then on; before, no one is there yet.
  CHECK(plans.at(0).stamp.by.author == members.at(0).id);
  CHECK_FALSE(terms.at(0).stamp.by.author.has_value());
  CHECK(session.program().value().value.times.etch == base::Seconds(30));
  CHECK(session.years().value().size() == 1);
  CHECK(session.cureTimes().value().at(0).value.seconds == base::Seconds(20));
  CHECK(session.enrollments(terms.at(0).id).value().size() == 13);
  REQUIRE(session.unlock("granite lantern 7"));
  CHECK(session.findChildren("mina").value().size() == 1);
  desk.did({"check", book});
}

TEST_CASE("The same document a second time changes nothing and says so", "[case-352]") {
  Desk desk;
  const auto book = madeBook(desk);
  const auto before = base::readFile(book).value();
  const auto again =
      desk.did({"apply", book, desk.file("setup.json"), "--create", "--by", "IM", "--json"}).json();
  CHECK(again.at("created") == false);
  CHECK(again.at("changed") == false);
  CHECK(sum(again, "added") == 0);
  CHECK(sum(again, "corrected") == 0);
  CHECK(sum(again, "unchanged") == 29);
  CHECK(again.at("changes").empty());
  CHECK(base::readFile(book).value() == before);
  CHECK(desk.did({"apply", book, desk.file("setup.json"), "--by", "IM"})
            .out.starts_with("Nothing to change"));
}

TEST_CASE("A document corrects what it says with its reason and leaves the rest", "[case-353]") {
  Desk desk;
  const auto book = madeBook(desk);
  const auto little = desk.write("little.json", setupOf(R"("reason": "renewed in May",
    "program": {"agreement_until": null},
    "terms": [{"name": "Fall term 2026", "formerly": "Fall 2026", "holidays": ["2026-10-12"]}],
    "schools": [{"code": "CL", "enrollment": [{"term": "Fall term 2026", "grades": {"2": 75}}]}],
    "team": [{"initials": "OR", "formerly": "OF", "license_until": "2029-06-30"}],
    "materials": [{"material": "Resin Fern", "lot": "RF-2610", "formerly": "RF-2609"}],
    "lights": [{"tag": "L-1", "in_service": false,
      "cure_times": [{"material": "Resin Fern", "seconds": 30}]}],
    "planned_days": [{"school": "CL", "date": "2026-11-24", "canceled": true}])"));
  const auto preview =
      desk.did({"apply", book, little, "--preview", "--by", "IM", "--json"}).json();
  const auto bytes = base::readFile(book).value();
  const auto done = desk.did({"apply", book, little, "--by", "IM", "--json"}).json();
  INFO(done.dump(1));
  CHECK(preview.at("changes") == done.at("changes"));
  CHECK(preview.at("counts") == done.at("counts"));
  CHECK(sum(done, "corrected") == 8);
  CHECK(sum(done, "added") == 0);
  CHECK(base::readFile(book).value() != bytes);
  for (const auto& line : done.at("changes"))
    if (line.at("at") == "/team/0")
      CHECK(line.at("names") == std::vector<std::string>{"initials", "license_until"});
  {
    auto session = bookIn(desk, book);
    const auto program = session.program().value();
    CHECK_FALSE(program.value.agreementUntil.has_value());
    CHECK(program.value.phone == "000-555-0142");
    CHECK(program.stamp.reason == "renewed in May");
    const auto members = session.members().value();
    const auto oriel = std::ranges::find(members, std::string("OR"),
                                         [](const auto& row) { return row.value.initials; });
    REQUIRE(oriel != members.end());
    CHECK(oriel->value.license == "HY-00417");
    CHECK(oriel->stamp.reason == "renewed in May");
    CHECK(session.lots().value().size() == 3);
    CHECK_FALSE(session.lights().value().at(0).value.inService);
    CHECK(session.terms().value().at(0).value.holidays.size() == 1);
  }
  CHECK(desk.did({"apply", book, little, "--by", "IM", "--json"}).json().at("changed") == false);
  // A name that is free after that may be taken, also when the document is applied again.
  const auto taken = desk.write("taken.json", setupOf(R"("reason": "split in two",
    "schools": [{"code": "CN", "formerly": "CL", "name": "Cobble Lantern North"},
                {"code": "CL", "name": "Cobble Lantern South"}])"));
  CHECK(sum(desk.did({"apply", book, taken, "--by", "IM", "--json"}).json(), "added") == 1);
  CHECK(desk.did({"apply", book, taken, "--by", "IM", "--json"}).json().at("changed") == false);
  desk.did({"check", book});
}

TEST_CASE("What is new, corrected or misnamed is refused where it is wrong, and all with it",
          "[case-354]") {
  Desk desk;
  const auto book = madeBook(desk);
  const auto before = base::readFile(book).value();
  struct Refused {
    std::string members;
    std::string code;
    std::string at;
  };
  // Before each there is something that could be written.
  const std::string good = R"("years": [{"name": "2027-28", "kind": "school",
    "start": "2027-07-01", "end": "2028-06-30"}], )";
  for (const auto& [members, code, at] : std::vector<Refused>{
           {R"("terms": [{"name": "Spring"}])", "input.document", "/terms/0"},
           {R"("terms": [{"name": "S", "start": "2027-05-01", "end": "2027-01-04"}])", "rule.date",
            "/terms/0"},
           {R"("terms": [{"name": "S", "start": "2026-12-01", "end": "2027-04-30"}])", "rule.date",
            "/terms/0"},
           {R"("terms": [{"name": " ", "start": "2027-01-04", "end": "2027-04-30"}])", "input.text",
            "/terms/0"},
           {R"("terms": [{"name": "Fall 2026", "end": "2026-12-19"}])", "rule.reason", "/terms/0"},
           {R"("schools": [{"code": "XX"}])", "input.document", "/schools/0"},
           {R"("team": [{"initials": "XX", "name": "N"}])", "input.document", "/team/0"},
           {R"("team": [{"initials": "IM", "formerly": "OF"}])", "input.document", "/team/0"},
           {R"("reason": "r", "team": [{"initials": "IM", "may": []}, {"initials": "JA",
              "may": []}, {"initials": "OF", "may": []}])",
            "rule.credential", "/team/"},
           {R"("materials": [{"material": "M", "lot": "1", "kind": "etchant"}])", "input.document",
            "/materials/0"},
           {R"("lights": [{"tag": "L-1", "cure_times": [{"material": "M", "seconds": 20}]}])",
            "record.not-found", "/lights/0/cure_times/0"},
           {R"("lights": [{"tag": "L-1", "cure_times": [{"material": "Resin Fern",
              "seconds": 10}]}])",
            "rule.cure", "/lights/0/cure_times/0"},
           {R"("schools": [{"code": "CL", "enrollment": [{"term": "T", "grades": {"2": 5}}]}])",
            "record.not-found", "/schools/0/enrollment/0"},
           {R"("schools": [{"code": "CL", "meal_eligibility": [{"term": "T", "percent": 5,
              "source": "s"}]}])",
            "record.not-found", "/schools/0/meal_eligibility/0"},
           {R"("planned_days": [{"school": "CL", "date": "2031-11-24"}])", "rule.date",
            "/planned_days/0"},
           {R"("planned_days": [{"school": "CL", "date": "2026-11-28"}])", "rule.date",
            "/planned_days/0"},
           {R"("planned_days": [{"school": "XX", "date": "2026-11-25"}])", "record.not-found",
            "/planned_days/0"},
           {R"("planned_days": [{"school": "CL", "date": "2026-11-24", "chairs": 3}])",
            "rule.reason", "/planned_days/0"},
           {R"("program": {"phone": " "}, "reason": "r")", "input.text", "/program"},
           {R"("rosters": [{"file": "none.csv", "school": "CL", "term": "Fall 2026"}])",
            "file.not-found", "/rosters/0/file"},
           {R"("rosters": [{"file": "/etc/passwd", "school": "CL", "term": "Fall 2026"}])",
            "input.document", "/rosters/0/file"},
           {R"("rosters": [{"file": "a/../../x", "school": "CL", "term": "Fall 2026"}])",
            "input.document", "/rosters/0/file"},
           {R"("rosters": [{"file": "link.csv", "school": "CL", "term": "Fall 2026"}])",
            "input.document", "/rosters/0/file"},
           {R"("rosters": [{"file": ".", "school": "CL", "term": "Fall 2026"}])", "file.unreadable",
            "/rosters/0/file"},
           {R"("rosters": [{"file": "setup.json", "school": "CL", "term": "Fall 2026"}])",
            "input.csv", "/rosters/0"},
           {R"("rosters": [{"file": "bad.csv", "school": "CL", "term": "Fall 2026"}])", "input.csv",
            "/rosters/0"},
           {R"("rosters": [{"file": "cobble.csv", "school": "XX", "term": "Fall 2026"}])",
            "record.not-found", "/rosters/0"},
       }) {
    std::error_code isThere;
    std::filesystem::create_symlink("/etc/passwd", desk.file("link.csv"), isThere);
    desk.write("bad.csv", "first,last,birth_date,grade\nZed,Vhreed,2019-03-04,99\n");
    const auto file = desk.write("bad.json", setupOf(good + members));
    for (const bool isPreview : {true, false}) {
      std::vector<std::string> words{"apply", book, file, "--by", "IM"};
      if (isPreview) words.emplace_back("--preview");
      INFO(members);
      CHECK(desk.refusal(words) == code);
      INFO(desk.lastSentence);
      CHECK(desk.said(": " + at));
      CHECK(desk.said("nothing of the document was written"));
      CHECK_FALSE(desk.said("Vhreed"));
      CHECK(base::readFile(book).value() == before);
    }
  }
  desk.did({"apply", book, desk.write("good.json", setupOf(good.substr(0, good.rfind(',')))),
            "--by", "IM"});
}

TEST_CASE("A document that is wrong by itself leaves the folder as it was", "[case-354]") {
  Desk desk;
  sampleIn(desk);
  const auto before = filesIn(desk.scratch.path());
  for (const auto& bad : gk::test::badSetups()) {
    INFO(bad.what);
    const auto file = desk.write("bad.json", bad.json);
    CHECK(desk.refusal({"apply", desk.file("new.gkbook"), file, "--create"}) == bad.code);
    CHECK(desk.said("nothing of the document was written"));
    std::filesystem::remove(desk.scratch / "bad.json");
    CHECK(filesIn(desk.scratch.path()) == before);
  }
}

TEST_CASE("A logbook is made with all of the document or not at all", "[case-355]") {
  Desk desk;
  const auto document = sampleIn(desk);
  const auto book = desk.file("new.gkbook");
  CHECK(desk.refusal({"apply", book, document}) == "file.not-found");
  CHECK(desk.said("--create"));
  const auto before = filesIn(desk.scratch.path());
  const auto preview = desk.did({"apply", book, document, "--create", "--preview", "--by", "IM"});
  CHECK(preview.out.starts_with("Preview, nothing was written"));
  CHECK(filesIn(desk.scratch.path()) == before);
  // The last thing of it is refused.
  for (const auto& [bad, code] :
       {std::pair(setupWith("cobble.csv", "other.csv"), "file.not-found"),
        {setupWith("\"2026-11-24\"", "\"2026-11-28\""), "rule.date"},
        {setupOf(R"("terms": [])"), "input.document"},
        {setupOf(R"("program": {"name": "P", "county": "C"})"), "input.text"}}) {
    const auto file = desk.write("bad.json", bad);
    CHECK(desk.refusal({"apply", book, file, "--create", "--by", "IM"}) == code);
    CHECK_FALSE(std::filesystem::exists(book));
    for (const auto& name : filesIn(desk.scratch.path()))
      CHECK(name.find(".groovekeeper") == std::string::npos);
  }
  // Students and planned days are someone's acts.
  CHECK(desk.refusal({"apply", book, document, "--create"}) == "rule.credential");
  CHECK(desk.refusal({"apply", book, document, "--create", "--by", "ZZ"}) == "record.not-found");
  desk.environment.erase("GROOVEKEEPER_PASSPHRASE_FILE");
  CHECK(desk.refusal({"apply", book, document, "--create", "--by", "IM"}) == "call.malformed");
  CHECK_FALSE(std::filesystem::exists(book));
}

TEST_CASE("Names that go round in a document are refused, since twice would swap them back",
          "[case-419]") {
  Desk desk;
  const auto book = madeBook(desk);
  const auto more = desk.write("more.json", setupOf(R"("schools": [
    {"code": "BQ", "name": "Brindle Quay Elementary"}])"));
  desk.did({"apply", book, more, "--by", "IM"});
  const auto before = base::readFile(book).value();
  const auto swap = desk.write("swap.json", setupOf(R"("reason": "swapped", "schools": [
    {"code": "CL", "formerly": "BQ", "name": "Cobble Lantern Elementary"},
    {"code": "BQ", "formerly": "CL", "name": "Brindle Quay Elementary"}])"));
  CHECK(desk.refusal({"apply", book, swap, "--by", "IM"}) == "input.document");
  CHECK(desk.said("go round"));
  CHECK(base::readFile(book).value() == before);
}

TEST_CASE("After the first school day a document is someone's who may", "[case-355]") {
  Desk desk;
  const auto book = madeBook(desk);
  desk.did({"open-day", book, "--school", "CL", "--date", "2026-11-17", "--by", "IM"});
  const auto file = desk.write("more.json", setupOf(R"("lights": [{"tag": "L-2"}])"));
  const auto before = base::readFile(book).value();
  CHECK(desk.refusal({"apply", book, file}) == "rule.credential");
  const auto herself = desk.write("self.json", setupOf(R"("team": [{"initials": "ZZ",
    "name": "Zed", "role": "manager"}], "lights": [{"tag": "L-2"}])"));
  CHECK(desk.refusal({"apply", book, herself, "--by", "ZZ"}) == "rule.credential");
  CHECK(base::readFile(book).value() == before);
  desk.did({"apply", book, file, "--by", "IM"});
  CHECK(bookIn(desk, book).lights().value().size() == 2);
}
