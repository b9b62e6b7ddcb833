#include "ui/forms/field_form.h"

#include "ui/asking/read_date.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/look/choice_box.h"
#include "ui/look/style.h"
#include "ui/support/retired.h"

#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QStyle>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

namespace {

constexpr int mostColumns = 4;

int columnsNow(int atHundred) {
  const auto percent = lookNow().percent;
  return std::min(atHundred, percent > 150 ? 1 : percent > 110 ? 2 : mostColumns);
}

void restyle(QWidget* widget) {
  widget->style()->unpolish(widget);
  widget->style()->polish(widget);
}

/// A date as a person types it; those of a list have a comma between them and none inside.
QString typedWords(FieldKind kind, const QString& text) {
  if (kind == FieldKind::date || kind == FieldKind::expiry)
    return toQt(base::datesToRead(toStd(text)));
  if (kind != FieldKind::dates) return text;
  QStringList dates;
  for (const auto& one : text.split(u',', Qt::SkipEmptyParts))
    dates += toQt(base::datesToRead(toStd(one.trimmed()))).remove(u',');
  return dates.join(u", "_s);
}

} // namespace

FieldForm::FieldForm(QString prefix, Prompter& prompter, QWidget* parent)
    : QWidget(parent), prefix_(std::move(prefix)), prompter_(prompter),
      grid_(new QGridLayout(this)) {
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setHorizontalSpacing(20);
  grid_->setVerticalSpacing(8);
  style::whenDressed(this, [this] { place(); });
}

void FieldForm::ask(const std::vector<Field>& fields, int columns) {
  columns_ = columns;
  for (const auto& cell : cells_) {
    cell.whole->hide();
    cell.whole->setParent(nullptr);
    cell.whole->deleteLater();
  }
  fields_ = fields;
  cells_.clear();
  for (const auto& field : fields_)
    cells_.push_back(makeCell(field));
  place();
}

FieldForm::Cell FieldForm::makeCell(const Field& field) {
  Cell cell;
  cell.whole = new QWidget(this);
  auto* column = new QVBoxLayout(cell.whole);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2);
  const auto name = prefix_ + field.key;
  const auto changed = [this] {
    if (!showing_) Q_EMIT edited();
  };
  if (field.kind != FieldKind::tick) {
    auto* label = wordsLabel(field.words, u"field"_s, {}, cell.whole);
    label->setWordWrap(true);
    column->addWidget(label);
  }
  switch (field.kind) {
  case FieldKind::choice:
    cell.box = new ChoiceBox(cell.whole);
    cell.box->addItems(field.options);
    for (const auto place : field.retired)
      retire(*cell.box, place);
    connect(cell.box, &QComboBox::currentIndexChanged, this, changed);
    break;
  case FieldKind::ticks:
  case FieldKind::tick: {
    auto* rows = new FlowLayout(12);
    const auto options = field.kind == FieldKind::tick ? QStringList(field.words) : field.options;
    for (const auto& option : options) {
      auto* tick = new QCheckBox(option, cell.whole);
      tick->setObjectName(options.size() == 1 ? name : name + QString::number(cell.ticks.size()));
      connect(tick, &QCheckBox::toggled, this, changed);
      rows->addWidget(tick);
      cell.ticks.push_back(tick);
    }
    column->addLayout(rows);
    break;
  }
  case FieldKind::line:
  case FieldKind::date:
  case FieldKind::expiry:
  case FieldKind::dates:
  case FieldKind::number:
    cell.line = new QLineEdit(cell.whole);
    connect(cell.line, &QLineEdit::textChanged, this, changed);
    connect(cell.line, &QLineEdit::returnPressed, this, &FieldForm::entered);
    break;
  }
  if (auto* one = cell.line ? static_cast<QWidget*>(cell.line) : cell.box) {
    one->setObjectName(name);
    one->setAccessibleName(field.words);
    one->setAccessibleDescription(field.hint);
    column->addWidget(one);
  }
  cell.hint = wordsLabel(field.hint, u"note"_s, name + u"Hint"_s, cell.whole);
  column->addWidget(cell.hint);
  column->addStretch(1);
  cell.hint->setVisible(!field.hint.isEmpty());
  return cell;
}

void FieldForm::place() {
  const int columns = columnsNow(columns_);
  int row = 0;
  int at = 0;
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    const int span = std::min(fields_[i].span, columns);
    if (at + span > columns) {
      at = 0;
      ++row;
    }
    grid_->removeWidget(cells_[i].whole);
    grid_->addWidget(cells_[i].whole, row, at, 1, span);
    cells_[i].whole->show();
    at += span;
  }
  for (int column = 0; column < mostColumns; ++column)
    grid_->setColumnStretch(column, column < columns ? 1 : 0);
}

void FieldForm::show(const Values& values) {
  showing_ = true;
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    const auto& cell = cells_[i];
    const auto& key = fields_[i].key;
    const auto number = values.number(key).value_or(0);
    if (cell.line) {
      cell.line->setText(typedWords(fields_[i].kind, values.shown(key)));
      cell.line->setCursorPosition(0);
    }
    // What has no value yet begins with the first that is offered.
    if (cell.box && (values.number(key) || fields_[i].retired.empty()))
      cell.box->setCurrentIndex(number);
    for (std::size_t tick = 0; tick < cell.ticks.size(); ++tick)
      cell.ticks[tick]->setChecked((number & (1 << tick)) != 0);
  }
  showing_ = false;
  settle();
}

