#include "reports/retention/factor_words.h"

#include "reports/records/words.h"

#include <algorithm>

namespace gk::reports {

namespace {

base::Uuid small(std::size_t number) {
  base::Uuid out;
  out.bytes[14] = static_cast<std::uint8_t>(number >> 8U);
  out.bytes[15] = static_cast<std::uint8_t>(number);
  return out;
}

template <class E>
base::Uuid small(E value) {
  return small(static_cast<std::size_t>(value));
}

constexpr std::string_view unknownField = "not recorded";

bool isHypomineralised(const chairside::ToothFinding& finding) {
  return finding.enamel == chairside::Enamel::opacity ||
         finding.enamel == chairside::Enamel::opacityBroken;
}

} // namespace

FactorWords::FactorWords(const TermView& view)
    : view_(view), lights_(view.records.lights), lots_(view.records.lots),
      members_(view.records.members), fields_(view.records.fields),
      screenings_(view.records.screenings, [](const auto&) { return true; }) {}

FactorKey FactorWords::key(const chairside::Placement& placement, Factor factor) const {
  switch (factor) {
  case Factor::school:
    base::fail("the school is told apart by its identity");
  case Factor::light:
    return {placement.light ? placement.light->uuid() : base::Uuid{}, {}};
  case Factor::arch:
    return {small(placement.tooth.isUpper() ? std::size_t{1} : std::size_t{0}), {}};
  case Factor::tooth:
    return {small(static_cast<std::size_t>(placement.tooth.iso())), {}};
  case Factor::isolation:
    return {small(placement.isolation), {}};
  case Factor::delivery:
    return {small(placement.fourHanded ? std::size_t{1} : std::size_t{0}), {}};
  case Factor::placedBy:
    return {placement.placedBy.uuid(), {}};
  case Factor::lot:
    return {placement.sealant.uuid(), {}};
  case Factor::pair:
    return {placement.placedBy.uuid(),
            placement.assistant ? placement.assistant->uuid() : base::Uuid{}};
  case Factor::wet:
    return {small(placement.wetEvents > 0 ? std::size_t{1} : std::size_t{0}), {}};
  case Factor::holding: {
    const auto* field = fields_.find(placement.field);
    if (!field) return {small(std::size_t{1}), {}};
    return {small(field->cheek), small(10 + static_cast<std::size_t>(field->tongue))};
  }
  case Factor::guards: {
    const auto* field = fields_.find(placement.field);
    if (!field) return {{}, small(std::size_t{1})};
    return {small(field->guards == chairside::DryGuardSet::all() ? std::size_t{1} : std::size_t{0}),
            {}};
  }
  case Factor::eruption: {
    const auto* finding = findingOf(placement);
    return {small(finding ? 1 + static_cast<std::size_t>(finding->presence) : std::size_t{0}), {}};
  }
  case Factor::enamel: {
    const auto* finding = findingOf(placement);
    if (!finding) return {small(std::size_t{0}), {}};
    return {small(isHypomineralised(*finding) ? std::size_t{2} : std::size_t{1}), {}};
  }
  case Factor::grade: {
    FactorKey key;
    const auto grade = gradeOf(placement);
    for (std::size_t i = 0; i < grade.size() && i < key.first.bytes.size(); ++i)
      key.first.bytes[i] = static_cast<std::uint8_t>(grade[i]);
    return key;
  }
  }
  base::fail("no such factor");
}

std::string FactorWords::label(const chairside::Placement& placement, Factor factor) const {
  switch (factor) {
  case Factor::school:
    base::fail("the school is told apart by its identity");
  case Factor::light: {
    if (!placement.light) return "no light";
    const auto* light = lights_.find(*placement.light);
    return light ? light->tag : "light not on the list";
  }
  case Factor::arch:
    return placement.tooth.isUpper() ? "upper" : "lower";
  case Factor::tooth:
    return placement.tooth.shown(view_.records.notation);
  case Factor::isolation:
    return named(placement.isolation);
  case Factor::delivery:
    return placement.fourHanded ? "four-handed" : "two-handed";
  case Factor::placedBy:
    return initials(placement.placedBy);
  case Factor::lot: {
    const auto* lot = lots_.find(placement.sealant);
    return lot ? kit::shown(*lot) : "lot not on the list";
  }
  case Factor::pair:
    return initials(placement.placedBy) +
           (placement.assistant ? " with " + initials(*placement.assistant) : " alone");
  case Factor::wet:
    return placement.wetEvents > 0 ? "contaminated at least once" : "kept dry";
  case Factor::holding: {
    const auto* field = fields_.find(placement.field);
    if (!field) return std::string(unknownField);
    return "cheek: " + named(field->cheek) + ", tongue: " + named(field->tongue);
  }
  case Factor::guards: {
    const auto* field = fields_.find(placement.field);
    if (!field) return std::string(unknownField);
    return field->guards == chairside::DryGuardSet::all() ? "all four" : "not all four";
  }
  case Factor::eruption: {
    const auto* finding = findingOf(placement);
    return finding ? named(finding->presence) : std::string(unknownField);
  }
  case Factor::enamel: {
    const auto* finding = findingOf(placement);
    if (!finding) return std::string(unknownField);
    return isHypomineralised(*finding) ? "hypomineralized" : "not hypomineralized";
  }
  case Factor::grade:
    return gradeOf(placement);
  }
  base::fail("no such factor");
}

std::string FactorWords::initials(const base::MemberId& member) const {
  const auto* found = members_.find(member);
  return found ? found->initials : "member not on the list";
}

const chairside::ToothFinding* FactorWords::findingOf(const chairside::Placement& placement) const {
  const chairside::ToothFinding* found = nullptr;
  for (const auto* row : screenings_.of(placement.child)) {
    if (row->value.day != placement.day) continue;
    const auto at =
        std::ranges::find(row->value.teeth, placement.tooth, &chairside::ToothFinding::tooth);
    if (at != row->value.teeth.end()) found = &*at;
  }
  return found;
}

std::string FactorWords::gradeOf(const chairside::Placement& placement) const {
  const auto* child = view_.children.find(placement.child);
  return child ? child->grade : "grade not known";
}

std::string headingOf(Factor factor) {
  switch (factor) {
  case Factor::school:
    return "School where placed";
  case Factor::light:
    return "Light";
  case Factor::arch:
    return "Arch";
  case Factor::tooth:
    return "Tooth";
  case Factor::isolation:
    return "Isolation";
  case Factor::delivery:
    return "Delivery";
  case Factor::placedBy:
    return "Operator";
  case Factor::lot:
    return "Sealant lot";
  case Factor::pair:
    return "Operator and assistant";
  case Factor::wet:
    return "Contamination";
  case Factor::holding:
    return "Retracted by";
  case Factor::guards:
    return "Isolation items";
  case Factor::eruption:
    return "Eruption when placed";
  case Factor::enamel:
    return "Enamel";
  case Factor::grade:
    return "Grade now";
  }
  base::fail("no such factor");
}

} // namespace gk::reports
