#include "office/desk.h"

using namespace gk;
using gk::test::Desk;

namespace {

session::Session opened(Desk& desk, const std::string& book) {
  auto session = session::Session::open(book, base::LaptopId(base::Uuid{}),
                                        {desk.clock, desk.random}, store::Access::readOnly);
  REQUIRE(session);
  return std::move(*session);
}

} // namespace

TEST_CASE("A program is set up without the desk view") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"add-member", book, "--name", "Oriel Fenwhistle", "--initials", "OF", "--role",
            "hygienist", "--license", "HY-00417", "--license-until", "2027-06-30"});
  desk.did({"add-member", book, "--name", "Bram Ottersley", "--initials", "BO", "--role",
            "dental assistant", "--may", "type, check retention"});
  const auto added = desk.did({"add-light", book, "--tag", "L-1", "--baseline", "1080", "--meter",
                               "M-1", "--by", "IM", "--json"});
  CHECK(added.json().at("added") == "light");
  CHECK(base::Uuid::parse(added.json().at("id").get<std::string>()));
  desk.did({"add-lot", book, "--kind", "light-cure sealant", "--material", "Resin Fern", "--lot",
            "RF-2609", "--expiry", "2027-04", "--makers-time", "20", "--contains", "acrylate"});
  desk.did(
      {"add-cure-time", book, "--light", "L-1", "--material", "Resin Fern", "--seconds", "20"});
  desk.did({"add-enrollment", book, "--term", "Fall 2026", "--school", "CL", "--grade", "2",
            "--students", "74"});

  auto session = opened(desk, book);
  const auto members = session.members().value();
  REQUIRE(members.size() == 3);
  CHECK(members[1].value.may == roster::usualTasks(roster::Role::hygienist));
  CHECK(members[2].value.may == roster::TaskSet{roster::Task::type, roster::Task::checkRetention});
  const auto lights = session.lights().value();
  REQUIRE(lights.size() == 1);
  CHECK(lights[0].value.baseline == kit::MilliwattPerSquareCm{1080});
  CHECK(lights[0].stamp.by.author == members[0].id);
  CHECK(session.lots().value()[0].value.expiry.iso() == "2027-04-30");
  CHECK(session.cureTimes().value()[0].value.seconds == base::Seconds(20));
  CHECK(session.terms().value()[0].value.holidays.size() == 2);
  const auto terms = desk.did({"totals", book, "--json"}).json().at("terms");
  CHECK(gk::test::rowsOf(terms.at(0), "participation").back().at("enrolled") == 74);
}

TEST_CASE("What cannot be set up is refused and leaves the book as it was") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto before = base::readFile(book).value();
  const auto refused = [&](std::string verb, std::vector<std::string> more) {
    std::vector<std::string> words{std::move(verb), book};
    words.insert(words.end(), more.begin(), more.end());
    return desk.refusal(words);
  };
  CHECK(refused("add-school", {"--name", "Again", "--code", "CL"}) == "input.text");
  CHECK(refused("add-school", {"--name", "", "--code", "X"}) == "input.text");
  CHECK(refused("add-school", {"--name", "N", "--code", "X", "--by", "ZZ"}) == "record.not-found");
  CHECK(desk.said("IM"));
  CHECK(refused("add-term", {"--name", "T", "--start", "2027-02-30", "--end", "2027-05-01"}) ==
        "input.date");
  CHECK(refused("add-term", {"--name", "T", "--start", "2027-05-01", "--end", "2027-02-01"}) ==
        "rule.date");
  CHECK(refused("add-term", {"--name", "T", "--start", "2026-12-01", "--end", "2027-02-01"}) ==
        "rule.date");
  CHECK(refused("add-term", {"--name", "Fall 2026", "--start", "2027-02-01", "--end",
                             "2027-05-01"}) == "input.text");
  CHECK(refused("add-term", {"--name", "T", "--start", "2027-02-01", "--end", "2027-05-01",
                             "--holidays", "2027-03-01;2027-03-02"}) == "input.date");
  CHECK(refused("add-member", {"--name", "N", "--initials", "N", "--role", "pilot"}) ==
        "input.text");
  CHECK(refused("add-member", {"--name", "N", "--initials", "IM", "--role", "manager"}) ==
        "input.text");
  CHECK(refused("add-member", {"--name", "N", "--initials", "N", "--role", "manager", "--may",
                               "fly"}) == "input.text");
  CHECK(desk.said("--may"));
  CHECK(refused("add-light", {"--tag", "L-9", "--baseline", "6000"}) == "input.number");
  CHECK(refused("add-light", {"--tag", ""}) == "input.text");
  CHECK(refused("add-lot", {"--kind", "putty", "--material", "M", "--lot", "1", "--expiry",
                            "2027-04"}) == "input.text");
  CHECK(refused("add-lot", {"--kind", "etchant", "--material", "M", "--lot", "1", "--expiry",
                            "13/2027"}) == "input.date");
  CHECK(refused("add-lot", {"--kind", "etchant", "--material", "", "--lot", "1", "--expiry",
                            "2027-04"}) == "rule.material");
  CHECK(refused("add-cure-time", {"--light", "L-9", "--material", "M", "--seconds", "20"}) ==
        "record.not-found");
  CHECK(refused("add-enrollment", {"--term", "Fall 2026", "--school", "CL", "--grade", "13",
                                   "--students", "5"}) == "input.text");
  CHECK(refused("add-enrollment", {"--term", "Fall 2026", "--school", "CL", "--grade", "2",
                                   "--students", "-5"}) == "input.number");
  CHECK(refused("add-enrollment", {"--term", "Spring", "--school", "CL", "--grade", "2",
                                   "--students", "5"}) == "record.not-found");
  CHECK(refused("add-enrollment", {"--term", "Fall 2026", "--school", "XX", "--grade", "2",
                                   "--students", "5"}) == "record.not-found");
  CHECK(base::readFile(book).value() == before);
}

TEST_CASE("A logbook begins under no date that cannot be right, unless someone says that it is",
          "[case-257]") {
  for (const int year : {2021, 2099}) {
    Desk desk;
    desk.clock.setWall(base::atLocal(base::Date::of(year, 11, 17).value(), std::chrono::hours(9),
                                     std::chrono::hours(-5)));
    std::vector<std::string> words{
        "new", desk.file("early.gkbook"), "--program", "P", "--county", "C", "--phone", "1"};
    CHECK(desk.refusal(words) == "clock.ahead");
    CHECK_FALSE(std::filesystem::exists(desk.file("early.gkbook")));
    words.emplace_back("--clock-confirmed");
    desk.did(words);
  }
}

TEST_CASE("A clock that runs behind the book is noted and nothing is lost") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.clock.setWall(base::atLocal(base::Date::of(2020, 1, 1).value(), std::chrono::hours(9),
                                   std::chrono::hours(-5)));
  const auto answer = desk.did({"add-school", book, "--name", "N", "--code", "X"});
  CHECK(answer.err.starts_with("groovekeeper-office: note: This laptop's clock says"));
}
