#include "ui/models/chair_file.h"

#include <algorithm>

namespace gk::ui {

namespace {

template <class T, class Id>
const T* valueOf(const std::vector<base::Recorded<T>>& rows, const std::optional<Id>& id) {
  if (!id) return nullptr;
  const auto found = std::ranges::find(rows, *id, &base::Recorded<T>::id);
  return found == rows.end() ? nullptr : &found->value;
}

/// Moves a result's value into `target`; the error where there is none.
template <class T, class Target>
std::optional<base::Error> take(base::Result<T> from, Target& target) {
  if (!from) return from.error();
  target = std::move(*from);
  return std::nullopt;
}

} // namespace

const session::FieldState* ChairFile::fieldInHand() const {
  for (const auto& field : fields)
    if (field.protocol.next() < chairside::Next::placed) return &field;
  return nullptr;
}

const kit::Lot* ChairFile::lot(const std::optional<kit::LotId>& id) const {
  return valueOf(lots, id);
}

const kit::Light* ChairFile::light(const std::optional<kit::LightId>& id) const {
  return valueOf(lights, id);
}

const roster::Member* ChairFile::member(const std::optional<base::MemberId>& id) const {
  return valueOf(members, id);
}

base::Result<ChairFile> readChair(session::Session& session, roster::ChildId childId,
                                  roster::DayId dayId) {
  auto program = session.program();
  if (!program) return program.error();
  auto day = session.day(dayId);
  if (!day) return day.error();
  auto child = session.child(childId);
  if (!child) return child.error();
  auto card = session.identityCard(childId, dayId);
  if (!card) return card.error();
  ChairFile file{std::move(*program), std::move(*day), std::move(*child), std::move(*card)};
  if (auto trouble = take(session.lots(), file.lots)) return *trouble;
  if (auto trouble = take(session.lights(), file.lights)) return *trouble;
  if (auto trouble = take(session.members(), file.members)) return *trouble;
  if (auto read = readWork(session, file); !read) return read.error();
  return file;
}

base::Result<base::Done> readWork(session::Session& session, ChairFile& file) {
  const auto child = file.child.id;
  const auto day = file.day.id;
  auto screenings = session.screenings(child);
  if (!screenings) return screenings.error();
  auto placements = session.placements(child);
  if (!placements) return placements.error();
  auto fields = session.fields(child, day);
  if (!fields) return fields.error();
  auto earlier = session.earlierPlacements(child, day);
  if (!earlier) return earlier.error();
  const auto varnishes = session.varnishes(child);
  if (!varnishes) return varnishes.error();
  const auto afterCures = session.afterCures(child, day);
  if (!afterCures) return afterCures.error();
  const auto referrals = session.referrals(child);
  if (!referrals) return referrals.error();
  file.referral.reset();
  for (const auto& referral : *referrals)
    if (referral.value.day == day || referral.value.state == followup::ReferralState::open)
      file.referral = referral;
  if (chairside::waitsForDentist(file.program.value)) {
    auto authorizations = session.authorizations(child);
    if (!authorizations) return authorizations.error();
    auto words = session.dentistWords(child, file.day.value.date);
    if (!words) return words.error();
    file.authorizations = std::move(*authorizations);
    file.card.dentist = std::move(*words);
  }
  file.screening.reset();
  for (auto& screening : *screenings)
    if (screening.value.day == day) file.screening = std::move(screening);
  file.card.findings = session::findingsWords(file.screening ? &file.screening->value : nullptr);
  file.placements.clear();
  for (auto& placement : *placements)
    if (placement.value.day == day) file.placements.push_back(std::move(placement));
  file.afterCure.reset();
  for (const auto& after : *afterCures) {
    const bool isOlder = std::ranges::any_of(file.placements, [&](const auto& placement) {
      return placement.value.attempt == chairside::Attempt::complete &&
             placement.id.uuid() > after.stamp.entry.uuid();
    });
    if (!isOlder) file.afterCure = after;
  }
  file.fields = std::move(*fields);
  file.earlier = std::move(*earlier);
  file.varnished = std::ranges::any_of(
      *varnishes, [&](const auto& varnish) { return varnish.value.day == day; });
  return base::Done{};
}

} // namespace gk::ui
