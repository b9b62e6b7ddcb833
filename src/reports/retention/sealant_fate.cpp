#include "reports/retention/sealant_fate.h"

#include <algorithm>
#include <map>

namespace gk::reports {

using followup::CheckKind;
using followup::Held;

namespace {

/// Of those surfaces alone: the rest was sealed again since.
followup::RetentionCheck lookAt(followup::RetentionCheck check, dentition::SurfaceSet surfaces) {
  using dentition::Surface;
  if (!surfaces.has(Surface::occlusal)) check.occlusal = Held::notSealed;
  if (!surfaces.has(Surface::buccalPit)) check.buccal = Held::notSealed;
  if (!surfaces.has(Surface::lingualGroove)) check.lingual = Held::notSealed;
  return check;
}

bool isJudgment(Held held) {
  return held == Held::whole || held == Held::part || held == Held::lost;
}

} // namespace

/// One sealant up to the date of the report.
struct SealantFates::Life {
  std::uint32_t placement;
  roster::ChildId child;
  base::Date opens;
  base::Date shuts;
  const Events& events; ///< of its tooth
  base::Date placed;
  dentition::SurfaceSet surfaces;
  std::optional<base::Date> lostOn{};    ///< first known
  std::optional<std::uint32_t> lostBy{}; ///< the look; none where a reseal says it
  std::optional<base::Date> partOn{};
  std::optional<base::Date> replacedOn{}; ///< sealed again though a look that day found it whole

