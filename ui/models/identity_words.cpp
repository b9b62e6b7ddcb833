#include "ui/models/identity_words.h"

#include "ui/support/text.h"

namespace gk::ui {

QStringList flagLines(const session::IdentityCard& card, roster::FlagAction action) {
  QStringList lines;
  for (const auto& flag : card.flags) {
    if (flag.value.action != action) continue;
    auto line =
        toQt(base::nameOf(action)).toUpper() + u": "_s + toQt(base::nameOf(flag.value.kind));
    if (!flag.value.detail.empty()) line += u", "_s + toQt(flag.value.detail);
    lines += line;
  }
  return lines;
}

QString standingLine(const QString& service, const roster::Standing& standing) {
  auto line = service + (standing.allows ? u": YES"_s : u": NO"_s);
  if (!standing.why.empty()) line += u", "_s + toQt(standing.why);
  if (standing.historyOverAYearOld) line += u". History is over a year old: ask \"any change?\""_s;
  return line;
}

QString sameNameLine(const session::IdentityCard& card) {
  if (card.sameNameOthers.empty()) return {};
  QStringList others;
  for (const auto& other : card.sameNameOthers)
    others += toQt(other);
  return u"SAME NAME: also "_s + others.join(u"; "_s) + u". Check birth date, room, guardian."_s;
}

} // namespace gk::ui
