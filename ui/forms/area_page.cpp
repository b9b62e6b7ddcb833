#include "ui/forms/area_page.h"

#include "ui/forms/field_form.h"
#include "ui/forms/history_words.h"
#include "ui/look/style.h"
#include "ui/models/table_model.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollBar>
#include <QTableView>

#include <algorithm>

namespace gk::ui {

Field reasonField() {
  return {.key = reasonKey,
          .words = u"Reason"_s,
          .hint = u"Kept in the history with the previous entry"_s,
          .isNeeded = true,
          .span = 3};
}

void AreaPage::refresh() {
  if (!book().isUnlocked()) letNamesGo();
  readRows();
  showHistory();
}

/// What was looked for, and the form of one thing; what was typed and not saved stays.
void AreaPage::letNamesGo() {
  if (!search_) return;
  search_->clear();
  if (!form_ || hasChanges()) return;
  showForm(false);
  thing_.reset();
  opened_ = {};
  fields_->ask({}, 1);
  formTitle_->clear();
}

void AreaPage::say(const session::AreaState& state) {
  isMissing_ = state.standing == session::AreaStanding::missing;
  QStringList sentences;
  for (const auto& sentence : state.open)
    sentences += toQt(sentence);
  open_->setText(u"▲ "_s + sentences.join(u"  "_s));
  open_->setVisible(!sentences.isEmpty());
}

void AreaPage::readRows() {
  const auto kept = chosen();
  auto rows = spec_.rows(search_ ? search_->text() : QString());
  if (!went(rows)) return;
  rows_ = std::move(*rows);
  // In the order they were first entered, so that a correction moves nothing; what was looked for
  // comes best first.
  if (!search_) std::ranges::sort(rows_, {}, &AreaRow::id);
  reports::Table table{toStd(spec_.title), spec_.columns};
  for (const auto& row : rows_)
    table.rows.emplace_back(row.cells.begin(), row.cells.end());
  reading_ = true;
  model_->show(std::move(table));
  table_->resizeColumnsToContents();
  reading_ = false;
  pointAt(kept);
  fitHeight();
  showButtons();
}

/// As high as its rows, with the bar under them where the list scrolls sideways.
void AreaPage::fitHeight() {
  const auto shown = std::clamp(static_cast<int>(rows_.size()), 1, deskRowsShown);
  const auto* bar = table_->horizontalScrollBar();
  table_->setFixedHeight(style::px(deskRowHeight) * shown +
                         table_->horizontalHeader()->sizeHint().height() + 6 +
                         (bar->maximum() > bar->minimum() ? bar->sizeHint().height() : 0));
}

/// Without opening anything.
void AreaPage::pointAt(const Thing& thing) {
  reading_ = true;
  const auto at = std::ranges::find(rows_, thing.value_or(base::Uuid{}), &AreaRow::id);
  table_->setCurrentIndex(
      at == rows_.end() ? QModelIndex() : model_->index(static_cast<int>(at - rows_.begin()), 0));
  reading_ = false;
}

Thing AreaPage::chosen() const {
  const auto row = table_->currentIndex().row();
  if (row < 0 || row >= static_cast<int>(rows_.size())) return std::nullopt;
  return rows_[static_cast<std::size_t>(row)].id;
}

void AreaPage::begin() {
  if (form_) return fields_->takeKeyboard();
  if (rows_.empty()) {
    const auto adds = std::ranges::find(spec_.forms, false, &AreaForm::isOfThing);
    if (adds != spec_.forms.end() && (!search_ || isMissing_))
      return open(static_cast<std::size_t>(adds - spec_.forms.begin()));
  } else if (!search_ && table_->currentIndex().row() < 0) {
    table_->setCurrentIndex(model_->index(0, 0));
  }
  setFocus();
}

void AreaPage::begin(const QString& form) {
  const auto at = std::ranges::find(spec_.forms, form, &AreaForm::name);
  if (at == spec_.forms.end() || !mayLeave()) return begin();
  if (at->isOfThing && !chosen() && !rows_.empty()) pointAt(rows_.front().id);
  open(static_cast<std::size_t>(at - spec_.forms.begin()));
  if (at->isOfThing) table_->setFocus();
}

void AreaPage::choose(int row) {
  if (row < 0 || row >= static_cast<int>(rows_.size())) return;
  const auto id = rows_[static_cast<std::size_t>(row)].id;
  if (form_ && thing_ == id) return;
  if (!mayLeave()) return pointAt(thing_);
  const auto first = std::ranges::find(spec_.forms, true, &AreaForm::isOfThing);
  if (first == spec_.forms.end()) return;
  const bool keepsList = table_->hasFocus();
  open(static_cast<std::size_t>(first - spec_.forms.begin()));
  if (keepsList) table_->setFocus();
}

bool AreaPage::hasChanges() const {
  return form_ && fields_->typed() != opened_;
}

bool AreaPage::mayLeave() {
  if (!hasChanges()) return true;
  return context().prompter.confirm(u"Discard unsaved changes?"_s);
}

void AreaPage::open(std::size_t which) {
  const auto& form = spec_.forms.at(which);
  const auto thing = form.isOfThing ? chosen() : std::nullopt;
  if (form.isOfThing && !thing) return askForRow(which);
  const auto values = form.values(thing);
  if (!went(values)) return;
  auto fields = form.fields(thing);
  if (form.asksReason) fields.push_back(reasonField());
  form_ = which;
  thing_ = thing;
  fields_->setToday(context().clock.now().date());
  fields_->ask(fields, form.columns);
  fields_->show(*values);
  opened_ = fields_->typed();
  QString title = form.words;
  if (thing)
    for (const auto& row : rows_)
      if (row.id == *thing)
        title +=
            u": "_s + toQt(row.cells.at(0)) + (search_ ? u' ' + toQt(row.cells.at(1)) : QString());
  formTitle_->setText(title);
  QStringList notes;
  if (!form.note.isEmpty()) notes += form.note;
  if (form.changes) {
    const auto changes = form.changes(thing);
    if (!went(changes)) return;
    notes += u"What this changes: "_s + changes->join(u' ');
  }
  note_->setText(notes.join(u'\n'));
  note_->setVisible(!notes.isEmpty());
  save_->setText(form.save + u"  Alt+S"_s);
  save_->setAccessibleName(form.save + u", key Alt+S"_s);
  showForm(true);
  showHistory();
  fields_->takeKeyboard();
}

/// The only one there is is meant; of several, the keyboard goes to where one is selected.
void AreaPage::askForRow(std::size_t which) {
  if (rows_.empty()) return;
  if (rows_.size() == 1) {
    pointAt(rows_.front().id);
    return open(which);
  }
  // Nothing is open that the arrow keys would leave.
  showForm(false);
  table_->setFocus();
  Q_EMIT said(u"Select one in the list with the arrow keys, then press Alt+%1."_s.arg(
      QKeySequence(spec_.forms.at(which).key).toString()));
}

void AreaPage::showForm(bool isShown) {
  if (!isShown) form_.reset();
  for (auto* part : {static_cast<QWidget*>(formTitle_), static_cast<QWidget*>(fields_),
                     static_cast<QWidget*>(save_), static_cast<QWidget*>(leave_)})
    part->setVisible(isShown);
  if (!isShown) note_->hide();
  trouble_->hide();
  showButtons();
}

void AreaPage::showButtons() {
  for (std::size_t i = 0; i < buttons_.size(); ++i) {
    const bool isOfThing = spec_.forms[i].isOfThing;
    buttons_[i]->setVisible(!isOfThing || !rows_.empty());
    buttons_[i]->setChecked(form_ == i);
  }
}

void AreaPage::save() {
  if (!form_) return;
  const auto values = fields_->read();
  if (!values) return;
  const auto which = *form_;
  const auto& form = spec_.forms[which];
  const auto by = by_(spec_.station);
  if (!form.actAside) return tell(which, form.act(by, thing_, *values));
  form.actAside(by, thing_, *values,
                {this, [this, which](const Result<QString>& done) { tell(which, done); }});
}

void AreaPage::tell(std::size_t which, const Result<QString>& done) {
  if (form_ != which) { // the names were locked meanwhile, which closes what was typed
    Q_EMIT this->said(done ? *done : capital(toQt(done.error().detail)));
    return;
  }
  const auto& form = spec_.forms[which];
  if (!done) return refuse(done.error());
  if (done->isEmpty()) return; // backed out of a question; what was typed stays
  trouble_->hide();
  const auto& said = *done;
  opened_ = fields_->typed();
  if (form.isOfThing && !chosen()) { // it is no longer listed
    showForm(false);
    showHistory();
    return Q_EMIT this->said(said);
  }
  // A list is entered one after another; what was corrected is shown as it is now.
  open(form.isOfThing
           ? static_cast<std::size_t>(std::ranges::find(spec_.forms, true, &AreaForm::isOfThing) -
                                      spec_.forms.begin())
           : which);
  Q_EMIT this->said(said);
}

void AreaPage::refuse(const base::Error& error) {
  const auto message = describe(error);
  const auto words = capital(toQt(error.detail));
  const auto& at = spec_.forms[*form_].refusedAt;
  const auto found = error.code == base::ErrorCode::ruleReason ? reasonKey
                     : at.contains(error.code)                 ? at.at(error.code)
                                                               : QString();
  if (!found.isEmpty() && fields_->refuse(found, words)) return;
  trouble_->setText(u"✖ "_s + message.happened + u' ' + words +
                    (words.endsWith(u'.') ? u" "_s : u". "_s) + message.lost);
  trouble_->show();
}

void AreaPage::leave() {
  if (!form_) return;
  if (hasChanges() && !mayLeave()) return;
  const bool isOfThing = spec_.forms[*form_].isOfThing;
  if (isOfThing && hasChanges()) return open(*form_);
  showForm(false);
  thing_.reset();
  showHistory();
  setFocus();
}

void AreaPage::undo() {
  const session::UndoAt at{.station = spec_.station};
  const auto last = book().undoable(at);
  if (!went(last) || !context().prompter.confirm(u"Undo: %1?"_s.arg(toQt(last->words)))) return;
  const auto words = book().undo(by_(spec_.station), at);
  if (!went(words)) return;
  // What is open may have been taken back.
  if (form_ && thing_ && !chosen()) showForm(false);
  if (form_) open(*form_);
  Q_EMIT said(u"Undone: %1"_s.arg(toQt(*words)));
}

void AreaPage::showHistory() {
  const bool hasThing = thing_ && form_;
  history_->setVisible(hasThing);
  history_->setText(hasThing ? historyWords(*thing_) : QString());
}

QString AreaPage::historyWords(const base::Uuid& id) {
  const auto revisions = spec_.history(id);
  if (!revisions) return inOneLine(describe(revisions.error()));
  if (revisions->empty()) return {};
  std::vector<Field> fields;
  for (const auto& form : spec_.forms)
    for (auto& field : form.fields(id))
      if (std::ranges::find(fields, field.key, &Field::key) == fields.end())
        fields.push_back(std::move(field));
  const auto members = book().members();
  return wordsOf(*revisions, fields,
                 members ? *members : std::vector<base::Recorded<roster::Member>>());
}

void AreaPage::scanned(const QString& code) {
  // Never over what a thing that is here already is called.
  if (form_ && !spec_.forms[*form_].isOfThing && fields_->scan(code)) return;
  if (search_) {
    search_->setText(code);
    if (!rows_.empty()) table_->setCurrentIndex(model_->index(0, 0));
    return;
  }
  // No form is open that takes it: a new thing is meant.
  for (std::size_t i = 0; i < spec_.forms.size(); ++i)
    if (!spec_.forms[i].isOfThing && mayLeave()) {
      open(i);
      if (fields_->scan(code)) return;
    }
  Q_EMIT said(u"Scanned "_s + code + u": no field here takes a code. Nothing changed."_s);
}

bool AreaPage::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::KeyPress) {
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool isEnter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    if (watched == search_ && (key->key() == Qt::Key_Down || isEnter) && !rows_.empty()) {
      table_->setFocus();
      table_->setCurrentIndex(model_->index(std::max(table_->currentIndex().row(), 0), 0));
      return true;
    }
    if (watched == table_ && isEnter && chosen()) {
      if (form_)
        fields_->takeKeyboard();
      else
        choose(table_->currentIndex().row());
      return true;
    }
  }
  return Page::eventFilter(watched, event);
}

} // namespace gk::ui
