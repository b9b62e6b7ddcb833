#include "ui/close_out/close_out_signing.h"

#include "reports/day/close_out_words.h"
#include "reports/display_names.h"
#include "ui/asking/own_pin.h"
#include "ui/close_out/closing_counts.h"
#include "ui/close_out/confirm_placements.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

namespace {

using reports::Rows;
using session::SignerGives;

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

/// Two of those who may sign on that date; the first for the clinical content. None when the person
/// backed out; `ruleCredential` when the team has no two who may.
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

/// What one signer gives: her passphrase, or once it was given today her PIN. False when she
/// backed out; a wrong PIN is asked for again, a wrong passphrase is said.
base::Result<bool> askSigner(Context& context, base::MemberId who, SignerGives gives) {
  const auto name = memberName(context.session, who);
  if (gives == SignerGives::passphrase) {
    const auto given = context.prompter.passphrase(
        name + u": type your own passphrase to sign. No one else types it."_s);
    if (!given) return false;
    return isDone(context.session.openKey(who, toStd(*given)));
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

/// Has each signer give what KeyVerbs::asksToSign says; false when one backed out. Fails as
/// KeyVerbs::openKey and showSigner.
base::Result<bool> askSigners(Context& context, const roster::DayClosure& closure) {
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

} // namespace

CloseOutSigning::CloseOutSigning(Context& context, ClosingDay& day, QObject* parent)
    : PageActs(context, parent), day_(day) {}

void CloseOutSigning::sign() {
  const auto members = book().members();
  if (!day_.sheet() || !went(members)) return;
  const auto id = *day_.id();
  if (!day_.sheet()->paperCounted) {
    const auto counted = countPaperIn(context(), *day_.sheet(), id);
    if (!went(counted)) return;
    if (!*counted) return Q_EMIT said(u"Not signed: account for the printed lists first."_s);
  }
  const auto sheet = day_.sheet();
  if (!sheet) return; // why not is said
  if (!sheet->mayClose()) return Q_EMIT said(toQt(reports::verdictOf(*sheet)));
  if (!went(confirmBeforeSigning(context(), *sheet, id))) return;
  const auto closure = askSignatures(context().prompter, *members, sheet->date, id);
  if (!went(closure)) return;
  if (!*closure) return Q_EMIT said(u"Not signed."_s);
  const auto open = askSigners(context(), **closure);
  if (!went(open)) return;
  if (!*open) return Q_EMIT said(u"Not signed."_s);
  day_.stay();
  if (!went(book().signDay(context().acting.by(), **closure))) return;
  Q_EMIT said(u"The day is signed. Save the report and back up before leaving."_s);
  Q_EMIT daySigned(id);
}

void CloseOutSigning::reopen() {
  if (!isSigned()) return;
  const auto why = context().prompter.text(
      u"Reopen the signed day: what must change? Both signatures are removed and "
      "stay in the history."_s,
      {});
  if (!why) return;
  const auto by = context().acting.by();
  const auto own = askOwnPin(context(), by.author, u"reopening the signed day"_s);
  if (!own) return Q_EMIT said(u"Not reopened: no PIN was given."_s);
  day_.stay();
  if (went(book().reopenDay(by, *day_.id(), toStd(why->trimmed()), *own)))
    Q_EMIT said(u"The day is open again. Make the change, then two people sign again."_s);
}

void CloseOutSigning::addLateEntry(std::optional<roster::ChildId> child) {
  if (!isSigned()) return;
  if (child) {
    const auto about = context().prompter.decide(u"Late entry: what is it about?"_s,
                                                 {day_.nameOf(*child), u"The whole day"_s});
    if (!about) return;
    if (*about == 1) child.reset();
  }
  const auto text = context().prompter.text(u"Late entry: what is added? No names."_s, {});
  if (!text) return;
  const auto by = context().acting.by();
  const auto own = askOwnPin(context(), by.author, u"the late entry"_s);
  if (!own) return Q_EMIT said(u"Not added: no PIN was given."_s);
  if (went(book().addAddendum(by, {*day_.id(), child, toStd(text->trimmed())}, *own)))
    Q_EMIT said(u"The late entry is added; it is printed with the close-out."_s);
}

} // namespace gk::ui
