#include "reports/display_names.h"
#include "ui/asking/context.h"
#include "ui/asking/own_pin.h"
#include "ui/desk/key_forms.h"
#include "ui/forms/area.h"

namespace gk::ui {

namespace {

using base::ErrorCode;

/// "as is usual for the role", then every task by itself.
constexpr int usualRights = 0;

std::vector<Field> memberFields(const Thing&) {
  return {
      {.key = u"Name"_s,
       .words = u"Name"_s,
       .hint = u"In full; on signatures and exceptions"_s,
       .isNeeded = true},
      {.key = u"Initials"_s,
       .words = u"Initials"_s,
       .hint = u"Unique to each person; shown at the chair"_s,
       .isNeeded = true},
      {.key = u"Role"_s,
       .words = u"Role"_s,
       .kind = FieldKind::choice,
       .options = optionsOf<roster::Role>()},
      {.key = u"License"_s,
       .words = u"License number"_s,
       .hint = u"For clinical work; blank for others"_s},
      {.key = u"Until"_s,
       .words = u"License ends on"_s,
       .hint = u"No clinical work or signing after this date"_s,
       .kind = FieldKind::date},
      {.key = u"Rights"_s,
       .words = u"May do"_s,
       .hint = u"Usual for the role, unless your state says otherwise"_s,
       .kind = FieldKind::choice,
       .options = {u"Usual for the role"_s, u"Only what is checked here"_s}},
      {.key = u"May"_s,
       .words = u"Rights, if checked individually"_s,
       .hint = u"Screen: record findings. Decide: choose what is sealed. Clinician override: "
               "proceed against a rule; the reason is in every report"_s,
       .kind = FieldKind::ticks,
       .options = optionsOf<roster::Task>(),
       .span = 3},
  };
}

Values valuesOfMember(const roster::Member& member) {
  Values values;
  values.set(u"Name"_s, member.name);
  values.set(u"Initials"_s, member.initials);
  values.set(u"Role"_s, member.role);
  values.set(u"License"_s, member.license);
  values.set(u"Until"_s, member.licenseUntil);
  values.set(u"Rights"_s, std::int64_t{member.may != roster::usualTasks(member.role)});
  values.set(u"May"_s, member.may.bits());
  return values;
}

roster::Member memberFrom(const Values& values) {
  const auto role = values.choice<roster::Role>(u"Role"_s);
  const bool isUsual = values.number(u"Rights"_s) == usualRights;
  return {values.text(u"Name"_s),
          values.text(u"Initials"_s),
          role,
          values.text(u"License"_s),
          values.date(u"Until"_s),
          isUsual ? roster::usualTasks(role) : values.ticks<roster::Task>(u"May"_s)};
}

const std::map<ErrorCode, QString> memberRefusals{{ErrorCode::textMalformed, u"Initials"_s}};

std::string rightsWords(const roster::Member& member) {
  if (member.may.isEmpty()) return "none: left the team";
  if (member.may == roster::usualTasks(member.role)) return "usual for the role";
  return base::counted(member.may.size(), "right, chosen", "rights, chosen");
}

std::string licenseWords(const roster::Member& member, base::Date today) {
  if (!member.licenseUntil) return member.license.empty() ? "none" : "no end entered";
  return (*member.licenseUntil < today ? "ENDED " : "to ") + member.licenseUntil->words();
}

Result<Values> memberValues(session::Session& book, const Thing& id) {
  const auto member = thingOf(book.members(), id);
  if (!member) return member.error();
  return valuesOfMember(member->value);
}

/// Who chooses her own PIN acts herself, whoever is named as entering here.
By choosing(const By& by, base::MemberId whose, const Context& context) {
  if (by.author == whose || context.acting.signedIn() == whose)
    return {whose, std::nullopt, by.station};
  return by;
}

Result<QString> choosePin(Context& context, const By& by, const Thing& id) {
  auto& book = context.session;
  const auto member = thingOf(book.members(), id);
  if (!member) return member.error();
  const auto name = toQt(member->value.name);
  const auto author = choosing(by, member->id, context);
  const auto own = askOwnPin(context, author.author, u"setting a PIN"_s);
  if (!own) return QString();
  const auto pin = context.prompter.pin(u"New PIN for "_s + name + u": 4 to 6 digits."_s);
  if (!pin) return QString();
  const auto again = context.prompter.pin(u"Enter the PIN again."_s);
  if (!again) return QString();
  if (*again != *pin)
    return base::Error{ErrorCode::pinMalformed, "the two PINs differ; nothing was changed"};
  return saidIf(book.setPin(author, member->id, toStd(*pin), *own), name + u" has a new PIN."_s);
}

AreaForm setPin(Context& context) {
  return {.name = u"Pin"_s,
          .words = u"Set PIN"_s,
          .key = Qt::Key_P,
          .save = u"Choose PIN"_s,
          .note = u"Each person chooses their own PIN. It unlocks names, signs in, and confirms "
                  "that person's entries."_s,
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&context](By by, const Thing& id,
                            const Values&) { return choosePin(context, by, id); }};
}

AreaForm resetPin(Context& context) {
  return {.name = u"ResetPin"_s,
          .words = u"Reset PIN"_s,
          .key = Qt::Key_R,
          .asksReason = true,
          .save = u"Reset PIN"_s,
          .note = u"For a forgotten PIN. Another member who signs, or a manager, resets it; the "
                  "person chooses a new one. With no one else whose PIN can be checked, the "
                  "logbook's passphrase or recovery code is needed."_s,
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&context](By by, const Thing& id, const Values& values) -> Result<QString> {
            auto& book = context.session;
            const auto member = thingOf(book.members(), id);
            if (!member) return member.error();
            const auto done = toQt(member->value.name) + u" chooses a new PIN."_s;
            const auto reason = values.text(reasonKey);
            if (by.author == member->id) {
              const auto passphrase = context.prompter.passphrase(u"Passphrase of the logbook"_s);
              if (!passphrase) return QString();
              return saidIf(book.resetOwnPin(member->id, toStd(*passphrase), reason), done);
            }
            const auto own = askOwnPin(context, by.author, u"resetting a PIN"_s);
            if (!own) return QString();
            return saidIf(book.resetPin(by, member->id, reason, *own), done);
          }};
}

} // namespace

