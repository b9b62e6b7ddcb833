#include "ui/models/scanned.h"
#include "ui/pages/chair_page.h"
#include "ui/pages/kit_choices.h"
#include "ui/support/text.h"

// What a scanned code means at the chair.
namespace gk::ui {

void ChairPage::scanned(const QString& code) {
  if (hidden_) return;
  if (timer_->isRunning()) {
    strip_->say(u"Scanned "_s + code + u" while a timer runs: scan it again afterwards."_s);
    return;
  }
  if (ask_->isWriting()) {
    strip_->say(u"Scanned "_s + code + u" while words are being written: finish them first."_s);
    return;
  }
  if (const auto number = roster::parseChildNumber(toStd(code))) {
    scannedChild(*number);
    return;
  }
  if (!visit_->isOn()) {
    strip_->say(u"Scanned "_s + code +
                u": no child's number. With nobody in the chair, scan a child's slip."_s);
    return;
  }
  if (!seated_) {
    strip_->say(u"Scanned "_s + code +
                u": no child's number. First two identifiers, then lots are scanned."_s);
    return;
  }
  if (!offerLot(*visit_, code))
    strip_->say(u"Scanned "_s + code +
                u": neither a child's number nor a lot of this logbook. Nothing was changed."_s);
}

void ChairPage::scannedChild(const std::string& number) {
  if (visit_->isOn()) {
    const bool isSame = visit_->file().child.value.number == number;
    strip_->say(isSame ? u"That is the slip of the child in the chair. A slip alone is not enough: "
                         "two identifiers."_s
                       : u"That slip is another child's, "_s + toQt(number) +
                             u". Park this one first: P. Nothing was changed."_s);
    return;
  }
  if (!day_) {
    strip_->say(u"No day is open: open one on the day board."_s);
    return;
  }
  const auto child = visit_->act([&] { return childOfNumber(context_.session, number); });
  if (!child) return;
  if (*child)
    take(**child, *day_);
  else
    strip_->say(u"No child of number "_s + toQt(number) + u" is in this logbook."_s);
}

} // namespace gk::ui
