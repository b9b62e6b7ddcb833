#include "ui/drafts/mouth_faces.h"

#include "reports/display_names.h"
#include "ui/support/text.h"

#include <QStringList>

#include <algorithm>

namespace gk::ui {

using chairside::Condition;
using chairside::Decision;
using chairside::Next;
using chairside::Origin;
using chairside::Presence;
using chairside::ToothFinding;
using dentition::Tooth;
using followup::Held;

namespace {

struct Shown {
  Mark mark;
  QString word;
};

Shown shownHeld(Held held) {
  switch (held) {
  case Held::whole:
    return {Mark::whole, u"fully retained"_s};
  case Held::part:
    return {Mark::part, u"partially retained"_s};
  case Held::lost:
    return {Mark::lost, u"missing"_s};
  case Held::cannotAssess:
    return {Mark::sound, u"not assessable"_s};
  case Held::notSealed:
    return {Mark::blank, {}};
  }
  return {Mark::blank, {}};
}

std::optional<Shown> shownAbsence(const ToothFinding& finding) {
  switch (finding.presence) {
  case Presence::unerupted:
    return Shown{Mark::notUp, u"unerupted"_s};
  case Presence::extracted:
    return Shown{Mark::gone, u"missing"_s};
  case Presence::neverFormed:
    return Shown{Mark::gone, u"congenitally missing"_s};
  case Presence::shed:
    return Shown{Mark::gone, u"exfoliated"_s};
  case Presence::primaryStillPresent:
    return Shown{Mark::notUp, u"primary retained"_s};
  case Presence::cannotSee:
    return Shown{Mark::blank, u"cannot be seen"_s};
  case Presence::partlyErupted:
  case Presence::erupted:
    return std::nullopt;
  }
  return std::nullopt;
}

std::optional<Shown> shownSealed(const ToothFinding& finding) {
  for (const auto* surface : {&finding.occlusal, &finding.buccal, &finding.lingual}) {
    if (surface->condition == Condition::sealedPart)
      return Shown{Mark::part, u"partially retained"_s};
    if (surface->condition != Condition::sealedWhole) continue;
    if (surface->origin == Origin::ours) return Shown{Mark::whole, u"fully retained"_s};
    return Shown{Mark::elsewhere, surface->origin == Origin::other ? u"sealed elsewhere"_s
                                                                   : u"sealed, origin unknown"_s};
  }
  return std::nullopt;
}

Shown shownFinding(const ToothFinding& finding) {
  if (const auto absent = shownAbsence(finding)) return *absent;
  if (finding.decision == Decision::seal)
    return finding.hasAny(Condition::earlyLesion)
               ? Shown{Mark::sealEarly, u"SEAL (non-cavitated)"_s}
               : Shown{Mark::seal, u"SEAL"_s};
  if (finding.decision == Decision::reseal) return {Mark::lost, u"RESEAL"_s};
  if (finding.decision == Decision::repair) return {Mark::part, u"REPAIR"_s};
  if (finding.decision == Decision::interim) return {Mark::interim, u"GLASS IONOMER"_s};
  if (finding.hasAny(Condition::cavitated) || finding.hasAny(Condition::fractured) ||
      finding.decision == Decision::refer)
    return {Mark::refer, u"REFER"_s};
  if (finding.hasAny(Condition::crowned)) return {Mark::crown, u"crown"_s};
  if (finding.hasAny(Condition::restored)) return {Mark::filled, u"filled"_s};
  if (const auto sealed = shownSealed(finding)) return *sealed;
  if (finding.presence == Presence::partlyErupted) return {Mark::partUp, u"partially erupted"_s};
  if (finding.hasAny(Condition::earlyLesion)) return {Mark::sound, u"non-cavitated"_s};
  if (finding.hasAny(Condition::sound)) return {Mark::sound, u"sound"_s};
  if (finding.hasAny(Condition::banded)) return {Mark::sound, u"band"_s};
  return {Mark::blank, {}};
}

QString stripOf(const ToothFinding& finding) {
  QString line = toQt(base::displayName(finding.decision));
  if (finding.decision == Decision::none || finding.decision == Decision::refer) line.clear();
  if (chairside::isTreatment(finding.decision))
    line += u' ' + toQt(dentition::letters(finding.toSeal));
  if (finding.presence == Presence::partlyErupted) line = (u"partially erupted, "_s + line);
  if (finding.softTissue == chairside::SoftTissue::operculum) line += u", operculum"_s;
  if (finding.softTissue == chairside::SoftTissue::gumOverCompanion) line += u", gingiva"_s;
  if (finding.enamel != chairside::Enamel::none)
    line += u", "_s + toQt(base::displayName(finding.enamel));
  if (finding.revisit) line += u", revisit"_s;
  while (line.startsWith(u", "_s))
    line.remove(0, 2);
  return line;
}

/// "Upper right first"; a molar of the second teeth needs no more words.
QString spokenPlace(const Tooth& tooth) {
  auto words = capital(toQt(tooth.words()));
  if (!tooth.isPrimary() && words.endsWith(u" molar"_s)) words.chop(6);
  return words;
}

/// "occlusal and lingual".
QString spokenSurfaces(dentition::SurfaceSet surfaces) {
  return toQt(dentition::words(surfaces)).remove(u" pit"_s).remove(u" groove"_s);
}

/// What was found, in the words of a call across the chair: "sound", "unerupted".
QString spokenFound(const ToothFinding& finding) {
  if (const auto absent = shownAbsence(finding)) return absent->word;
  QStringList parts;
  if (finding.presence == Presence::partlyErupted) parts += u"partially erupted"_s;
  const auto& chewing = finding.occlusal.condition;
  if (chewing != Condition::notLookedAt) parts += toQt(base::displayName(chewing));
  if (chairside::isTreatment(finding.decision))
    parts += toQt(base::displayName(finding.decision)) + u' ' + spokenSurfaces(finding.toSeal);
  else if (finding.decision != Decision::none)
    parts += toQt(base::displayName(finding.decision));
  return parts.join(u", "_s);
}

/// What the tile says now, finding or work, as a sentence to read aloud.
QString spokenOf(const TileFace& face, const MouthView& view) {
  QStringList parts;
  const auto finding = std::ranges::find(view.findings, face.tooth, &ToothFinding::tooth);
  const bool worked = face.inHand || face.mark == Mark::done || face.mark == Mark::stopped;
  if (!worked && finding != view.findings.end()) parts += spokenFound(*finding);
  if (worked || finding == view.findings.end()) {
    parts += face.word;
    parts += face.strip;
    if (!face.due.isEmpty()) parts += spokenSurfaces(face.due);
  }
  parts.removeAll(QString());
  if (parts.isEmpty()) parts += u"not charted yet"_s;
  return spokenPlace(face.tooth) + u": "_s + parts.join(u", "_s) + u'.';
}

void showPlacement(TileFace& face, const base::Recorded<chairside::Placement>& placement) {
  const bool complete = placement.value.attempt == chairside::Attempt::complete;
  face.mark = complete ? Mark::done : Mark::stopped;
  face.word = complete ? u"done"_s : u"stopped"_s;
  const auto time = toQt(placement.stamp.at.clockWords());
  face.strip = complete ? time : toQt(placement.value.note);
  face.covered = complete ? placement.value.surfaces : dentition::SurfaceSet{};
}

/// What is on the tooth by now; nothing new while it is still to be etched.
std::optional<Shown> shownWork(const chairside::ToothProgress& tooth) {
  if (tooth.next == Next::flow && tooth.frosty) return Shown{Mark::frosty, u"FROSTY"_s};
  if (tooth.next == Next::cure) return Shown{Mark::placed, u"PLACED"_s};
  if (tooth.next == Next::check) return Shown{Mark::cured, u"CURED"_s};
  return std::nullopt;
}

void showProgress(TileFace& face, const chairside::ToothProgress& tooth) {
  face.inHand = true;
  face.covered = tooth.cured;
  face.chosen = tooth.surfaces;
  face.strip = u"next: "_s + toQt(base::displayName(tooth.next));
  if (const auto shown = shownWork(tooth)) {
    face.mark = shown->mark;
    face.word = shown->word;
  }
  if (tooth.wet) {
    face.mark = Mark::wet;
    face.word = u"CONTAMINATED"_s;
    face.strip = tooth.next == Next::etch ? u"re-etch"_s : u"dry again"_s;
  }
}

void showChecking(TileFace& face, const RecheckDraft& draft) {
  face.inHand = true;
  face.chosen = draft.earlier().left;
  face.strip = draft.surface() ? toQt(base::displayName(*draft.surface())) + u"?"_s : u"answered"_s;
}

} // namespace

TileFace faceOf(const Tooth& tooth, const MouthView& view) {
  TileFace face{tooth, toQt(tooth.number(view.notation))};
  for (const auto& earlier : view.earlier) {
    if (earlier.placement.value.tooth != tooth) continue;
    if (earlier.newest) {
      const auto shown = shownHeld(earlier.newest->value.tooth());
      face.mark = shown.mark;
      face.word = shown.word;
    }
    face.strip = u"ours, "_s + toQt(earlier.placedOn.shortWords());
  }
  for (const auto& finding : view.findings) {
    if (finding.tooth != tooth) continue;
    if (const auto shown = shownFinding(finding);
        shown.mark != Mark::blank || !shown.word.isEmpty()) {
      face.mark = shown.mark;
      face.word = shown.word;
      face.strip = stripOf(finding);
    }
    face.chosen = finding.toSeal;
  }
  for (const auto& field : view.fields)
    if (const auto* progress = field.protocol.find(tooth);
        progress && progress->next < Next::placed)
      showProgress(face, *progress);
  for (const auto& placement : view.placements)
    if (placement.value.tooth == tooth && !face.inHand) showPlacement(face, placement);
  if (view.checking && view.checking->earlier().placement.value.tooth == tooth)
    showChecking(face, *view.checking);
  for (const auto& due : view.due)
    if (due.tooth == tooth) face.due = due.surfaces;
  if (view.picked && view.picked->tooth == tooth)
    face.picked = view.picked->surfaces.values().front();
  face.quiet = !face.inHand && (face.mark == Mark::notUp || face.mark == Mark::gone);
  face.spoken = spokenOf(face, view);
  return face;
}

std::vector<TileFace> facesOf(const MouthView& view) {
  std::vector<Tooth> teeth(dentition::permanentMolars().begin(),
                           dentition::permanentMolars().end());
  const auto add = [&](const Tooth& tooth) {
    if (std::ranges::find(teeth, tooth) == teeth.end()) teeth.push_back(tooth);
  };
  for (const auto& finding : view.findings)
    add(finding.tooth);
  for (const auto& placement : view.placements)
    add(placement.value.tooth);
  for (const auto& earlier : view.earlier)
    add(earlier.placement.value.tooth);
  std::vector<TileFace> faces;
  for (const auto& tooth : teeth)
    faces.push_back(faceOf(tooth, view));
  return faces;
}

} // namespace gk::ui
