#include "ui/files/copies.h"

#include "session/erasure.h"
#include "ui/support/text.h"

namespace gk::ui {

bool isAsked(const base::Error& why) {
  return why.code == base::ErrorCode::storeForked || why.code == base::ErrorCode::storeErases;
}

std::optional<session::Agreed> agreedNow(Prompter& prompter, const base::Error& why,
                                         session::Agreed before) {
  const auto says = [&](const QString& question, const QString& yes, const QString& no) {
    return prompter.decide(toQt(why.detail) + u". "_s + question, {yes, no}) == 0;
  };
  if (why.code == base::ErrorCode::storeForked) {
    before.copies =
        says(u"Was the disk or the logbook copied?"_s, u"Yes, it was copied: join both"_s,
             u"No, or not sure: leave both unchanged"_s);
    if (before.copies) return before;
  }
  if (why.code == base::ErrorCode::storeErases) {
    before.erasures = says(u"Take their records out of this logbook too?"_s,
                           u"Yes, it was decided: erase them here too"_s,
                           u"No, or not sure: leave both unchanged"_s);
    if (before.erasures) return before;
  }
  return std::nullopt;
}

QString mergedWords(const session::Merged& merged) {
  auto words = merged.newEntries > 0
                   ? u"Merged: "_s + counted(merged.newEntries, "new entry", "new entries")
                   : u"Nothing new was in it"_s;
  if (merged.erased > 0)
    words +=
        u". "_s + counted(merged.erased, "entry", "entries") + u" of erased students removed"_s;
  if (!merged.isForgotten) words += u". ▲ "_s + toQt(session::tracesLeft).chopped(1);
  if (merged.lines > 0)
    words += u". The copies are joined, each under its own name, and it is not asked again"_s;
  return words;
}

} // namespace gk::ui
