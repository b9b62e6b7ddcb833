#include "office/desk.h"
#include "store/book.h"
#include "vault/vault.h"

using namespace gk;
using gk::test::Desk;

namespace {

session::Session bookOf(Desk& desk, const std::string& book) {
  auto session = session::Session::open(book, base::LaptopId(base::Uuid{}),
                                        {desk.clock, desk.random}, store::Access::readOnly);
  REQUIRE(session);
  REQUIRE(session->unlock("granite lantern 7"));
  return std::move(*session);
}

/// Two children, one with a form; the number of the first.
std::string importTwo(Desk& desk, const std::string& book) {
  desk.did({"import-roster", book, desk.write("r.csv", gk::test::twoChildren), "--school", "CL",
            "--term", "Fall 2026", "--by", "IM"});
  return bookOf(desk, book).findChildren("mina").value().at(0).number;
}

roster::ChildId childOf(session::Session& session, const std::string& number) {
  return session.findChildren(number).value().at(0).child;
}

/// As an early version made it: with its key and nothing else.
std::string bookWithoutProgram(Desk& desk) {
  const auto path = desk.file("bare.gkbook");
  const auto key = vault::Vault::create(crypto::Secret::copyOf("granite lantern 7"),
                                        crypto::KdfCost::cheapest(), desk.random)
                       .value()
                       .wrapped;
  REQUIRE(store::Book::create(path, base::LaptopId(base::Uuid{}), store::Durability::everyAct,
                              desk.clock.now().at,
                              {key.salt, static_cast<std::int64_t>(key.opsLimit),
                               static_cast<std::int64_t>(key.memoryBytes), key.nonce, key.box},
                              desk.random));
  return path;
}

} // namespace

TEST_CASE("A logbook that was made without its program gets it by command", "[case-112]") {
  Desk desk;
  const auto book = bookWithoutProgram(desk);
  CHECK(desk.refusal({"set-program", book, "--county", "Larkmere", "--phone", "000-555-0142"}) ==
        "input.text");
  CHECK(desk.refusal({"set-program", book, "--program", " ", "--county", "Larkmere", "--phone",
                      "000-555-0142"}) == "input.text");
  desk.did({"set-program", book, "--program", "Larkmere Team", "--county", "Larkmere", "--phone",
            "000-555-0142", "--supervision", "public health"});
  const auto program = bookOf(desk, book).program().value().value;
  CHECK(program.name == "Larkmere Team");
  CHECK(program.supervision == roster::Supervision::publicHealth);
}