  [[nodiscard]] bool isIn(base::Date on) const { return opens <= on && on <= shuts; }
  [[nodiscard]] bool isOwn(const Event& event) const {
    return event.what == What::look && event.placement == placement;
  }
};

ResealedOtherwise resealedOtherwise(const TermRecords& records) {
  ResealedOtherwise out;
  for (const auto& row : records.screenings)
    for (const auto& finding : row.value.teeth)
      if (finding.decision == chairside::Decision::reseal &&
          finding.resealWhy == chairside::ResealWhy::other)
        out.emplace(row.value.child, finding.tooth, row.value.day);
  return out;
}

SealantFates::SealantFates(const TermView& view, const followup::Window& window)
    : view_(view), window_(window), otherwise_(resealedOtherwise(view.records)) {
  const auto& records = view.records;
  std::unordered_map<chairside::PlacementId, std::uint32_t> rows;
  const auto counts = [&](base::Date on) { return on <= records.asOf; };
  for (std::uint32_t i = 0; i < records.placements.size(); ++i) {
    const auto& [id, stamp, placement] = records.placements[i];
    rows.emplace(id, i);
    const auto on = view.dateOf(placement.day);
    if (!on || !counts(*on) || placement.attempt != chairside::Attempt::complete) continue;
    const bool isRepair = placement.type == chairside::PlacementType::repair;
    if (!isRepair && !chairside::countsAsSealant(placement)) continue;
    events_[{placement.child, placement.tooth}].push_back(
        {*on, isRepair ? What::repair : What::sealing, i, 0});
  }
  for (std::uint32_t i = 0; i < records.checks.size(); ++i) {
    const auto& check = records.checks[i].value;
    const auto on = view.dateOf(check.day);
    const auto of = rows.find(check.placement);
    if (!on || !counts(*on) || of == rows.end()) continue;
    const auto& placement = records.placements[of->second].value;
    events_[{placement.child, placement.tooth}].push_back({*on, What::look, of->second, i});
    if (check.kind == CheckKind::longTerm) yearLooks_[placement.child].push_back(*on);
  }
  // What was looked at on a day was looked at before anything was put on.
  for (auto& [tooth, events] : events_)
    std::ranges::stable_sort(events, {},
                             [](const Event& one) { return std::pair(one.on, one.what); });
  for (auto& [child, dates] : yearLooks_)
    std::ranges::sort(dates);
}

const SealantFates::Events& SealantFates::eventsOf(const chairside::Placement& placement) const {
  static const Events none;
  const auto at = events_.find({placement.child, placement.tooth});
  return at == events_.end() ? none : at->second;
}

bool SealantFates::isFirst(std::uint32_t placement, base::Date placedOn) const {
  const auto& events = eventsOf(view_.records.placements[placement].value);
  return std::ranges::none_of(
      events, [&](const Event& one) { return one.what == What::sealing && one.on < placedOn; });
}

SealantFates::Life SealantFates::lifeOf(std::uint32_t placement, base::Date placedOn) const {
  const auto& placed = view_.records.placements[placement].value;
  Life life{.placement = placement,
            .child = placed.child,
            .opens = placedOn.plusMonths(window_.fromMonths),
            .shuts = placedOn.plusMonths(window_.untilMonths),
            .events = eventsOf(placed),
            .placed = placedOn,
            .surfaces = placed.surfaces};
  std::optional<base::Date> wholeOn;
  for (const auto& event : life.events) {
    if (event.on < placedOn || life.lostOn || life.replacedOn) continue;
    if (life.isOwn(event)) {
      const auto held = check(event).asCounted();
      if (held == Held::lost) {
        life.lostOn = event.on;
        life.lostBy = event.check;
      }
      if (held == Held::part && !life.partOn) life.partOn = event.on;
      if (held == Held::whole) wholeOn = event.on;
    }
    if (event.what != What::sealing || event.on == placedOn) continue;
    const auto& again = view_.records.placements[event.placement].value;
    if (!isOver(again.surfaces, life.surfaces)) continue;
    const bool isOtherwise =
        wholeOn == event.on || otherwise_.contains({again.child, again.tooth, again.day});
    (isOtherwise ? life.replacedOn : life.lostOn) = event.on;
  }
  return life;
}

/// A look that a one-year figure may rest on: of that kind, or of opportunity at a newer sealant,
/// which is not a year old yet. A look made for a reason of its own chose whom it looked at.
bool SealantFates::isLookAtYear(const Life& life, const Event& event) const {
  const auto kind = check(event).kind;
  return kind == CheckKind::longTerm || (kind == CheckKind::opportunistic && !life.isOwn(event));
}

/// The days in the window on which the child was found, by date.
std::vector<base::Date> SealantFates::foundOn(const Life& life) const {
  std::vector<base::Date> days;
  if (const auto at = yearLooks_.find(life.child); at != yearLooks_.end()) days = at->second;
  for (const auto& event : life.events)
    if (event.what == What::look && !life.isOwn(event) && isLookAtYear(life, event))
      days.push_back(event.on);
  std::erase_if(days, [&](base::Date on) { return !life.isIn(on); });
  std::ranges::sort(days);
  return days;
}

SealantFate SealantFates::of(std::uint32_t placement, base::Date placedOn) const {
  const auto life = lifeOf(placement, placedOn);
  SealantFate out;
  out.isKnownLost = life.lostOn && *life.lostOn <= life.shuts; // later says nothing of a year
  out.isReported = std::ranges::any_of(life.events, [&](const Event& one) {
    return life.isOwn(one) && one.on <= life.shuts && check(one).kind == CheckKind::reportedLoss;
  });
  judge(life, out);
  if (out.isOld) return out;
  judgeLate(life, out);
  judgeTooth(life, out);
  return out;
}

/// By the first day in the window on which the child was found and this sealant's fate is known.
void SealantFates::judge(const Life& life, SealantFate& out) const {
  for (const auto on : foundOn(life)) {
    const Event* own = nullptr;
    for (const auto& event : life.events)
      if (life.isOwn(event) && event.on == on && check(event).kind == CheckKind::longTerm &&
          (!own || !isJudgment(check(*own).asCounted())))
        own = &event;
    const bool wasLost = life.lostOn && *life.lostOn <= on;
    const bool wasReplaced = life.replacedOn && *life.replacedOn < on;
    const bool sees = own && isJudgment(check(*own).asCounted());
    if (!sees && !wasLost && !wasReplaced) {
      // Counts as looked at unless a later day can judge it.
      if (own && on >= view_.records.term.start && !out.check) {
        out.held = Held::cannotAssess;
        out.from = HeldFrom::look;
        out.check = own->check;
      }
      continue;
    }
    out.isOld = on < view_.records.term.start;
    if (wasLost) {
      out.held = Held::lost;
      out.check = life.lostBy;
      out.from = *life.lostOn == on && life.lostBy ? HeldFrom::look
                 : life.lostBy                     ? HeldFrom::earlierLook
                                                   : HeldFrom::reseal;
      return;
    }
    if (wasReplaced) {
      out.held = Held::cannotAssess;
      out.from = HeldFrom::reseal;
      out.check.reset();
      return;
    }
    const bool wasRepaired = std::ranges::any_of(life.events, [&](const Event& one) {
      return one.what == What::repair && one.on >= life.placed && one.on < on;
    });
    out.isRepaired = wasRepaired && check(*own).asCounted() == Held::whole;
    out.held = wasRepaired || (life.partOn && *life.partOn <= on) ? Held::part : Held::whole;
    out.from = HeldFrom::look;
    out.check = own->check;
    return;
  }
}

/// A sealant that could not be judged in its window is judged by the next look of the term, if one
/// came: whole then is whole in the window; lost then may have been lost since, and counts as lost.
void SealantFates::judgeLate(const Life& life, SealantFate& out) const {
  if (out.held != Held::cannotAssess || out.from != HeldFrom::look) return;
  for (const auto& event : life.events) {
    if (!life.isOwn(event) || event.on <= life.shuts) continue;
    const auto kind = check(event).kind;
    if (kind == CheckKind::shortTermTriggered || kind == CheckKind::reportedLoss) continue;
    const auto held = check(event).asCounted();
    if (!isJudgment(held)) continue;
    out.held = held == Held::whole && life.partOn && *life.partOn <= event.on ? Held::part : held;
    out.check = event.check;
    return;
  }
}

void SealantFates::judgeTooth(const Life& life, SealantFate& out) const {
  // What lies on the tooth, each with the surfaces that no later one was placed on.
  std::map<std::uint32_t, dentition::SurfaceSet> lying{{life.placement, life.surfaces}};
  std::optional<base::Date> day;
  bool isOfLying = false;
  for (const auto& event : life.events) {
    if (day && event.on > *day) break;
    if (event.on < life.placed) continue;
    if (event.what == What::sealing && event.on > life.placed) {
      const auto over = view_.records.placements[event.placement].value.surfaces;
      for (auto& [placement, surfaces] : lying)
        surfaces = surfaces.without(over);
      std::erase_if(lying, [](const auto& one) { return one.second.isEmpty(); });
      lying.insert_or_assign(event.placement, over);
    }
    if (event.what != What::look || event.on < view_.records.term.start || !life.isIn(event.on) ||
        !isLookAtYear(life, event))
      continue;
    const auto left = lying.find(event.placement);
    const bool isOn = left != lying.end();
    const auto held = (isOn ? lookAt(check(event), left->second) : check(event)).asCounted();
    if (!isJudgment(held)) continue;
    // The worst of what lies there; of what was replaced only where nothing else was looked at.
    if (day && (!isOn || (isOfLying && held <= out.tooth))) continue;
    day = event.on;
    isOfLying = isOn;
    out.tooth = held;
    out.toothCheck = event.check;
  }
  // Found, known as lost, and nothing put in its place: no one had to look at that tooth.
  const auto own = lying.find(life.placement);
  if (!day && out.held == Held::lost && own != lying.end() && own->second == life.surfaces)
    out.tooth = Held::lost;
}

} // namespace gk::reports
