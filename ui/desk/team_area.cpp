#include "ui/desk/area.h"
#include "ui/desk/key_forms.h"
#include "ui/support/context.h"

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
       .hint = u"Each person their own; shown at the chair"_s,
       .isNeeded = true},
      {.key = u"Role"_s,
       .words = u"Role"_s,
       .kind = FieldKind::choice,
       .options = optionsOf<roster::Role>()},
      {.key = u"Licence"_s,
       .words = u"License number"_s,
       .hint = u"For clinical work; blank for others"_s},
      {.key = u"Until"_s,
       .words = u"License ends on"_s,
       .hint = u"After it no clinical work and no signature"_s,
       .kind = FieldKind::date},
      {.key = u"Rights"_s,
       .words = u"May do"_s,
       .hint = u"Usual for the role, unless your state says otherwise"_s,
       .kind = FieldKind::choice,
       .options = {u"What is usual for the role"_s, u"Only what is checked here"_s}},
      {.key = u"May"_s,
       .words = u"Rights, when checked one by one"_s,
       .hint = u"Screen: record findings. Decide: choose what is sealed. Clinician override: go on "
               "against a rule, with a reason in every report"_s,
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
  values.set(u"Licence"_s, member.licence);
  values.set(u"Until"_s, member.licenceUntil);
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
          values.text(u"Licence"_s),
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
  if (!member.licenceUntil) return member.licence.empty() ? "none" : "no end entered";
  return (*member.licenceUntil < today ? "ENDED " : "to ") + member.licenceUntil->words();
}

Result<Values> memberValues(session::Session& book, const Thing& id) {
  const auto member = thingOf(book.members(), id);
  if (!member) return member.error();
  return valuesOfMember(member->value);
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
      .note = u"A renewed license counts from now on. Sealants already placed keep who placed "
              "them."_s,
      .fields = memberFields,
      .values = [&book](const Thing& id) { return memberValues(book, id); },
      .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
        const auto member = memberFrom(values);
        return saidIf(book.correctMember(by, base::MemberId(*id), member, values.text(reasonKey)),
                      toQt(member.name) + u" is saved. What it was before stays in the history."_s);
      },
      .refusedAt = memberRefusals};
  return {.name = u"Team"_s,
          .title = u"Team and licenses"_s,
          .station = base::Station::team,
          .area = session::Area::team,
          .columns = {{"Name"}, {"Initials"}, {"Role"}, {"License"}, {"Rights"}, {"Signing key"}},
          .rows = [&context](const QString&) -> Result<std::vector<AreaRow>> {
            const auto members = context.session.members();
            if (!members) return members.error();
            const auto today = context.clock.now().date();
            std::vector<AreaRow> rows;
            for (const auto& row : *members) {
              const auto& member = row.value;
              rows.push_back({row.id.uuid(),
                              {member.name, member.initials, std::string(base::nameOf(member.role)),
                               licenseWords(member, today), rightsWords(member),
                               keyWords(context.session, row.id)}});
            }
            return rows;
          },
          .history =
              [&book](const base::Uuid& id) {
                return revisionsOf(book.revisions<roster::Member>(base::MemberId(id)),
                                   valuesOfMember);
              },
          .forms = {add, correct, ownPassphraseForm(context), revokeKeyForm(context),
                    leftTeamForm(context)}};
}

} // namespace gk::ui
