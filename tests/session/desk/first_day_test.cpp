#include "session/values/first_day.h"

#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using session::AreaStanding;
using session::FirstDayItem;
using session::FirstDayState;
using test::must;

namespace {

std::vector<FirstDayState> listOf(test::Clinic& clinic, bool hasBackupPlace = true) {
  return must(clinic.session.firstDay(clinic.clock.now().date(), hasBackupPlace));
}

const FirstDayState& at(const std::vector<FirstDayState>& list, FirstDayItem item) {
  return list.at(static_cast<std::size_t>(item));
}

} // namespace

TEST_CASE("An empty program's check list names all of a first day, with why it matters",
          "[case-285]") {
  const auto list = session::firstDayOf({.setup = {.on = must(base::Date::parse("2026-11-17"))}});
  REQUIRE(list.size() == base::enumNames<FirstDayItem>.size());
  for (std::size_t i = 0; i < list.size(); ++i) {
    INFO(base::nameOf(list[i].item));
    CHECK(static_cast<std::size_t>(list[i].item) == i);
    CHECK_FALSE(list[i].why.empty());
    CHECK_FALSE(list[i].words.empty());
    CHECK(list[i].standing != AreaStanding::ready);
    CHECK_FALSE(list[i].open.empty());
  }
  CHECK(session::nextOf(list)->item == FirstDayItem::program);
  CHECK(at(list, FirstDayItem::roster).standing == AreaStanding::missing);
  // What only should be done keeps no day from being worked.
  for (const auto item : {FirstDayItem::consent, FirstDayItem::pins, FirstDayItem::recoveryCode,
                          FirstDayItem::backup})
    CHECK(at(list, item).standing == AreaStanding::ask);
}

TEST_CASE("What keeps a day from being worked is missing in both lists or in neither",
          "[case-285]") {
  test::Clinic clinic;
  const auto on = clinic.clock.now().date();
  const auto agree = [&] {
    const auto list = listOf(clinic);
    for (const auto& area : must(clinic.session.setup(on))) {
      if (area.area == session::Area::years) continue;
      const bool isMissing = area.standing == AreaStanding::missing;
      CHECK(isMissing == std::ranges::any_of(list, [&](const FirstDayState& state) {
              return state.standing == AreaStanding::missing &&
                     session::areaOf(state.item) == area.area;
            }));
    }
  };
  agree(); // no student yet
  CHECK(session::nextOf(listOf(clinic))->item == FirstDayItem::roster);
  clinic.child("Mina");
  agree();
  must(clinic.session.quarantineLot(clinic.by, clinic.etchant, "recalled"));
  agree();
}

TEST_CASE("The check list is made again from the logbook, and is done when all is there",
          "[case-285]") {
  test::Clinic clinic;
  clinic.child("Mina");
  auto list = listOf(clinic, false);
  CHECK(at(list, FirstDayItem::consent).standing == AreaStanding::ready);
  CHECK(at(list, FirstDayItem::backup).standing == AreaStanding::ask);
  CHECK(at(list, FirstDayItem::recoveryCode).standing == AreaStanding::ask);
  CHECK(at(list, FirstDayItem::pins).words.starts_with("0 of "));
  for (const auto& member : must(clinic.session.members()))
    if (!member.value.may.isEmpty())
      must(clinic.session.setPin({member.id, {}}, member.id, "2580"));
  list = listOf(clinic);
  CHECK(at(list, FirstDayItem::pins).standing == AreaStanding::ready);
  CHECK(at(list, FirstDayItem::backup).standing == AreaStanding::ready);
  const base::By other{clinic.hygienist, {}};
  must(clinic.session.signIn(clinic.hygienist, "2580"));
  must(clinic.session.resetPin(other, clinic.assistant, "forgot it",
                               must(clinic.session.confirm(clinic.hygienist, "2580"))));
  CHECK(at(listOf(clinic), FirstDayItem::pins).standing == AreaStanding::ask);
}
