#include "ui/close_out/close_out_questions.h"

#include "reports/display_names.h"
#include "ui/asking/own_pin.h"
#include "ui/support/message.h"
#include "ui/support/text.h"

#include <algorithm>
#include <array>

namespace gk::ui {

namespace {

using chairside::DayEnd;
using reports::Rows;

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

/// None when the person backed out.
base::Result<std::optional<base::MemberId>>
chooseSigner(Prompter& prompter, const QString& question, const Rows<roster::Member>& members,
             base::Date on, std::initializer_list<roster::Task> tasks) {
  QStringList options;
  std::vector<base::MemberId> ids;
  for (const auto& member : members) {
    const bool may = std::ranges::all_of(tasks, [&](roster::Task task) {
      return roster::mayDo(member.value, task, on).has_value();
    });
    if (!may) continue;
    options += toQt(member.value.name + ", " + std::string(base::displayName(member.value.role)));
    ids.push_back(member.id);
  }
  if (ids.empty())
    return base::Error{base::ErrorCode::ruleCredential,
                       "two people who may sign are needed, one of them a clinician"};
  const auto chosen = prompter.decide(question, options);
  if (!chosen) return std::optional<base::MemberId>{};
  return std::optional(ids[static_cast<std::size_t>(*chosen)]);
}

} // namespace

std::optional<chairside::DayOutcome> askOutcome(Prompter& prompter, const QString& name,
                                                roster::ChildId child, roster::DayId day) {
  constexpr std::array ends{DayEnd::absent,    DayEnd::declined, DayEnd::notReached,
                            DayEnd::withdrawn, DayEnd::onHold,   DayEnd::leftSchool};
  const auto end = chooseNamed<DayEnd>(prompter, u"Visit outcome for %1?"_s.arg(name), ends);
  if (!end) return std::nullopt;
  return chairside::DayOutcome{child, day, *end, {}};
}

std::optional<followup::ContactAttempt> askContact(Prompter& prompter, const QString& name,
                                                   roster::ChildId child, roster::DayId day) {
  const auto channel =
      chooseAny<followup::Channel>(prompter, u"%1: how was the parent contacted?"_s.arg(name));
  if (!channel) return std::nullopt;
  const auto result = chooseAny<followup::ContactResult>(prompter, u"%1: result?"_s.arg(name));
  if (!result) return std::nullopt;
  const auto note = prompter.text(u"What was said? No names."_s, {});
  if (!note) return std::nullopt;
  return followup::ContactAttempt{child, day, *channel, *result, toStd(note->trimmed())};
}

std::optional<followup::Referral> askReferral(Prompter& prompter, const reports::CloseOut& sheet,
                                              roster::ChildId child, roster::DayId day) {
  auto urgency = chairside::Urgency::early;
  std::string reason = "untreated decay";
  for (const auto& line : sheet.lines)
    if (line.child == child && line.urgency == chairside::Urgency::urgent) urgency = *line.urgency;
  for (const auto& line : sheet.urgent)
    if (line.child == child) reason = std::string(base::displayName(line.reason));
  const auto due = followup::referralDue(urgency, sheet.date);
  const auto words = prompter.text(u"Reason for the referral (%1, see a dentist by %2):"_s.arg(
                                       toQt(base::displayName(urgency)), toQt(due.words())),
                                   toQt(reason));
  if (!words) return std::nullopt;
  const auto to = chooseAny<followup::ReferredTo>(prompter, u"Referred to whom?"_s);
  if (!to) return std::nullopt;
  return followup::Referral{child, day, urgency, toStd(words->trimmed()), due, *to};
}

base::Result<bool> followReferral(Context& context, const base::Recorded<followup::Referral>& old,
                                  const QString& name) {
  const auto state =
      chooseAny<followup::ReferralState>(context.prompter, u"Referral outcome for %1?"_s.arg(name));
  if (!state) return false;
  const auto from = context.prompter.text(u"Source: parent, dentist, nurse, recheck?"_s, {});
  if (!from || from->trimmed().isEmpty()) return false;
  auto referral = old.value;
  referral.state = *state;
  const auto noted = context.session.updateReferral(context.acting.by(), old, referral,
                                                    toStd(u"source: "_s + from->trimmed()));
  if (!noted) return noted.error();
  return true;
}

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
    const auto noted = context.session.correctScreening(
        context.acting.by(base::Station::closeOut), row, screening, "why a tooth was not finished");
    if (!noted) return noted.error();
    return true;
  }
  return false;
}

base::Result<std::optional<roster::DayClosure>> askSignatures(Prompter& prompter,
                                                              const Rows<roster::Member>& members,
                                                              base::Date on, roster::DayId day) {
  using roster::Task;
  const auto clinical = chooseSigner(prompter, u"Who signs for the clinical content?"_s, members,
                                     on, {Task::sign, Task::screen});
  if (!clinical) return clinical.error();
  if (!*clinical) return std::optional<roster::DayClosure>{};
  auto others = members;
  std::erase_if(others, [&](const auto& member) { return member.id == **clinical; });
  std::ranges::stable_partition(others, [](const auto& member) {
    return member.value.role == roster::Role::coordinator; // the usual one first
  });
  const auto coordinator =
      chooseSigner(prompter, u"Who signs for completeness?"_s, others, on, {Task::sign});
  if (!coordinator) return coordinator.error();
  if (!*coordinator) return std::optional<roster::DayClosure>{};
  return std::optional(roster::DayClosure{day, **clinical, **coordinator});
}

namespace {

/// What one signer gives: her passphrase, or once it was given today her PIN. False when she
/// backed out; a wrong PIN is asked for again, a wrong passphrase is said.
base::Result<bool> askSigner(Context& context, base::MemberId who, session::SignerGives gives) {
  const auto name = memberName(context.session, who);
  if (gives == session::SignerGives::passphrase) {
    const auto given = context.prompter.passphrase(
        name + u": type your own passphrase to sign. No one else types it."_s);
    if (!given) return false;
    if (const auto open = context.session.openKey(who, toStd(*given)); !open) return open.error();
    return true;
  }
  const auto question = u"PIN of "_s + name + u", to sign the day."_s;
  QString trouble;
  while (true) {
    const auto pin = context.prompter.pin(trouble + question);
    if (!pin) return false;
    const auto shown = context.session.showSigner(who, toStd(*pin));
    if (shown) return true;
    if (!context.session.isUnlocked()) return shown.error();
    const auto message = describe(shown.error());
    trouble = message.happened + u' ' + capital(message.detail) + u".\n"_s;
  }
}

} // namespace

base::Result<bool> askSigners(Context& context, const roster::DayClosure& closure) {
  using session::SignerGives;
  // Again from the first: she may have given hers too long ago when the second one gave hers.
  for (bool isAsked = true; isAsked;) {
    isAsked = false;
    for (const auto who : {closure.clinical, closure.coordinator}) {
      const auto gives = context.session.asksToSign(who);
      if (!gives) return gives.error();
      // The session itself says that a new passphrase is needed.
      if (*gives == SignerGives::nothing || *gives == SignerGives::newPassphrase) continue;
      auto given = askSigner(context, who, *gives);
      if (!given || !*given) return given;
      isAsked = true;
    }
  }
  return true;
}

} // namespace gk::ui