AreaSpec teamArea(Context& context) {
  auto& book = context.session;
  AreaForm add{.name = u"Add"_s,
               .words = u"Add a person"_s,
               .key = Qt::Key_N,
               .isOfThing = false,
               .save = u"Save person"_s,
               .fields = memberFields,
               .values = [](const Thing&) -> Result<Values> { return Values(); },
               .act = [&book](By by, const Thing&, const Values& values) -> Result<QString> {
                 const auto member = memberFrom(values);
                 return saidIf(book.enterMember(by, member), toQt(member.name) + u" is saved."_s);
               },
               .refusedAt = memberRefusals};
  AreaForm correct{
      .name = u"Correct"_s,
      .words = u"Correct"_s,
      .key = Qt::Key_E,
      .asksReason = true,
      .save = u"Save person"_s,
      .changes = changesSaid(book, session::Area::team),
      .fields = memberFields,
      .values = [&book](const Thing& id) { return memberValues(book, id); },
      .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
        const auto member = memberFrom(values);
        return saidIf(book.correctMember(by, base::MemberId(*id), member, values.text(reasonKey)),
                      toQt(member.name) + u" is saved. The previous entry stays in the history."_s);
      },
      .refusedAt = memberRefusals};
  return {.name = u"Team"_s,
          .title = u"Team and licenses"_s,
          .station = base::Station::team,
          .area = session::Area::team,
          .columns =
              {{"Name"}, {"Initials"}, {"Role"}, {"License"}, {"Rights"}, {"PIN"}, {"Signing key"}},
          .rows = [&context](const QString&) -> Result<std::vector<AreaRow>> {
            const auto members = context.session.members();
            if (!members) return members.error();
            const auto today = context.clock.now().date();
            std::vector<AreaRow> rows;
            for (const auto& [id, stamp, member] : *members) {
              const auto pin = context.session.pinOf(id);
              if (!pin) return pin.error();
              rows.push_back(
                  {id.uuid(),
                   {member.name, member.initials, std::string(base::displayName(member.role)),
                    licenseWords(member, today), rightsWords(member),
                    std::string(base::displayName(*pin)), keyWords(context.session, id)}});
            }
            return rows;
          },
          .history =
              [&book](const base::Uuid& id) {
                return revisionsOf(book.revisions<roster::Member>(base::MemberId(id)),
                                   valuesOfMember);
              },
          .forms = {add, correct, setPin(context), resetPin(context), ownPassphraseForm(context),
                    revokeKeyForm(context), leftTeamForm(context)}};
}

} // namespace gk::ui
