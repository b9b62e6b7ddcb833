#include "reports/display_names.h"
#include "ui/asking/context.h"
#include "ui/desk/key_forms.h"
#include "ui/forms/area.h"

namespace gk::ui {

namespace {

using base::ErrorCode;

constexpr int longestStep = 300; ///< seconds, as the schema has it

Field seconds(const QString& key, const QString& words, int usual, const QString& what) {
  return {.key = key,
          .words = words,
          .hint = u"Usual: %1. %2"_s.arg(usual).arg(what),
          .kind = FieldKind::number,
          .least = 1,
          .most = longestStep,
          .isNeeded = true};
}

Field percent(const QString& key, const QString& words, const QString& what) {
  return {
      .key = key, .words = words, .hint = what, .kind = FieldKind::number, .least = 1, .most = 100};
}

/// Of the desk alone: no one sets benchmarks before the first day.
std::vector<Field> withBenchmarks(std::vector<Field> fields) {
  const std::vector<Field> own{
      percent(u"BenchConsented"_s, u"Own benchmark: consented, %"_s, u"Of enrolled. Blank: none"_s),
      percent(u"BenchScreened"_s, u"Own benchmark: screened, %"_s, u"Of consented. Blank: none"_s),
      percent(u"BenchSealed"_s, u"Own benchmark: sealed, %"_s,
              u"Of students in need. Blank: none"_s),
      percent(u"BenchRetained"_s, u"Own benchmark: retained, %"_s,
              u"Fully retained at one year. Blank: none"_s)};
  fields.insert(fields.end(), own.begin(), own.end());
  return fields;
}

} // namespace

std::vector<Field> programFields() {
  const roster::Program usual;
  return {
      {.key = u"Name"_s,
       .words = u"Program name"_s,
       .hint = u"As parents and funders know it; on letters and reports"_s,
       .isNeeded = true},
      {.key = u"County"_s,
       .words = u"County"_s,
       .hint = u"On letters and reports"_s,
       .isNeeded = true},
      {.key = u"Phone"_s,
       .words = u"Phone"_s,
       .hint = u"For parents' questions; on letters"_s,
       .isNeeded = true},
      {.key = u"Supervision"_s,
       .words = u"Supervision"_s,
       .hint = u"Your state practice act says which; \"dentist exam required\" waits for one"_s,
       .kind = FieldKind::choice,
       .options = optionsOf<roster::Supervision>()},
      {.key = u"Dentist"_s,
       .words = u"Authorizing dentist"_s,
       .hint = u"Dentist responsible for the work"_s},
      {.key = u"Until"_s,
       .words = u"Agreement ends on"_s,
       .hint =
           u"Blank if it has no end date. After it, placing sealants needs a clinician's reason"_s,
       .kind = FieldKind::date},
      {.key = u"Footing"_s,
       .words = u"Privacy law"_s,
       .hint = u"Which law applies, who decided it, and when"_s},
      {.key = u"Notation"_s,
       .words = u"Tooth numbers"_s,
       .hint = u"Usual in the United States: Universal"_s,
       .kind = FieldKind::choice,
       .options = {u"Universal, 1 to 32"_s, u"Two-digit, 11 to 48"_s}},
      {.key = u"SuppressBelow"_s,
       .words = u"Suppress counts below"_s,
       .hint = u"In published reports, so no student can be identified. Usual: %1"_s.arg(
           usual.suppressBelow),
       .kind = FieldKind::number,
       .least = 5,
       .most = 100,
       .isNeeded = true},
      {.key = u"BySchool"_s,
       .words = u"Published by school"_s,
       .hint = u"The second publishes screening findings in total only"_s,
       .kind = FieldKind::choice,
       .options = {u"All tables, small counts suppressed"_s, u"Participation and services only"_s}},
      seconds(u"Etch"_s, u"Etch, seconds"_s, static_cast<int>(usual.times.etch.count()),
              u"A longer manufacturer's time takes precedence"_s),
      seconds(u"EtchWet"_s, u"Etch after saliva, seconds"_s,
              static_cast<int>(usual.times.etchAgainWet.count()),
              u"Etched enamel contaminated by saliva"_s),
      seconds(u"EtchAdding"_s, u"Etch when adding, seconds"_s,
              static_cast<int>(usual.times.etchAgainAdding.count()), u"Over sealant in place"_s),
      seconds(u"Rinse"_s, u"Rinse, seconds"_s, static_cast<int>(usual.times.rinse.count()),
              u"Minimum"_s),
      {.key = u"VarnishDays"_s,
       .words = u"Varnish again after, days"_s,
       .hint = u"Earlier asks for confirmation. Usual: %1"_s.arg(usual.varnishIntervalDays),
       .kind = FieldKind::number,
       .most = 730,
       .isNeeded = true},
      {.key = u"AuthorizationDays"_s,
       .words = u"Authorization valid for, days"_s,
       .hint = u"Maximum for a dentist's authorization. Usual: %1"_s.arg(usual.authorizationDays),
       .kind = FieldKind::number,
       .least = 1,
       .most = 1100,
       .isNeeded = true},
      {.key = u"Primary"_s,
       .words = u"Primary teeth and premolars too"_s,
       .hint = u"Usual: no; permanent molars only"_s,
       .kind = FieldKind::tick,
       .span = 3},
  };
}

Values valuesOfProgram(const roster::Program& program) {
  Values values;
  values.set(u"Name"_s, program.name);
  values.set(u"County"_s, program.county);
  values.set(u"Phone"_s, program.phone);
  values.set(u"Supervision"_s, program.supervision);
  values.set(u"Dentist"_s, program.authorizingDentist);
  values.set(u"Until"_s, program.agreementUntil);
  values.set(u"Footing"_s, program.privacyFooting);
  values.set(u"Notation"_s, program.notation);
  values.set(u"SuppressBelow"_s, std::int64_t{program.suppressBelow});
  values.set(u"BySchool"_s, program.bySchool);
  values.set(u"Etch"_s, program.times.etch.count());
  values.set(u"EtchWet"_s, program.times.etchAgainWet.count());
  values.set(u"EtchAdding"_s, program.times.etchAgainAdding.count());
  values.set(u"Rinse"_s, program.times.rinse.count());
  values.set(u"VarnishDays"_s, std::int64_t{program.varnishIntervalDays});
  values.set(u"AuthorizationDays"_s, std::int64_t{program.authorizationDays});
  const auto bench = [&](const QString& key, std::optional<int> share) {
    values.set(key, share ? std::to_string(*share) : std::string());
  };
  bench(u"BenchConsented"_s, program.benchmarks.consented);
  bench(u"BenchScreened"_s, program.benchmarks.screened);
  bench(u"BenchSealed"_s, program.benchmarks.sealed);
  bench(u"BenchRetained"_s, program.benchmarks.retained);
  values.set(u"Primary"_s, std::int64_t{program.primaryTeethOffered});
  return values;
}

roster::Program programFrom(const Values& values, roster::Program program) {
  const auto secondsOf = [&](const QString& key, base::Seconds before) {
    return base::Seconds(values.number(key).value_or(static_cast<int>(before.count())));
  };
  program.name = values.text(u"Name"_s);
  program.county = values.text(u"County"_s);
  program.phone = values.text(u"Phone"_s);
  program.supervision = values.choice<roster::Supervision>(u"Supervision"_s);
  program.authorizingDentist = values.text(u"Dentist"_s);
  program.agreementUntil = values.date(u"Until"_s);
  program.privacyFooting = values.text(u"Footing"_s);
  program.notation = values.choice<dentition::Notation>(u"Notation"_s);
  program.suppressBelow = values.number(u"SuppressBelow"_s).value_or(program.suppressBelow);
  program.bySchool = values.choice<roster::BySchool>(u"BySchool"_s);
  program.times.etch = secondsOf(u"Etch"_s, program.times.etch);
  program.times.etchAgainWet = secondsOf(u"EtchWet"_s, program.times.etchAgainWet);
  program.times.etchAgainAdding = secondsOf(u"EtchAdding"_s, program.times.etchAgainAdding);
  program.times.rinse = secondsOf(u"Rinse"_s, program.times.rinse);
  program.varnishIntervalDays =
      values.number(u"VarnishDays"_s).value_or(program.varnishIntervalDays);
  program.authorizationDays =
      values.number(u"AuthorizationDays"_s).value_or(program.authorizationDays);
  program.benchmarks = {values.number(u"BenchConsented"_s), values.number(u"BenchScreened"_s),
                        values.number(u"BenchSealed"_s), values.number(u"BenchRetained"_s)};
  program.primaryTeethOffered = values.tick(u"Primary"_s);
  return program;
}

AreaSpec programArea(Context& context) {
  auto& book = context.session;
  AreaForm correct{
      .name = u"Correct"_s,
      .words = u"Change the program"_s,
      .key = Qt::Key_E,
      .asksReason = true,
      .save = u"Save program"_s,
      .changes = changesSaid(book, session::Area::program),
      .fields = [](const Thing&) { return withBenchmarks(programFields()); },
      .values = [&book](const Thing&) -> Result<Values> {
        const auto program = book.program();
        if (!program) return program.error();
        return valuesOfProgram(program->value);
      },
      .act = [&book](By by, const Thing&, const Values& values) -> Result<QString> {
        const auto old = book.program();
        if (!old) return old.error();
        return saidIf(
            book.correctProgram(by, programFrom(values, old->value), values.text(reasonKey)),
            u"The program is saved. The previous entry stays in the history."_s);
      },
      .refusedAt = {{ErrorCode::numberMalformed, u"SuppressBelow"_s}}};
  return {.name = u"Program"_s,
          .title = u"Program and rules"_s,
          .station = base::Station::program,
          .area = session::Area::program,
          .columns = {{"Program"}, {"Supervision"}, {"Agreement ends"}},
          .rows = [&book](const QString&) -> Result<std::vector<AreaRow>> {
            const auto program = book.program();
            if (!program) return program.error();
            const auto& value = program->value;
            return std::vector<AreaRow>{
                {program->id.uuid(),
                 {value.name, std::string(base::displayName(value.supervision)),
                  value.agreementUntil ? value.agreementUntil->words() : "no end"}}};
          },
          .history =
              [&book](const base::Uuid& id) {
                return revisionsOf(book.revisions<roster::Program>(roster::ProgramId(id)),
                                   valuesOfProgram);
              },
          .forms = {correct, recoveryCodeForm(context), withdrawCodeForm(context),
                    replaceKeyForm(context)}};
}

} // namespace gk::ui
