#include "ui/desk/key_forms.h"

#include "base/text/text.h"
#include "reports/print/render.h"
#include "ui/asking/context.h"
#include "ui/asking/own_pin.h"
#include "ui/support/text.h"

#include <QPagedPaintDevice>
#include <QTextDocument>

namespace gk::ui {

namespace {

using base::ErrorCode;
using session::KeyStanding;

std::vector<Field> noFields(const Thing&) {
  return {};
}
Result<Values> noValues(const Thing&) {
  return Values();
}

/// Typed twice and the same both times; none when backed out.
Result<std::optional<std::string>> newPassphrase(Prompter& prompter, const QString& question) {
  const auto first = prompter.passphrase(question);
  if (!first) return std::optional<std::string>();
  const auto again = prompter.passphrase(u"Confirm passphrase"_s);
  if (!again) return std::optional<std::string>();
  if (*first != *again)
    return base::Error{ErrorCode::callMalformed, "the two do not match; type both again"};
  return std::optional(toStd(*first));
}

Result<QString> setPassphrase(Context& context, By by, const roster::Member& member,
                              KeyStanding standing) {
  auto& book = context.session;
  const bool isChange = standing == KeyStanding::stands || standing == KeyStanding::open;
  std::optional<QString> old;
  if (isChange) {
    old = context.prompter.passphrase(u"Current passphrase"_s);
    if (!old) return QString();
  }
  const auto next =
      newPassphrase(context.prompter,
                    u"Your new passphrase, 8 characters or more, such as four words. No one else "
                    "knows it, and no one can look it up."_s);
  if (!next) return next.error();
  if (!*next) return QString();
  if (isChange)
    return saidIf(book.changeKey(by, toStd(*old), **next),
                  u"Passphrase changed. The old one no longer works here."_s);
  const auto own = askOwnPin(context, by.author, u"setting your passphrase"_s);
  if (!own) return QString();
  return saidIf(book.enterKey(by, **next, *own),
                toQt(member.name) + u" signs with this passphrase from now on."_s);
}

reports::Table codeTable(const std::string& program, const std::string& code, base::Date on) {
  return {
      "Recovery code of the logbook",
      {{"Program"}, {"Made on"}, {"Recovery code"}},
      {{program, on.words(), code}},
      {"It unlocks the names: type it instead of the passphrase.",
       "Anyone with this sheet and the logbook can read the names. Keep it locked up, away from "
       "the laptop.",
       "It opens this laptop's logbook, and copies made from now on, until it is withdrawn "
       "or replaced.",
       "It has no I, L, O or U. The last character of each group checks the group."}};
}

QString copiesSaid(const std::vector<std::string>& copies) {
  if (copies.empty()) return {};
  return u" These copies still open with what was known before: "_s +
         toQt(base::join(copies, "; ")) + u". Destroy the backups that are not needed."_s;
}

/// On paper or in a person's hand, and nowhere else: not in the line of news, which stays.
QString handOut(Context& context, const reports::Table& sheet) {
  while (true) {
    const auto how = context.prompter.decideBy(
        sheet, u"The recovery code is shown only now. How do you keep it?"_s,
        {u"Print it"_s, u"I wrote it down"_s});
    if (!how) return u"The recovery code was not printed or copied on paper. Make a new one."_s;
    if (*how == 1) return u"The recovery code is made. Keep it locked up, away from the laptop."_s;
    const auto printer = context.prompter.printer();
    if (!printer) continue;
    QTextDocument pages;
    pages.setHtml(toQt(reports::toHtml(sheet.title, std::vector{sheet})));
    pages.print(printer.get());
    return u"The recovery code is printed. Keep it locked up, away from the laptop."_s;
  }
}

/// What is left to do once the key was replaced.
Result<QString> saidReplaced(Context& context, const session::KeyReplaced& done) {
  auto said = u"The key of the names is replaced. The old passphrase no longer opens this "
              "logbook."_s;
  if (!done.recoveryCode.empty()) {
    const auto program = context.session.program();
    if (!program) return program.error();
    said += u' ' + handOut(context, codeTable(program->value.name, done.recoveryCode,
                                              context.clock.now().date()));
  }
  if (!done.toEnter.empty())
    said += u" Their own passphrase opens the names once they have signed with it: "_s +
            toQt(base::join(done.toEnter, ", ")) + u"."_s;
  const auto lines = context.session.keyReplacements();
  if (!lines) return lines.error();
  return said + copiesSaid(lines->back().copies);
}

/// What replacing the key of the names asks for; nothing where the person backed out.
struct KeyAsked {
  session::KeyReplacing how;
  session::OwnPin pin;
};

Result<std::optional<KeyAsked>> askForKey(Context& context, By by, const std::string& reason) {
  const std::optional<KeyAsked> nothing;
  auto& book = context.session;
  if (!by.author) return base::Error{ErrorCode::ruleCredential, "choose who does it first (F5)"};
  session::KeyReplacing how{.confirmation = {}, .passphrase = {}, .reason = reason};
  const auto next = newPassphrase(
      context.prompter, u"The logbook's new passphrase, 8 characters or more, such as four words. "
                        "Whoever left must not know it."_s);
  if (!next) return next.error();
  if (!*next) return nothing;
  how.passphrase = **next;
  const auto other = book.hasOtherKey();
  if (!other) return other.error();
  if (*other) {
    const auto theirs = context.prompter.passphrase(
        u"Another laptop set a key of its own meanwhile. The passphrase of that one:"_s);
    if (!theirs) return nothing;
    how.other = toStd(*theirs);
  }
  const auto standing = book.keyStanding(*by.author);
  if (!standing) return standing.error();
  const bool hasOwn = *standing == KeyStanding::stands || *standing == KeyStanding::open;
  const auto confirmation =
      context.prompter.passphrase(hasOwn ? u"Your own passphrase, to confirm"_s
                                         : u"The logbook's present passphrase, to confirm"_s);
  if (!confirmation) return nothing;
  how.confirmation = toStd(*confirmation);
  const auto own = askOwnPin(context, by.author, u"replacing the key of the names"_s);
  if (!own) return nothing;
  return std::optional(KeyAsked{std::move(how), *own});
}

/// Tells an empty text where the person backed out.
void replaceKey(Context& context, By by, const std::string& reason, const FormAnswer& answer) {
  const auto asked = askForKey(context, by, reason);
  if (!asked) return answer.give(asked.error());
  if (!*asked) return answer.give(QString());
  context.work.runOnBook(
      LongKind::newKey, answer.page, context.session,
      [&book = context.session, by, asked = **asked](const base::Progress& progress) {
        return book.replaceBookKey(by, asked.how, asked.pin, progress);
      },
      [&context, give = answer.give](const Result<session::KeyReplaced>& done) {
        give(done ? saidReplaced(context, *done) : done.error());
      });
}

} // namespace

std::string keyWords(session::Session& book, base::MemberId who) {
  const auto standing = book.keyStanding(who);
  if (!standing || *standing == KeyStanding::never) return "none: signs by name only";
  if (*standing == KeyStanding::revoked) return "revoked";
  const auto keys = book.keyCount(who);
  return keys && *keys > 1 ? std::to_string(*keys) + " keys: revoke, then set one" : "set";
}

AreaForm ownPassphraseForm(Context& context) {
  return {.name = u"Passphrase"_s,
          .words = u"My passphrase"_s,
          .key = Qt::Key_M,
          .save = u"Set my passphrase"_s,
          .note = u"Only for the person whose line is selected. It signs the day at "
                  "close-out; no one can set or change it for you."_s,
          .fields = noFields,
          .values = noValues,
          .act = [&context](By by, const Thing& id, const Values&) -> Result<QString> {
            const auto member = thingOf(context.session.members(), id);
            if (!member) return member.error();
            // Who is signed in acts herself, whoever is named as entering here.
            if (context.acting.signedIn() == member->id) by = {member->id, {}, by.station};
            if (by.author != member->id)
              return base::Error{ErrorCode::ruleSignature,
                                 member->value.name + " must set this passphrase in person"};
            const auto standing = context.session.keyStanding(member->id);
            if (!standing) return standing.error();
            return setPassphrase(context, by, member->value, *standing);
          }};
}

AreaForm revokeKeyForm(Context& context) {
  return {.name = u"Revoke"_s,
          .words = u"Revoke the key"_s,
          .key = Qt::Key_V,
          .asksReason = true,
          .save = u"Revoke the key"_s,
          .note = u"For a forgotten passphrase, or one that someone else knows. Days already "
                  "signed stay signed. The person sets a new passphrase before signing again."_s,
          .fields = noFields,
          .values = noValues,
          .act = [&context](By by, const Thing& id, const Values& values) -> Result<QString> {
            const auto member = thingOf(context.session.members(), id);
            if (!member) return member.error();
            const auto own = askOwnPin(context, by.author, u"revoking a key"_s);
            if (!own) return QString();
            return saidIf(context.session.revokeKey(by, member->id, values.text(reasonKey), *own),
                          u"The key of "_s + toQt(member->value.name) + u" can no longer sign."_s);
          }};
}

AreaForm leftTeamForm(Context& context) {
  return {.name = u"End"_s,
          .words = u"Left the team"_s,
          .key = Qt::Key_L,
          .asksReason = true,
          .save = u"End all rights"_s,
          .note = u"The person can no longer work in the logbook, and the key can no longer sign. "
                  "What they did and signed keeps their name. Correct restores their rights."_s,
          .fields = noFields,
          .values = noValues,
          .actAside = [&context](By by, const Thing& id, const Values& values,
                                 const FormAnswer& answer) {
            auto& book = context.session;
            const auto member = thingOf(book.members(), id);
            if (!member) return answer.give(member.error());
            const auto own = askOwnPin(context, by.author, u"ending all rights"_s);
            if (!own) return answer.give(QString());
            const auto gone = book.retireMember(by, member->id, values.text(reasonKey), *own);
            if (!gone) return answer.give(gone.error());
            auto said = toQt(member->value.name) + u" no longer has any rights."_s;
            const auto open = book.unsignedDays(member->id);
            if (!open) return answer.give(open.error());
            QStringList days;
            for (const auto& day : *open)
              days += toQt(day.date.words() + " at " + day.school);
            if (!days.isEmpty())
              said += u" Unsigned days with their work: "_s + days.join(u"; "_s) + u"."_s;
            const auto copies = book.knownCopies();
            if (!copies) return answer.give(copies.error());
            const auto left =
                said +
                u" If they know the logbook's passphrase or the recovery code, replace the key "
                "of the names (Program and rules)."_s +
                copiesSaid(*copies);
            if (!book.isUnlocked() ||
                !context.prompter.confirm(
                    toQt(member->value.name) +
                    u" may know the logbook's passphrase or the recovery code. Replace the key of "
                    "the names now, so that neither opens this logbook any longer?"_s))
              return answer.give(left);
            replaceKey(context, by, values.text(reasonKey),
                       {answer.page, [said, left, give = answer.give](const Result<QString>& done) {
                          if (!done) // the rights ended all the same
                            return give(left + u" The key was not replaced: "_s +
                                        toQt(done.error().detail) + u"."_s);
                          give(done->isEmpty() ? left : said + u' ' + *done);
                        }});
          }};
}

AreaForm recoveryCodeForm(Context& context) {
  return {.name = u"Recovery"_s,
          .words = u"Recovery code"_s,
          .key = Qt::Key_R,
          .save = u"Make a new code"_s,
          .note = u"A code on paper that opens the names if the passphrase is lost. It is shown "
                  "and printed once. An earlier code no longer works here."_s,
          .fields = noFields,
          .values = noValues,
          .act = [&context](By by, const Thing&, const Values&) -> Result<QString> {
            const auto program = context.session.program();
            if (!program) return program.error();
            const auto earlier = context.session.hasRecoveryCode();
            if (!earlier) return earlier.error();
            if (*earlier && !context.prompter.confirm(
                                u"There is already a recovery code. With a new one, the earlier "
                                "sheet no longer opens this logbook. Make a new one?"_s))
              return QString();
            const auto own = askOwnPin(context, by.author, u"making a recovery code"_s);
            if (!own) return QString();
            const auto code = context.session.makeRecoveryCode(by, *own);
            if (!code) return code.error();
            return handOut(context,
                           codeTable(program->value.name, *code, context.clock.now().date()));
          }};
}

AreaForm withdrawCodeForm(Context& context) {
  return {.name = u"Withdraw"_s,
          .words = u"Withdraw the recovery code"_s,
          .key = Qt::Key_W,
          .asksReason = true,
          .save = u"Withdraw the code"_s,
          .note = u"For a lost sheet. Copies and backups made before still open with it: "
                  "tell whoever keeps them."_s,
          .fields = noFields,
          .values = noValues,
          .act = [&context](By by, const Thing&, const Values& values) -> Result<QString> {
            const auto own = askOwnPin(context, by.author, u"withdrawing the recovery code"_s);
            if (!own) return QString();
            return saidIf(context.session.withdrawRecoveryCode(by, values.text(reasonKey), *own),
                          u"The recovery code no longer opens this logbook."_s);
          }};
}

AreaForm replaceKeyForm(Context& context) {
  return {
      .name = u"Key"_s,
      .words = u"Replace the key of the names"_s,
      .key = Qt::Key_K,
      .asksReason = true,
      .save = u"Replace the key"_s,
      .note = u"For when someone who knew the passphrase or the recovery code has left, or a "
              "laptop was lost. From then on only the new passphrase opens this logbook. "
              "Copies made before still open with the old one; they are listed."_s,
      .fields = noFields,
      .values = noValues,
      .actAside = [&context](By by, const Thing&, const Values& values, const FormAnswer& answer) {
        replaceKey(context, by, values.text(reasonKey), answer);
      }};
}

} // namespace gk::ui
