#include "session/desk/siblings.h"

#include "support/clinic.h"

#include <algorithm>

// One family's phone, corrected with one student and asked about for the others.
using namespace gk;
using base::ErrorCode;
using session::NewPhone;
using test::codeOf;
using test::must;

namespace {

struct Family : test::Clinic {
  roster::ChildId mina = child("Mina", "Tolliver");
  roster::ChildId lupe = child("Lupe", "Tolliver");
  roster::ChildId wren = child("Wren", "Hollowell");

  session::Identity of(roster::ChildId who) { return must(session.identity(who)); }
  std::vector<std::string> reached(const std::vector<NewPhone>& phones) {
    std::vector<std::string> names;
    for (const auto& one : must(session::alsoReachedAt(session, mina, phones)))
      names.push_back(one.identity.first);
    return names;
  }
  /// As a person says it at the desk.
  void rewrite(roster::ChildId who, const session::Guardian& first) {
    auto now = of(who);
    now.guardians.front() = first;
    must(session.correctStudent(by, who, {now, dentition::Sex::female}, "as on the form"));
  }
};

} // namespace

TEST_CASE("Only a phone that was there and is another now is a new one", "[case-6]") {
  const session::Identity before{
      .first = "Mina",
      .last = "Tolliver",
      .birth = must(base::Date::parse("2019-03-14")),
      .guardians = {{"Rosa Tolliver", "mother", "000-555-0101", ""}, {"Tom", "father", "", ""}}};
  auto after = before;
  CHECK(session::newPhones(before, after).empty());
  after.guardians[1].phone = "000-555-0103"; // had none
  CHECK(session::newPhones(before, after).empty());
  after.guardians[0].phone = "000-555-0188";
  const auto phones = session::newPhones(before, after);
  REQUIRE(phones.size() == 1);
  CHECK(phones.front().guardian == "Rosa Tolliver");
  CHECK(phones.front().from == "000-555-0101");
  CHECK(phones.front().to == "000-555-0188");
  after.guardians[0].name = "Ana Reed"; // another person's phone corrects no one's
  CHECK(session::newPhones(before, after).empty());
}

TEST_CASE("Brothers and sisters are those with that guardian at the old phone, however written",
          "[case-6]") {
  Family family;
  const std::vector<NewPhone> phones{{"Rosa Tolliver", "000-555-0101", "000-555-0188"}};
  CHECK(family.reached(phones) == std::vector<std::string>{"Lupe"});
  family.rewrite(family.lupe, {"ROSA TOLLIVER", "mother", "(000) 555.0101", "Spanish"});
  CHECK(family.reached(phones) == std::vector<std::string>{"Lupe"});
  family.rewrite(family.lupe, {"Rosa Tolliver", "mother", "000-555-0177", "Spanish"});
  CHECK(family.reached(phones).empty()); // reached elsewhere: asked about no more
  CHECK(family.reached({}).empty());
}

TEST_CASE("The correction for a brother or sister changes that phone alone, with its reason",
          "[case-6]") {
  Family family;
  const std::vector<NewPhone> phones{{"Rosa Tolliver", "000-555-0101", "000-555-0188"}};
  const auto others = must(session::alsoReachedAt(family.session, family.mina, phones));
  REQUIRE(others.size() == 1);
  CHECK(codeOf(session::correctPhone(family.session, family.by, others.front(), phones, " ")) ==
        ErrorCode::ruleReason);
  must(session::correctPhone(family.session, family.by, others.front(), phones,
                             "new phone, said by the school"));
  auto expected = others.front().identity;
  expected.guardians.front().phone = "000-555-0188";
  CHECK(family.of(family.lupe) == expected);
  CHECK(family.of(family.mina).guardians.front().phone == "000-555-0101"); // told by its own form
  CHECK(family.of(family.wren).guardians.front().phone == "000-555-0101");
  CHECK(must(family.session.identityRevisions(family.lupe)).size() == 2);
}
