#include "session/session_write.h"

#include "base/text/text.h"
#include "kit/twins.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// As it is entered: a tag of its own. `own` is the light it corrects; one that two laptops entered
/// is no other.
Result<kit::Light> soundLight(kit::Light light, const std::vector<Recorded<kit::Light>>& others,
                              const std::optional<Recorded<kit::Light>>& own) {
  if (const auto filled = base::fillIn(light.tag, "a light needs a name, such as L-1"); !filled)
    return filled.error();
  for (const auto& other : others)
    if (!(own && kit::areTwins(own->value, other.value)) && kit::areTwins(other.value, light))
      return Error{ErrorCode::ruleLight, "there is a light " + light.tag + " already"};
  return light;
}

Result<kit::Lot> soundLot(kit::Lot lot, const std::vector<Recorded<kit::Lot>>& others,
                          const std::optional<Recorded<kit::Lot>>& own) {
  for (auto* text : {&lot.material, &lot.lot})
    if (!base::fillIn(*text, {}))
      return Error{ErrorCode::ruleMaterial, "a lot needs the material's name and the lot number"};
  for (const auto& other : others)
    if (!(own && kit::areTwins(own->value, other.value)) && kit::areTwins(other.value, lot))
      return Error{ErrorCode::ruleMaterial, kit::shown(lot) + " is on the list already"};
  if (!lot.quarantined) lot.quarantineReason.clear();
  return lot;
}

/// `now` and what other laptops entered as the same, each as it was written.
template <class T>
List<T> withTwins(store::Book& book, const Recorded<T>& now) {
  auto rows = book.current<T>(store::everything());
  if (rows)
    std::erase_if(*rows, [&](const auto& row) { return !kit::areTwins(row.value, now.value); });
  return rows;
}

/// Whether any tooth was isolated for it or any child got it as varnish.
Result<bool> isUsed(store::Book& book, kit::LotId lot) {
  for (const auto* column : {"sealant", "etchant"}) {
    const auto fields = book.current<chairside::Field>(store::rowsOf(column, lot));
    if (!fields) return fields.error();
    if (!fields->empty()) return true;
  }
  const auto varnishes = book.current<chairside::Varnish>(store::rowsOf("lot", lot));
  if (!varnishes) return varnishes.error();
  return !varnishes->empty();
}

} // namespace

Result<kit::LightId> DeskVerbs::enterLight(By by, const kit::Light& light) {
  const auto may = admit(Verb::enterLight, by);
  if (!may) return may.error();
  auto others = lights();
  if (!others) return others.error();
  const auto sound = soundLight(light, *others, {});
  if (!sound) return sound.error();
  return write(*may, {}, [&](store::Act& act) { return act.add(*sound); });
}

Result<base::Done> DeskVerbs::correctLight(By by, const Recorded<kit::Light>& old,
                                           const kit::Light& light, const std::string& reason) {
  const auto may = admit(Verb::correctLight, by, {.reason = reason});
  if (!may) return may.error();
  auto others = lights();
  if (!others) return others.error();
  // As it is shown, which is with what its twins say.
  const auto now = std::ranges::find_if(*others, [&](const auto& row) {
    return row.id == old.id && row.stamp.entry == old.stamp.entry && row.value == old.value;
  });
  if (now == others->end())
    return Error{ErrorCode::recordChanged,
                 "this was corrected or undone since; review the current entry"};
  const auto sound = soundLight(light, *others, *now);
  if (!sound) return sound.error();
  const auto rows = withTwins(book_, *now);
  if (!rows) return rows.error();
  // Put back in service, each of them is: one of them alone would stay out with the others.
  const bool isBack = !now->value.inService && sound->inService;
  return write(*may, {}, [&](store::Act& act) {
    for (const auto& row : *rows) {
      auto twin = row.value;
      twin.inService = true;
      if (row.id == now->id)
        act.correct(row, *sound, reason);
      else if (isBack && !row.value.inService)
        act.correct(row, twin, reason);
    }
    return base::Done{};
  });
}

