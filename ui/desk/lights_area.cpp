#include "reports/display_names.h"
#include "ui/asking/context.h"
#include "ui/forms/area.h"

#include <algorithm>
#include <set>

namespace gk::ui {

namespace {

using base::ErrorCode;

constexpr int strongest = 5000;  ///< mW/cm2, as hand-held meters show it
constexpr int longestCure = 600; ///< seconds, as the schema has it

std::vector<Field> lightFields(const Thing&) {
  return {{.key = u"Tag"_s,
           .words = u"Name on the light"_s,
           .hint = u"Such as L-1"_s,
           .isNeeded = true},
          {.key = u"Type"_s,
           .words = u"Type"_s,
           .kind = FieldKind::choice,
           .options = optionsOf<kit::LightType>()},
          {.key = u"Meter"_s,
           .words = u"Meter"_s,
           .hint = u"Such as M-1. Compare readings from one meter only"_s},
          {.key = u"Baseline"_s,
           .words = u"First reading, mW/cm²"_s,
           .hint = u"When new; later readings are compared with it"_s,
           .kind = FieldKind::number,
           .most = strongest},
          {.key = u"Least"_s,
           .words = u"Manufacturer's minimum, mW/cm²"_s,
           .hint = u"0 if the instructions give none"_s,
           .kind = FieldKind::number,
           .most = strongest},
          {.key = u"Sleeve"_s,
           .words = u"First reading with the sleeve on"_s,
           .hint = u"Take later readings the same way"_s,
           .kind = FieldKind::tick}};
}

Values valuesOfLight(const kit::Light& light) {
  Values values;
  values.set(u"Tag"_s, light.tag);
  values.set(u"Type"_s, light.type);
  values.set(u"Meter"_s, light.meter);
  values.set(u"Baseline"_s, std::int64_t{light.baseline.value});
  values.set(u"Least"_s, std::int64_t{light.makersLeast.value});
  values.set(u"Sleeve"_s, std::int64_t{light.baselineWithSleeve});
  values.set(u"InService"_s, std::int64_t{light.inService});
  return values;
}

kit::Light lightFrom(const Values& values, kit::Light light) {
  light.tag = values.text(u"Tag"_s);
  light.type = values.choice<kit::LightType>(u"Type"_s);
  light.meter = values.text(u"Meter"_s);
  light.baseline = {values.number(u"Baseline"_s).value_or(0)};
  light.makersLeast = {values.number(u"Least"_s).value_or(0)};
  light.baselineWithSleeve = values.tick(u"Sleeve"_s);
  return light;
}

/// Every light-cure sealant that there is a lot of, by name.
Result<std::vector<std::string>> curedMaterials(session::Session& book) {
  const auto lots = book.lots();
  if (!lots) return lots.error();
  std::set<std::string> names;
  for (const auto& lot : *lots)
    if (lot.value.kind == kit::MaterialKind::sealantLightCure) names.insert(lot.value.material);
  return std::vector<std::string>(names.begin(), names.end());
}

AreaForm cureTime(session::Session& book) {
  const auto fields = [&book](const Thing&) {
    std::vector<Field> asked{
        {.key = u"Material"_s,
         .words = u"Sealant"_s,
         .hint = u"Light-cure sealants with a lot"_s,
         .kind = FieldKind::choice},
        {.key = u"Seconds"_s,
         .words = u"Seconds per cure"_s,
         .hint = u"For this light and sealant together; the sealant's own minimum always applies"_s,
         .kind = FieldKind::number,
         .least = 1,
         .most = longestCure,
         .isNeeded = true}};
    if (const auto materials = curedMaterials(book))
      for (const auto& material : *materials)
        asked.front().options += toQt(material);
    return asked;
  };
  return {.name = u"Time"_s,
          .words = u"Manufacturer's time"_s,
          .key = Qt::Key_T,
          .save = u"Save time"_s,
          .note = u"The chair timer uses it from the next cure on."_s,
          .fields = fields,
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            const auto materials = curedMaterials(book);
            if (!materials) return materials.error();
            const auto place = static_cast<std::size_t>(values.number(u"Material"_s).value_or(-1));
            if (place >= materials->size())
              return base::Error{ErrorCode::notFound,
                                 "enter a lot of a light-cure sealant first, under Materials"};
            return saidIf(
                book.enterCureTime(by, {kit::LightId(*id), materials->at(place),
                                        base::Seconds(values.number(u"Seconds"_s).value_or(0))}),
                u"The time is saved."_s);
          },
          .refusedAt = {{ErrorCode::ruleCure, u"Seconds"_s}}};
}

AreaForm reading(Context& context) {
  auto& book = context.session;
  return {.name = u"Reading"_s,
          .words = u"Meter reading"_s,
          .key = Qt::Key_R,
          .save = u"Save reading"_s,
          .note = u"Today's reading. Below 80% of the first reading, the light needs a "
                  "clinician's reason at the chair."_s,
          .fields = [](const Thing&) -> std::vector<Field> {
            return {{.key = u"Value"_s,
                     .words = u"Reading, mW/cm²"_s,
                     .kind = FieldKind::number,
                     .most = strongest,
                     .isNeeded = true},
                    {.key = u"Meter"_s, .words = u"Meter"_s, .isNeeded = true},
                    {.key = u"Sleeve"_s, .words = u"Sleeve on"_s, .kind = FieldKind::tick}};
          },
          .values = [&book](const Thing& id) -> Result<Values> {
            const auto light = thingOf(book.lights(), id);
            if (!light) return light.error();
            Values values;
            values.set(u"Meter"_s, light->value.meter);
            values.set(u"Sleeve"_s, std::int64_t{light->value.baselineWithSleeve});
            return values;
          },
          .act = [&context](By by, const Thing& id, const Values& values) -> Result<QString> {
            const kit::MeterReading read{kit::LightId(*id),
                                         context.clock.now().date(),
                                         {values.number(u"Value"_s).value_or(0)},
                                         values.tick(u"Sleeve"_s),
                                         values.text(u"Meter"_s),
                                         true};
            auto done = context.session.enterReading(by, read);
            if (!done && done.error().code == ErrorCode::ruleLight) {
              if (!context.prompter.confirm(toQt(done.error().detail) + u"?"_s)) return QString();
              done = context.session.enterReading(by, read, session::Confirmed::yes);
            }
            return saidIf(done, u"The reading is saved."_s);
          },
          .refusedAt = {{ErrorCode::numberMalformed, u"Value"_s}}};
}

/// Out of service, or back in it.
AreaForm service(session::Session& book, bool isInService) {
  return {
      .name = isInService ? u"Back"_s : u"Out"_s,
      .words = isInService ? u"Back in service"_s : u"Out of service"_s,
      .key = isInService ? Qt::Key_B : Qt::Key_O,
      .asksReason = true,
      .save = isInService ? u"Put light in service"_s : u"Take light out of service"_s,
      .note =
          isInService
              ? u"It can be chosen at the chair again."_s
              : u"It cannot be chosen at the chair from now on. Records of earlier cures stay."_s,
      .fields = [](const Thing&) { return std::vector<Field>(); },
      .values = [](const Thing&) -> Result<Values> { return Values(); },
      .act = [&book, isInService](By by, const Thing& id, const Values& values) -> Result<QString> {
        const auto old = thingOf(book.lights(), id);
        if (!old) return old.error();
        auto light = old->value;
        light.inService = isInService;
        return saidIf(book.correctLight(by, *old, light, values.text(reasonKey)),
                      toQt(light.tag) +
                          (isInService ? u" is in service."_s : u" is out of service."_s));
      }};
}

std::string readingWords(session::Session& book, const base::Recorded<kit::Light>& light) {
  const auto readings = book.readings(light.id);
  if (!readings || readings->empty()) return "not read yet";
  const auto& newest = readings->back().value;
  return std::to_string(newest.value.value) + " on " + newest.on.words() + ", " +
         toStd(toQt(base::displayName(kit::grade(light.value, newest))).toUpper());
}

std::string timesWords(const std::vector<base::Recorded<kit::CureTime>>& times,
                       kit::LightId light) {
  std::vector<std::string> words;
  for (const auto& time : times)
    if (time.value.light == light)
      words.push_back(time.value.material + " " + std::to_string(time.value.seconds.count()) +
                      " s");
  return words.empty() ? "none entered" : base::join(words, "; ");
}

} // namespace

