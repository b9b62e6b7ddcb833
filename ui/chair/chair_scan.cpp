#include "ui/chair/chair_page.h"
#include "ui/chair/identity_panel.h"
#include "ui/models/scanned.h"
#include "ui/support/text.h"
#include "ui/visit/kit_choices.h"
#include "ui/visit/new_kit.h"

// What a scanned code means at the chair.
namespace gk::ui {

void ChairPage::scanned(const QString& code) {
  if (hidden_) {
    strip_->say(u"Scanned "_s + code + u" while the screen was hidden. Nothing was changed."_s);
    return;
  }
  if (timer_->isRunning()) {
    strip_->say(u"Scanned "_s + code + u" while the timer is running: scan it again afterwards."_s);
    return;
  }
  if (ask_->isWriting()) {
    strip_->say(u"Scanned "_s + code + u". Finish typing, then scan again."_s);
    return;
  }
  const auto number = numberMeant(toStd(code));
  if (number) {
    if (!day_) {
      strip_->say(u"No day is open: open one on the day board."_s);
      return;
    }
    const auto child = visit_->act([&] { return childOfNumber(context_.session, *number); });
    if (!child) return;
    if (*child) {
      scannedChild(**child, *number, code);
      return;
    }
  }
  scannedOther(code, roster::parseChildNumber(toStd(code)).has_value());
}

void ChairPage::scannedChild(roster::ChildId child, const std::string& number,
                             const QString& code) {
  if (!visit_->isOn()) {
    take(child, *day_);
  } else if (visit_->file().child.id == child) {
    if (!seated_) identity_->startOver();
    strip_->say(u"Scanned "_s + code +
                u": this is the slip of the child in the chair. A slip alone is not enough: "
                "two identifiers are needed."_s);
  } else if (seated_) {
    strip_->say(u"That slip is another child's, "_s + toQt(number) +
                u". Pause this visit first: P. Nothing changed."_s);
  } else {
    askToChange(child, number);
  }
}

void ChairPage::scannedOther(const QString& code, bool isNumber) {
  if (visit_->isOn() && seated_ && offerLot(*visit_, code)) return;
  if (visit_->isOn() && seated_ && !isNumber) return addLot(*visit_, code);
  if (visit_->isOn() && !seated_) identity_->startOver();
  auto words = u"Scanned "_s + code;
  if (isNumber)
    words += u": no child with that number in this logbook."_s;
  else if (!visit_->isOn())
    words += u": not a child's number. With an empty chair, scan a child's slip."_s;
  else
    words += u": not a child's number. Confirm two identifiers first, then scan lots."_s;
  strip_->say(words);
}

/// A look-up at the identity check: it is left for the other child after a question alone, which
/// nothing that a scanner sends can answer with yes.
void ChairPage::askToChange(roster::ChildId child, const std::string& number) {
  const auto card = visit_->act([&] { return context_.session.identityCard(child, *day_); });
  if (!card) return;
  identity_->startOver();
  const auto here = toQt(visit_->file().card.header);
  const auto other = toQt(card->header) + u", room "_s + toQt(card->room) + u", "_s + toQt(number);
  const auto stay = [this, here, other] {
    strip_->say(u"Looked up "_s + other + u". The identity check is still of "_s + here + u'.');
  };
  ask_->choose(
      u"Looked up "_s + other + u". Leave "_s + here + u" and check who this is instead?"_s,
      {u"No, stay with "_s + here, u"Yes, change to "_s + toQt(card->header)},
      [this, child, stay](int chosen) {
        if (chosen == 0)
          stay();
        else
          take(child, *day_);
      },
      stay, AskKeys::arrows);
}

} // namespace gk::ui
