#include "roster/child/linkage.h"

#include "forms.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

using namespace gk;
using namespace gk::roster;
using dentition::Sex;
using gk::roster::test::day;

namespace {

const LinkPerson mina{.first = "mina",
                      .middle = {},
                      .last = "tolliver reed",
                      .called = {},
                      .birth = day(2019, 3, 14),
                      .sex = Sex::female,
                      .studentId = {}};

LinkPerson changed(LinkPerson who, const std::function<void(LinkPerson&)>& change) {
  change(who);
  return who;
}

LinkVerdict verdict(const LinkPerson& one, const LinkPerson& other) {
  const auto agree = agreements(one, other);
  // Nothing depends on which list comes first.
  CHECK(verdictOn(agreements(other, one)) == verdictOn(agree));
  CHECK(linkWeight(other, one) == linkWeight(one, other));
  return verdictOn(agree);
}

} // namespace

TEST_CASE("A pair weighs the sum of log2(m/u) over what agrees and differs", "[case-272]") {
  // Derived by hand from the table of docs/methods.md, section 10.
  const double all = std::log2(0.90 / 0.01) + std::log2(0.88 / 0.005) + std::log2(0.95 * 2920) +
                     std::log2(0.98 / 0.5);
  CHECK(linkWeight(mina, mina) == Approx(all));
  CHECK(all == Approx(26.35).margin(0.05));
  const auto twin = changed(mina, [](auto& who) { who.first = "rosalind"; });
  CHECK(linkWeight(mina, twin) == Approx(all - std::log2(0.90 / 0.01) + std::log2(0.04 / 0.95)));
  const auto unsaid = changed(mina, [](auto& who) { who.sex = Sex::notStated; });
  CHECK(linkWeight(mina, unsaid) == Approx(all - std::log2(0.98 / 0.5)));
}

TEST_CASE("Both names and the birth date are the same child, and nothing less is, unasked",
          "[case-272]") {
  const auto with = [](const std::function<void(LinkPerson&)>& change) {
    return verdict(mina, changed(mina, change));
  };
  CHECK(with([](auto&) {}) == LinkVerdict::same);
  CHECK(with([](auto& who) { who.sex = Sex::notStated; }) == LinkVerdict::same);
  CHECK(with([](auto& who) { who.middle = "rose"; }) == LinkVerdict::same);
  CHECK(with([](auto& who) { std::swap(who.first, who.last); }) == LinkVerdict::same);
  CHECK(with([](auto& who) { who.studentId = "70101"; }) == LinkVerdict::same);
  // A slip, a nickname, one of two family names, another family name, a twin.
  CHECK(with([](auto& who) { who.first = "nina"; }) == LinkVerdict::unsure);
  CHECK(with([](auto& who) { who.first = "minabel"; }) == LinkVerdict::unsure);
  CHECK(with([](auto& who) { who.last = "tolliver"; }) == LinkVerdict::unsure);
  CHECK(with([](auto& who) { who.last = "marlowe"; }) == LinkVerdict::unsure);
  CHECK(with([](auto& who) { who.first = "osei"; }) == LinkVerdict::unsure);
  // Day and month of birth changed places, or another day.
  CHECK(with([](auto& who) { who.birth = day(2019, 3, 15); }) == LinkVerdict::unsure);
  // Namesakes of another age, and children of one birth date.
  CHECK(with([](auto& who) { who.birth = day(2017, 10, 30); }) == LinkVerdict::different);
  CHECK(with([](auto& who) {
          who.first = "osei";
          who.last = "brackwater";
        }) == LinkVerdict::different);
}

TEST_CASE("A child of one name is known by it and the birth date", "[case-272]") {
  const LinkPerson osei{.first = "osei",
                        .middle = {},
                        .last = {},
                        .called = {},
                        .birth = day(2019, 2, 3),
                        .sex = Sex::notStated,
                        .studentId = {}};
  CHECK(verdict(osei, osei) == LinkVerdict::same);
  CHECK(verdict(osei, changed(osei, [](auto& who) { std::swap(who.first, who.last); })) ==
        LinkVerdict::same);
  CHECK(verdict(osei, changed(osei, [](auto& who) { who.last = "marlowe"; })) ==
        LinkVerdict::unsure);
}

TEST_CASE("A student ID knows a renamed child again, and never another one", "[case-272]") {
  const auto known = changed(mina, [](auto& who) { who.studentId = "70101"; });
  const auto with = [&](const std::function<void(LinkPerson&)>& change) {
    return verdict(known, changed(known, change));
  };
  CHECK(with([](auto& who) { who.last = "marlowe"; }) == LinkVerdict::same);
  CHECK(with([](auto& who) { who.birth = day(2019, 4, 14); }) == LinkVerdict::same);
  CHECK(with([](auto& who) { who.first = "nina"; }) == LinkVerdict::same);
  CHECK(with([](auto& who) {
          who.first = "osei";
          who.last = "brackwater";
        }) == LinkVerdict::unsure);
  CHECK(with([](auto& who) { who.birth = day(2016, 9, 1); }) == LinkVerdict::unsure);
  CHECK(with([](auto& who) { who.studentId = "70102"; }) == LinkVerdict::unsure);
}

TEST_CASE("A student ID at another first name or birth date is a pair to look at, never a match",
          "[case-502]") {
  const auto known = changed(mina, [](auto& who) { who.studentId = "70101"; });
  const auto with = [&](const std::function<void(LinkPerson&)>& change) {
    return verdict(known, changed(known, change));
  };
  // A sister who was given the number of the one who left.
  CHECK(with([](auto& who) { who.first = "rosalind"; }) == LinkVerdict::unsure);
  CHECK(with([](auto& who) {
          who.first = "rosalind";
          who.birth = day(2019, 3, 15);
        }) == LinkVerdict::unsure);
  CHECK(with([](auto& who) {
          who.first = "nina";
          who.last = "marlowe";
        }) == LinkVerdict::unsure);
  CHECK(with([](auto& who) {
          who.last = "marlowe";
          who.birth = day(2017, 11, 2);
        }) == LinkVerdict::unsure);
}
