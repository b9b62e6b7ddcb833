#include "ui/visit/chair_visit.h"

#include "base/contract.h"

#include <algorithm>

namespace gk::ui {

ChairVisit::ChairVisit(Context& context, AskBar& askBar, MessageStrip& messages, TimerView& clock,
                       MouthMap& mouth, QObject* parent)
    : QObject(parent), ask(askBar), strip(messages), timer(clock), map(mouth), context_(context) {
  changes_ =
      context_.session.onChanged([this](const session::Change& change) { noteChange(change); });
  connect(&context_.acting, &Acting::changed, this, [this] {
    if (isOn()) Q_EMIT changed();
  });
}

bool ChairVisit::begin(roster::ChildId child, roster::DayId day) {
  auto file = readChair(context_.session, child, day);
  const bool isNext = !isOn() || file_->child.id != child;
  if (isNext) tryingAgain_ = false;
  if (!file) {
    strip.post(describe(file.error()));
    return false;
  }
  file_.emplace(std::move(*file));
  if (isNext) {
    hold_ = usualHold();
    stoppedFor_.clear();
  }
  return true;
}

/// A child who comes back is kept dry as she was.
Hold ChairVisit::usualHold() const {
  if (!file().fields.empty()) {
    const auto& last = file().fields.back().field.value;
    return {last.isolation, last.cheek, last.tongue, last.fourHanded};
  }
  return {setup().isolation, setup().cheek, setup().tongue, setup().fourHanded};
}

Hold ChairVisit::hold() const {
  auto hold = hold_;
  hold.fourHanded = hold.fourHanded && setup().assistant.has_value();
  return hold;
}

void ChairVisit::change(const Hold& hold) {
  if (hold == hold_) return;
  hold_ = hold;
  Q_EMIT changed();
}

void ChairVisit::end() {
  file_.reset();
}

const ChairFile& ChairVisit::file() const {
  base::require(file_.has_value(), "no child in the chair");
  return *file_;
}

std::vector<dentition::Tooth> ChairVisit::begun() const {
  std::vector<dentition::Tooth> teeth;
  for (const auto& field : file().fields)
    for (const auto& named : field.field.value.teeth)
      teeth.push_back(named.tooth);
  for (const auto& placement : file().placements)
    teeth.push_back(placement.value.tooth);
  if (!tryingAgain_) return teeth;
  std::vector<dentition::Tooth> again = stopped();
  if (const auto* field = file().fieldInHand())
    for (const auto& tooth : unfinished(field->protocol))
      std::erase(again, tooth);
  std::erase_if(teeth,
                [&](const auto& tooth) { return std::ranges::find(again, tooth) != again.end(); });
  return teeth;
}

std::vector<dentition::Tooth> ChairVisit::stopped() const {
  using chairside::Attempt;
  std::vector<dentition::Tooth> teeth;
  for (const auto& [id, stamp, placement] : file().placements) {
    std::erase(teeth, placement.tooth); // the newest word stands
    if (placement.attempt == Attempt::stoppedBeforeSealant ||
        placement.attempt == Attempt::stoppedBeforeCure)
      teeth.push_back(placement.tooth);
  }
  return teeth;
}

void ChairVisit::noteChange(const session::Change& change) {
  if (!file_ || (change.child && *change.child != file_->child.id)) return;
  if (ownAct_) {
    // Consent, flags and lots are another page's to change; the chair's own acts touch none.
    if (auto read = readWork(context_.session, *file_); !read) strip.post(describe(read.error()));
  } else {
    begin(file_->child.id, file_->day.id);
  }
  if (!context_.session.isUnlocked()) { // it cannot be read again, and goes on by its number
    auto& card = file_->card;
    // Exchanged, since what is assigned may go into the old one's room, where its end would stay.
    std::string(card.number).swap(card.name);
    std::string(card.number).swap(card.header);
    std::string().swap(card.guardianInitials);
  }
  Q_EMIT changed();
}

} // namespace gk::ui
