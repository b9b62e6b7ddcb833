#include "ui/pages/doubtful_record.h"

#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

using chairside::Placement;
using dentition::Tooth;

namespace {

/// `leave` goes on where the signed day keeps what it says.
void correct(ChairVisit& visit, const base::Recorded<Placement>& placement, const Tooth& tooth,
             const std::function<void()>& leave = {}) {
  const auto why = "the sealant was found on the " + tooth.words() + ", not on the " +
                   placement.value.tooth.words();
  const auto closed = visit.book().isSigned(placement.value.day);
  if (!closed) return visit.strip.post(describe(closed.error()));
  if (*closed) {
    // The signed day keeps what it says; the find is added to it.
    const auto added = visit.act([&] {
      return visit.book().addAddendum(
          visit.by(), {placement.value.day, placement.value.child, "At a recheck: " + why});
    });
    if (!added) return;
    if (leave) leave();
    visit.strip.say(u"That day is signed: a late entry was added to it. To move the sealant in "
                    "the record, reopen that day at the close-out, F3."_s);
    return;
  }
  if (visit.act([&] { return visit.book().correctTooth(visit.by(), placement, tooth, why); }))
    visit.strip.say(u"Corrected: that placement is on the "_s + toQt(tooth.words()) +
                    u" now. What was written first stays in the history."_s);
}

} // namespace

bool hasPlacement(const ChairFile& file, const Tooth& tooth) {
  const auto isOn = [&](const Placement& placement) {
    return placement.tooth == tooth && placement.attempt == chairside::Attempt::complete;
  };
  return std::ranges::any_of(file.earlier,
                             [&](const auto& one) { return isOn(one.placement.value); }) ||
         std::ranges::any_of(file.placements, [&](const auto& one) { return isOn(one.value); });
}

void findPlacementOf(ChairVisit& visit, const Tooth& tooth) {
  const auto words = u"No placement of ours on the "_s + toQt(tooth.words()) +
                     u" is in this logbook: RECORD DOUBTFUL."_s;
  std::vector<base::Recorded<Placement>> others;
  QStringList options{u"Nobody knows: leave it doubtful"_s};
  constexpr qsizetype most = 16; // options of the ask bar
  for (const auto& one : visit.file().earlier) {
    if (options.size() == most) break;
    others.push_back(one.placement);
    options += capital(toQt(one.placement.value.tooth.shown(visit.notation()))) + u", "_s +
               toQt(one.placedOn.words());
  }
  if (others.empty()) return visit.strip.say(words);
  visit.ask.choose(words + u" Which placement was written down on the wrong tooth?"_s, options,
                   [&visit, others, tooth](int chosen) {
                     if (chosen == 0) return;
                     correct(visit, others[static_cast<std::size_t>(chosen - 1)], tooth);
                   });
}

void findToothOf(ChairVisit& visit, const base::Recorded<Placement>& placement,
                 const std::function<void()>& leave) {
  visit.ask.choose(u"RECORD DOUBTFUL. Does another tooth bear this sealant?"_s,
                   {u"Nobody knows: leave it doubtful"_s, u"Yes: correct the tooth"_s},
                   [&visit, placement, leave](int chosen) {
                     if (chosen == 0) return leave();
                     visit.ask.write(u"Which tooth bears it? Its number or letter"_s, {},
                                     [&visit, placement, leave](const QString& said) {
                                       const auto tooth =
                                           Tooth::parse(toStd(said.toUpper()), visit.notation());
                                       if (!tooth) return visit.strip.post(describe(tooth.error()));
                                       correct(visit, placement, *tooth, leave);
                                     });
                   });
}

} // namespace gk::ui
