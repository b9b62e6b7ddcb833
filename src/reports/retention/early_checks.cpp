#include "reports/retention/early_checks.h"

#include "base/text/text.h"
#include "reports/print/cells.h"
#include "reports/records/term_view.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <span>

namespace gk::reports {

namespace {

using followup::CheckKind;
using followup::Held;

void count(EarlyChecks& line, Held held) {
  ++line.examined;
  switch (held) {
  case Held::whole:
    ++line.whole;
    break;
  case Held::part:
    ++line.part;
    break;
  case Held::lost:
    ++line.lost;
    break;
  case Held::notSealed:
  case Held::cannotAssess:
    ++line.cannotAssess;
    return;
  }
  ++line.assessable;
}

EarlyChecks countOf(const TermView& view, std::span<const CheckKind> kinds, std::string label,
                    std::optional<roster::SchoolId> placedAt = {}) {
  const Lookup<chairside::Placement> placements(view.records.placements);
  std::map<followup::RetentionCheck::Key, const base::Recorded<followup::RetentionCheck>*> ordered;
  for (const auto& [child, rows] : view.checks.all())
    for (const auto* row : rows)
      if (std::ranges::find(kinds, row->value.kind) != kinds.end()) ordered[row->id] = row;
  std::map<chairside::PlacementId, const base::Recorded<followup::RetentionCheck>*> first;
  for (const auto& [id, row] : ordered) {
    auto& kept = first[row->value.placement];
    const auto judges = [](const auto* one) {
      return one->value.asCounted() != Held::cannotAssess;
    };
    if (!kept || (!judges(kept) && judges(row))) kept = row;
  }
  EarlyChecks line{.label = std::move(label)};
  std::set<roster::ChildId> children;
  for (const auto& [placement, row] : first) {
    const auto* placed = placements.find(placement);
    const auto* day = placed ? view.days.find(placed->day) : nullptr;
    if (!placed || (placedAt && (!day || day->school != *placedAt))) continue;
    children.insert(row->value.child);
    const auto placedOn = view.dateOf(placed->day);
    const auto on = view.dateOf(row->value.day);
    if (placedOn && on) {
      const double months = 12 * base::yearsBetween(*placedOn, *on);
      line.firstMonth = line.examined == 0 ? months : std::min(line.firstMonth, months);
      line.lastMonth = std::max(line.lastMonth, months);
    }
    count(line, row->value.asCounted());
    if (row->stamp.by.author && *row->stamp.by.author != placed->placedBy) ++line.byAnother;
  }
  line.children = static_cast<int>(children.size());
  return line;
}

} // namespace

std::vector<EarlyChecks> earlyChecks(const TermView& view,
                                     std::optional<roster::SchoolId> placedAt) {
  std::vector<EarlyChecks> lines;
  for (const auto kind : {CheckKind::shortTermSample, CheckKind::shortTermTriggered,
                          CheckKind::opportunistic, CheckKind::reportedLoss})
    if (auto line = countOf(view, std::span(&kind, 1), named(kind), placedAt); line.examined > 0) {
      line.isOfReports = kind == CheckKind::reportedLoss;
      lines.push_back(std::move(line));
    }
  return lines;
}

EarlyChecks shortTermChecks(const TermView& view) {
  constexpr std::array kinds{CheckKind::shortTermSample, CheckKind::shortTermTriggered};
  return countOf(view, kinds, "short-term");
}

Table earlyCheckTable(const TermView& view, std::optional<roster::SchoolId> placedAt) {
  Table table{"Short-term checks, made this term",
              {texts("Kind"), counts("Students", "children"), counts("Examined"),
               ranges("Months after placement"), counts("Checked by a different provider"),
               counts("Assessable"), counts("Fully retained"), counts("Partially retained"),
               counts("Missing"), counts("Not assessable"), shares("Fully retained, %")},
              {"A sample, or after a change of technique, material or equipment, preferably "
               "by a different provider than placed them; also opportunistic checks. "
               "Sealants found missing here count as missing in the one-year figures too, "
               "where the student is found then."}};
  const auto lines = earlyChecks(view, placedAt);
  for (const auto& line : lines)
    table.rows.push_back({line.label, line.children, line.examined,
                          Range{line.firstMonth, line.lastMonth, 0, " to "}, line.byAnother,
                          line.assessable, line.whole, line.part, line.lost, line.cannotAssess,
                          line.isOfReports ? noFigure : shareOf(line.whole, line.assessable)});
  if (lines.empty()) return table;
  if (lines.back().isOfReports)
    table.notes.emplace_back(
        "Reported loss: these students were checked because a sealant was said "
        "to be missing, so no percentage is given.");
  const auto first = std::ranges::min(lines, {}, &EarlyChecks::firstMonth).firstMonth;
  const auto last = std::ranges::max(lines, {}, &EarlyChecks::lastMonth).lastMonth;
  table.notes.push_back(lookWords({first, last}));
  return table;
}

std::string lookWords(const LookAges& ages) {
  if (ages.last <= 2) return "All within two months of placement.";
  constexpr double about = 0.1; // months: three days
  const double middle = std::round(ages.first);
  const bool isOne =
      std::abs(ages.first - middle) <= about && std::abs(ages.last - middle) <= about;
  const auto months = [](double count) {
    return base::counted(static_cast<std::size_t>(count), "month", "months");
  };
  // Outward: no check lies outside what is said.
  const auto when =
      isOne ? "about " + months(middle)
            : base::fixed(std::floor(ages.first), 0) + " to " + months(std::ceil(ages.last));
  return "Made " + when +
         " after placement: those later than two months speak of wear as well as of technique.";
}

} // namespace gk::reports
