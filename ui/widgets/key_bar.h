#pragma once

#include <QWidget>

#include <functional>
#include <vector>

class QGridLayout;
class QKeyEvent;
class QPushButton;

namespace gk::ui {

enum class KeyLook { plain, main, alarm };

/// One thing that can be done now: what a key, a pedal or a finger does, and the words for it.
struct KeyAction {
  int key; ///< Qt::Key; Key_Return stands for both Enter keys
  QString label;
  QString name; ///< of the button, for tests
  std::function<void()> act;
  KeyLook look = KeyLook::plain;
  bool enabled = true;
};

/// The hint that is printed for a key: "W", "Space", "Enter".
QString keyHint(int key);

/// Shows its actions as buttons with their keys; what is shown is what the keys do.
class KeyBar final : public QWidget {
  Q_OBJECT

 public:
  explicit KeyBar(int columns, QWidget* parent = nullptr);

  /// Lower buttons, where many must fit and most hands use the keys. From the next actions on.
  void setButtonHeight(int pixels) { height_ = pixels; }

  void setActions(std::vector<KeyAction> actions);
  /// Whether the key meant one of the actions; a disabled one swallows its key.
  bool press(const QKeyEvent& event);

 private:
  void act(std::size_t place);
  QPushButton* button(std::size_t place);

  int columns_;
  int height_;
  QGridLayout* grid_;
  std::vector<KeyAction> actions_;
  std::vector<QPushButton*> buttons_;
};

} // namespace gk::ui
