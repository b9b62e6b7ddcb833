#pragma once

#include <QStringList>
#include <QWidget>

#include <functional>

class QKeyEvent;
class QLabel;
class QLineEdit;

namespace gk::ui {

class KeyBar;

/// Which keys answer. `marked`: Enter is an answer once an arrow chose it, so that a stray one
/// records no finding. `arrows`: no digit and no letter answers, so that no code of a scanner does.
enum class AskKeys { all, marked, arrows };

/// Asks in a part of the page, so that nothing covers the timer. One question at a time: a new one
/// takes the place of the one that waits.
class AskBar final : public QWidget {
  Q_OBJECT

 public:
  explicit AskBar(QWidget* parent = nullptr);

  /// Options get the keys 1 to 9, then A, B, C; Enter is the marked one, which the arrows move; the
  /// first to begin with, unless `keys` says that none is. Escape asks no more; then `left` is
  /// called. Precondition: 1 to 16 options.
  void choose(const QString& question, const QStringList& options, std::function<void(int)> then,
              std::function<void()> left = {}, AskKeys keys = AskKeys::all);
  /// Of the question that waits: a letter or a digit that no option has begins words, which the
  /// callback asks for. Precondition: options are asked for.
  void whenTyped(std::function<void(const QString& begun)> then);
  /// Enter with an empty line asks on.
  void write(const QString& question, const QString& suggestion,
             std::function<void(const QString&)> then, std::function<void()> left = {});
  /// Goes on after what was typed already. Precondition: words are asked for.
  void continueFrom(const QString& begun);
  void backOut();

  /// Words are being written, which nothing may replace.
  [[nodiscard]] bool isWriting() const { return asking_ && thenText_ != nullptr; }
  [[nodiscard]] bool isAsking() const { return asking_; }
  /// Precondition: asking. Takes every key.
  void press(const QKeyEvent& event);

 Q_SIGNALS:
  void opened();
  /// The keyboard goes back to the page.
  void closed();

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void answer(int option);
  void answerText();
  void open(const QString& question);
  void close();
  void showOptions();
  /// Letters as large as let every answer be in sight at once.
  void fitOptions();

  QLabel* question_;
  KeyBar* options_;
  QLineEdit* line_;
  std::function<void(int)> thenOption_;
  std::function<void(const QString&)> thenText_;
  std::function<void(const QString&)> thenTyped_;
  std::function<void()> left_;
  QStringList labels_;
  AskKeys keys_ = AskKeys::all;
  int marked_ = 0; ///< -1 while none is
  bool asking_ = false;
  QString fitted_; ///< to what room, answers and look
};

} // namespace gk::ui
