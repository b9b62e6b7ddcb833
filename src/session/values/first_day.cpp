#include "session/values/first_day.h"

#include "base/text/text.h"

#include <algorithm>

namespace gk::session {

namespace {

using enum AreaStanding;

/// Why the day needs it, at the item's place in FirstDayItem.
constexpr auto reasons = std::to_array<std::string_view>({
    "Letters and reports name it; the chair follows it.",
    "A day is opened at a school.",
    "Holidays and the counted days come from it.",
    "Only valid licenses place; two people sign.",
    "The chair times each cure by it.",
    "A recall finds each sealant by its lot.",
    "Name and birth date are matched first.",
    "Nothing is done without a form that says yes.",
    "It shows who typed, and unlocks names fast.",
    "It opens the names if the passphrase is lost.",
    "A lost laptop then loses a day at most.",
});
static_assert(reasons.size() == static_cast<std::size_t>(FirstDayItem::backup) + 1);

FirstDayState itemOf(FirstDayItem item, const AreaState& area) {
  return {item, area.standing, area.words, {}, area.open};
}

/// What should be done and keeps no day from being worked.
FirstDayState asked(FirstDayItem item, bool isReady, std::string words, std::string todo) {
  FirstDayState state{item, isReady ? ready : ask, std::move(words), {}, {}};
  if (!isReady) state.open.push_back(std::move(todo));
  return state;
}

FirstDayState termItem(const SetupRecords& records, const AreaState& area) {
  auto state = itemOf(FirstDayItem::term, area);
  const auto* term = termFor(records.terms, records.on);
  if (!term) return state;
  const auto holidays = term->value.holidays.size();
  state.words += ", " + (holidays == 0 ? "no holidays entered"
                                       : base::counted(holidays, "holiday", "holidays"));
  if (holidays > 0) return state;
  state.open.emplace_back("No holiday is entered: a day could be planned when school is out.");
  if (state.standing == ready) state.standing = ask;
  return state;
}

FirstDayState rosterItem(const SetupRecords& records) {
  if (records.hasStudents) return {FirstDayItem::roster, ready, "entered", {}, {}};
  return {FirstDayItem::roster,
          missing,
          "none yet",
          {},
          {"No student is in the logbook yet: import the school's list, or add one."}};
}

} // namespace

std::vector<FirstDayState> firstDayOf(const FirstDayRecords& records) {
  const auto& setup = records.setup;
  const auto areas = setupOf(setup);
  const auto at = [&](Area area) -> const AreaState& {
    return areas.at(static_cast<std::size_t>(area));
  };
  std::vector<FirstDayState> list{
      itemOf(FirstDayItem::program, at(Area::program)),
      itemOf(FirstDayItem::schools, at(Area::schools)),
      termItem(setup, at(Area::terms)),
      itemOf(FirstDayItem::team, at(Area::team)),
      itemOf(FirstDayItem::lights, at(Area::lights)),
      itemOf(FirstDayItem::lots, at(Area::lots)),
      rosterItem(setup),
      asked(FirstDayItem::consent, setup.withForm > 0,
            setup.withForm > 0 ? base::counted(setup.withForm, "valid form", "valid forms")
                               : "none yet",
            "No valid consent form is in the logbook yet."),
      asked(FirstDayItem::pins, records.mayWork > 0 && records.withPin == records.mayWork,
            std::to_string(records.withPin) + " of " +
                base::counted(records.mayWork, "person", "people"),
            "Whoever has no PIN can be chosen by anyone at this laptop."),
      asked(FirstDayItem::recoveryCode, records.hasRecoveryCode,
            records.hasRecoveryCode ? "made" : "none yet",
            "Without a code, names are lost with the passphrase."),
      asked(FirstDayItem::backup, records.hasBackupPlace,
            records.hasBackupPlace ? "chosen" : "none chosen",
            "No place is chosen on this laptop, so no backup is made by itself.")};
  for (auto& state : list)
    state.why = reasons.at(static_cast<std::size_t>(state.item));
  return list;
}

const FirstDayState* nextOf(std::span<const FirstDayState> list) {
  for (const auto standing : {missing, ask})
    if (const auto at = std::ranges::find(list, standing, &FirstDayState::standing);
        at != list.end())
      return &*at;
  return nullptr;
}

std::optional<Area> areaOf(FirstDayItem item) {
  switch (item) {
  case FirstDayItem::program:
  case FirstDayItem::recoveryCode:
    return Area::program;
  case FirstDayItem::schools:
    return Area::schools;
  case FirstDayItem::term:
    return Area::terms;
  case FirstDayItem::team:
  case FirstDayItem::pins:
    return Area::team;
  case FirstDayItem::lights:
    return Area::lights;
  case FirstDayItem::lots:
    return Area::lots;
  case FirstDayItem::roster:
  case FirstDayItem::consent:
    return Area::rosters;
  case FirstDayItem::backup:
    return std::nullopt;
  }
  return std::nullopt;
}

} // namespace gk::session
