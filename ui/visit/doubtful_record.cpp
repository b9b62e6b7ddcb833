#include "ui/visit/doubtful_record.h"

#include "ui/asking/own_pin.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

using chairside::Placement;
using dentition::Tooth;

namespace {

void correct(ChairVisit& visit, const base::Recorded<Placement>& placement, const Tooth& tooth,
             const std::string& why) {
  session::OwnPin own;
  // On a signed day the one who corrects it answers for that; one that cannot be read says so.
  if (visit.book().isSigned(placement.value.day).value_or(false)) {
    const auto given = askOwnPin(visit.context(), visit.by().author, u"correcting a signed day"_s);
    if (!given) return visit.strip.say(u"Not corrected: no PIN was given."_s);
    own = *given;
  }
  if (visit.act([&] { return visit.book().correctTooth(visit.by(), placement, tooth, why, own); }))
    visit.strip.say(u"Corrected: that placement is on the "_s + toQt(tooth.words()) +
                    u" now. The previous entry stays in the history."_s);
}

std::string foundWords(const base::Recorded<Placement>& placement, const Tooth& tooth) {
  return "the sealant was found on the " + tooth.words() + ", not on the " +
         placement.value.tooth.words();
}

void moveTo(ChairVisit& visit, const base::Recorded<Placement>& placement) {
  const auto from = toQt(placement.value.tooth.words());
  visit.ask.write(u"Which tooth has the sealant that is charted on the "_s + from +
                      u"? Its number or letter"_s,
                  {}, [&visit, placement, from](const QString& said) {
                    const auto tooth = Tooth::parse(toStd(said.toUpper()), visit.notation());
                    if (!tooth) return visit.strip.post(describe(tooth.error()));
                    if (*tooth == placement.value.tooth)
                      return visit.strip.say(u"It is charted on the "_s + from + u" already."_s);
                    visit.ask.write(u"From the "_s + from + u" to the "_s + toQt(tooth->words()) +
                                        u": how was that found?"_s,
                                    {}, [&visit, placement, tooth = *tooth](const QString& why) {
                                      correct(visit, placement, tooth, toStd(why));
                                    });
                  });
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
  const auto words =
      u"No record that we sealed the "_s + toQt(tooth.words()) + u". Check record."_s;
  std::vector<base::Recorded<Placement>> others;
  QStringList options{u"Unknown: leave it in question"_s};
  constexpr qsizetype most = 16; // options of the ask bar
  for (const auto& one : visit.file().earlier) {
    if (options.size() == most) break;
    others.push_back(one.placement);
    options += capital(toQt(one.placement.value.tooth.shown(visit.notation()))) + u", "_s +
               toQt(one.placedOn.words());
  }
  if (others.empty()) return visit.strip.say(words);
  visit.ask.choose(words + u" Which placement was charted on the wrong tooth?"_s, options,
                   [&visit, others, tooth](int chosen) {
                     if (chosen == 0) return;
                     const auto& meant = others[static_cast<std::size_t>(chosen - 1)];
                     correct(visit, meant, tooth, foundWords(meant, tooth));
                   });
}

void moveSealant(ChairVisit& visit) {
  std::vector<base::Recorded<Placement>> placed;
  QStringList options;
  constexpr qsizetype most = 16; // options of the ask bar
  for (const auto& one : visit.file().placements) {
    if (one.value.attempt != chairside::Attempt::complete || options.size() == most) continue;
    placed.push_back(one);
    options += capital(toQt(one.value.tooth.shown(visit.notation()))) + u" ("_s +
               toQt(dentition::words(one.value.surfaces)) + u')';
  }
  if (placed.empty()) return visit.strip.say(u"No sealant of today can be moved."_s);
  visit.ask.choose(
      u"Which of today's sealants is charted on the wrong tooth?"_s, options,
      [&visit, placed](int chosen) { moveTo(visit, placed[static_cast<std::size_t>(chosen)]); }, {},
      AskKeys::marked);
}

void findToothOf(ChairVisit& visit, const base::Recorded<Placement>& placement,
                 const std::function<void()>& leave) {
  visit.ask.choose(u"No sealant found. Charted on the wrong tooth?"_s,
                   {u"Unknown: leave it in question"_s, u"Yes: correct the tooth"_s},
                   [&visit, placement, leave](int chosen) {
                     if (chosen == 0) return leave();
                     visit.ask.write(
                         u"Which tooth has it? Its number or letter"_s, {},
                         [&visit, placement](const QString& said) {
                           const auto tooth = Tooth::parse(toStd(said.toUpper()), visit.notation());
                           if (!tooth) return visit.strip.post(describe(tooth.error()));
                           correct(visit, placement, *tooth, foundWords(placement, *tooth));
                         });
                   });
}

} // namespace gk::ui
