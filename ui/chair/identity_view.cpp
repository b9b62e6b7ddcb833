#include "ui/chair/identity_view.h"

#include "ui/look/look.h"
#include "ui/models/identity_words.h"
#include "ui/support/text.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>
#include <QVariant>

#include <algorithm>

namespace gk::ui {

using roster::FlagAction;

namespace {

constexpr int smallestLetters = 40; ///< percent of the usual

QLabel* label(QWidget* parent, const QString& name, const QString& look) {
  auto* made = new QLabel(parent);
  made->setObjectName(name);
  made->setTextFormat(Qt::PlainText);
  made->setWordWrap(true);
  made->setProperty("look", look);
  return made;
}

void showLines(QLabel& into, const QString& lines) {
  into.setText(lines);
  into.setAccessibleName(lines);
  into.setVisible(!lines.isEmpty());
}

} // namespace

IdentityView::IdentityView(QWidget* parent)
    : QWidget(parent), name_(label(this, u"identityName"_s, u"name"_s)),
      facts_(label(this, u"identityFacts"_s, u"facts"_s)),
      alert_(label(this, u"identitySameName"_s, u"notice"_s)),
      stop_(label(this, u"identityStop"_s, u"stopBig"_s)),
      askFirst_(label(this, u"identityAsk"_s, u"ask"_s)),
      notes_(label(this, u"identityNotes"_s, u"read"_s)),
      consent_(label(this, u"identityConsent"_s, u"consent"_s)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(8);
  column->addWidget(stop_);
  auto* sides = new QHBoxLayout;
  sides->setSpacing(12);
  const auto card = [&](std::initializer_list<QWidget*> parts, int share) {
    auto* frame = new QFrame(this);
    frame->setProperty("look", u"card"_s);
    auto* inside = new QVBoxLayout(frame);
    inside->setContentsMargins(20, 8, 20, 10);
    inside->setSpacing(4);
    for (auto* part : parts)
      inside->addWidget(part);
    inside->addStretch();
    sides->addWidget(frame, share);
  };
  card({name_, facts_}, 5);
  card({label(this, {}, u"answer"_s), consent_}, 3);
  auto* heading = static_cast<QLabel*>(consent_->parentWidget()->layout()->itemAt(0)->widget());
  heading->setText(u"Guardian's consent"_s);
  column->addLayout(sides);
  column->addWidget(alert_);
  column->addWidget(askFirst_);
  column->addWidget(notes_);
  column->addStretch();
}

/// Several alerts, a reason why not, large letters: the letters of the card give way, and nothing
/// is cut. What is asked and the keys below stay where they are.
void IdentityView::fit(QSize room) {
  if (room.isEmpty()) return;
  const auto wanted = u"%1 %2 %3"_s.arg(room.width()).arg(room.height()).arg(shown());
  if (wanted == fitted_) return;
  fitted_ = wanted;
  for (const int percent : {100, 92, 85, 78, 72, 66, 60, 55, 50, 45, smallestLetters}) {
    setLetters(percent);
    if (layout()->totalHeightForWidth(room.width()) <= room.height()) break;
  }
  setMinimumHeight(layout()->totalHeightForWidth(room.width())); // the rest is scrolled to
}

int IdentityView::leastHeight(int width) {
  const auto of = u"%1 %2"_s.arg(width).arg(shown());
  if (of == leastOf_) return least_;
  leastOf_ = of;
  setLetters(smallestLetters);
  least_ = layout()->totalHeightForWidth(width);
  fitted_.clear(); // to be fitted once more
  return least_;
}

QString IdentityView::shown() const {
  auto all = u"%1 %2"_s.arg(lookNow().percent).arg(static_cast<int>(lookNow().scheme));
  for (const auto* label : findChildren<QLabel*>())
    all += label->isHidden() ? u"|"_s : u'|' + label->text();
  return all;
}

void IdentityView::setLetters(int percent) {
  constexpr int least = 18; // pixels: what is smaller is not read at arm's length
  constexpr int usualPadding = 12;
  constexpr int leastPadding = 4;
  // Also where nothing changes: a label that was not shown yet does not know its letters, and what
  // fits would be of others.
  for (auto* label : findChildren<QLabel*>()) {
    label->setStyleSheet({});
    label->ensurePolished();
    if (percent < 100) {
      const int size = std::max(least, label->font().pixelSize() * percent / 100);
      auto worn = u"font-size: %1px"_s.arg(size);
      // The ground of an alert gives way around its words as they do.
      if (label == stop_ || label == askFirst_ || label == alert_)
        worn += u"; padding: %1px 14px"_s.arg(std::max(leastPadding, usualPadding * percent / 100));
      label->setStyleSheet(worn);
      label->ensurePolished();
    }
  }
  // What is within keeps the heights that it had, and is told of new letters one event later.
  for (auto* frame : findChildren<QFrame*>()) // labels too
    frame->updateGeometry();
  for (auto* inner : findChildren<QLayout*>())
    inner->invalidate();
}

void IdentityView::setCard(const session::IdentityCard& card) {
  showLines(*name_, toQt(card.name));
  auto facts = u"Born %1\nRoom %2, grade %3, %4\nGuardian %5   Number %6"_s.arg(
      toQt(card.birth), toQt(card.room), toQt(card.grade), toQt(card.school),
      toQt(card.guardianInitials), toQt(card.number));
  if (!card.findings.empty()) facts += u"\nFindings today: "_s + toQt(card.findings);
  if (!card.lastSeen.empty()) facts += u"\nLast seen "_s + toQt(card.lastSeen);
  showLines(*facts_, facts);
  showLines(*alert_, sameNameLine(card));
  showLines(*stop_, flagLines(card, FlagAction::stop).join(u'\n'));
  showLines(*askFirst_, flagLines(card, FlagAction::ask).join(u'\n'));
  showLines(*notes_, flagLines(card, FlagAction::note).join(u'\n'));
  auto may = standingLine(u"Screening"_s, card.screening) + u'\n' +
             standingLine(u"Sealants"_s, card.sealants) + u'\n' +
             standingLine(u"Varnish"_s, card.varnish) + u'\n' +
             standingLine(u"Recheck"_s, card.recheck);
  if (!card.dentist.empty()) may += u"\nDentist: "_s + toQt(card.dentist);
  showLines(*consent_, may);
}

} // namespace gk::ui
