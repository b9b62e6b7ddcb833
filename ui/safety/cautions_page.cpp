#include "ui/safety/cautions_page.h"

#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QVBoxLayout>

namespace gk::ui {

namespace {

const QString firstOfAll = u"Your state practice act, program protocol and the manufacturer's "
                           "instructions come first."_s;

} // namespace

// Sources: Seal America (steps 3, 8, 9); Maryland's sealant training (modules 2 and 4); CDC's
// infection prevention summary of 2016; the joint FERPA and HIPAA guidance of 2019; 45 CFR 164;
// AAPD on record keeping, 2021; Assaf on radiometers, 2020. Shortened in our own words.
const std::vector<Caution>& cautions() {
  static const std::vector<Caution> all{
      {u"A logbook"_s, u"It records and times. It is not a medical device and does not diagnose; a "
                       "licensed person decides."_s},
      {u"Who may do what"_s,
       u"States differ in who may screen, choose teeth, seal and apply varnish. The program enters "
       "its own rule; this program does not know the law."_s},
      {u"Times"_s, u"The times shown are minimums, as a reminder. Never shorten the "
                   "manufacturer's cure time."_s},
      {u"Light readings"_s,
       u"A hand-held meter compares a light with itself. It is not a certified "
       "measurement."_s},
      {u"Blue light"_s,
       u"Everyone who looks wears a filter, the child wears eye protection, and no "
       "one looks into the light."_s},
      {u"Etchant"_s, u"Eye protection on. Rinse skin or gums at once. In an eye: flush for 15 "
                     "minutes, then medical care."_s},
      {u"Acrylate allergy"_s,
       u"No resin at all. Latex and rosin are separate allergies, each with its own "
       "materials."_s},
      {u"Parents ask about BPA"_s,
       u"Traces may come off when a sealant is placed; wiping or rinsing "
       "the surface lowers them. Hand out the program's approved "
       "sheet."_s},
      {u"Infection control"_s,
       u"CDC guidance and local law apply in a library corner as in a clinic. This "
       "laptop is a contact surface: cover or disinfect it between students."_s},
      {u"Sterilizer"_s, u"If a spore test fails or is late, stop using those packs."_s},
      {u"Consent"_s,
       u"The signer must have legal authority. If parents disagree, stop and get advice."_s},
      {u"Privacy"_s, u"Whether FERPA or HIPAA applies depends on whom you act for and whether you "
                     "bill electronically. Ask counsel and record the answer."_s},
      {u"A lost laptop"_s,
       u"Report it at once. Encrypted data may need no notice; other data does, "
       "within 60 days at the most, and sooner in some states."_s},
      {u"Corrections"_s,
       u"Add, never erase. After a complaint, correct nothing without legal advice."_s},
      {u"Keeping records"_s, u"Keep them as long as your state requires for minors."_s},
      {u"Suspected neglect"_s,
       u"You must report it yourself, at once. This program does not report it."_s},
      {u"Emergency"_s, u"Call 911 first. Record later."_s},
      {u"Reading retention"_s,
       u"It covers only the students who were found. Small numbers are too few to "
       "judge an individual."_s},
      {u"Printed lists"_s,
       u"They carry students' names. Count them out and back in, then shred them."_s}};
  return all;
}

CautionsPage::CautionsPage(QWidget* parent) : QWidget(parent) {
  setObjectName(u"cautionsPage"_s);
  auto* names = new QListWidget(this);
  names->setObjectName(u"cautionNames"_s);
  names->setAccessibleName(u"Safety"_s);
  style::whenDressed(names, [names] { names->setFixedWidth(style::px(280)); });
  auto* title = wordsLabel({}, u"section"_s, u"cautionTitle"_s, this);
  auto* words = wordsLabel({}, u"big"_s, u"cautionWords"_s, this);
  for (std::size_t i = 0; i < cautions().size(); ++i)
    names->addItem(u"%1  %2"_s.arg(i + 1).arg(cautions()[i].title));
  connect(names, &QListWidget::currentRowChanged, this, [title, words](int row) {
    const auto& caution = cautions().at(static_cast<std::size_t>(row));
    title->setText(caution.title);
    words->setText(caution.words + u"\n\n"_s + firstOfAll);
  });
  names->setCurrentRow(0);
  auto* card = new QVBoxLayout;
  card->addWidget(title);
  card->addWidget(words);
  card->addStretch(1);
  auto* row = new QHBoxLayout;
  row->setSpacing(16);
  row->addWidget(names);
  row->addLayout(card, 1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(18, 4, 18, 0);
  column->addWidget(new PageHead(wordsLabel(u"Safety"_s, u"title"_s, {}, this), nullptr, this));
  column->addLayout(row, 1);
  setFocusProxy(names);
}

} // namespace gk::ui