Values FieldForm::typed() const {
  Values values;
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    const auto& cell = cells_[i];
    const auto& key = fields_[i].key;
    if (cell.line) values.set(key, cell.line->text());
    if (cell.box) values.set(key, static_cast<std::int64_t>(cell.box->currentIndex()));
    std::int64_t bits = 0;
    for (std::size_t tick = 0; tick < cell.ticks.size(); ++tick)
      if (cell.ticks[tick]->isChecked()) bits |= std::int64_t{1} << tick;
    if (!cell.ticks.empty()) values.set(key, bits);
  }
  return values;
}

base::Result<QString> FieldForm::readLine(const Field& field, const QString& text) {
  using base::Error;
  using base::ErrorCode;
  if (text.isEmpty()) {
    if (field.isNeeded) return Error{ErrorCode::textMalformed, "Required: fill this in."};
    return text;
  }
  const auto date = [&](const QString& one) -> base::Result<QString> {
    LikelyDate likely;
    if (!field.gradeKey.isEmpty() && today_)
      likely.child = OfChild{typed().text(field.gradeKey), *today_};
    const auto read = readDate(one, prompter_, likely);
    if (!read && field.kind == FieldKind::dates)
      return Error{read.error().code,
                   "\"" + toStd(one) + "\" is not a date. Enter each as 8/24/2026."};
    if (!read) return Error{read.error().code, "Enter the date as 8/24/2026."};
    return toQt(read->iso());
  };
  switch (field.kind) {
  case FieldKind::date:
    return date(text);
  case FieldKind::expiry: {
    const auto expiry = base::parseExpiry(toStd(text));
    return expiry ? base::Result<QString>(toQt(expiry->iso())) : date(text);
  }
  case FieldKind::dates: {
    QStringList dates;
    for (const auto& part : text.split(u',')) {
      if (part.trimmed().isEmpty()) continue;
      auto read = date(part.trimmed());
      if (!read) return read;
      dates += *read;
    }
    return dates.join(u", "_s);
  }
  case FieldKind::number: {
    bool isNumber = false;
    const auto number = text.toInt(&isNumber);
    if (isNumber && number >= field.least && number <= field.most) return QString::number(number);
    return Error{ErrorCode::numberMalformed, "A whole number from " + std::to_string(field.least) +
                                                 " to " + std::to_string(field.most) + "."};
  }
  case FieldKind::line:
  case FieldKind::choice:
  case FieldKind::ticks:
  case FieldKind::tick:
    return text;
  }
  return text;
}

std::optional<Values> FieldForm::read() {
  settle();
  auto values = typed();
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    if (!cells_[i].line) continue;
    const auto& key = fields_[i].key;
    const auto text = readLine(fields_[i], cells_[i].line->text().trimmed());
    if (!text) {
      refuse(key, toQt(text.error().detail));
      return std::nullopt;
    }
    values.set(key, *text);
  }
  return values;
}

QWidget* FieldForm::editor(const Cell& cell) {
  if (cell.line) return cell.line;
  if (cell.box) return cell.box;
  return cell.ticks.empty() ? nullptr : cell.ticks.front();
}

void FieldForm::mark(const Cell& cell, bool isWrong) {
  auto* one = editor(cell);
  if (one->property("wrong").toBool() == isWrong) return;
  one->setProperty("wrong", isWrong);
  cell.hint->setProperty("look", isWrong ? u"wrong"_s : u"note"_s);
  restyle(one);
  restyle(cell.hint);
}

bool FieldForm::refuse(const QString& key, const QString& why) {
  const auto at = std::ranges::find(fields_, key, &Field::key);
  if (at == fields_.end()) return false;
  const auto& cell = cells_[static_cast<std::size_t>(at - fields_.begin())];
  mark(cell, true);
  trouble_ = at->words + u": "_s + why;
  cell.hint->setText(u"✖ "_s + why);
  cell.hint->show();
  editor(cell)->setAccessibleDescription(why);
  editor(cell)->setFocus();
  // A long form may have it below the fold.
  for (auto* around = parentWidget(); around; around = around->parentWidget())
    if (auto* scroll = qobject_cast<QScrollArea*>(around)) {
      scroll->ensureWidgetVisible(cell.whole);
      break;
    }
  return true;
}

void FieldForm::settle() {
  trouble_.clear();
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    mark(cells_[i], false);
    cells_[i].hint->setText(fields_[i].hint);
    cells_[i].hint->setVisible(!fields_[i].hint.isEmpty());
    editor(cells_[i])->setAccessibleDescription(fields_[i].hint);
  }
}

bool FieldForm::scan(const QString& code) {
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    if (!fields_[i].takesScan || !cells_[i].line) continue;
    cells_[i].line->setText(code);
    cells_[i].line->setFocus();
    return true;
  }
  return false;
}

void FieldForm::takeFocusFor(QWidget& whole) {
  if (!cells_.empty()) whole.setFocusProxy(editor(cells_.front()));
}

void FieldForm::takeKeyboard() {
  if (!cells_.empty()) editor(cells_.front())->setFocus();
}

} // namespace gk::ui
