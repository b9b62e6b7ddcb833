#include "ui/visit/dentist_call.h"

#include "ui/models/authorized.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

using dentition::ToothSurfaces;

namespace {

void record(ChairVisit& visit, const base::MemberId& dentist) {
  const auto today = visit.date();
  const chairside::Authorization call{
      .child = visit.file().child.id,
      .teeth = heldTeeth(visit),
      .dentist = dentist,
      .how = chairside::AuthorizedHow::phoneCall,
      .on = today,
      .until = today.plusDays(visit.file().program.value.authorizationDays)};
  if (visit.act([&] { return visit.book().authorize(visit.by(), {call}); }))
    visit.strip.say(u"The dentist's call is recorded. U undoes it."_s);
}

/// A yes is for teeth that are said aloud, of a dentist who is named.
void dentistSaysYes(ChairVisit& visit) {
  std::vector<base::MemberId> dentists;
  QStringList options;
  for (const auto& member : visit.file().members)
    if (chairside::mayAuthorize(member.value, visit.date())) {
      dentists.push_back(member.id);
      options += toQt(member.value.name) + u" says yes"_s;
    }
  if (dentists.empty()) {
    visit.strip.say(
        u"No dentist who may authorize is in this logbook: enter one at the desk, F8."_s);
    return;
  }
  QStringList teeth;
  for (const auto& [tooth, surfaces] : heldTeeth(visit))
    teeth +=
        toQt(tooth.shown(visit.notation())) + u" ("_s + toQt(dentition::words(surfaces)) + u')';
  visit.ask.choose(u"On the phone: "_s + teeth.join(u"; "_s) + u'?', options,
                   [&visit, dentists](int chosen) {
                     record(visit, dentists[static_cast<std::size_t>(chosen)]);
                   });
}

void leaveForToday(ChairVisit& visit) {
  const auto old = *visit.file().screening;
  auto screening = old.value;
  const auto held = heldTeeth(visit);
  for (auto& finding : screening.teeth)
    if (std::ranges::find(held, finding.tooth, &ToothSurfaces::tooth) != held.end()) {
      finding.decision = chairside::Decision::notToday;
      finding.toSeal = {};
      finding.note += (finding.note.empty() ? "" : "; ") + std::string("waits for the dentist");
    }
  if (visit.act([&] {
        return visit.book().correctScreening(visit.by(), old, screening,
                                             "no dentist authorized it");
      }))
    visit.strip.say(u"Left for another day, with the reason."_s);
}

} // namespace

std::vector<ToothSurfaces> heldTeeth(const ChairVisit& visit) {
  if (!visit.file().screening) return {};
  auto held = notAuthorized(visit.file(), visit.file().screening->value.teeth);
  const auto begun = visit.begun();
  std::erase_if(held, [&](const auto& named) {
    return std::ranges::find(begun, named.tooth) != begun.end();
  });
  return held;
}

std::vector<KeyAction> dentistKeys(ChairVisit& visit) {
  if (heldTeeth(visit).empty()) return {};
  return {
      {Qt::Key_Y, u"Called: dentist says yes"_s, u"dentistYesButton"_s,
       [&visit] { dentistSaysYes(visit); }},
      {Qt::Key_F, u"Leave for today"_s, u"leaveHeldButton"_s, [&visit] { leaveForToday(visit); }}};
}

} // namespace gk::ui