TEST_CASE("An agreement and a license are renewed by command, with a reason", "[case-113]") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"add-member", book, "--name", "Oriel Fenwhistle", "--initials", "OF", "--role",
            "hygienist", "--license", "HY-00417", "--license-until", "2026-11-01"});
  CHECK(desk.refusal({"set-program", book, "--agreement-until", "2028-01-31"}) == "rule.reason");
  CHECK(desk.refusal({"set-program", book, "--agreement-until", "soon", "--reason", "r"}) ==
        "input.date");
  CHECK(desk.refusal({"set-program", book, "--phone", " ", "--reason", "r"}) == "input.text");
  desk.did({"set-program", book, "--agreement-until", "2028-01-31", "--authorizing-dentist",
            "Dr. Juno Ashby", "--reason", "renewed", "--by", "IM"});
  desk.did({"correct-member", book, "--initials", "OF", "--license-until", "2028-06-30", "--reason",
            "renewed", "--by", "IM"});
  CHECK(desk.refusal({"correct-member", book, "--initials", "ZZ", "--reason", "r"}) ==
        "record.not-found");
  CHECK(desk.refusal({"correct-member", book, "--initials", "OF", "--new-initials", "IM",
                      "--reason", "r"}) == "input.text");
  CHECK(desk.refusal({"correct-member", book, "--initials", "OF", "--reason", "  "}) ==
        "rule.reason");
  CHECK(desk.refusal({"correct-member", book, "--initials", "OF"}) == "call.malformed");
  {
    auto session = bookOf(desk, book);
    const auto program = session.program().value();
    CHECK(program.value.agreementUntil->iso() == "2028-01-31");
    CHECK(program.value.phone == "000-555-0142");
    CHECK(program.stamp.reason == "renewed");
    const auto members = session.members().value();
    REQUIRE(members.size() == 2);
    const auto oriel = std::ranges::find(members, std::string("OF"),
                                         [](const auto& row) { return row.value.initials; });
    REQUIRE(oriel != members.end());
    CHECK(oriel->value.licenseUntil->iso() == "2028-06-30");
    CHECK(oriel->value.license == "HY-00417");
    CHECK(oriel->value.may == roster::usualTasks(roster::Role::hygienist));
  }
  desk.did({"set-program", book, "--agreement-until", "none", "--reason", "none is asked for"});
  desk.did({"correct-member", book, "--initials", "OF", "--name", "Oriel Reed", "--new-initials",
            "OR", "--role", "dentist", "--license-until", "none", "--may", "type, sign", "--reason",
            "a new license"});
  auto session = bookOf(desk, book);
  CHECK_FALSE(session.program().value().value.agreementUntil.has_value());
  const auto members = session.members().value();
  const auto reed = std::ranges::find(members, std::string("OR"),
                                      [](const auto& row) { return row.value.initials; });
  REQUIRE(reed != members.end());
  CHECK(reed->value.role == roster::Role::dentist);
  CHECK_FALSE(reed->value.licenseUntil.has_value());
  CHECK(reed->value.may == roster::TaskSet{roster::Task::type, roster::Task::sign});
}

TEST_CASE("A grade counted again by command is one grade", "[case-115]") {
  Desk desk;
  const auto book = desk.makeBook();
  for (const auto& [grade, students] : {std::pair("1", "70"), {"01", "74"}})
    desk.did({"add-enrollment", book, "--term", "Fall 2026", "--school", "CL", "--grade", grade,
              "--students", students});
  const auto terms = desk.did({"totals", book, "--json"}).json().at("terms");
  CHECK(gk::test::rowsOf(terms.at(0), "participation").back().at("enrolled") == 74);
}

TEST_CASE("A light is corrected and taken out of service by command", "[case-116]") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"add-light", book, "--tag", "L-1", "--baseline", "1080", "--meter", "M-1"});
  desk.did({"correct-light", book, "--light", "L-1", "--baseline", "1100", "--out-of-service",
            "--reason", "dropped", "--by", "IM"});
  CHECK(desk.refusal({"correct-light", book, "--light", "L-9", "--reason", "r", "--by", "IM"}) ==
        "record.not-found");
  CHECK(desk.refusal({"correct-light", book, "--light", "L-1", "--tag", " ", "--reason", "r",
                      "--by", "IM"}) == "input.text");
  CHECK(desk.refusal({"correct-light", book, "--light", "L-1", "--in-service", "--out-of-service",
                      "--reason", "r", "--by", "IM"}) == "call.malformed");
  const auto light = bookOf(desk, book).lights().value().at(0).value;
  CHECK(light.baseline == kit::MilliwattPerSquareCm{1100});
  CHECK_FALSE(light.inService);
  CHECK(light.meter == "M-1");
}

