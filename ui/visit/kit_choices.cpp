#include "ui/visit/kit_choices.h"

#include "chairside/allergy.h"
#include "reports/display_names.h"
#include "ui/support/text.h"
#include "ui/visit/new_kit.h"

#include <algorithm>

namespace gk::ui {

namespace {

using kit::Lot;
using kit::MaterialKind;

template <class E>
QString named(E value) {
  return toQt(base::displayName(value));
}

template <class E>
QStringList allNames() {
  QStringList names;
  for (const auto name : base::displayNamesOf<E>())
    names += capital(toQt(name));
  return names;
}

bool fits(const ChairFile& file, const Lot& lot) {
  return kit::checkUsable(lot, file.day.value.date).has_value() &&
         chairside::checkAllergy(lot, file.card.flags).has_value() &&
         lot.kind != MaterialKind::bondingAgent;
}

void carry(Setup& setup, const base::Recorded<Lot>& lot) {
  if (kit::isSealant(lot.value.kind)) setup.sealant = lot.id;
  if (lot.value.kind == MaterialKind::etchant) setup.etchant = lot.id;
  if (lot.value.kind == MaterialKind::varnish) setup.varnish = lot.id;
}

/// Options of the ask bar, beside one for what is new; the rest would need a second page, which no
/// program's kit has filled.
constexpr std::size_t mostOptions = 15;

} // namespace

void chooseLot(ChairVisit& visit) {
  std::vector<base::Recorded<Lot>> usable;
  int leftOut = 0;
  for (const auto& lot : visit.file().lots) {
    if (fits(visit.file(), lot.value) && usable.size() < mostOptions)
      usable.push_back(lot);
    else
      ++leftOut;
  }
  if (usable.empty()) {
    visit.strip.say(u"No lot in this logbook can be used on this child today."_s);
    return typeLot(visit);
  }
  QStringList options;
  for (const auto& lot : usable)
    options += named(lot.value.kind) + u": "_s + toQt(kit::shown(lot.value));
  auto question = u"Switch to which lot? Or type a new lot's number."_s;
  if (leftOut > 0)
    question += u" (%1 left out: expired, set aside, used up, or a stop flag)"_s.arg(leftOut);
  options += u"A new lot"_s;
  visit.ask.choose(question, options, [&visit, usable](int chosen) {
    if (chosen == static_cast<int>(usable.size())) return typeLot(visit);
    auto setup = visit.setup();
    carry(setup, usable[static_cast<std::size_t>(chosen)]);
    visit.context().acting.change(setup);
  });
  visit.ask.whenTyped([&visit](const QString& begun) { typeLot(visit, begun); });
}

namespace {

QString lotWords(const Lot& lot) {
  return named(lot.kind) + u' ' + toQt(kit::shown(lot));
}

/// After one confirm; says why when it cannot be used.
void offer(ChairVisit& visit, const base::Recorded<Lot>& lot) {
  const auto words = lotWords(lot.value);
  const auto usable = kit::checkUsable(lot.value, visit.date());
  const auto safe = chairside::checkAllergy(lot.value, visit.file().card.flags);
  if (!usable)
    visit.strip.say(inOneLine(describe(usable.error())));
  else if (!safe)
    visit.strip.say(inOneLine(describe(safe.error())));
  else if (lot.value.kind == MaterialKind::bondingAgent)
    visit.strip.say(capital(words) + u": bonding agents cannot be chosen here."_s);
  else
    visit.ask.choose(u"Switch to "_s + words + u", expires "_s +
                         toQt(lot.value.expiry.shortWords()) + u'?',
                     {u"Yes, this lot"_s}, [&visit, chosen = lot](int) {
                       auto setup = visit.setup();
                       carry(setup, chosen);
                       visit.context().acting.change(setup);
                     });
}

} // namespace

void carryLot(ChairVisit& visit, kit::LotId id) {
  const auto lot = std::ranges::find(visit.file().lots, id, &base::Recorded<Lot>::id);
  if (lot == visit.file().lots.end()) return;
  const auto usable = kit::checkUsable(lot->value, visit.date());
  const auto safe = chairside::checkAllergy(lot->value, visit.file().card.flags);
  if (!usable || !safe)
    return visit.strip.say(u"Added, but not in use: "_s +
                           inOneLine(describe(usable ? safe.error() : usable.error())));
  auto setup = visit.setup();
  carry(setup, *lot);
  visit.context().acting.change(setup);
  visit.strip.say(capital(lotWords(lot->value)) + u" is added and in use."_s);
}

bool offerLot(ChairVisit& visit, const QString& code) {
  std::vector<base::Recorded<Lot>> lots;
  for (const auto& lot : visit.file().lots)
    if (toQt(lot.value.lot).compare(code, Qt::CaseInsensitive) == 0) lots.push_back(lot);
  if (lots.empty()) return false;
  if (lots.size() == 1) {
    offer(visit, lots.front());
    return true;
  }
  // A maker's number is its own: two materials may have one.
  QStringList options;
  for (const auto& lot : lots)
    options += lotWords(lot.value);
  visit.ask.choose(
      u"More than one lot has the number %1. Which is in your hand?"_s.arg(code), options,
      [&visit, lots](int chosen) { offer(visit, lots.at(static_cast<std::size_t>(chosen))); });
  return true;
}

void chooseLight(ChairVisit& visit) {
  std::vector<base::Recorded<kit::Light>> lights;
  QStringList options;
  for (const auto& light : visit.file().lights)
    if (light.value.inService && lights.size() < mostOptions) {
      lights.push_back(light);
      options += u"Light "_s + toQt(light.value.tag);
    }
  if (lights.empty()) {
    visit.strip.say(u"No light is in service."_s);
    return typeLight(visit);
  }
  options += u"A new light"_s;
  visit.ask.choose(u"Switch to which light?"_s, options, [&visit, lights](int chosen) {
    if (chosen == static_cast<int>(lights.size())) return typeLight(visit);
    auto setup = visit.setup();
    setup.light = lights[static_cast<std::size_t>(chosen)].id;
    visit.context().acting.change(setup);
  });
}

void chooseTeam(ChairVisit& visit) {
  const auto members = visit.file().members;
  QStringList options{u"No one"_s};
  for (const auto& member : members)
    if (options.size() < static_cast<qsizetype>(mostOptions))
      options += toQt(member.value.name) + u", "_s + named(member.value.role);
  const auto pick = [&visit, members, options](int role) {
    static const QStringList roles{u"operator"_s, u"assistant"_s, u"recorder"_s};
    visit.ask.choose(
        u"Who is the "_s + roles[role] + u" now?"_s, options, [&visit, members, role](int chosen) {
          std::optional<base::MemberId> who;
          if (chosen > 0) who = members[static_cast<std::size_t>(chosen - 1)].id;
          auto setup = visit.setup();
          (role == 0 ? setup.author : role == 1 ? setup.assistant : setup.recorder) = who;
          visit.context().acting.change(setup);
        });
  };
  visit.ask.choose(u"Change whom?"_s, {u"Operator"_s, u"Assistant"_s, u"Recorder (who types)"_s},
                   pick);
}

void chooseIsolation(ChairVisit& visit) {
  visit.ask.choose(u"Isolation for this child only? F5 sets it for the day."_s,
                   allNames<chairside::Isolation>(), [&visit](int chosen) {
                     auto hold = visit.hold();
                     hold.isolation = static_cast<chairside::Isolation>(chosen);
                     visit.change(hold);
                   });
}

void chooseHolders(ChairVisit& visit) {
  const auto names = allNames<chairside::Holder>();
  visit.ask.choose(u"Cheek retracted by? This child only."_s, names, [&visit, names](int cheek) {
    visit.ask.choose(u"Tongue retracted by?"_s, names, [&visit, cheek](int tongue) {
      auto hold = visit.hold();
      hold.cheek = static_cast<chairside::Holder>(cheek);
      hold.tongue = static_cast<chairside::Holder>(tongue);
      visit.change(hold);
    });
  });
}

void changeHands(ChairVisit& visit) {
  if (!visit.setup().assistant) {
    visit.strip.say(u"No assistant, so it is two-handed. Choose one: O."_s);
    return;
  }
  auto hold = visit.hold();
  hold.fourHanded = !hold.fourHanded;
  visit.change(hold);
}

QString setupWords(const ChairVisit& visit) {
  const auto& file = visit.file();
  const auto& setup = visit.setup();
  const auto hold = visit.hold();
  const auto* sealant = file.lot(setup.sealant);
  const auto* etchant = file.lot(setup.etchant);
  const auto* light = file.light(setup.light);
  const bool wantsLight = !sealant || sealant->kind == MaterialKind::sealantLightCure;
  const bool isUsual =
      hold.isolation == setup.isolation && hold.cheek == setup.cheek && hold.tongue == setup.tongue;
  return (sealant ? toQt(kit::shown(*sealant)) : u"NO SEALANT LOT"_s) + u", "_s +
         (etchant ? toQt(kit::shown(*etchant)) : u"NO ETCHANT LOT"_s) + u", "_s +
         (wantsLight ? (light ? u"light "_s + toQt(light->tag) : u"NO LIGHT"_s) + u", "_s
                     : QString()) +
         (isUsual ? QString() : u"FOR THIS CHILD: "_s) + named(hold.isolation) + u", cheek: "_s +
         named(hold.cheek) + u", tongue: "_s + named(hold.tongue) +
         (hold.fourHanded ? u", four-handed"_s : u", two-handed"_s);
}

QString otherKitWords(const ChairVisit& visit, KitWords which) {
  const auto& setup = visit.setup();
  const auto hold = visit.hold();
  const auto* etchant = visit.file().lot(setup.etchant);
  const bool isBrief = which == KitWords::ofThisChild;
  QStringList parts{etchant ? (isBrief ? u"Etch "_s : u"In use: etch "_s) + toQt(etchant->lot)
                            : u"NO ETCHANT LOT"_s};
  const bool isUsual =
      hold.isolation == setup.isolation && hold.cheek == setup.cheek && hold.tongue == setup.tongue;
  QStringList own;
  const auto add = [&](const QString& words, bool isAsUsual) {
    if (!isBrief || !isAsUsual) own += words;
  };
  add(named(hold.isolation), hold.isolation == setup.isolation);
  add(u"cheek: "_s + named(hold.cheek), hold.cheek == setup.cheek);
  add(u"tongue: "_s + named(hold.tongue), hold.tongue == setup.tongue);
  parts += isUsual ? named(hold.isolation) : u"FOR THIS CHILD: "_s + own.join(u", "_s);
  parts += hold.fourHanded ? u"four-handed"_s : u"two-handed"_s;
  return parts.join(u", "_s);
}

QString lotWords(const ChairVisit& visit) {
  const auto* sealant = visit.file().lot(visit.setup().sealant);
  return sealant ? toQt(sealant->lot) : u"none"_s;
}

QString lightWords(const ChairVisit& visit) {
  const auto* light = visit.file().light(visit.setup().light);
  return light ? toQt(light->tag) : u"none"_s;
}

} // namespace gk::ui
