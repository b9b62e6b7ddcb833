#include "ui/chair/identity_view.h"

#include "ui/models/identity_words.h"
#include "ui/support/text.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>
#include <QVariant>

namespace gk::ui {

using roster::FlagAction;

namespace {

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
