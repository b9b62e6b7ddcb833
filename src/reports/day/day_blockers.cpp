#include "reports/day/close_out_parts.h"
#include "reports/records/words.h"

#include <algorithm>

namespace gk::reports {

namespace {

using chairside::Attempt;
using chairside::DayEnd;

/// What the outcome says against what was recorded; empty when they agree.
std::string disagreement(const DayView& view, const roster::ChildId& child, DayEnd end) {
  const bool looked = view.screenings.has(child) || view.wasSeenOnOtherDays(child);
  const bool complete = std::ranges::any_of(view.placements.of(child), [](const auto* row) {
    return row->value.attempt == Attempt::complete;
  });
  switch (end) {
  case DayEnd::sealedComplete:
  case DayEnd::sealedUnfinished:
    if (!complete) return "sealed, but no tooth was finished today";
    return looked ? "" : "sealed, but no screening was recorded";
  case DayEnd::screenedNoneNeeded:
  case DayEnd::screenedNotTreated:
    if (complete) return "not treated, but a tooth was finished today";
    return looked ? "" : "screened, but no screening was recorded";
  case DayEnd::recheckOnly:
    return view.checks.has(child) ? "" : "recheck only, but no sealant was checked";
  case DayEnd::absent:
  case DayEnd::declined:
  case DayEnd::leftSchool:
  case DayEnd::onHold:
  case DayEnd::notReached:
    return view.screenings.has(child) || view.placements.has(child)
               ? named(end) + ", but the student was seen today"
               : "";
  case DayEnd::withdrawn:
    return ""; // also in the middle of the care
  }
  base::fail("no such outcome");
}

std::string paperWords(const followup::PaperCount& count) {
  const auto missing = count.missing();
  return std::to_string(count.out) + " out, " +
         (missing > 0 ? std::to_string(missing) + " unaccounted for"
                      : std::to_string(-missing) + " more came in than went out");
}

class Finder {
 public:
  Finder(const DayView& view, const CloseOut& sheet) : view_(view), sheet_(sheet) {}

  std::vector<Blocker> all() {
    for (const auto& child : view_.lineUp()) {
      outcome(child);
      referrals(child);
      teeth(child);
      fields(child);
    }
    for (const auto& light : sheet_.lights)
      found_.push_back({BlockerKind::lightNotRead, std::nullopt, light.tag,
                        light.why + "; read it now, or say why not", light.light});
    for (const auto& line : sheet_.papers)
      if (!line.isSettled())
        found_.push_back({BlockerKind::paperMissing, std::nullopt, named(line.count.paper),
                          paperWords(line.count) + "; count them in, or say where they are"});
    // Of whatever day: a day that is signed has its own counts, and they do not change.
    if (view_.records.closures.empty())
      for (const auto& late : view_.records.lateOnCards)
        found_.push_back({BlockerKind::lateOnJoinedCard, late.kept, "Student " + late.number,
                          late.words(), std::nullopt, late.other});
    return std::move(found_);
  }

 private:
  void add(BlockerKind kind, const roster::ChildId& child, std::string what) {
    found_.push_back({kind, child, view_.shown(child), std::move(what)});
  }

  void outcome(const roster::ChildId& child) {
    const auto* outcome = view_.outcome(child);
    const auto stands = view_.standing(child);
    if (!outcome) {
      add(BlockerKind::noOutcome, child,
          stands.since ? stands.why + "; enter the outcome: consent withdrawn"
                       : "no outcome recorded");
      return;
    }
    if (view_.outcomes.of(child).size() > 1 && !isOfTheMerge(child))
      add(BlockerKind::twoOutcomes, child, "more than one outcome; keep the right one");
    if (const auto why = disagreement(view_, child, outcome->end); !why.empty())
      add(BlockerKind::outcomeDisagrees, child, why + "; correct the one that is wrong");
    const bool allowed = saysYes(stands.state) || stands.since ||
                         stands.state == roster::ConsentState::onHold || view_.overrides.has(child);
    if (!allowed)
      add(BlockerKind::noConsent, child, stands.why + "; enter the form or the override");
  }

  /// Two laptops' outcomes are a question of their own, asked or answered.
  [[nodiscard]] bool isOfTheMerge(const roster::ChildId& child) const {
    const auto& rows = view_.outcomes.of(child);
    return std::ranges::any_of(rows, [&](const auto* row) {
      return firstWord(view_, *row).laptop != firstWord(view_, *rows.front()).laptop;
    });
  }

  void referrals(const roster::ChildId& child) {
    bool urgent = false;
    bool decay = false;
    for (const auto* row : view_.screenings.of(child)) {
      urgent = urgent || row->value.urgency == chairside::Urgency::urgent;
      decay = decay || row->value.untreatedDecay == chairside::Tri::yes;
    }
    if (urgent && !view_.contacts.has(child))
      add(BlockerKind::urgentNotCalled, child, "urgent, and no call was made; call now");
    if ((urgent || decay) && !view_.referrals.has(child))
      add(BlockerKind::noReferral, child,
          std::string(decay ? "untreated decay" : "urgent") + " without a referral; make one");
  }

  void teeth(const roster::ChildId& child) {
    for (const auto& tooth : sheet_.unfinished)
      if (tooth.child == child && tooth.reason.empty())
        add(BlockerKind::toothWithoutReason, child,
            tooth.words + ": " + tooth.how + ", no reason; say why");
  }

  /// A field whose teeth were etched or filled ends in a placement for each of them, also when it
  /// was stopped.
  void fields(const roster::ChildId& child) {
    for (const auto* field : view_.fields.of(child)) {
      std::vector<dentition::Tooth> open;
      for (const auto& meant : field->value.teeth)
        if (isBegun(field->id, meant.tooth) && !isSummedUp(child, field->id, meant.tooth))
          open.push_back(meant.tooth);
      if (open.size() > movedFrom(child, *field))
        add(BlockerKind::fieldUnfinished, child,
            teethWords(open, view_.records.notation) +
                ": started and left open; finish it or record why it was stopped");
    }
  }

  [[nodiscard]] bool isBegun(const chairside::FieldId& field, const dentition::Tooth& tooth) const {
    return std::ranges::any_of(view_.records.steps, [&](const auto& row) {
      const auto& run = row.value;
      return run.field == field &&
             (run.step == chairside::Step::etch || run.step == chairside::Step::flow) &&
             std::ranges::any_of(run.teeth, [&](const auto& on) { return on.tooth == tooth; });
    });
  }

  [[nodiscard]] bool isSummedUp(const roster::ChildId& child, const chairside::FieldId& field,
                                const dentition::Tooth& tooth) const {
    return std::ranges::any_of(view_.placements.of(child), [&](const auto* row) {
      return row->value.field == field && row->value.tooth == tooth;
    });
  }

  /// Sealants of this field that were found to be on teeth outside it: each sums up one of its own.
  [[nodiscard]] std::size_t movedFrom(const roster::ChildId& child,
                                      const base::Recorded<chairside::Field>& field) const {
    return static_cast<std::size_t>(
        std::ranges::count_if(view_.placements.of(child), [&](const auto* row) {
          return row->value.field == field.id &&
                 std::ranges::none_of(field.value.teeth, [&](const auto& meant) {
                   return meant.tooth == row->value.tooth;
                 });
        }));
  }

  const DayView& view_;
  const CloseOut& sheet_;
  std::vector<Blocker> found_;
};

} // namespace

std::vector<Blocker> blockersOf(const DayView& view, const CloseOut& sheet) {
  return Finder(view, sheet).all();
}

} // namespace gk::reports
