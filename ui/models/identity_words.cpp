#include "ui/models/identity_words.h"

#include "reports/display_names.h"
#include "ui/support/text.h"

namespace gk::ui {

namespace {

/// The substance of an allergy, which stops a material and not the visit; empty of anything else.
QString allergen(roster::FlagKind kind) {
  if (kind == roster::FlagKind::acrylateAllergy) return u"acrylate"_s;
  if (kind == roster::FlagKind::latexAllergy) return u"latex"_s;
  if (kind == roster::FlagKind::rosinReaction) return u"rosin"_s;
  return {};
}

} // namespace

QString flagName(const roster::MedicalFlag& flag) {
  const auto substance = allergen(flag.kind);
  return flag.action == roster::FlagAction::stop && !substance.isEmpty()
             ? u"ALLERGY: "_s + substance
             : toQt(base::displayName(flag.action)).toUpper() + u": "_s +
                   toQt(base::displayName(flag.kind));
}

QString flagWords(const roster::MedicalFlag& flag) {
  auto words = flagName(flag);
  if (!flag.detail.empty()) words += u", "_s + toQt(flag.detail);
  return words;
}

QStringList flagLines(const session::IdentityCard& card, roster::FlagAction action) {
  QStringList lines;
  for (const auto& flag : card.flags) {
    if (flag.value.action != action) continue;
    lines += flagWords(flag.value);
  }
  return lines;
}

QStringList flagNames(const session::IdentityCard& card, roster::FlagAction action) {
  QStringList names;
  for (const auto& flag : card.flags)
    if (flag.value.action == action) names += flagName(flag.value);
  return names;
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
