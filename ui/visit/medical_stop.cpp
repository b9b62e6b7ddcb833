#include "ui/visit/medical_stop.h"

#include "ui/asking/own_pin.h"
#include "ui/models/identity_words.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

using roster::FlagAction;
using roster::MedicalFlag;

namespace {

std::vector<base::Recorded<MedicalFlag>> openFlags(const ChairFile& file) {
  auto open = file.card.flags;
  std::erase_if(open, [](const auto& flag) { return flag.value.action == FlagAction::note; });
  std::ranges::stable_sort(
      open, {}, [](const auto& flag) { return flag.value.action == FlagAction::stop ? 0 : 1; });
  constexpr std::size_t most = 16; // options of the ask bar
  if (open.size() > most) open.erase(open.begin() + most, open.end());
  return open;
}

void askDecision(ChairVisit& visit, const base::Recorded<MedicalFlag>& flag) {
  visit.ask.write(u"What was decided about \""_s + flagWords(flag.value) +
                      u"\", and by whom? It will no longer stop treatment."_s,
                  {}, [&visit, flag](const QString& decided) {
                    const auto words = toStd(decided.trimmed());
                    const auto own =
                        askOwnPin(visit.context(), visit.by().author, u"resolving the alert"_s);
                    if (!own) return visit.strip.say(u"Not resolved: no PIN was given."_s);
                    const auto done = visit.act(
                        [&] { return visit.book().resolveFlag(visit.by(), flag, words, *own); });
                    // A decision is no work on a tooth: the alert goes only when the whole file is
                    // read.
                    if (!done || !visit.begin(visit.file().child.id, visit.file().day.id)) return;
                    Q_EMIT visit.changed();
                    visit.strip.say(u"Resolved: "_s + flagWords(flag.value) + u". "_s + decided);
                  });
}

} // namespace

bool hasOpenFlag(const ChairFile& file) {
  return !openFlags(file).empty();
}

void decideFlag(ChairVisit& visit) {
  const auto flags = openFlags(visit.file());
  if (flags.empty())
    return visit.strip.say(u"No medical stop and no medical question is open for this child."_s);
  // Words that the logbook would refuse afterwards are not asked for.
  const auto* author = visit.file().member(visit.by().author);
  if (!author) return visit.strip.say(u"Select the provider first (F5)."_s);
  const auto may = roster::mayDo(*author, roster::Task::clinicianOverride, visit.date());
  if (!may) return visit.strip.post(describe(may.error()));
  if (flags.size() == 1) return askDecision(visit, flags.front());
  QStringList options;
  for (const auto& flag : flags)
    options += flagWords(flag.value);
  visit.ask.choose(
      u"Which one is resolved?"_s, options,
      [&visit, flags](int chosen) { askDecision(visit, flags[static_cast<std::size_t>(chosen)]); },
      {}, AskKeys::marked);
}

} // namespace gk::ui