TEST_CASE("A child moves and a form is corrected by command, without a name", "[case-116]") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"add-school", book, "--name", "Fennel Ridge Elementary", "--code", "FR"});
  const auto number = importTwo(desk, book);
  const auto moved = desk.did({"move-child", book, "--child", number, "--school", "FR", "--grade",
                               "03", "--reason", "the family moved", "--by", "IM"});
  CHECK(moved.out.find("Mina") == std::string::npos);
  CHECK(desk.refusal({"move-child", book, "--child", number, "--reason", "r", "--by", "IM"}) ==
        "call.malformed");
  CHECK(desk.refusal({"move-child", book, "--child", number, "--grade", "13", "--reason", "r",
                      "--by", "IM"}) == "input.text");
  CHECK(desk.refusal({"move-child", book, "--child", "7777-7", "--grade", "3", "--reason", "r",
                      "--by", "IM"}) != "");
  desk.did({"correct-consent", book, "--child", number, "--term", "Fall 2026", "--state",
            "yes with limits", "--services", "screening, sealants", "--signed-on", "2026-10-02",
            "--note", "no varnish", "--reason", "typed wrong", "--by", "IM"});
  CHECK(desk.refusal({"correct-consent", book, "--child", number, "--term", "Fall 2026",
                      "--was-signed", "2026-10-01", "--reason", "r", "--by", "IM"}) ==
        "record.not-found");
  CHECK(desk.refusal({"correct-consent", book, "--child", number, "--term", "Fall 2026",
                      "--services", "sealants", "--reason", "r", "--by", "IM"}) ==
        "rule.consent-form");
  auto session = bookOf(desk, book);
  const auto child = childOf(session, number);
  const auto card = session.child(child).value().value;
  CHECK(card.grade == "3");
  CHECK(card.room == "4");
  const auto forms = session.consents(child).value();
  REQUIRE(forms.size() == 1);
  CHECK(forms[0].value.state == roster::ConsentState::yesWithLimits);
  CHECK(forms[0].value.allowed ==
        roster::ServiceSet{roster::Service::screening, roster::Service::sealants});
  CHECK(forms[0].value.signedOn->iso() == "2026-10-02");
  CHECK(forms[0].stamp.reason == "typed wrong");
}

TEST_CASE("Of two forms of a term the command asks which", "[case-116]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto number = importTwo(desk, book);
  {
    auto session =
        session::Session::open(book, base::LaptopId(base::Uuid{}), {desk.clock, desk.random});
    REQUIRE(session);
    REQUIRE(session->unlock("granite lantern 7"));
    const auto child = childOf(*session, number);
    auto second = session->consents(child).value().at(0).value;
    second.signedOn = base::Date::parse("2026-10-03").value();
    REQUIRE(session->enterConsent({session->members().value().at(0).id, {}}, second));
  }
  const std::vector<std::string> words{"correct-consent", book,        "--child", number,
                                       "--term",          "Fall 2026", "--note",  "two forms",
                                       "--reason",        "r",         "--by",    "IM"};
  CHECK(desk.refusal(words) == "call.malformed");
  CHECK(desk.said("October 3, 2026"));
  auto which = words;
  which.insert(which.end(), {"--was-signed", "2026-10-03"});
  desk.did(which);
}

TEST_CASE("A provisional child is confirmed and an alert resolved by command", "[case-116]") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"add-member", book, "--name", "Oriel Fenwhistle", "--initials", "OF", "--role",
            "hygienist", "--license", "HY-00417", "--license-until", "2027-06-30"});
  importTwo(desk, book);
  const auto number = roster::withCheckDigit("3001");
  {
    auto session =
        session::Session::open(book, base::LaptopId(base::Uuid{}), {desk.clock, desk.random});
    REQUIRE(session);
    REQUIRE(session->unlock("granite lantern 7"));
    const base::By by{session->members().value().at(0).id, {}};
    const auto child = session->enrollChild(
        by,
        {.number = number,
         .birth = {2019, 3},
         .school = session->schools().value().at(0).id,
         .grade = "2",
         .room = "7",
         .provisional = true,
         .note = {}},
        {.first = "Ada", .last = "Quill", .birth = base::Date::parse("2019-03-14").value()});
    REQUIRE(child);
    REQUIRE(session->enterFlag(by, {.child = *child,
                                    .kind = roster::FlagKind::recentIllness,
                                    .action = roster::FlagAction::stop,
                                    .detail = "fever",
                                    .decided = {}}));
  }
  desk.did({"confirm-child", book, "--child", number, "--reason", "the school office, by phone",
            "--by", "IM"});
  CHECK(desk.refusal({"confirm-child", book, "--child", number, "--reason", "again", "--by",
                      "IM"}) == "rule.reason");
  CHECK(desk.refusal({"resolve-alert", book, "--child", number, "--alert", "asthma", "--decided",
                      "d", "--by", "OF"}) == "record.not-found");
  CHECK(desk.refusal({"resolve-alert", book, "--child", number, "--alert", "fever", "--decided",
                      "d", "--by", "OF"}) == "input.text");
  CHECK(desk.refusal({"resolve-alert", book, "--child", number, "--alert", "recent illness",
                      "--decided", " ", "--by", "OF"}) == "rule.reason");
  desk.did({"resolve-alert", book, "--child", number, "--alert", "recent illness", "--decided",
            "well since Monday, says the nurse", "--by", "OF"});
  auto session = bookOf(desk, book);
  const auto child = childOf(session, number);
  CHECK_FALSE(session.child(child).value().value.provisional);
  const auto flags = session.flags(child).value();
  REQUIRE(flags.size() == 1);
  CHECK(flags[0].value.resolved);
  CHECK(flags[0].value.decided == "well since Monday, says the nurse");
}

