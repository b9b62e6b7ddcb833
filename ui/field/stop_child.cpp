#include "ui/field/stop_child.h"

#include "ui/safety/withdrawal.h"
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

/// Teeth that were chosen and not begun take the decision of the reason.
std::optional<session::FindingsChange> leaveNotBegun(const ChairVisit& visit,
                                                     const StopReason& reason) {
  const auto& old = *visit.file().screening;
  const auto left = notBegun(old.value, visit.begun());
  if (left.empty()) return std::nullopt;
  auto screening = old.value;
  for (auto& finding : screening.teeth)
    if (std::ranges::find(left, finding.tooth) != left.end()) {
      finding.decision = reason.decision;
      finding.toSeal = {};
      finding.resealWhy = chairside::ResealWhy::notSaid;
    }
  return session::FindingsChange{old, screening, reason.words};
}

/// All that is in hand, but the teeth that are still to be cured.
std::vector<session::ChairStop> stopInHand(const ChairVisit& visit, const StopReason& reason,
                                           const std::vector<Tooth>& kept) {
  std::vector<session::ChairStop> stops;
  for (const auto& field : visit.file().fields) {
    auto teeth = unfinished(field.protocol);
    std::erase_if(teeth,
                  [&](const Tooth& tooth) { return std::ranges::find(kept, tooth) != kept.end(); });
    if (!teeth.empty()) stops.push_back({field.field.id, teeth, reason.words});
  }
  return stops;
}

std::vector<Tooth> uncuredOf(const ChairVisit& visit) {
  std::vector<Tooth> teeth;
  for (const auto& field : visit.file().fields)
    for (const auto& tooth : uncured(field.protocol))
      teeth.push_back(tooth);
  return teeth;
}

/// One stop, from its reason to the act that is written: questions on the way write nothing of it.
class Stopping {
 public:
  Stopping(ChairVisit& visit, FieldSteps* steps, const StopReason& reason,
           std::function<void()> then)
      : visit_(visit), steps_(steps), reason_(reason), then_(std::move(then)) {}

  void withdraw(const std::string& how) { withdrawn_ = how; }

  void begin() const {
    visit_.tryAgain(false);
    if (steps_ && visit_.file().fieldInHand() != nullptr) steps_->noteInterrupted();
    if (steps_ && steps_->etchantIsOn())
      steps_->rinseNow(reason_.words,
                       [self = *this](const FieldSteps::Runs& rinsed) { self.askCure(rinsed); });
    else
      askCure(steps_ ? steps_->halt("the child was stopped") : FieldSteps::Runs{});
  }

 private:
  void askCure(const FieldSteps::Runs& ended) const {
    const auto soft = uncuredOf(visit_);
    if (soft.empty()) {
      leave(ended, {});
      return;
    }
    visit_.ask.choose(
        u"Sealant is on and not cured. Cure it first?"_s,
        {u"Cure it first, stop the rest"_s, u"Stop everything now"_s},
        [self = *this, ended, soft](int answer) {
          self.leave(ended, answer == 0 ? soft : std::vector<Tooth>{});
        },
        [self = *this, ended] { self.write({.steps = ended}); }); // its clock is stopped already
  }

  void leave(const FieldSteps::Runs& ended, const std::vector<Tooth>& kept) const {
    const auto& file = visit_.file();
    session::ChairWork work{.steps = ended, .stops = stopInHand(visit_, reason_, kept)};
    if (file.screening)
      work.findings = leaveNotBegun(visit_, reason_);
    else
      work.outcome = chairside::DayOutcome{file.child.id, file.day.id, reason_.end, reason_.words};
    if (!withdrawn_.empty()) work.withdrawal = session::Withdrawal{file.child.id, withdrawn_};
    visit_.stoppedFor(reason_.words);
    if (write(work)) then_();
  }

  bool write(const session::ChairWork& work) const {
    return visit_.act([&] { return visit_.book().work(visit_.by(), work); }).has_value();
  }

  ChairVisit& visit_;
  FieldSteps* steps_;
  StopReason reason_;
  std::function<void()> then_;
  std::string withdrawn_{};
};

} // namespace

void stopChild(ChairVisit& visit, FieldSteps* steps, const std::function<void()>& then) {
  QStringList options;
  for (const auto& reason : stopReasons)
    options += capital(QString::fromUtf8(reason.words));
  visit.ask.choose(u"Stop: reason?"_s, options, [&visit, steps, then](int chosen) {
    const auto& reason = stopReasons.at(static_cast<std::size_t>(chosen));
    Stopping stopping(visit, steps, reason, then);
    if (reason.end != DayEnd::withdrawn) return stopping.begin();
    // The form has to say so too: else the child could be seated again.
    const auto open = visit.act([&] { return aFormSaysYes(visit.book(), visit.file().child.id); });
    if (!open) return;
    if (!*open) return stopping.begin();
    visit.ask.write(QString::fromUtf8(withdrawalQuestion), {},
                    [stopping](const QString& how) mutable {
                      stopping.withdraw(toStd(how.trimmed()));
                      stopping.begin();
                    });
  });
}

} // namespace gk::ui