Result<kit::ReadingId> DeskVerbs::enterReading(By by, const kit::MeterReading& reading,
                                               Confirmed confirmed) {
  const auto may = admit(Verb::enterReading, by);
  if (!may) return may.error();
  if (reading.value.value < 0 || reading.value.value > 5000)
    return Error{ErrorCode::numberMalformed, "a meter reading is 0 to 5000 mW/cm2"};
  auto light = only<kit::Light>(store::subjectIs(reading.light), "light");
  if (!light) return light.error();
  const auto earlier = readings(reading.light);
  if (!earlier) return earlier.error();
  const auto question = kit::readingQuestion(light->value, *earlier, reading);
  if (!question.empty() && confirmed == Confirmed::no)
    return Error{ErrorCode::ruleLight, question + ". Read it again, or confirm the number"};
  return write(*may, {}, [&](store::Act& act) { return act.add(reading); });
}

Result<kit::LotId> DeskVerbs::enterLot(By by, const kit::Lot& lot) {
  const auto may = admit(Verb::enterLot, by);
  if (!may) return may.error();
  const auto others = lots();
  if (!others) return others.error();
  const auto sound = soundLot(lot, *others, {});
  if (!sound) return sound.error();
  return write(*may, {}, [&](store::Act& act) { return act.add(*sound); });
}

Result<base::Done> DeskVerbs::correctLot(By by, kit::LotId id, const kit::Lot& lot,
                                         const std::string& reason) {
  const auto may = admit(Verb::correctLot, by, {.reason = reason});
  if (!may) return may.error();
  const auto others = lots();
  if (!others) return others.error();
  const auto old = lotWithTwins(*this, id);
  if (!old) return old.error();
  const auto sound = soundLot(lot, *others, *old);
  if (!sound) return sound.error();
  const auto rows = withTwins(book_, *old);
  if (!rows) return rows.error();
  const bool isReleased = old->value.quarantined && !sound->quarantined;
  if (isReleased && by.author) {
    const auto clinician = entitled(*by.author, roster::Task::clinicianOverride, may->on());
    if (!clinician) return clinician.error();
  }
  for (const auto& row : *rows) {
    if (row.value.kind == sound->kind) continue;
    const auto used = isUsed(book_, row.id);
    if (!used) return used.error();
    if (*used)
      return Error{ErrorCode::ruleMaterial,
                   kit::shown(*sound) +
                       " was used on students already, so its kind stays; set it aside and enter "
                       "the other lot"};
  }
  return write(*may, {}, [&](store::Act& act) {
    for (const auto& row : *rows) {
      auto said = *sound;
      if (row.id != id) said.usedUpOn = row.value.usedUpOn;
      act.correct(row, said, reason);
    }
    return base::Done{};
  });
}

Result<base::Done> DeskVerbs::quarantineLot(By by, kit::LotId lot, const std::string& reason) {
  const auto may = admit(Verb::quarantineLot, by, {.reason = reason});
  if (!may) return may.error();
  auto old = only<kit::Lot>(store::subjectIs(lot), "lot");
  if (!old) return old.error();
  if (base::trim(reason).empty())
    return Error{ErrorCode::ruleReason, "say why the lot is set aside"};
  const auto rows = withTwins(book_, *old);
  if (!rows) return rows.error();
  return write(*may, {}, [&](store::Act& act) {
    for (const auto& row : *rows) {
      auto aside = row.value;
      aside.quarantined = true;
      aside.quarantineReason = reason;
      act.correct(row, aside, reason);
    }
    return base::Done{};
  });
}

Result<kit::CureTimeId> DeskVerbs::enterCureTime(By by, const kit::CureTime& entered) {
  const auto may = admit(Verb::enterCureTime, by);
  if (!may) return may.error();
  auto time = entered;
  if (const auto filled = base::fillIn(time.material, "say which material the time is of"); !filled)
    return filled.error();
  auto all = lots();
  if (!all) return all.error();
  for (const auto& lot : *all)
    if (lot.value.material == time.material && time.seconds < lot.value.makersTime)
      return Error{ErrorCode::ruleCure, "the manufacturer of " + time.material +
                                            " asks for at least " +
                                            std::to_string(lot.value.makersTime.count()) + " s"};
  // Of several for one light and material the longest counts, so a shorter one takes their place.
  auto rows = book_.current<kit::CureTime>(store::rowsOf("light", time.light));
  if (!rows) return rows.error();
  std::erase_if(*rows, [&](const auto& row) { return row.value.material != time.material; });
  return write(*may, {}, [&](store::Act& act) {
    if (rows->empty()) return act.add(time);
    const auto id = rows->back().id;
    replaceAll(act, *rows, time, "entered again");
    return id;
  });
}

} // namespace gk::session
