#include "ui/consent/answer_panel.h"

#include "reports/display_names.h"
#include "ui/keys/key_button.h"
#include "ui/look/style.h"
#include "ui/support/page_keys.h"
#include "ui/support/text.h"

#include <QCheckBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>

#include <array>

namespace gk::ui {

using roster::ConsentState;
using roster::HistoryAnswered;

namespace {

struct StateKey {
  Qt::Key key;
  ConsentState state;
  const char16_t* words;
};
constexpr std::array stateKeys{StateKey{Qt::Key_Y, ConsentState::yes, u"Y  Yes"},
                               StateKey{Qt::Key_L, ConsentState::yesWithLimits, u"L  Yes, limits"},
                               StateKey{Qt::Key_N, ConsentState::no, u"N  No"},
                               StateKey{Qt::Key_I, ConsentState::incomplete, u"I  Incomplete"}};

/// 1 to 9, then 0: the keys as they stand in a row.
QString serviceKey(std::size_t place) {
  return QString::number((place + 1) % 10);
}

} // namespace

AnswerPanel::AnswerPanel(QWidget* parent) : QFrame(parent) {
  setObjectName(u"formAnswers"_s);
  setAccessibleName(
      u"Answers on the form: Y, L, N or I, with L a digit for each service, H for history"_s);
  setProperty("look", u"card"_s);
  setFocusPolicy(Qt::StrongFocus);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 8, 12, 8);
  column->setSpacing(6);
  auto* row = new QHBoxLayout;
  row->setSpacing(6);
  for (const auto& one : stateKeys) {
    auto* key = new QPushButton(QStringView(one.words).toString(), this);
    key->setCheckable(true);
    key->setAutoDefault(false);
    key->setFocusPolicy(Qt::NoFocus);
    key->setObjectName(u"formState"_s + QChar(static_cast<char16_t>(one.key)));
    connect(key, &QPushButton::clicked, this, [this, state = one.state] { answer(state); });
    row->addWidget(key);
    states_.emplace_back(one.state, key);
  }
  row->addStretch(1);
  column->addLayout(row);
  auto* grid = new QGridLayout;
  grid->setVerticalSpacing(3);
  grid->setHorizontalSpacing(16);
  const auto all = roster::ServiceSet::all().values();
  const auto half = (all.size() + 1) / 2;
  for (const auto service : all) {
    const auto place = services_.size();
    auto* tick = new QCheckBox(
        serviceKey(place) + u"  "_s + capital(toQt(base::displayName(service))), this);
    tick->setObjectName(u"formService%1"_s.arg(place));
    tick->setFocusPolicy(Qt::NoFocus);
    connect(tick, &QCheckBox::clicked, this, &AnswerPanel::changed);
    grid->addWidget(tick, static_cast<int>(place % half), static_cast<int>(place / half));
    services_.push_back(tick);
  }
  grid->setColumnStretch(1, 1);
  column->addLayout(grid);
  historyKey_ = new QPushButton(this);
  historyKey_->setObjectName(u"formHistoryKey"_s);
  historyKey_->setAutoDefault(false);
  historyKey_->setFocusPolicy(Qt::NoFocus);
  connect(historyKey_, &QPushButton::clicked, this, [this] {
    history_ = static_cast<HistoryAnswered>((static_cast<int>(history_) + 1) %
                                            static_cast<int>(base::enumCount<HistoryAnswered>));
    showAll();
    Q_EMIT changed();
  });
  auto* last = new QHBoxLayout;
  last->addWidget(historyKey_);
  last->addStretch(1);
  column->addLayout(last);
  column->addStretch(1);
  tellKeys(*this, {{u"Y, L, N, I"_s, u"Yes to all, yes with limits, no, incomplete"_s},
                   {u"1 to 9, 0"_s, u"With L check or uncheck a service, else the signing date"_s},
                   {u"H"_s, u"Health history answered: yes, partly, no"_s},
                   {u"Enter"_s, u"On to the signing date"_s}});
  clear();
}

void AnswerPanel::clear() {
  state_.reset();
  history_ = HistoryAnswered::yes;
  check({});
  showAll();
}

void AnswerPanel::show(const roster::Consent& form) {
  state_ = form.state;
  history_ = form.history;
  check(form.allowed);
  showAll();
}

roster::ServiceSet AnswerPanel::allowed() const {
  roster::ServiceSet allowed;
  for (std::size_t i = 0; i < services_.size(); ++i)
    if (services_[i]->isChecked()) allowed.add(static_cast<roster::Service>(i));
  return allowed;
}

void AnswerPanel::check(roster::ServiceSet services) {
  for (std::size_t i = 0; i < services_.size(); ++i)
    services_[i]->setChecked(services.has(static_cast<roster::Service>(i)));
}

/// A yes checks what the form offers, to be unchecked where the paper says less; with limits the
/// checks are made one by one. A no allows nothing.
void AnswerPanel::answer(ConsentState state) {
  state_ = state;
  if (state == ConsentState::yes) check(offered_);
  if (state == ConsentState::no) check({});
  showAll();
  setFocus();
  Q_EMIT changed();
}

void AnswerPanel::showAll() {
  for (const auto& [state, key] : states_)
    key->setChecked(state_ == state);
  historyKey_->setText(u"H  Health history answered: "_s + toQt(base::displayName(history_)));
}

void AnswerPanel::keyPressEvent(QKeyEvent* event) {
  if (event->modifiers() & (Qt::AltModifier | Qt::ControlModifier))
    return QFrame::keyPressEvent(event);
  const auto key = event->key();
  for (const auto& one : stateKeys)
    if (key == static_cast<int>(one.key)) return answer(one.state);
  if (key >= Qt::Key_0 && key <= Qt::Key_9) {
    // After these answers no service is left to check, and the paper's next line is its date.
    if (state_ && *state_ != ConsentState::yesWithLimits)
      return Q_EMIT dateBegun(QString(QChar(key)));
    services_[static_cast<std::size_t>((key - Qt::Key_0 + 9) % 10)]->click();
    return;
  }
  if (key == Qt::Key_H) return historyKey_->click();
  if (key == Qt::Key_Return || key == Qt::Key_Enter) return Q_EMIT done();
  QFrame::keyPressEvent(event);
}

} // namespace gk::ui
