#include "store/values/rival_rule.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <vector>

namespace gk::test {

using base::Recorded;
using roster::ConsentState;
using roster::FlagAction;
using roster::MedicalFlag;
using store::caution;

namespace {

base::Uuid numbered(int last) {
  base::Uuid id{};
  id.bytes.back() = static_cast<std::uint8_t>(last);
  return id;
}

/// Said at that minute by the entry of that number.
template <class T>
Recorded<T> said(const T& value, int minute, int entry) {
  return {typename T::Key(numbered(99)),
          {base::EntryId(numbered(entry)),
           base::LaptopId(numbered(98)),
           entry,
           {},
           {base::Instant(base::Milliseconds(60'000LL * minute)), {}},
           {},
           {}},
          value};
}

MedicalFlag alert(FlagAction action, bool isResolved = false) {
  return {roster::ChildId(numbered(1)), roster::FlagKind::latexAllergy, action, "", isResolved, ""};
}

} // namespace

TEST_CASE("An alert that stops is said before one that asks, and one resolved comes last",
          "[case-142]") {
  CHECK(caution(alert(FlagAction::stop)) > caution(alert(FlagAction::ask)));
  CHECK(caution(alert(FlagAction::ask)) > caution(alert(FlagAction::stop, true)));
  CHECK(caution(alert(FlagAction::note)) > caution(alert(FlagAction::note, true)));
  // The careful word came first and counts all the same, alone.
  std::vector words{said(alert(FlagAction::stop), 1, 1), said(alert(FlagAction::ask), 2, 2),
                    said(alert(FlagAction::stop, true), 3, 3)};
  CHECK(store::outranks(words[0], words[2]));
  CHECK_FALSE(store::outranks(words[2], words[0]));
  store::keepMostCareful(words);
  REQUIRE(words.size() == 1);
  CHECK(words.front().value == alert(FlagAction::stop));
}

TEST_CASE("Two equally careful words of an alert are both kept, and the later counts meanwhile",
          "[case-142]") {
  std::vector words{said(alert(FlagAction::ask, true), 5, 1),
                    said(alert(FlagAction::ask, true), 4, 2)};
  store::keepMostCareful(words);
  CHECK(words.size() == 2);
  CHECK(store::outranks(words[0], words[1]));
  // At one minute the greater identity, so that every laptop says the same.
  CHECK(store::outranks(said(alert(FlagAction::ask), 5, 2), said(alert(FlagAction::ask), 5, 1)));
}

TEST_CASE("A form that counts meanwhile allows only what each equally careful word allows",
          "[case-347]") {
  using roster::Service;
  const auto date = [](unsigned month) { return base::Date::of(2027, month, 1).value(); };
  const roster::Consent all{.child = roster::ChildId(numbered(1)),
                            .term = roster::TermId(numbered(2)),
                            .state = ConsentState::yes,
                            .allowed = {Service::screening, Service::sealants, Service::varnish},
                            .signedOn = {},
                            .receivedOn = {},
                            .validFrom = date(1),
                            .validUntil = date(6),
                            .note = "read again"};
  auto limited = all;
  limited.state = ConsentState::yesWithLimits;
  limited.allowed = {Service::screening, Service::varnish, Service::photo};
  limited.note = "no sealants";
  limited.validFrom = date(2);
  limited.validUntil = date(5);
  CHECK(caution(all) == caution(limited));
  for (const bool isLimitedLater : {false, true}) {
    auto counting = isLimitedLater ? limited : all;
    store::allowOnlyWhat(isLimitedLater ? all : limited, counting);
    CHECK(counting.state == ConsentState::yesWithLimits);
    CHECK(counting.note == "no sealants");
    CHECK(counting.allowed == roster::ServiceSet{Service::screening, Service::varnish});
    CHECK(counting.validFrom == date(2));
    CHECK(counting.validUntil == date(5));
  }
  auto both = limited;
  both.note = "left side only";
  store::allowOnlyWhat(limited, both);
  CHECK(both.note == "left side only; no sealants");
  // A refusal is not shortened by another one.
  auto refused = all;
  refused.state = ConsentState::no;
  auto shorter = refused;
  shorter.validUntil = date(3);
  store::allowOnlyWhat(shorter, refused);
  CHECK(refused.validUntil == date(6));
}

TEST_CASE("Who left the team stays away, and of two sets of rights those in both count",
          "[case-348]") {
  using roster::Task;
  roster::Member member{.name = "Tess Quarrier",
                        .initials = "TQ",
                        .role = roster::Role::hygienist,
                        .license = "H-1",
                        .licenseUntil = {},
                        .may = {Task::screen, Task::place}};
  auto other = member;
  other.may = {Task::place, Task::sign};
  CHECK(caution(member) == caution(other));
  store::allowOnlyWhat(other, member);
  CHECK(member.may == roster::TaskSet{Task::place});
  other.may = {};
  CHECK(caution(other) > caution(member));
}

TEST_CASE("Each state of a form has its place between yes and withdrawn", "[case-142]") {
  const auto of = [](ConsentState state) {
    return caution(roster::Consent{roster::ChildId(numbered(1)),
                                   roster::TermId(numbered(2)),
                                   state,
                                   {},
                                   {},
                                   {},
                                   {},
                                   {},
                                   {},
                                   {},
                                   {},
                                   {}});
  };
  CHECK(of(ConsentState::yes) == of(ConsentState::yesWithLimits));
  for (const auto state : {ConsentState::no, ConsentState::notReturned, ConsentState::incomplete,
                           ConsentState::onHold}) {
    CHECK(of(ConsentState::yesWithLimits) < of(state));
    CHECK(of(state) < of(ConsentState::withdrawn));
  }
}

TEST_CASE("What is withdrawn, set aside, revoked or out of service is the more careful word",
          "[case-142]") {
  const auto rises = [](auto value, auto flag, bool careful) {
    value.*flag = !careful;
    const int before = caution(value);
    value.*flag = careful;
    return caution(value) > before;
  };
  const auto day = base::Date::of(2026, 11, 12).value();
  const roster::ChildId child(numbered(1));
  const base::MemberId member(numbered(3));
  CHECK(rises(kit::Lot{kit::MaterialKind::etchant, "Gel", "A1", day, {}, {}, false, "", {}},
              &kit::Lot::quarantined, true));
  roster::Child card{.number = "1043-0",
                     .birth = {2019, 3},
                     .sex = {},
                     .school = roster::SchoolId(numbered(4)),
                     .grade = {},
                     .room = "",
                     .provisional = false,
                     .note = ""};
  const int expected = caution(card);
  card.left = roster::Leaving{day, roster::LeftBecause::movedAway};
  CHECK(caution(card) == expected);
  card.left = roster::Leaving{day, roster::LeftBecause::withdrawn};
  CHECK(caution(card) > expected);
  CHECK(rises(kit::Light{}, &kit::Light::inService, false));
  CHECK(rises(roster::PersonalKey{member, {}, {}, 1, 1, {}, {}, false},
              &roster::PersonalKey::revoked, true));
  CHECK(rises(roster::RecoveryCode{}, &roster::RecoveryCode::withdrawn, true));
  CHECK(rises(
      chairside::Authorization{
          child, {}, member, chairside::AuthorizedHow::phoneCall, day, day, false, ""},
      &chairside::Authorization::withdrawn, true));
}

} // namespace gk::test
