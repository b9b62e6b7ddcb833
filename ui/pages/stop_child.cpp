#include "ui/pages/stop_child.h"

#include "ui/pages/withdrawal.h"
#include "ui/support/text.h"

#include <algorithm>
#include <array>

namespace gk::ui {

using chairside::DayEnd;
using chairside::Decision;
using dentition::Tooth;

namespace {

struct StopReason {
  const char* words;
  DayEnd end;        ///< the child's day, when nothing was seen yet
  Decision decision; ///< of teeth that were not begun
};

constexpr std::array<StopReason, 7> stopReasons{
    {{"child refuses", DayEnd::declined, Decision::childDeclined},
     {"child is unwell", DayEnd::declined, Decision::notToday},
     {"ran out of time", DayEnd::notReached, Decision::notToday},
     {"cannot keep it dry", DayEnd::declined, Decision::cannotIsolate},
     {"equipment failed", DayEnd::notReached, Decision::notToday},
     {"consent withdrawn", DayEnd::withdrawn, Decision::notAllowedByConsent},
     {"absent", DayEnd::absent, Decision::notToday}}};

bool endDay(ChairVisit& visit, const StopReason& reason) {
  const chairside::DayOutcome outcome{visit.file().child.id, visit.file().day.id, reason.end,
                                      reason.words};
  return visit.act([&] { return visit.book().endVisit(visit.by(), outcome); }).has_value();
}

/// Teeth that were chosen and not begun take the decision of the reason.
bool leaveNotBegun(ChairVisit& visit, const StopReason& reason) {
  const auto old = *visit.file().screening;
  const auto left = notBegun(old.value, visit.begun());
  if (left.empty()) return true;
  auto screening = old.value;
  for (auto& finding : screening.teeth)
    if (std::ranges::find(left, finding.tooth) != left.end()) {
      finding.decision = reason.decision;
      finding.toSeal = {};
    }
  return visit
      .act([&] { return visit.book().correctScreening(visit.by(), old, screening, reason.words); })
      .has_value();
}

bool stopInHand(ChairVisit& visit, const StopReason& reason, const std::vector<Tooth>& kept) {
  const auto* field = visit.file().fieldInHand();
  if (!field) return true;
  auto teeth = unfinished(field->protocol);
  std::erase_if(teeth,
                [&](const Tooth& tooth) { return std::ranges::find(kept, tooth) != kept.end(); });
  if (teeth.empty()) return true;
  const auto id = field->field.id;
  return visit.act([&] { return visit.book().stopTeeth(visit.by(), id, teeth, reason.words); })
      .has_value();
}

} // namespace

void stopChild(ChairVisit& visit, const std::function<void()>& before,
               const std::function<void()>& then) {
  QStringList options;
  for (const auto& reason : stopReasons)
    options += capital(QString::fromUtf8(reason.words));
  const auto stop = [&visit, before, then](const StopReason& reason) {
    visit.tryAgain(false);
    if (before) before();
    if (!visit.file().screening) {
      if (endDay(visit, reason)) then();
      return;
    }
    const auto leave = [&visit, &reason, then](const std::vector<Tooth>& kept) {
      if (stopInHand(visit, reason, kept) && leaveNotBegun(visit, reason)) then();
    };
    const auto* field = visit.file().fieldInHand();
    const auto wetOn = field ? uncured(field->protocol) : std::vector<Tooth>{};
    if (wetOn.empty()) {
      leave({});
      return;
    }
    visit.ask.choose(
        u"Sealant is on and not cured. Cure it first?"_s,
        {u"Cure it first, stop the rest"_s, u"Stop everything now"_s},
        [leave, wetOn](int answer) { leave(answer == 0 ? wetOn : std::vector<Tooth>{}); });
  };
  const auto chosenReason = [&visit, stop](int chosen) {
    const auto& reason = stopReasons.at(static_cast<std::size_t>(chosen));
    if (reason.end != DayEnd::withdrawn) return stop(reason);
    // The form has to say so too: else the child could be seated again.
    const auto open = visit.act([&] { return aFormSaysYes(visit.book(), visit.file().child.id); });
    if (!open) return;
    if (!*open) return stop(reason);
    visit.ask.write(QString::fromUtf8(withdrawalQuestion), {},
                    [&visit, stop, &reason](const QString& how) {
                      const auto child = visit.file().child.id;
                      const auto words = toStd(how.trimmed());
                      const auto withdraw = [&] {
                        return visit.book().withdrawConsent(visit.by(), child, words);
                      };
                      if (visit.act(withdraw)) stop(reason);
                    });
  };
  visit.ask.choose(u"Stop: why?"_s, options, chosenReason);
}

} // namespace gk::ui
