#include "ui/desk/key_forms.h"

#include "base/text.h"
#include "reports/render.h"
#include "ui/support/context.h"
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
Result<std::optional<std::string>> newPassphrase(Prompter& prompter) {
  const auto first = prompter.passphrase(
      u"Your new passphrase, 8 characters or more, such as four words. Nobody else knows it, and "
      "nobody can look it up."_s);
  if (!first) return std::optional<std::string>();
  const auto again = prompter.passphrase(u"The same once more"_s);
  if (!again) return std::optional<std::string>();
  if (*first != *again)
    return base::Error{ErrorCode::callMalformed, "the two are not the same; type both again"};
  return std::optional(toStd(*first));
}

Result<QString> setPassphrase(Context& context, By by, const roster::Member& member,
                              KeyStanding standing) {
  auto& book = context.session;
  const bool isChange = standing == KeyStanding::stands || standing == KeyStanding::open;
  std::optional<QString> old;
  if (isChange) {
    old = context.prompter.passphrase(u"Your passphrase as it is now"_s);
    if (!old) return QString();
  }
  const auto next = newPassphrase(context.prompter);
  if (!next) return next.error();
  if (!*next) return QString();
  if (isChange)
    return saidIf(book.changeKey(by, toStd(*old), **next),
                  u"Your passphrase is changed. The old one opens nothing here any more."_s);
  return saidIf(book.enterKey(by, **next),
                toQt(member.name) + u" signs with this passphrase from now on."_s);
}

reports::Table codeTable(const std::string& program, const std::string& code, base::Date on) {
  return {
      "Recovery code of the logbook",
      {{"Program"}, {"Made on"}, {"Recovery code"}},
      {{program, on.words(), code}},
      {"It opens the names as the passphrase does: type it in place of the passphrase.",
       "Whoever has this sheet and the logbook can read the names. Keep it locked up, away from "
       "the laptop.",
       "It opens this laptop's logbook and copies made of it from now on, until it is withdrawn "
       "or a new one is made.",
       "There is no I, L, O or U in it. The last sign of each group checks the group."}};
}

} // namespace

std::string keyWords(session::Session& book, base::MemberId who) {
  const auto standing = book.keyStanding(who);
  if (!standing || *standing == KeyStanding::never) return "none: signs by name only";
  return *standing == KeyStanding::revoked ? "revoked" : "set";
}

AreaForm ownPassphraseForm(Context& context) {
  return {.name = u"Passphrase"_s,
          .words = u"My passphrase"_s,
          .key = Qt::Key_M,
          .save = u"Set my passphrase"_s,
          .note = u"For the person whose line is chosen and who enters. It signs the day at "
                  "close-out; nobody can set or change it for you."_s,
          .fields = noFields,
          .values = noValues,
          .act = [&context](By by, const Thing& id, const Values&) -> Result<QString> {
            const auto member = thingOf(context.session.members(), id);
            if (!member) return member.error();
            if (by.author != member->id)
              return base::Error{ErrorCode::ruleSignature,
                                 member->value.name +
                                     " sets this passphrase; whoever enters must be that person"};
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
          .note = u"For a forgotten passphrase, or one that somebody else knows. Days already "
                  "signed stay signed. The person sets a new passphrase before signing again."_s,
          .fields = noFields,
          .values = noValues,
          .act = [&context](By by, const Thing& id, const Values& values) -> Result<QString> {
            const auto member = thingOf(context.session.members(), id);
            if (!member) return member.error();
            return saidIf(context.session.revokeKey(by, member->id, values.text(reasonKey)),
                          u"The key of "_s + toQt(member->value.name) + u" signs nothing more."_s);
          }};
}

AreaForm leftTeamForm(Context& context) {
  return {.name = u"End"_s,
          .words = u"Left the team"_s,
          .key = Qt::Key_L,
          .asksReason = true,
          .save = u"End all rights"_s,
          .note =
              u"The person can do nothing in the logbook from now on, and the key signs nothing "
              "more. What they did and signed stays under their name. Correct gives the rights "
              "back."_s,
          .fields = noFields,
          .values = noValues,
          .act = [&context](By by, const Thing& id, const Values& values) -> Result<QString> {
            auto& book = context.session;
            const auto member = thingOf(book.members(), id);
            if (!member) return member.error();
            if (const auto gone = book.retireMember(by, member->id, values.text(reasonKey)); !gone)
              return gone.error();
            auto said = toQt(member->value.name) + u" has no rights from now on."_s;
            const auto open = book.unsignedDays(member->id);
            if (!open) return open.error();
            QStringList days;
            for (const auto& day : *open)
              days += toQt(day.date.words() + " at " + day.school);
            if (!days.isEmpty())
              said += u" Not signed yet, with work of theirs: "_s + days.join(u"; "_s) + u"."_s;
            return said;
          }};
}

AreaForm recoveryCodeForm(Context& context) {
  return {.name = u"Recovery"_s,
          .words = u"Recovery code"_s,
          .key = Qt::Key_R,
          .save = u"Make a new code"_s,
          .note = u"A code on paper that opens the names when the passphrase is lost. It is shown "
                  "and printed once; a code made before opens nothing here any more."_s,
          .fields = noFields,
          .values = noValues,
          .act = [&context](By by, const Thing&, const Values&) -> Result<QString> {
            const auto program = context.session.program();
            if (!program) return program.error();
            const auto earlier = context.session.hasRecoveryCode();
            if (!earlier) return earlier.error();
            if (*earlier && !context.prompter.confirm(
                                u"There is a recovery code already. With a new one the earlier "
                                "sheet opens this logbook no more. Make a new one?"_s))
              return QString();
            const auto code = context.session.makeRecoveryCode(by);
            if (!code) return code.error();
            const auto table = codeTable(program->value.name, *code, context.clock.now().date());
            const auto printer = context.prompter.printer();
            if (printer) {
              QTextDocument pages;
              pages.setHtml(toQt(reports::toHtml(table.title, std::vector{table})));
              pages.print(printer.get());
            }
            return (printer ? u"The recovery code is printed: "_s
                            : u"Not printed. Write the recovery code down now: "_s) +
                   toQt(*code) + u". It is not shown again."_s;
          }};
}

AreaForm withdrawCodeForm(Context& context) {
  return {.name = u"Withdraw"_s,
          .words = u"Withdraw the recovery code"_s,
          .key = Qt::Key_W,
          .asksReason = true,
          .save = u"Withdraw the code"_s,
          .note = u"For a sheet that is lost. Copies and backups made before still open with it: "
                  "say so to who keeps them."_s,
          .fields = noFields,
          .values = noValues,
          .act = [&context](By by, const Thing&, const Values& values) -> Result<QString> {
            return saidIf(context.session.withdrawRecoveryCode(by, values.text(reasonKey)),
                          u"The recovery code opens this logbook no more."_s);
          }};
}

} // namespace gk::ui
