#include "ui/close_out/close_out_entries.h"

#include "reports/day/close_out_tables.h"
#include "reports/day/close_out_words.h"
#include "reports/display_names.h"
#include "ui/close_out/closing_counts.h"
#include "ui/close_out/confirm_placements.h"
#include "ui/close_out/letters_desk.h"
#include "ui/close_out/merge_question.h"
#include "ui/safety/withdrawal.h"
#include "ui/support/text.h"

#include <algorithm>
#include <array>

namespace gk::ui {

using namespace reports::close_out;

namespace {

using chairside::DayEnd;

/// The value whose name is chosen; none of them stands there already, since each is a record.
template <class E>
std::optional<E> chooseNamed(Prompter& prompter, const QString& question,
                             std::span<const E> values) {
  QStringList options;
  for (const auto value : values)
    options += toQt(base::displayName(value));
  const auto chosen = prompter.decide(question, options);
  if (!chosen) return std::nullopt;
  return values[static_cast<std::size_t>(*chosen)];
}

template <class E>
std::optional<E> chooseAny(Prompter& prompter, const QString& question) {
  std::vector<E> all;
  for (std::size_t i = 0; i < base::enumCount<E>; ++i)
    all.push_back(static_cast<E>(i));
  return chooseNamed<E>(prompter, question, all);
}

/// Asks why the child's teeth without a reason were not finished, and notes it in the screening
/// that meant to treat them. False when nothing was noted: backed out, or no screening of the day
/// means one of them.
base::Result<bool> giveReason(Context& context, const reports::CloseOut& sheet,
                              roster::ChildId child, roster::DayId day) {
  const auto screenings = context.session.screenings(child);
  if (!screenings) return screenings.error();
  for (const auto& row : *screenings) {
    if (row.value.day != day) continue;
    auto screening = row.value;
    QStringList teeth;
    std::vector<std::string*> notes;
    for (const auto& tooth : sheet.unfinished)
      for (auto& finding : screening.teeth)
        if (tooth.child == child && tooth.reason.empty() && finding.tooth == tooth.tooth) {
          teeth += toQt(tooth.words);
          notes.push_back(&finding.note);
        }
    if (notes.empty()) continue;
    const auto why = context.prompter.text(u"Why not finished: %1?"_s.arg(teeth.join(u"; "_s)), {});
    if (!why || why->trimmed().isEmpty()) return false;
    for (auto* note : notes)
      *note = toStd(why->trimmed());
    return isDone(context.session.correctScreening(context.acting.by(base::Station::closeOut), row,
                                                   screening, "why a tooth was not finished"));
  }
  return false;
}

} // namespace

base::Result<bool> followReferral(Context& context, const base::Recorded<followup::Referral>& old,
                                  const QString& name) {
  const auto state =
      chooseAny<followup::ReferralState>(context.prompter, u"Referral outcome for %1?"_s.arg(name));
  if (!state) return false;
  const auto from = context.prompter.text(u"Source: parent, dentist, nurse, recheck?"_s, {});
  if (!from || from->trimmed().isEmpty()) return false;
  auto referral = old.value;
  referral.state = *state;
  return isDone(context.session.updateReferral(context.acting.by(), old, referral,
                                               toStd(u"source: "_s + from->trimmed())));
}

CloseOutEntries::CloseOutEntries(Context& context, const ClosingDay& day, QObject* parent)
    : PageActs(context, parent), day_(day) {}

void CloseOutEntries::take(int section, int row) {
  const auto sheet = day_.sheet();
  const auto child = day_.childAt(section, row);
  if (sheet && row >= 0) {
    const auto at = static_cast<std::size_t>(row);
    if (section == blockers) return fix(day_.blockersAt(at));
    if (section == questions) return answer(at);
    if (section == letters && sheet->letters.at(at).stand == reports::LetterStand::handedInError)
      return call(*child);
    if (section == papers) return countPaper();
    if (section == effort) return sayHours();
    if (section == supplies)
      return void(
          noted(countSupply(context(), sheet->supplies.at(at), *day_.id()), u"Lot saved."_s));
    if (section == referrals) {
      const auto* made = day_.referralAt(at);
      return made ? follow(*made) : refer(*child);
    }
    if (section == confirmed) return confirm();
    if (section == incidents) return Q_EMIT incidentWanted(std::nullopt);
  }
  if (child) Q_EMIT childChosen(*child, *day_.id());
}

/// Straight to what takes the line away: the question, or the child in the chair.
void CloseOutEntries::fix(const std::vector<reports::Blocker>& alike) {
  const auto& blocker = alike.front();
  switch (blocker.kind) {
  case reports::BlockerKind::noOutcome:
    if (alike.size() > 1) return outcomesOf(alike);
    if (!day_.wasSeen(*blocker.child)) return void(outcome(*blocker.child));
    break;
  case reports::BlockerKind::urgentNotCalled:
    return call(*blocker.child);
  case reports::BlockerKind::noReferral:
    return refer(*blocker.child);
  case reports::BlockerKind::toothWithoutReason: {
    const auto given = giveReason(context(), *day_.sheet(), *blocker.child, *day_.id());
    if (!went(given)) return;
    if (*given) return Q_EMIT said(u"Reason saved."_s);
    break;
  }
  case reports::BlockerKind::lightNotRead:
    return void(noted(readLightAgain(context(), *blocker.light, *day_.id()), u"Light saved."_s));
  case reports::BlockerKind::paperMissing:
    return countPaper();
  case reports::BlockerKind::lateOnJoinedCard:
    return void(noted(joinAgain(context(), blocker), u"The entries are on the kept card now."_s));
  case reports::BlockerKind::twoOutcomes:
  case reports::BlockerKind::outcomeDisagrees:
  case reports::BlockerKind::noConsent:
  case reports::BlockerKind::fieldUnfinished:
    break;
  }
  Q_EMIT childChosen(*blocker.child, *day_.id());
}

void CloseOutEntries::answer(std::size_t row) {
  const auto ask = [this](const reports::MergeQuestion& question) {
    noted(answerQuestion(context(), question, *day_.id()),
          u"Answer saved; both stay in the history."_s);
  };
  const auto sheet = day_.sheet();
  if (row < sheet->questions.size()) return ask(sheet->questions[row]);
  const auto& old = sheet->answered.at(row - sheet->questions.size());
  if (!noted(reopenQuestion(context(), old), u"Answer undone: the conflict is open again."_s))
    return;
  const auto open = day_.sheet();
  if (!open) return;
  const auto again = std::ranges::find_if(open->questions, [&](const auto& question) {
    return question.child == old.answer.value.child || question.other == old.answer.value.child;
  });
  if (again != open->questions.end()) ask(*again);
}

bool CloseOutEntries::noted(const base::Result<bool>& result, const QString& words) {
  if (!went(result) || !*result) return false;
  Q_EMIT said(words);
  return true;
}

void CloseOutEntries::countPaper() {
  if (const auto sheet = day_.sheet())
    noted(countPaperIn(context(), *sheet, *day_.id()), u"Sheets counted."_s);
}

void CloseOutEntries::sayHours() {
  if (const auto sheet = day_.sheet())
    noted(sayEffort(context(), *sheet, *day_.id()), u"Staff and chair hours saved."_s);
}

void CloseOutEntries::confirm() {
  const auto sheet = day_.sheet();
  if (!sheet || !went(confirmPlacementsOf(context(), *sheet, *day_.id()))) return;
  const auto open = day_.sheet() ? reports::unconfirmedWords(*day_.sheet()) : std::string();
  Q_EMIT said(open.empty() ? u"All placements of the day are confirmed."_s : toQt(open) + u'.');
}

bool CloseOutEntries::outcome(roster::ChildId child) {
  const auto name = day_.nameOf(child);
  const bool isAgain = std::ranges::any_of(
      day_.sheet()->lines, [&](const auto& line) { return line.child == child && line.outcome; });
  constexpr std::array ends{DayEnd::absent,    DayEnd::declined, DayEnd::notReached,
                            DayEnd::withdrawn, DayEnd::onHold,   DayEnd::leftSchool};
  const auto end =
      chooseNamed<DayEnd>(context().prompter, u"Visit outcome for %1?"_s.arg(name), ends);
  if (!end) return false;
  const chairside::DayOutcome ended{child, *day_.id(), *end, {}};
  // What was left out at the chair is the chair's to say; here the day is only brought to its end.
  std::optional<std::string> how;
  if (*end == DayEnd::withdrawn) {
    const auto withdrawn = askWithdrawal(context(), name, child, how);
    if (!went(withdrawn) || !*withdrawn) return false;
  }
  const auto by = context().acting.by(base::Station::closeOut);
  const bool done = how ? went(book().work(by, {.withdrawal = session::Withdrawal{child, *how},
                                                .outcome = ended}))
                        : went(book().endVisit(by, ended, session::Confirmed::yes));
  if (done)
    Q_EMIT said(u"%1: %2. %3"_s.arg(name, toQt(base::displayName(*end)),
                                    isAgain ? u"Previous entry kept in history."_s
                                            : u"A new outcome replaces it."_s));
  return done;
}

/// Many students whom no one saw: one answer for all, or each by itself.
void CloseOutEntries::outcomesOf(const std::vector<reports::Blocker>& alike) {
  const auto many = counted(std::ssize(alike), "student", "students");
  constexpr std::array ends{DayEnd::absent, DayEnd::notReached};
  QStringList options{u"One by one"_s};
  for (const auto end : ends)
    options += u"All %1: %2"_s.arg(alike.size()).arg(toQt(base::displayName(end)));
  const auto chosen = context().prompter.decide(
      u"%1 without an outcome. How did the day end?"_s.arg(many), options);
  if (!chosen) return;
  if (*chosen == 0) {
    for (const auto& one : alike)
      if (!outcome(*one.child)) return;
    return;
  }
  const auto end = ends.at(static_cast<std::size_t>(*chosen) - 1);
  const auto by = context().acting.by(base::Station::closeOut);
  for (const auto& one : alike)
    if (!went(book().endVisit(by, {*one.child, *day_.id(), end, {}}, session::Confirmed::yes)))
      return;
  Q_EMIT said(u"%1: %2. A new outcome replaces it."_s.arg(many, toQt(base::displayName(end))));
}

void CloseOutEntries::call(roster::ChildId child) {
  auto& prompter = context().prompter;
  const auto name = day_.nameOf(child);
  const auto channel =
      chooseAny<followup::Channel>(prompter, u"%1: how was the parent contacted?"_s.arg(name));
  if (!channel) return;
  const auto result = chooseAny<followup::ContactResult>(prompter, u"%1: result?"_s.arg(name));
  if (!result) return;
  const auto note = prompter.text(u"What was said? No names."_s, {});
  if (note && went(book().enterContact(context().acting.by(), {child, *day_.id(), *channel, *result,
                                                               toStd(note->trimmed())})))
    Q_EMIT said(u"Call logged."_s);
}

/// Urgency and last day as the screening says; `early` where it says nothing.
void CloseOutEntries::refer(roster::ChildId child) {
  auto& prompter = context().prompter;
  const auto sheet = day_.sheet();
  auto urgency = chairside::Urgency::early;
  std::string reason = "untreated decay";
  for (const auto& line : sheet->lines)
    if (line.child == child && line.urgency == chairside::Urgency::urgent) urgency = *line.urgency;
  for (const auto& line : sheet->urgent)
    if (line.child == child) reason = std::string(base::displayName(line.reason));
  const auto due = followup::referralDue(urgency, sheet->date);
  const auto words = prompter.text(u"Reason for the referral (%1, see a dentist by %2):"_s.arg(
                                       toQt(base::displayName(urgency)), toQt(due.words())),
                                   toQt(reason));
  if (!words) return;
  const auto to = chooseAny<followup::ReferredTo>(prompter, u"Referred to whom?"_s);
  if (to && went(book().enterReferral(context().acting.by(), {child, *day_.id(), urgency,
                                                              toStd(words->trimmed()), due, *to})))
    Q_EMIT said(u"Referral made."_s);
}

void CloseOutEntries::follow(const reports::ReferralLine& line) {
  const auto records = book().dayRecords(*day_.id());
  if (!went(records)) return;
  const auto made =
      std::ranges::find(records->referrals, line.id, [](const auto& one) { return one.id; });
  if (made != records->referrals.end())
    noted(followReferral(context(), *made, toQt(line.shown)), u"Referral updated."_s);
}

void CloseOutEntries::writeLetters(const std::optional<roster::ChildId>& chosen) {
  if (!day_.sheet()) return;
  std::make_shared<LettersDesk>(context(), this, *day_.id())
      ->work(chosen, [this](const base::Result<QString>& done) {
        if (went(done) && !done->isEmpty()) Q_EMIT said(*done);
      });
}

} // namespace gk::ui
