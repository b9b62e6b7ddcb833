#include "ui/close_out/confirm_placements.h"

#include "ui/asking/own_pin.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

namespace {

base::Result<bool> confirmOf(Context& context, base::MemberId who, roster::DayId day) {
  const auto days = context.session.placementsToConfirm(who);
  if (!days) return days.error();
  const auto one = std::ranges::find(*days, day, &session::DayToConfirm::day);
  if (one == days->end()) return false;
  return confirmPlacements(context, who, *one);
}

} // namespace

base::Result<bool> confirmPlacements(Context& context, base::MemberId who,
                                     const session::DayToConfirm& day, session::OwnPin own) {
  auto& book = context.session;
  const auto program = book.program();
  if (!program) return program.error();
  const auto name = memberName(book, who);
  reports::Table table{"Placements to confirm", {{""}, {"Student"}, {"Tooth"}, {"What"}}, {}, {}};
  for (const auto& one : day.waiting)
    table.rows.push_back({"", one.child, one.tooth.shown(program->value.notation), one.what});
  const auto count = counted(static_cast<qsizetype>(day.waiting.size()), "placement", "placements");
  const auto answer = context.prompter.decideBy(
      table,
      u"%1: are your %2 correct? %3, %4"_s.arg(name, count, toQt(day.school), toQt(day.on.words())),
      {u"Correct: confirm %1"_s.arg(count), u"Not now: leave unconfirmed"_s});
  if (answer != 0) return false;
  const auto given = own ? std::optional(own) : askOwnPin(context, who, u"your placements"_s);
  if (!given) return false;
  // She acts herself; whoever is at the keyboard types.
  const auto& typing = context.acting.signedIn();
  const base::By by{who, typing != who ? typing : std::nullopt, base::Station::closeOut};
  const auto confirmed = book.confirmPlacements(by, day.day, *given);
  if (confirmed) return true;
  // A PIN that was good for one day is asked for again for the next.
  if (own && confirmed.error().code == base::ErrorCode::pinNeeded)
    return confirmPlacements(context, who, day);
  return confirmed.error();
}

base::Result<bool> confirmPlacementsOf(Context& context, const reports::CloseOut& sheet,
                                       roster::DayId day) {
  std::vector<base::MemberId> who;
  QStringList options;
  for (const auto& line : sheet.confirmed) {
    if (line.open() == 0) continue;
    who.push_back(line.member);
    options += u"%1: %2 of %3 to confirm"_s.arg(memberName(context.session, line.member))
                   .arg(line.open())
                   .arg(line.placed);
  }
  if (who.empty()) return false;
  std::size_t chosen = 0;
  if (who.size() > 1) {
    const auto one = context.prompter.decide(u"Who confirms their own placements?"_s, options);
    if (!one) return false;
    chosen = static_cast<std::size_t>(*one);
  }
  return confirmOf(context, who[chosen], day);
}

base::Result<base::Done> confirmBeforeSigning(Context& context, const reports::CloseOut& sheet,
                                              roster::DayId day) {
  for (const auto& line : sheet.confirmed) {
    const auto state = context.session.pinOf(line.member);
    if (!state) return state.error();
    if (line.open() == 0 || *state != roster::PinState::set) continue;
    if (const auto asked = confirmOf(context, line.member, day); !asked) return asked.error();
  }
  return base::Done{};
}

} // namespace gk::ui
