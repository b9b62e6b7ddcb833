#include "ui/widgets/what_if_panel.h"

#include "ui/support/text.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>

namespace gk::ui {

namespace {

/// A number within the limits, with a point or the comma of the desktop; else none.
std::optional<double> numberIn(const QLineEdit& field, double least, double most) {
  const auto text = field.text().trimmed();
  bool isNumber = false;
  double number = text.toDouble(&isNumber);
  if (!isNumber) number = QLocale().toDouble(text, &isNumber);
  if (!isNumber || !(number >= least && number <= most)) return std::nullopt;
  return number;
}

constexpr double muchMoney = 1e12;

} // namespace

WhatIfPanel::WhatIfPanel(QWidget* parent) : QWidget(parent) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  attack_ = field(u"Attack rate % a year"_s, u"whatIfAttack"_s, u"measured"_s);
  retention_ = field(u"Protected at one year %"_s, u"whatIfRetention"_s, u"measured"_s);
  years_ = field(u"Years"_s, u"whatIfYears"_s, u"9"_s);
  programCost_ = field(u"Program cost"_s, u"whatIfProgramCost"_s, u"none"_s);
  cavityCost_ = field(u"Cost of a cavity"_s, u"whatIfCavityCost"_s, u"none"_s);
  refused_ = new QLabel(this);
  refused_->setObjectName(u"whatIfRefused"_s);
  row->addWidget(refused_);
  row->addStretch(1);
}

void WhatIfPanel::note() {
  QStringList names;
  const std::pair<const QLineEdit*, double> fields[]{{attack_, 100},
                                                     {retention_, 100},
                                                     {years_, 100},
                                                     {programCost_, muchMoney},
                                                     {cavityCost_, muchMoney}};
  for (const auto& [field, most] : fields)
    if (!field->text().trimmed().isEmpty() && !numberIn(*field, 0, most))
      names += field->accessibleName();
  refused_->setText(names.isEmpty() ? QString() : u"✖ not used: "_s + names.join(u", "_s));
  Q_EMIT changed();
}

QLineEdit* WhatIfPanel::field(const QString& words, const QString& name, const QString& hint) {
  auto* label = new QLabel(words, this);
  auto* edit = new QLineEdit(this);
  edit->setObjectName(name);
  edit->setAccessibleName(words);
  edit->setPlaceholderText(hint);
  edit->setMaximumWidth(edit->fontMetrics().horizontalAdvance(u"000000000000"_s));
  label->setBuddy(edit);
  layout()->addWidget(label);
  layout()->addWidget(edit);
  connect(edit, &QLineEdit::textChanged, this, &WhatIfPanel::note);
  return edit;
}

reports::WhatIf WhatIfPanel::whatIf() const {
  reports::WhatIf out;
  if (const auto percent = numberIn(*attack_, 0, 100)) out.attackRate = *percent / 100;
  if (const auto percent = numberIn(*retention_, 0, 100)) out.retentionYearOne = *percent / 100;
  if (const auto years = numberIn(*years_, 0, 100)) out.years = static_cast<int>(*years);
  out.programCost = numberIn(*programCost_, 0, muchMoney);
  out.costPerCavity = numberIn(*cavityCost_, 0, muchMoney);
  return out;
}

} // namespace gk::ui