AreaSpec lightsArea(Context& context) {
  auto& book = context.session;
  const std::map<ErrorCode, QString> refused{{ErrorCode::textMalformed, u"Tag"_s},
                                             {ErrorCode::ruleLight, u"Tag"_s}};
  AreaForm add{.name = u"Add"_s,
               .words = u"Add a light"_s,
               .key = Qt::Key_N,
               .isOfThing = false,
               .save = u"Save light"_s,
               .fields = lightFields,
               .values = [](const Thing&) -> Result<Values> {
                 Values values;
                 values.set(u"Sleeve"_s, std::int64_t{1});
                 return values;
               },
               .act = [&book](By by, const Thing&, const Values& values) -> Result<QString> {
                 const auto light =
                     lightFrom(values, {.tag = {}, .makersLeast = {}, .baseline = {}, .meter = {}});
                 return saidIf(book.enterLight(by, light), toQt(light.tag) + u" is saved."_s);
               },
               .refusedAt = refused};
  AreaForm correct{.name = u"Correct"_s,
                   .words = u"Correct"_s,
                   .key = Qt::Key_E,
                   .asksReason = true,
                   .save = u"Save light"_s,
                   .changes = changesSaid(book, session::Area::lights),
                   .fields = lightFields,
                   .values = [&book](const Thing& id) -> Result<Values> {
                     const auto light = thingOf(book.lights(), id);
                     if (!light) return light.error();
                     return valuesOfLight(light->value);
                   },
                   .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
                     const auto old = thingOf(book.lights(), id);
                     if (!old) return old.error();
                     const auto light = lightFrom(values, old->value);
                     return saidIf(book.correctLight(by, *old, light, values.text(reasonKey)),
                                   toQt(light.tag) +
                                       u" is saved. The previous entry stays in the history."_s);
                   },
                   .refusedAt = refused};
  return {.name = u"Lights"_s,
          .title = u"Curing lights"_s,
          .station = base::Station::lights,
          .area = session::Area::lights,
          .columns = {{"Light"},
                      {"First reading", reports::Kind::count},
                      {"Newest reading"},
                      {"Manufacturer's times"},
                      {"Status"}},
          .rows = [&book](const QString&) -> Result<std::vector<AreaRow>> {
            const auto lights = book.lights();
            if (!lights) return lights.error();
            const auto times = book.cureTimes();
            if (!times) return times.error();
            std::vector<AreaRow> rows;
            for (const auto& light : *lights)
              rows.push_back(
                  {light.id.uuid(),
                   {light.value.tag,
                    light.value.baseline.value > 0 ? std::to_string(light.value.baseline.value)
                                                   : "not entered",
                    readingWords(book, light), timesWords(*times, light.id),
                    light.value.inService ? "in service" : "OUT OF SERVICE"}});
            return rows;
          },
          .history =
              [&book](const base::Uuid& id) {
                return revisionsOf(book.revisions<kit::Light>(kit::LightId(id)), valuesOfLight);
              },
          .forms = {add, correct, cureTime(book), reading(context), service(book, false),
                    service(book, true)}};
}

} // namespace gk::ui
