#include "ui/visit/new_kit.h"

#include "kit/package_code.h"
#include "reports/display_names.h"
#include "ui/support/text.h"
#include "ui/visit/kit_choices.h"

#include <algorithm>
#include <optional>

namespace gk::ui {

namespace {

/// The newest lot of each material, as it was entered.
std::vector<kit::Lot> materials(const ChairFile& file) {
  std::vector<kit::Lot> found;
  for (const auto& lot : file.lots) {
    if (lot.value.kind == kit::MaterialKind::bondingAgent) continue;
    const auto same = std::ranges::find_if(found, [&](const auto& one) {
      return one.kind == lot.value.kind && one.material == lot.value.material;
    });
    if (same == found.end())
      found.push_back(lot.value);
    else
      *same = lot.value;
  }
  return found;
}

/// The desk's acts, whoever stands where: undo at the chair is of the child alone.
base::By desk(ChairVisit& visit, base::Station station) {
  return visit.context().acting.by(station);
}

void enterNew(ChairVisit& visit, const kit::Lot& lot) {
  const auto made =
      visit.act([&] { return visit.book().enterLot(desk(visit, base::Station::lots), lot); });
  if (!made) return;
  visit.begin(visit.file().child.id, visit.file().day.id); // it is among its lots now
  carryLot(visit, *made);
}

void askExpiry(ChairVisit& visit, const kit::Lot& lot) {
  visit.ask.write(
      u"%1, new lot %2: expires when? Month and year as on the package, such as 0627"_s.arg(
          toQt(lot.material), toQt(lot.lot)),
      {}, [&visit, lot](const QString& said) {
        const auto expiry = base::parseExpiry(toStd(said));
        if (!expiry) {
          visit.strip.say(u"\"%1\" is no month and year. The lot is not added."_s.arg(said));
          return askExpiry(visit, lot);
        }
        auto made = lot;
        made.expiry = *expiry;
        enterNew(visit, made);
      });
}

} // namespace

namespace {

/// What a code or a hand says of a new lot.
struct NewLot {
  QString number;
  std::optional<base::Date> expiry;
};

/// "RF-2706 0627" is a number and an expiry.
NewLot readTyped(const QString& said) {
  const auto at = said.lastIndexOf(u' ');
  if (at < 0) return {said, {}};
  const auto expiry = base::parseExpiry(toStd(said.mid(at + 1)));
  if (!expiry) return {said, {}};
  return {said.left(at).trimmed(), *expiry};
}

/// Whether this material is carried now.
bool isInUse(const ChairVisit& visit, const kit::Lot& lot) {
  const auto* sealant = visit.file().lot(visit.setup().sealant);
  return sealant && sealant->kind == lot.kind && sealant->material == lot.material;
}

void askMaterial(ChairVisit& visit, const NewLot& made, AskKeys keys) {
  auto known = materials(visit.file());
  constexpr std::size_t most = 15;
  if (known.empty())
    return visit.strip.say(u"No material is set up yet: add the first lot at the desk, F8."_s);
  if (keys == AskKeys::all)
    std::ranges::stable_partition(known, [&](const kit::Lot& lot) { return isInUse(visit, lot); });
  QStringList options;
  for (std::size_t i = 0; i < std::min(known.size(), most); ++i)
    options += capital(toQt(base::displayName(known[i].kind))) + u": "_s + toQt(known[i].material);
  const auto until =
      made.expiry ? u", expires "_s + toQt(made.expiry->shortWords()) + u',' : QString();
  visit.ask.choose(
      u"%1%2 is no lot in this logbook yet. A new lot of which material?"_s.arg(made.number, until),
      options,
      [&visit, known, made](int chosen) {
        auto lot = known[static_cast<std::size_t>(chosen)];
        lot.lot = toStd(made.number);
        lot.quarantined = false;
        lot.quarantineReason.clear();
        lot.usedUpOn.reset();
        if (!made.expiry) return askExpiry(visit, lot);
        lot.expiry = *made.expiry;
        enterNew(visit, lot);
      },
      {}, keys);
}

} // namespace

void addLot(ChairVisit& visit, const QString& code) {
  const auto read = kit::readPackageCode(toStd(code));
  const auto number = read ? toQt(read->lot) : code;
  if (read && offerLot(visit, number)) return;
  if (!read && kit::isProductCode(toStd(code)))
    return visit.strip.say(u"Scanned %1: that is the product's number, the same on every lot. Scan "
                           "or type the lot's number (L). Nothing changed."_s.arg(code));
  // Enter of a scanner answers nothing.
  askMaterial(visit, {number, read ? read->expiry : std::nullopt}, AskKeys::marked);
}

void typeLot(ChairVisit& visit, const QString& begun) {
  visit.ask.write(u"The new lot's number and expiry, as on the package, such as RF-2706 0627"_s, {},
                  [&visit](const QString& said) {
                    if (offerLot(visit, said)) return;
                    if (kit::readPackageCode(toStd(said)) || kit::isProductCode(toStd(said)))
                      return addLot(visit, said);
                    const auto made = readTyped(said);
                    if (!offerLot(visit, made.number)) askMaterial(visit, made, AskKeys::all);
                  });
  if (!begun.isEmpty()) visit.ask.continueFrom(begun);
}

void typeLight(ChairVisit& visit) {
  visit.ask.write(u"The new light's tag, such as L-3"_s, {}, [&visit](const QString& said) {
    kit::Light light{.tag = toStd(said), .makersLeast = {}, .baseline = {}, .meter = {}};
    const auto made = visit.act(
        [&] { return visit.book().enterLight(desk(visit, base::Station::lights), light); });
    if (!made) return;
    visit.begin(visit.file().child.id, visit.file().day.id);
    auto setup = visit.setup();
    setup.light = *made;
    visit.context().acting.change(setup);
    visit.strip.say(
        u"Light %1 is added and in use. Read it with the meter: its baseline is entered "
        "at the desk, F8."_s.arg(said));
  });
}

} // namespace gk::ui
