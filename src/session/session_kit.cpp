#include "session/session_write.h"

#include "base/text.h"

namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<kit::LightId> Session::enterLight(By by, const kit::Light& light) {
  const auto may = admit(Verb::enterLight, by);
  if (!may) return may.error();
  auto others = lights();
  if (!others) return others.error();
  for (const auto& other : *others)
    if (other.value.tag == light.tag)
      return Error{ErrorCode::ruleLight, "there is a light " + light.tag + " already"};
  return write(*may, {}, [&](store::Act& act) { return act.add(light); });
}

Result<base::Done> Session::correctLight(By by, const Recorded<kit::Light>& old,
                                         const kit::Light& light, const std::string& reason) {
  const auto may = admit(Verb::correctLight, by, {.reason = reason});
  if (!may) return may.error();
  if (reason.empty()) return Error{ErrorCode::ruleReason, "a correction needs a reason"};
  return write(*may, {}, [&](store::Act& act) {
    act.correct(old, light, reason);
    return base::Done{};
  });
}

Result<kit::ReadingId> Session::enterReading(By by, const kit::MeterReading& reading,
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

Result<kit::LotId> Session::enterLot(By by, const kit::Lot& lot) {
  const auto may = admit(Verb::enterLot, by);
  if (!may) return may.error();
  if (lot.material.empty() || lot.lot.empty())
    return Error{ErrorCode::ruleMaterial, "a lot needs the material's name and the lot number"};
  return write(*may, {}, [&](store::Act& act) { return act.add(lot); });
}

Result<base::Done> Session::quarantineLot(By by, kit::LotId lot, const std::string& reason) {
  const auto may = admit(Verb::quarantineLot, by, {.reason = reason});
  if (!may) return may.error();
  auto old = only<kit::Lot>(store::subjectIs(lot), "lot");
  if (!old) return old.error();
  if (base::trim(reason).empty())
    return Error{ErrorCode::ruleReason, "say why the lot is set aside"};
  auto aside = old->value;
  aside.quarantined = true;
  aside.quarantineReason = reason;
  return write(*may, {}, [&](store::Act& act) {
    act.correct(*old, aside, reason);
    return base::Done{};
  });
}

Result<kit::CureTimeId> Session::enterCureTime(By by, const kit::CureTime& time) {
  const auto may = admit(Verb::enterCureTime, by);
  if (!may) return may.error();
  auto all = lots();
  if (!all) return all.error();
  for (const auto& lot : *all)
    if (lot.value.material == time.material && time.seconds < lot.value.makersTime)
      return Error{ErrorCode::ruleCure, "the maker of " + time.material + " asks for at least " +
                                            std::to_string(lot.value.makersTime.count()) + " s"};
  return write(*may, {}, [&](store::Act& act) { return act.add(time); });
}

} // namespace gk::session