TEST_CASE("The passphrase is changed by command, from file to file", "[case-116]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto number = importTwo(desk, book);
  const auto change = [&](const std::string& next) {
    return std::vector<std::string>{"change-passphrase", book, "--new-passphrase-file",
                                    desk.write("next", next)};
  };
  CHECK(desk.refusal(change("\n")) == "call.malformed");
  CHECK(desk.refusal(change("short\n")) == "call.malformed");
  CHECK(desk.refusal({"change-passphrase", book}) == "call.malformed");
  const auto told = desk.did(change("\xEF\xBB\xBFslate lantern 9\r\n"));
  CHECK(told.out.find("slate") == std::string::npos);
  CHECK(desk.refusal(change("a third lantern\n")) == "vault.wrong-passphrase");
  auto session = session::Session::open(book, base::LaptopId(base::Uuid{}),
                                        {desk.clock, desk.random}, store::Access::readOnly);
  REQUIRE(session);
  REQUIRE(session->unlock("slate lantern 9"));
  CHECK(session->findChildren(number).value().size() == 1);
}

TEST_CASE("A child leaves the program and is back by command, without a name", "[case-476]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto number = importTwo(desk, book);
  const auto left = desk.did({"leave-program", book, "--child", number, "--because", "moved away",
                              "--from", "2026-11-20", "--by", "IM"});
  CHECK(left.out.find("left the program on November 20, 2026: moved away") != std::string::npos);
  CHECK(left.out.find("Mina") == std::string::npos);
  CHECK(desk.refusal({"leave-program", book, "--child", number, "--because", "bored", "--by",
                      "IM"}) == "input.text");
  CHECK(desk.refusal({"come-back", book, "--child", number, "--by", "IM"}) == "call.malformed");
  desk.did({"come-back", book, "--child", number, "--reason", "seen in class", "--by", "IM"});
  CHECK(desk.refusal({"come-back", book, "--child", number, "--reason", "r", "--by", "IM"}) ==
        "record.not-found");
}

TEST_CASE("Another reason of leaving is asked for in words by command too", "[case-485]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto number = importTwo(desk, book);
  const std::vector<std::string> call{"leave-program", book,    "--child", number,
                                      "--because",     "other", "--by",    "IM"};
  CHECK(desk.refusal(call) == "rule.reason");
  auto said = call;
  said.insert(said.end(), {"--reason", "taught at home"});
  CHECK(desk.did(said).out.find("left the program on") != std::string::npos);
}

TEST_CASE("Every correcting verb says by itself what it takes", "[case-116]") {
  Desk desk;
  const auto page = desk.did({"--help"}).out;
  for (const std::string verb :
       {"set-program", "correct-member", "correct-light", "confirm-child", "move-child",
        "leave-program", "come-back", "correct-consent", "resolve-alert", "change-passphrase"}) {
    INFO(verb);
    CHECK(page.find("\n  " + verb + " ") != std::string::npos);
    CHECK(desk.did({verb, "--help"}).out.starts_with("groovekeeper-office " + verb));
  }
}
