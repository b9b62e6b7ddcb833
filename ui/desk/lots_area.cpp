#include "reports/display_names.h"
#include "ui/asking/context.h"
#include "ui/forms/area.h"

namespace gk::ui {

namespace {

using base::ErrorCode;

constexpr int longestMakersTime = 600; ///< seconds, as the schema has it

std::vector<Field> lotFields(const Thing&) {
  return {
      {.key = u"Lot"_s,
       .words = u"Lot number"_s,
       .hint = u"As on the package: scan it or type it"_s,
       .isNeeded = true,
       .takesScan = true},
      {.key = u"Kind"_s,
       .words = u"Kind"_s,
       .kind = FieldKind::choice,
       .options = optionsOf<kit::MaterialKind>()},
      {.key = u"Material"_s,
       .words = u"Material"_s,
       .hint = u"The program's own name for it"_s,
       .isNeeded = true},
      {.key = u"Expiry"_s,
       .words = u"Expires on"_s,
       .hint = u"4/30/2027, or 2027-04 for the end of April"_s,
       .kind = FieldKind::expiry,
       .isNeeded = true},
      {.key = u"MakersTime"_s,
       .words = u"Manufacturer's time, seconds"_s,
       .hint = u"Minimum cure, set or etch time; blank if none"_s,
       .kind = FieldKind::number,
       .most = longestMakersTime},
      {.key = u"Contains"_s,
       .words = u"Contains"_s,
       .hint =
           u"Checked against allergies. Resin sealant and bonding agent always count as acrylate"_s,
       .kind = FieldKind::ticks,
       .options = optionsOf<kit::Contains>()}};
}

Values valuesOfLot(const kit::Lot& lot) {
  Values values;
  values.set(u"Lot"_s, lot.lot);
  values.set(u"Kind"_s, lot.kind);
  values.set(u"Material"_s, lot.material);
  values.set(u"Expiry"_s, std::optional(lot.expiry));
  if (lot.makersTime.count() > 0)
    values.set(u"MakersTime"_s, static_cast<std::int64_t>(lot.makersTime.count()));
  values.set(u"Contains"_s, lot.contains.bits());
  return values;
}

/// What the form asks; the rest as `lot` has it.
kit::Lot lotFrom(const Values& values, const std::optional<kit::Lot>& lot = {}) {
  kit::Lot made = lot.value_or(kit::Lot{.kind = kit::MaterialKind::etchant,
                                        .material = {},
                                        .lot = {},
                                        .expiry = *values.date(u"Expiry"_s),
                                        .contains = {},
                                        .quarantineReason = {}});
  made.kind = values.choice<kit::MaterialKind>(u"Kind"_s);
  made.material = values.text(u"Material"_s);
  made.lot = values.text(u"Lot"_s);
  made.expiry = *values.date(u"Expiry"_s);
  made.makersTime = base::Seconds(values.number(u"MakersTime"_s).value_or(0));
  made.contains = values.ticks<kit::Contains>(u"Contains"_s);
  return made;
}

std::string lotStanding(const kit::Lot& lot, base::Date today) {
  const auto refusal = kit::refusalOf(lot, today);
  if (!refusal) return "can be used";
  const auto words = toStd(toQt(base::displayName(*refusal)).toUpper());
  return *refusal == kit::LotRefusal::setAside ? words + ": " + lot.quarantineReason : words;
}

AreaForm setAside(session::Session& book) {
  return {.name = u"Aside"_s,
          .words = u"Set aside"_s,
          .key = Qt::Key_Q,
          .asksReason = true,
          .save = u"Set lot aside"_s,
          .note = u"Such as for a recall. It can no longer be chosen at the chair. Sealants "
                  "already placed with it stay on record; the Trace report lists them."_s,
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            return saidIf(book.quarantineLot(by, kit::LotId(*id), values.text(reasonKey)),
                          u"The lot is set aside."_s);
          }};
}

AreaForm backInUse(session::Session& book) {
  return {.name = u"Back"_s,
          .words = u"Back in use"_s,
          .key = Qt::Key_B,
          .asksReason = true,
          .save = u"Put lot back in use"_s,
          .note = u"For a lot that was set aside by mistake, or that the manufacturer cleared."_s,
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            const auto old = thingOf(book.lots(), id);
            if (!old) return old.error();
            auto lot = old->value;
            lot.quarantined = false;
            return saidIf(book.correctLot(by, old->id, lot, values.text(reasonKey)),
                          u"The lot is back in use."_s);
          }};
}

} // namespace

AreaSpec lotsArea(Context& context) {
  auto& book = context.session;
  const std::map<ErrorCode, QString> refused{{ErrorCode::ruleMaterial, u"Lot"_s}};
  AreaForm add{.name = u"Add"_s,
               .words = u"Add a lot"_s,
               .key = Qt::Key_N,
               .isOfThing = false,
               .save = u"Save lot"_s,
               .fields = lotFields,
               .values = [](const Thing&) -> Result<Values> { return Values(); },
               .act = [&book](By by, const Thing&, const Values& values) -> Result<QString> {
                 const auto lot = lotFrom(values);
                 return saidIf(book.enterLot(by, lot), toQt(kit::shown(lot)) + u" is saved."_s);
               },
               .refusedAt = refused};
  AreaForm correct{.name = u"Correct"_s,
                   .words = u"Correct"_s,
                   .key = Qt::Key_E,
                   .asksReason = true,
                   .save = u"Save lot"_s,
                   .changes = changesSaid(book, session::Area::lots),
                   .fields = lotFields,
                   .values = [&book](const Thing& id) -> Result<Values> {
                     const auto lot = thingOf(book.lots(), id);
                     if (!lot) return lot.error();
                     return valuesOfLot(lot->value);
                   },
                   .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
                     const auto old = thingOf(book.lots(), id);
                     if (!old) return old.error();
                     const auto lot = lotFrom(values, old->value);
                     return saidIf(book.correctLot(by, old->id, lot, values.text(reasonKey)),
                                   toQt(kit::shown(lot)) +
                                       u" is saved. The previous entry stays in the history."_s);
                   },
                   .refusedAt = refused};
  return {.name = u"Lots"_s,
          .title = u"Materials and lots"_s,
          .station = base::Station::lots,
          .area = session::Area::lots,
          .columns = {{"Material"}, {"Lot"}, {"Kind"}, {"Expires"}, {"Status"}},
          .rows = [&context](const QString&) -> Result<std::vector<AreaRow>> {
            const auto lots = context.session.lots();
            if (!lots) return lots.error();
            const auto today = context.clock.now().date();
            return rowsOf(*lots, [&](const kit::Lot& lot) -> std::vector<std::string> {
              return {lot.material, lot.lot, std::string(base::displayName(lot.kind)),
                      lot.expiry.words(), lotStanding(lot, today)};
            });
          },
          .history =
              [&book](const base::Uuid& id) {
                return revisionsOf(book.revisions<kit::Lot>(kit::LotId(id)), valuesOfLot);
              },
          .forms = {add, correct, setAside(book), backInUse(book)}};
}

} // namespace gk::ui
