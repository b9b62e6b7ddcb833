#include "roster/team/team.h"

#include "forms.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::roster;
using gk::roster::test::day;

namespace {

Member tamsin() {
  return {.name = "Tamsin Quillbrook",
          .initials = "TQ",
          .role = Role::hygienist,
          .license = "HY-00588",
          .licenseUntil = day(2026, 12, 15),
          .may = usualTasks(Role::hygienist)};
}

} // namespace

TEST_CASE("An expired license stops clinical work and signing but never typing") {
  const auto expired = day(2026, 12, 16);
  for (std::size_t i = 0; i < base::enumCount<Task>; ++i) {
    const auto task = static_cast<Task>(i);
    INFO(base::nameOf(task));
    CHECK(mayDo(tamsin(), task, day(2026, 12, 15)));
    const auto after = mayDo(tamsin(), task, expired);
    CHECK(after.has_value() == (task == Task::type));
    if (!after) {
      CHECK(after.error().code == base::ErrorCode::ruleCredential);
      CHECK(after.error().detail.find("December 15, 2026") != std::string::npos);
    }
  }
}

TEST_CASE("A license without a last day does not lapse") {
  auto member = tamsin();
  member.licenseUntil.reset();
  CHECK(mayDo(member, Task::place, day(2040, 1, 1)));
}

TEST_CASE("A task that is not the member's is refused however fresh the license") {
  auto member = tamsin();
  member.may.remove(Task::place);
  const auto refused = mayDo(member, Task::place, day(2026, 11, 17));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == base::ErrorCode::ruleCredential);
  CHECK(refused.error().detail.find("may not: place sealants") != std::string::npos);
}

TEST_CASE("Hygienists and dentists may do all and everyone may type") {
  CHECK(usualTasks(Role::hygienist) == TaskSet::all());
  CHECK(usualTasks(Role::dentist) == TaskSet::all());
  for (std::size_t i = 0; i < base::enumCount<Role>; ++i)
    CHECK(usualTasks(static_cast<Role>(i)).has(Task::type));
}

TEST_CASE("Only clinicians decide and check and override by default") {
  for (std::size_t i = 0; i < base::enumCount<Role>; ++i) {
    const auto role = static_cast<Role>(i);
    const bool clinician = role == Role::hygienist || role == Role::dentist;
    INFO(base::nameOf(role));
    for (auto task : {Task::decide, Task::checkRetention, Task::clinicianOverride})
      CHECK(usualTasks(role).has(task) == clinician);
  }
  CHECK(usualTasks(Role::expandedAssistant).has(Task::place));
  CHECK_FALSE(usualTasks(Role::dentalAssistant).has(Task::place));
  CHECK(usualTasks(Role::coordinator).has(Task::sign));
  CHECK_FALSE(usualTasks(Role::manager).has(Task::sign));
}
