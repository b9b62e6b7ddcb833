#include "ui/keys/ask_bar.h"

#include "base/contract.h"
#include "ui/keys/key_bar.h"
#include "ui/look/look.h"
#include "ui/support/text.h"

#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QTimer>
#include <QVBoxLayout>
#include <QVariant>

#include <algorithm>
#include <utility>

namespace gk::ui {

namespace {

/// From so many answers on they stand in three columns, to be in sight at once.
constexpr int manyAnswers = 5;

int keyOf(int option) {
  return option < 9 ? Qt::Key_1 + option : Qt::Key_A + option - 9;
}

} // namespace

AskBar::AskBar(QWidget* parent)
    : QWidget(parent), question_(new QLabel(this)), options_(new KeyBar(2, this)),
      line_(new QLineEdit(this)) {
  setObjectName(u"askBar"_s);
  question_->setObjectName(u"askQuestion"_s);
  line_->setObjectName(u"askLine"_s);
  question_->setWordWrap(true);
  question_->setProperty("look", u"say"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 4, 0, 4);
  column->addWidget(question_);
  column->addWidget(options_);
  column->addWidget(line_);
  column->addStretch();
}

void AskBar::open(const QString& question) {
  question_->setText(question + u"   (Esc: cancel)"_s);
  asking_ = true;
  Q_EMIT opened();
  fitOptions();
  QTimer::singleShot(0, this, &AskBar::fitOptions); // once it is laid out
}

void AskBar::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  fitOptions();
}

/// A dozen outcomes in large letters: theirs give way before one has to be scrolled to, down to
/// what is read at arm's length. What is still too much is scrolled to.
void AskBar::fitOptions() {
  constexpr int least = 20; // pixels, as of all keys at the chair
  constexpr int step = 2;
  if (!asking_ || options_->isHidden() || !parentWidget()) return;
  const auto room = parentWidget()->size();
  const auto wanted = u"%1 %2 %3 %4"_s.arg(room.width()).arg(room.height()).arg(lookNow().percent) +
                      question_->text() + labels_.join(u'|');
  if (wanted == fitted_) return;
  fitted_ = wanted;
  const auto edges = layout()->contentsMargins();
  const int wide = room.width() - edges.left() - edges.right();
  const auto fits = [&] {
    return edges.top() + question_->heightForWidth(wide) + layout()->spacing() +
               options_->heightForWidth(wide) + edges.bottom() <=
           room.height();
  };
  options_->setLetters(0);
  for (int pixels = options_->letters() - step; pixels >= least && !fits(); pixels -= step)
    options_->setLetters(pixels);
}

void AskBar::choose(const QString& question, const QStringList& options,
                    std::function<void(int)> then, std::function<void()> left, AskKeys keys) {
  base::require(!options.isEmpty() && options.size() <= 16, "1 to 16 options");
  thenOption_ = std::move(then);
  thenText_ = nullptr;
  thenTyped_ = nullptr;
  left_ = std::move(left);
  labels_ = options;
  keys_ = keys;
  marked_ = keys == AskKeys::marked ? -1 : 0;
  options_->setColumns(options.size() < manyAnswers ? 2 : 3);
  showOptions();
  options_->show();
  line_->hide();
  open(keys == AskKeys::arrows ? question + u" Arrow keys, then Enter."_s : question);
}

void AskBar::showOptions() {
  std::vector<KeyAction> actions;
  for (int option = 0; option < static_cast<int>(labels_.size()); ++option)
    actions.push_back({keys_ == AskKeys::arrows ? 0 : keyOf(option), labels_[option],
                       u"askOption%1"_s.arg(option + 1), [this, option] { answer(option); },
                       option == marked_ ? KeyLook::main : KeyLook::plain});
  options_->setActions(std::move(actions));
}

void AskBar::write(const QString& question, const QString& suggestion,
                   std::function<void(const QString&)> then, std::function<void()> left) {
  thenText_ = std::move(then);
  thenOption_ = nullptr;
  thenTyped_ = nullptr;
  left_ = std::move(left);
  options_->hide();
  line_->setText(suggestion);
  line_->selectAll();
  line_->setAccessibleName(question);
  line_->show();
  open(question);
  line_->setFocus();
}

void AskBar::whenTyped(std::function<void(const QString& begun)> then) {
  base::require(asking_ && thenOption_ != nullptr, "options are asked for");
  thenTyped_ = std::move(then);
}

void AskBar::continueFrom(const QString& begun) {
  base::require(isWriting(), "words are asked for");
  line_->setText(begun); // and the cursor stands behind it
}

void AskBar::close() {
  asking_ = false;
  Q_EMIT closed();
}

void AskBar::backOut() {
  if (!asking_) return;
  const auto left = std::exchange(left_, nullptr);
  close();
  if (left) left();
}

void AskBar::keyPressEvent(QKeyEvent* event) {
  if (!asking_) {
    QWidget::keyPressEvent(event);
    return;
  }
  // What the line did not use, Enter among it, must not reach the page as well.
  event->accept();
  press(*event);
}

void AskBar::press(const QKeyEvent& event) {
  if (event.key() == Qt::Key_Escape) {
    backOut();
    return;
  }
  const bool enter = event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter;
  if (thenText_ && enter) {
    answerText();
    return;
  }
  if (thenOption_ && enter && !event.isAutoRepeat()) {
    if (marked_ >= 0) answer(marked_);
    return;
  }
  const bool isBack = event.key() == Qt::Key_Up || event.key() == Qt::Key_Left;
  const bool isOn = event.key() == Qt::Key_Down || event.key() == Qt::Key_Right;
  const int by = isBack ? -1 : isOn ? 1 : 0;
  if (thenOption_ && by != 0) {
    marked_ = std::clamp(marked_ + by, 0, static_cast<int>(labels_.size()) - 1);
    showOptions();
    return;
  }
  if (!thenOption_ || keys_ == AskKeys::arrows || options_->press(event)) return;
  const auto sign = event.text();
  constexpr auto chords = Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier;
  if (!thenTyped_ || event.isAutoRepeat() || (event.modifiers() & chords) || sign.size() != 1 ||
      !sign.front().isLetterOrNumber())
    return;
  const auto then = thenTyped_; // it asks for the rest
  then(sign);
}

void AskBar::answer(int option) {
  const auto then = thenOption_; // answering may ask again
  close();
  then(option);
}

void AskBar::answerText() {
  const auto said = line_->text().trimmed();
  if (said.isEmpty() || !asking_) return;
  const auto then = thenText_;
  close();
  then(said);
}

} // namespace gk::ui
